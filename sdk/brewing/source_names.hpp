// Source keys of every subset of a few sources, joined at compile time.
//
// An Estimate says which sources made it with text that lives as long as the program.  Which of a
// handful of sources apply depends on the inputs, so the joined text of all their subsets is laid
// down once, and an estimate points into it: nothing is allocated.
//
// Thread safety: constants.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

namespace barmkeep::brewing {

/// The joined keys of all subsets of `Count` keys; subset `mask` holds key i if bit i is set.
/// REQUIRES: Count <= 10 and keys of at most 15 characters (a compile error otherwise).
template <std::size_t Count>
class SourceNames {
    static_assert(Count <= 10, "the table doubles with every key");
    static constexpr std::size_t subsets = std::size_t{1} << Count;
    static constexpr std::size_t longest = Count * 16;

public:
    consteval explicit SourceNames(const std::array<std::string_view, Count>& keys) {
        for (std::size_t mask = 0; mask < subsets; ++mask)
            for (std::size_t i = 0; i < Count; ++i)
                if ((mask >> i) & 1U)
                    append(mask, keys.at(i));
    }

    /// The keys of the subset, separated by spaces.  REQUIRES: mask < 2^Count.
    [[nodiscard]] constexpr std::string_view of(std::size_t mask) const noexcept {
        return {text_[mask].data(), size_[mask]};
    }

private:
    consteval void append(std::size_t mask, std::string_view key) {
        auto& size = size_[mask];
        if (size != 0)
            text_[mask].at(size++) = ' ';
        for (const char c : key)
            text_[mask].at(size++) = c;
    }

    std::array<std::array<char, longest>, subsets> text_{};
    std::array<std::size_t, subsets> size_{};
};

} // namespace barmkeep::brewing
