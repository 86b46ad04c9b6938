// The quantiles and tails that counting needs, from Boost.Math.
//
// Boost.Math stays behind this header, so that no other file pays for compiling it.  Arguments are
// checked by the callers; here they are REQUIRED.
//
// Thread safety: pure functions; nothing allocates.
#pragma once

namespace barmkeep::brewing {

/// x below which a gamma variable of unit scale falls with probability `p`.
/// REQUIRES: shape > 0, 0 < p < 1.
[[nodiscard]] double gamma_quantile(double shape, double p);

/// x below which a beta variable falls with probability `p`.  REQUIRES: a > 0, b > 0, 0 < p < 1.
[[nodiscard]] double beta_quantile(double a, double b, double p);

/// Probability that a chi-square variable exceeds `x`.  REQUIRES: degrees > 0, x >= 0.
[[nodiscard]] double chi_square_above(double degrees, double x);

/// x below which t falls with probability `p`.  REQUIRES: degrees > 0, 0 < p < 1.
[[nodiscard]] double t_quantile(double degrees, double p);

/// x below which a standard normal variable falls with probability `p`.  REQUIRES: 0 < p < 1.
[[nodiscard]] double normal_quantile(double p);

/// Throws OutOfRange unless 0.5 <= confidence <= 0.9999: two-sided, 0.95 is the usual one.
void require_confidence(double confidence);

} // namespace barmkeep::brewing
