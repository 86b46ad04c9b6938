// Source keys joined at compile time, for the `sources` of an Estimate.
//
// An Estimate says which sources made it with text that lives as long as the program.  Which of a
// handful of sources apply depends on the inputs, so every text that can occur is laid down once
// and the estimate points into it: nothing is allocated.
//
// Thread safety: constants.
#pragma once

#include <array>
#include <cstddef>
#include <string_view>

namespace barmkeep::brewing {

/// Keys separated by spaces, put together at compile time; one too many is a compile error.
template <std::size_t Capacity>
class JoinedKeys {
public:
    constexpr void append(std::string_view key) {
        if (size_ != 0)
            text_.at(size_++) = ' ';
        for (const char c : key)
            text_.at(size_++) = c;
    }

    /// Whether the key is already among them, as a whole word.
    [[nodiscard]] constexpr bool contains(std::string_view key) const {
        const std::string_view all = text();
        for (std::size_t at = 0; at <= all.size(); ++at) {
            const std::size_t end = all.find(' ', at);
            if (all.substr(at, end == std::string_view::npos ? end : end - at) == key)
                return true;
            if (end == std::string_view::npos)
                break;
            at = end;
        }
        return false;
    }

    [[nodiscard]] constexpr std::string_view text() const noexcept { return {text_.data(), size_}; }

private:
    std::array<char, Capacity> text_{};
    std::size_t size_ = 0;
};

/// The joined keys of all subsets of `Count` keys of at most 15 characters; subset `mask` holds
/// key i if bit i is set.
template <std::size_t Count>
class SourceNames {
    static_assert(Count <= 8, "the table doubles with every key");
    static constexpr std::size_t subsets = std::size_t{1} << Count;

public:
    consteval explicit SourceNames(const std::array<std::string_view, Count>& keys) {
        for (std::size_t mask = 0; mask < subsets; ++mask)
            for (std::size_t i = 0; i < Count; ++i)
                if ((mask >> i) & 1U)
                    joined_.at(mask).append(keys.at(i));
    }

    /// The keys of the subset, separated by spaces.  REQUIRES: mask < 2^Count.
    [[nodiscard]] constexpr std::string_view of(std::size_t mask) const noexcept {
        return joined_[mask].text();
    }

private:
    std::array<JoinedKeys<Count * 16>, subsets> joined_{};
};

} // namespace barmkeep::brewing
