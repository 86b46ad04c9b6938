// Registers the function that makes a method's sheet.
//
//     sheet::Sheet stock_sheet(const contract::StockList::Params& params,
//                              const contract::StockList::Result& result);
//
//     MakeSheet make = sheet::maker<contract::StockList>(&stock_sheet);
//
// A plugin registers it beside its method: declaration.sheet<StarterPlan>(&plan_sheet).
//
// Thread safety: pure functions.
#pragma once

#include "sdk/method/call.hpp"
#include "sdk/sheet/sheet.hpp"

namespace barmkeep::sheet {

/// A pure function of what was asked and answered.
template <Method M>
using SheetOf = Sheet (*)(const typename M::Params& params, const typename M::Result& result);

/// The same, from JSON to JSON.  Params and result are decoded, not checked, and with sheet.make
/// anybody may make them up: a sheet function takes any values of the fields' types.
template <Method M>
[[nodiscard]] json::value made(SheetOf<M> function, const json::object& params,
                               const json::value& result) {
    return to_json(
        function(decode<typename M::Params>(params), decode<typename M::Result>(result)));
}

template <Method M>
[[nodiscard]] MakeSheet maker(SheetOf<M> function) {
    return [function](const Call&, const json::object& params, const json::value& result,
                      const Done& done) {
        answer(done, [&] { return made<M>(function, params, result); });
    };
}

} // namespace barmkeep::sheet
