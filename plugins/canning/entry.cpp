#include "plugins/canning/canning.hpp"

BARMKEEP_PLUGIN(barmkeep::canning::Canning)
