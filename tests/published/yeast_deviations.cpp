// The yeast family as a whole: its records for the table, and what its comparisons share.
#include "tests/published/yeast_comparisons.hpp"

#include <algorithm>
#include <cctype>
#include <cstdlib>
#include <stdexcept>

namespace barmkeep::published {

Row row_of(const std::string& file, const std::string& id) {
    for (const Row& row : read_csv(file))
        if (row["id"] == id)
            return row;
    throw std::runtime_error{file + " has no row " + id};
}

std::vector<double> numbers_in(const std::string& text) {
    std::vector<double> numbers;
    const auto is_digit = [&](std::size_t i) {
        return i < text.size() && std::isdigit(static_cast<unsigned char>(text[i])) != 0;
    };
    for (std::size_t i = 0; i < text.size();) {
        const bool sign = text[i] == '-' && is_digit(i + 1) && (i == 0 || !is_digit(i - 1));
        if (!is_digit(i) && !sign) {
            ++i;
            continue;
        }
        char* end = nullptr;
        numbers.push_back(std::strtod(text.c_str() + i, &end));
        i = static_cast<std::size_t>(end - text.c_str());
    }
    if (numbers.empty())
        throw std::runtime_error{"no number in '" + text + "'"};
    return numbers;
}

std::pair<double, double> range_in(const std::string& text) {
    const std::vector<double> numbers = numbers_in(text);
    const auto [low, high] = std::ranges::minmax(numbers);
    return {low, high};
}

std::vector<Deviation> yeast_deviations() {
    std::vector<Deviation> all;
    for (const auto& comparisons : {yeast_viability_comparisons(), yeast_pitching_comparisons(),
                                    yeast_growth_comparisons(), counting_comparisons()})
        for (Deviation& deviation : deviations_of(comparisons))
            all.push_back(std::move(deviation));
    return all;
}

} // namespace barmkeep::published
