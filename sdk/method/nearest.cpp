#include "sdk/method/nearest.hpp"

#include <algorithm>

namespace barmkeep {
namespace {

/// Damerau's distance in the restricted form (optimal string alignment).
std::size_t changes_between(std::string_view a, std::string_view b) {
    std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
    for (std::size_t i = 0; i <= a.size(); ++i)
        d[i][0] = i;
    for (std::size_t j = 0; j <= b.size(); ++j)
        d[0][j] = j;
    for (std::size_t i = 1; i <= a.size(); ++i)
        for (std::size_t j = 1; j <= b.size(); ++j) {
            const std::size_t replaced = d[i - 1][j - 1] + (a[i - 1] == b[j - 1] ? 0 : 1);
            d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, replaced});
            if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1])
                d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
        }
    return d[a.size()][b.size()];
}

} // namespace

std::optional<std::string> nearest(std::string_view typed, const std::vector<std::string>& known) {
    if (typed.size() > 64)
        return std::nullopt; // no word of ours is that long
    const std::string* best = nullptr;
    std::size_t fewest = 0;
    for (const auto& word : known) {
        const std::size_t changes = changes_between(typed, word);
        if (best == nullptr || changes < fewest) {
            best = &word;
            fewest = changes;
        }
    }
    if (best == nullptr || fewest > std::max<std::size_t>(1, best->size() / 3))
        return std::nullopt;
    return *best;
}

} // namespace barmkeep
