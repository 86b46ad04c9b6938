#include "greeting.hpp"

BARMKEEP_PLUGIN(Greeting)
