#include "tests/plugin/samples.hpp"

BARMKEEP_PLUGIN(barmkeep::plugin::test::Tally)
