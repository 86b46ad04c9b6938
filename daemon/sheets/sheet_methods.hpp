// The methods that answer with sheets, for all other methods (sdk/sheet/messages.hpp).
#pragma once

#include "sdk/method/call.hpp"

#include <spdlog/logger.h>

namespace barmkeep::sheets {

/// Adds sheet.show and sheet.make.  REQUIRES: the table outlives its last call.
void add_sheet_methods(MethodTable& table, std::shared_ptr<spdlog::logger> log);

} // namespace barmkeep::sheets
