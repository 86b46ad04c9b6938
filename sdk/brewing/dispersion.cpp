#include "sdk/brewing/dispersion.hpp"

#include "sdk/brewing/distributions.hpp"
#include "sdk/brewing/errors.hpp"

#include <limits>

namespace barmkeep::brewing {

FieldStatistics field_statistics(std::span<const std::uint32_t> fields) {
    require_positive("number of fields counted", static_cast<double>(fields.size()), "");
    FieldStatistics statistics;
    statistics.fields = fields.size();
    for (const std::uint32_t cells : fields)
        statistics.cells += cells;
    const double count = static_cast<double>(fields.size());
    statistics.mean = static_cast<double>(statistics.cells) / count;
    double squares = 0.0;
    for (const std::uint32_t cells : fields) {
        const double off = static_cast<double>(cells) - statistics.mean;
        squares += off * off;
    }
    statistics.population_variance = squares / count;
    statistics.sample_variance = fields.size() > 1 ? squares / (count - 1.0) : 0.0;
    return statistics;
}

DispersionTest dispersion_test(std::span<const std::uint32_t> fields) {
    require_within("number of fields counted", static_cast<double>(fields.size()), 2.0,
                   std::numeric_limits<double>::infinity(), "", "Count at least two fields.");
    const FieldStatistics statistics = field_statistics(fields);
    require_positive("cells counted", static_cast<double>(statistics.cells), "");
    DispersionTest test;
    test.degrees = static_cast<double>(fields.size()) - 1.0;
    test.index = statistics.sample_variance / statistics.mean;
    test.chi_square = test.index * test.degrees;
    test.p_value = chi_square_above(test.degrees, test.chi_square);
    return test;
}

} // namespace barmkeep::brewing
