// Values of our functions, for comparison with independent programs (against_python.sh).
#pragma once

#include <string>
#include <vector>

namespace barmkeep::published {

/// One function at one place.  `family` and `name` choose the other program's function in
/// against_python.py; every pair must be known there.
struct Value {
    std::string family;
    std::string name;
    std::vector<double> arguments;
    double value;
};

std::vector<Value> physics_values();
std::vector<Value> distribution_values();

} // namespace barmkeep::published
