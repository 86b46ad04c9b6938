#include "plugins/starter/starter.hpp"

BARMKEEP_PLUGIN(barmkeep::starter::Starter)
