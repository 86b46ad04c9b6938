#include "plugins/reorder/reorder.hpp"

BARMKEEP_PLUGIN(barmkeep::reorder::Reorder)
