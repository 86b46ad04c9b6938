// Holding every published value to its tolerance: what the tests of all families share.
#pragma once

#include "tests/published/comparison.hpp"

#include <gtest/gtest.h>

namespace barmkeep::published {

inline void hold(const std::vector<Comparison>& comparisons) {
    ASSERT_FALSE(comparisons.empty());
    for (const Comparison& one : comparisons) {
        EXPECT_FALSE(one.pairs.empty()) << one.formula << ", " << one.source;
        for (const Pair& pair : one.pairs)
            EXPECT_NEAR(pair.computed, pair.published, one.tolerance)
                << one.formula << ", " << one.source << " at " << pair.place;
    }
}

} // namespace barmkeep::published
