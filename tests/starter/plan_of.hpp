// A cellar and a request that the tests of the starter's plan begin with.
#pragma once

#include "plugins/starter/plan.hpp"
#include "tests/starter/shelf_of.hpp"

namespace barmkeep::starter {

/// Fresh yeast of 100 billion by its own count, and ten jars of 0.42 L at 1.090.
inline CellarView view() {
    auto yeast = test::packs_of(1, 2, "2026-03-14");
    yeast.facts.cells = 100.0 * brewing::billion_cells;
    CellarView view;
    view.today = test::day("2026-03-14");
    view.shelves = {test::shelf_of({yeast}), test::shelf_of({test::jars_of(1, 10, 1.090, 0.42)})};
    return view;
}

inline StarterRequest request() {
    StarterRequest request;
    request.volume = 20.0 * brewing::litre;
    request.gravity = brewing::Gravity::sg(1.048);
    return request;
}

inline double likely(const Range<brewing::Cells>& cells) {
    return cells.likely.in(brewing::billion_cells);
}

} // namespace barmkeep::starter
