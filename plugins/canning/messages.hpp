// Every method of the canning plugin.
#pragma once

#include "plugins/canning/plan_messages.hpp"
#include "plugins/canning/process_messages.hpp"
#include "plugins/canning/run_messages.hpp"
#include "plugins/canning/shelf_messages.hpp"
#include "plugins/canning/trace_messages.hpp"
