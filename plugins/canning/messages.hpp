// Every method of the canning plugin.
#pragma once

#include "plugins/canning/cautions.hpp"
#include "plugins/canning/plan/messages.hpp"
#include "plugins/canning/process/messages.hpp"
#include "plugins/canning/run/jar_messages.hpp"
#include "plugins/canning/run/messages.hpp"
#include "plugins/canning/run/seal_messages.hpp"
#include "plugins/canning/storage/messages.hpp"
#include "plugins/canning/trace/messages.hpp"
