// The whole of a list that the core answers in pages.
#pragma once

#include "sdk/contract/listing.hpp"
#include "sdk/plugin/host.hpp"

#include <iterator>
#include <utility>

namespace barmkeep::plugin {

/// A method that lists in pages: its params have `limit` and `cursor`, its result has `next`.
template <class M>
concept Paged = Method<M> && requires(typename M::Params params, const typename M::Result result) {
    params.limit = contract::page_size_max;
    params.cursor = result.next;
};

/// Hands every page of a list to `take`, which gets an M::Result it may take apart.  The pages are
/// as large as the core makes them, whatever `params` say.  The list may change between two pages.
/// Throws the Error of M, and Error(internal, "result_not_understood") for a page that leads back
/// to itself.
template <Paged M, class Take>
void each_page(const Requester& cellar, typename M::Params params, Take take) {
    params.limit = contract::page_size_max;
    for (;;) {
        auto page = cellar.call<M>(params);
        const auto next = page.next;
        take(std::move(page));
        if (!next)
            return;
        if (next == params.cursor)
            throw Error(ErrorKind::internal, "result_not_understood",
                        "A page of " + std::string(M::about.name) + " leads back to itself.");
        params.cursor = next;
    }
}

/// All elements of a list, in its order:
///     all_pages<contract::RecordList>(call, params, &contract::RecordList::Result::records)
template <Paged M, class Element>
[[nodiscard]] std::vector<Element> all_pages(const Requester& cellar, typename M::Params params,
                                             std::vector<Element> M::Result::*elements) {
    std::vector<Element> all;
    each_page<M>(cellar, std::move(params), [&](typename M::Result page) {
        auto& some = page.*elements;
        all.insert(all.end(), std::make_move_iterator(some.begin()),
                   std::make_move_iterator(some.end()));
    });
    return all;
}

} // namespace barmkeep::plugin
