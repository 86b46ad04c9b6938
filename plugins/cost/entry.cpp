#include "plugins/cost/cost.hpp"

BARMKEEP_PLUGIN(barmkeep::cost::Cost)
