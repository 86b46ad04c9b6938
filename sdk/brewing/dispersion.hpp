// Whether the fields of a count scatter more than chance lets them.
//
// Over k fields with mean m the sum of (x - m)^2 / m follows chi-square with k - 1 degrees of
// freedom if each field is Poisson of the same mean; divided by k - 1 it is the index of
// dispersion, variance over mean, which is 1 on average (FIS).
// A small p-value says that the sample was clumped, poorly mixed or the chamber badly
// filled: count again.  The chi-square holds for means above about 1 and at least some 5 fields.
//
// Thread safety: pure functions; nothing allocates except the message of a thrown OutOfRange.
#pragma once

#include <cstddef>
#include <cstdint>
#include <span>

namespace barmkeep::brewing {

/// The first moments of equal fields.
struct FieldStatistics {
    std::size_t fields = 0;
    std::uint64_t cells = 0;          ///< sum over the fields
    double mean = 0.0;                ///< cells a field
    double sample_variance = 0.0;     ///< divisor k - 1; 0 for a single field
    double population_variance = 0.0; ///< divisor k, as STU prints it
};

/// Throws OutOfRange for no fields.
[[nodiscard]] FieldStatistics field_statistics(std::span<const std::uint32_t> fields);

struct DispersionTest {
    double index = 0.0;      ///< sample variance over mean
    double chi_square = 0.0; ///< index x degrees
    double degrees = 0.0;    ///< fields less one
    double p_value = 0.0;    ///< chance of at least this scatter if it is Poisson

    /// Whether the scatter is more than chance, at the level of one in twenty.
    [[nodiscard]] bool scattered() const noexcept { return p_value < 0.05; }
};

/// Throws OutOfRange for fewer than two fields, and if no cell was counted at all.
[[nodiscard]] DispersionTest dispersion_test(std::span<const std::uint32_t> fields);

} // namespace barmkeep::brewing
