// Several writing methods of the core in one transaction, typed.
//
//     const auto done = call.once<contract::LedgerTogether>([&] {
//         Together together;
//         together.add<contract::RecordPut>(record);
//         together.add<contract::ReminderClear>({"boil"});
//         return std::move(together).steps();
//     });
//     return {Together::result<contract::RecordPut>(done, 0).version};
#pragma once

#include "sdk/contract/ledger.hpp"

namespace barmkeep::plugin {

class Together {
public:
    /// Adds a step and answers its place, which is that of its result.
    template <Method M>
    std::size_t add(const typename M::Params& params) {
        steps_.steps.push_back({std::string(M::about.name), to_json(params).as_object()});
        return steps_.steps.size() - 1;
    }

    /// What `contract::LedgerTogether` takes; it refuses to do nothing.
    [[nodiscard]] contract::LedgerTogether::Params steps() && { return std::move(steps_); }

    /// Reads the result of the step at a place, which was one of M.  Throws Error(internal,
    /// "result_not_understood") where there is none such.
    template <Method M>
    [[nodiscard]] static typename M::Result result(const contract::LedgerTogether::Result& done,
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

    contract::LedgerTogether::Params steps_;
};

} // namespace barmkeep::plugin
