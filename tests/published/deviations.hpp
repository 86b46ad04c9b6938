// How far a formula is from what its source published: one record a formula and source, gathered
// into the table of docs/science.md by the program deviation_table.
//
// A family file (`extract_deviations.cpp`, ...) computes its records from the CSV files, the tests
// of the family hold them to their tolerance, and the table shows what was found.
#pragma once

#include <algorithm>
#include <cmath>
#include <string>
#include <vector>

namespace barmkeep::published {

struct Deviation {
    std::string formula; ///< what was computed: "Plato from SG, general cubic"
    std::string source;  ///< source key of the published values
    std::string range;   ///< the range the compared values span: "1.000 to 1.083"
    double worst = 0.0;  ///< largest absolute difference found
    std::string unit;    ///< of `worst`
    int values = 0;      ///< how many values were compared
};

/// Keeps the largest difference seen.
class Worst {
public:
    void compare(double computed, double published) {
        const double off = std::abs(computed - published);
        // A NaN must not look like agreement.
        worst_ = std::isnan(off) ? HUGE_VAL : std::max(worst_, off);
        ++values_;
    }
    [[nodiscard]] double worst() const { return worst_; }
    [[nodiscard]] int values() const { return values_; }

private:
    double worst_ = 0.0;
    int values_ = 0;
};

// The families.  Each is defined in a file of its own.
std::vector<Deviation> extract_deviations();
std::vector<Deviation> steam_deviations();
std::vector<Deviation> fuel_deviations();
std::vector<Deviation> yeast_deviations();

} // namespace barmkeep::published
