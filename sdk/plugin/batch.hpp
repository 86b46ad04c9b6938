// Several writing methods of the core in one transaction, typed.
//
//     const auto done = call.once<contract::LedgerBatch>([&] {
//         Batch batch;
//         const auto run = batch.add<contract::RecordAdd>({"run", document, "open"});
//         batch.add<contract::ReminderPost>(reminder);
//         batch.refer(batch.last(), "/about/0/number", run, "/number");   // about that very run
//         return std::move(batch).steps();
//     });
//     return {Batch::result<contract::RecordAdd>(done, 0).number};
#pragma once

#include "sdk/contract/ledger.hpp"

namespace barmkeep::plugin {

class Batch {
public:
    /// Adds a step and answers its place, which is that of its result.
    template <Method M>
    std::size_t add(const typename M::Params& params) {
        steps_.steps.push_back({std::string(M::about.name), to_json(params).as_object()});
        return steps_.steps.size() - 1;
    }

    /// The same with a step that is made already.
    std::size_t add(contract::BatchStep step) {
        steps_.steps.push_back(std::move(step));
        return steps_.steps.size() - 1;
    }

    /// Has a field of a step take its value from the result of an earlier step.  `field` and `at`
    /// are JSON Pointers, into the step's params and into that result; the field must be one that
    /// may be (see Field::from_batch), or the ledger refuses the batch.
    void refer(std::size_t step, std::string_view field, std::size_t earlier, std::string_view at);
    /// The place of the step added last.
    [[nodiscard]] std::size_t last() const { return steps_.steps.size() - 1; }

    /// What `contract::LedgerBatch` takes; it refuses to do nothing.
    [[nodiscard]] contract::LedgerBatch::Params steps() && { return std::move(steps_); }

    /// Reads the result of the step at a place, which was one of M.  Throws Error(internal,
    /// "result_not_understood") where there is none such.
    template <Method M>
    [[nodiscard]] static typename M::Result result(const contract::LedgerBatch::Result& done,
                                                   std::size_t place) {
        try {
            return decode<typename M::Result>(done.results.at(place));
        } catch (const std::exception& cause) {
            throw not_understood(M::about.name, place, cause.what());
        }
    }

private:
    [[nodiscard]] static Error not_understood(std::string_view method, std::size_t place,
                                              std::string_view cause);

    contract::LedgerBatch::Params steps_;
};

} // namespace barmkeep::plugin
