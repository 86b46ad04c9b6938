#include "daemon/ledger/methods.hpp"
#include "sdk/contract/ledger.hpp"
#include "sdk/method/nearest.hpp"

#include <fmt/format.h>

namespace barmkeep::ledger {
namespace {

using contract::LedgerBatch;

const Step& require_step(const Steps& steps, const std::string& method) {
    const auto found = steps.find(method);
    if (found != steps.end())
        return found->second;
    std::vector<std::string> known;
    for (const auto& [name, step] : steps)
        known.push_back(name);
    const auto near = nearest(method, known);
    throw Error(
        ErrorKind::params, "not_a_step",
        fmt::format("'{}' cannot be a step: steps are writing methods of the core.", method),
        near ? fmt::format("Did you mean {}?", *near) : "Name a method such as stock.use.",
        "/method");
}

/// Puts the results of earlier steps where a step's params refer to them.
class References {
public:
    explicit References(const std::vector<json::value>& results) : results_{results} {}

    void replace(json::value& value, const json::object& schema, const std::string& pointer) const {
        if (auto* object = value.if_object()) {
            if (const auto* properties = schema.if_contains("properties"))
                for (auto& member : *object)
                    if (const auto* own = properties->get_object().if_contains(member.key()))
                        replace_member(
                            member.value(), own->get_object(),
                            fmt::format("{}/{}", pointer, std::string_view(member.key())));
        } else if (auto* list = value.if_array()) {
            if (const auto* items = schema.if_contains("items"))
                for (std::size_t i = 0; i < list->size(); ++i)
                    replace((*list)[i], items->get_object(), fmt::format("{}/{}", pointer, i));
        }
    }

private:
    void replace_member(json::value& value, const json::object& schema,
                        const std::string& pointer) const {
        if (schema.contains("x-from-batch") && value.is_object())
            value = referred(value.get_object(), pointer);
        else
            replace(value, schema, pointer);
    }

    json::value referred(const json::object& reference, const std::string& pointer) const {
        const auto* result = reference.if_contains("result");
        const auto* at = reference.if_contains("at");
        if (reference.size() != 2 || result == nullptr || !result->is_int64() || at == nullptr ||
            !at->is_string())
            throw Error(ErrorKind::params, "bad_reference",
                        "A reference to an earlier step needs a `result` and an `at`.",
                        R"(Write it as {"result": 0, "at": "/entry"}.)", pointer);
        const std::int64_t step = result->get_int64();
        if (step < 0 || step >= std::ssize(results_))
            throw Error(ErrorKind::params, "later_step",
                        fmt::format("Step {} has no result yet.", step),
                        "Refer to a step before this one; the first is 0.", pointer);
        boost::system::error_code failure;
        const auto* found =
            results_[static_cast<std::size_t>(step)].find_pointer(at->get_string(), failure);
        if (found == nullptr)
            throw Error(ErrorKind::params, "bad_reference",
                        fmt::format("The result of step {} has nothing at '{}'.", step,
                                    std::string_view(at->get_string())),
                        "Look at the result's schema (rpc.discover).", pointer);
        return *found;
    }

    const std::vector<json::value>& results_;
};

json::value do_step(const Steps& steps, Transaction& transaction, const Call& call,
                    const contract::BatchStep& given, const std::vector<json::value>& results) {
    const Step& step = require_step(steps, given.method);
    require_access(call.caller, step.access, given.method, "/method");
    json::value params = given.params;
    References{results}.replace(params, step.params, "");
    return step.prepare(params.get_object())(transaction, call);
}

/// A step's error, with its pointers from the root of the whole request.
Error placed(const Error& error, std::size_t at) {
    auto faults = error.faults();
    for (auto& fault : faults) {
        const bool is_method = fault.reason == "not_a_step" || fault.reason == "not_allowed";
        fault.pointer = fmt::format("/steps/{}{}{}", at, is_method ? "" : "/params", fault.pointer);
    }
    return {error.kind(), std::move(faults)};
}

json::value do_all(const Steps& steps, Transaction& transaction, const Call& call,
                   const LedgerBatch::Params& params) {
    LedgerBatch::Result result;
    for (std::size_t i = 0; i < params.steps.size(); ++i) {
        try {
            result.results.push_back(
                do_step(steps, transaction, call, params.steps[i], result.results));
        } catch (const Error& error) {
            throw placed(error, i); // the writer undoes the steps before it
        }
    }
    return to_json(result);
}

} // namespace

void add_batch(Methods& methods) {
    const auto steps = methods.steps();
    methods.add_write(
        describe<LedgerBatch>(), [steps](const json::object& params) -> Writer::WriteWork {
            auto read =
                std::make_shared<const LedgerBatch::Params>(read_as<LedgerBatch::Params>(params));
            return [steps, read](Transaction& transaction, const Call& call) {
                return do_all(*steps, transaction, call, *read);
            };
        });
}

} // namespace barmkeep::ledger
