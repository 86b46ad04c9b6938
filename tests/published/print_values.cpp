// Prints our values as CSV, family,name,arguments...,value, for against_python.py to compare.
#include "tests/published/values.hpp"

#include <cstdio>

namespace {

using barmkeep::published::Value;

void print(const std::vector<Value>& values) {
    for (const Value& one : values) {
        std::printf("%s,%s", one.family.c_str(), one.name.c_str());
        for (const double argument : one.arguments)
            std::printf(",%.17g", argument);
        std::printf(",%.17g\n", one.value);
    }
}

} // namespace

int main() {
    print(barmkeep::published::physics_values());
#ifdef BARMKEEP_DISTRIBUTION_VALUES
    print(barmkeep::published::distribution_values());
#endif
}
