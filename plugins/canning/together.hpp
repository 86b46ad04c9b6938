// Several writing methods of the core in one transaction, typed.
#pragma once

#include "sdk/contract/ledger.hpp"

namespace barmkeep::canning {

class Together {
public:
    /// Adds a step; its place is its number in the results.
    template <Method M>
    void add(const typename M::Params& params) {
        steps_.steps.push_back({std::string(M::about.name), to_json(params).as_object()});
    }
    [[nodiscard]] contract::LedgerTogether::Params steps() && { return std::move(steps_); }

    /// Reads the result of the step at a place.
    template <Method M>
    [[nodiscard]] static typename M::Result result(const contract::LedgerTogether::Result& done,
                                                   std::size_t place) {
        return read_as<typename M::Result>(done.results.at(place), Unknown::passed_over);
    }

private:
    contract::LedgerTogether::Params steps_;
};

} // namespace barmkeep::canning
