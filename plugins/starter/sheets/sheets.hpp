// The sheets of the plugin's methods: what a person reads of their answers.
//
// Thread safety: pure functions.
#pragma once

#include "plugins/starter/record_messages.hpp"
#include "sdk/sheet/builder.hpp"

namespace barmkeep::starter::sheets {

// plan.cpp
[[nodiscard]] sheet::Sheet plan(const StarterRequest& request, const Plan& plan);

// record.cpp
[[nodiscard]] sheet::Sheet shown(const StarterNumber&, const StarterRecord& starter);
[[nodiscard]] sheet::Sheet finished(const StarterFinish::Params&, const StarterRecord& starter);
[[nodiscard]] sheet::Sheet dropped(const StarterDrop::Params&, const StarterRecord& starter);

// stock_change.cpp
[[nodiscard]] sheet::Sheet made(const StarterRequest&, const StockChange& change);
[[nodiscard]] sheet::Sheet stepped(const StarterStep::Params&, const StockChange& change);
[[nodiscard]] sheet::Sheet undone(const StarterUndo::Params&, const StockChange& change);

// lists.cpp
[[nodiscard]] sheet::Sheet listed(const StarterList::Params& params,
                                  const StarterList::Result& result);
[[nodiscard]] sheet::Sheet yeast(const YeastList::Params&, const YeastList::Result& result);

} // namespace barmkeep::starter::sheets
