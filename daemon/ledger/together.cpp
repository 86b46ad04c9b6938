#include "daemon/ledger/methods.hpp"
#include "sdk/contract/ledger.hpp"
#include "sdk/method/nearest.hpp"

#include <fmt/format.h>

namespace barmkeep::ledger {
namespace {

using contract::LedgerTogether;

const Step& require_step(const Steps& steps, const std::string& method) {
    const auto found = steps.find(method);
    if (found != steps.end())
        return found->second;
    std::vector<std::string> known;
    for (const auto& [name, step] : steps)
        known.push_back(name);
    const auto near = nearest(method, known);
    throw Error(ErrorKind::params, "not_a_step",
                fmt::format("'{}' is no writing method of the core that can be a step.", method),
                near ? fmt::format("Did you mean {}?", *near) : "Name methods such as stock.use.",
                "/method");
}

json::value do_step(const Steps& steps, Transaction& transaction, const Call& call,
                    const contract::TogetherStep& given) {
    const Step& step = require_step(steps, given.method);
    require_access(call.caller, step.access, given.method, "/method");
    return step.prepare(given.params)(transaction, call);
}

/// A step's error, its places told from the whole request's root.
Error placed(const Error& error, std::size_t at) {
    auto faults = error.faults();
    for (auto& fault : faults) {
        const bool is_method = fault.reason == "not_a_step" || fault.reason == "not_allowed";
        fault.pointer = fmt::format("/steps/{}{}{}", at, is_method ? "" : "/params", fault.pointer);
    }
    return {error.kind(), std::move(faults)};
}

json::value do_all(const Steps& steps, Transaction& transaction, const Call& call,
                   const LedgerTogether::Params& params) {
    LedgerTogether::Result result;
    for (std::size_t i = 0; i < params.steps.size(); ++i) {
        try {
            result.results.push_back(do_step(steps, transaction, call, params.steps[i]));
        } catch (const Error& error) {
            throw placed(error, i); // the writer undoes the steps before it
        }
    }
    return to_json(result);
}

} // namespace

void add_together(Methods& methods) {
    const auto steps = methods.steps();
    methods.add_write(describe<LedgerTogether>(),
                      [steps](const json::object& params) -> Writer::WriteWork {
                          auto read = std::make_shared<const LedgerTogether::Params>(
                              read_as<LedgerTogether::Params>(params));
                          return [steps, read](Transaction& transaction, const Call& call) {
                              return do_all(*steps, transaction, call, *read);
                          };
                      });
}

} // namespace barmkeep::ledger
