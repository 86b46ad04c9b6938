// Properties of the yeast half, checked with rapidcheck; seed.cpp makes every run the same.
#pragma once

#include <gtest/gtest.h>

#include <rapidcheck.h>

#include <sstream>
#include <utility>

namespace barmkeep::brewing {

/// Checks `property` on random inputs; on a failure the smallest counterexample is in the message.
template <class Property>
void holds_always(Property&& property) {
    const auto result =
        rc::detail::checkTestable(std::forward<Property>(property), rc::detail::TestMetadata{});
    if (result.template is<rc::detail::SuccessResult>())
        return;
    std::ostringstream text;
    rc::detail::printResultMessage(result, text);
    FAIL() << text.str();
}

/// A number from `lowest` to `highest`, both included, in 10 000 even steps.
inline double number_between(double lowest, double highest) {
    const int step = *rc::gen::inRange(0, 10'001);
    return lowest + (highest - lowest) * step / 10'000.0;
}

/// The same in even steps of the logarithm.  REQUIRES: lowest > 0.
double magnitude_between(double lowest, double highest);

} // namespace barmkeep::brewing
