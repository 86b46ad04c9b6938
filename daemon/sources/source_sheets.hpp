// The sheets of source.show and source.list.
//
// Thread safety: pure functions.
#pragma once

#include "sdk/contract/source.hpp"
#include "sdk/sheet/sheet.hpp"

namespace barmkeep::sources {

[[nodiscard]] sheet::Sheet show_sheet(const contract::SourceShow::Params&,
                                      const contract::Source& source);
[[nodiscard]] sheet::Sheet list_sheet(const Nothing&, const contract::SourceList::Result& result);

} // namespace barmkeep::sources
