#include "sdk/brewing/distributions.hpp"

#include "sdk/brewing/errors.hpp"

#include <boost/math/distributions/beta.hpp>
#include <boost/math/distributions/chi_squared.hpp>
#include <boost/math/distributions/gamma.hpp>
#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>

#include <cassert>

namespace barmkeep::brewing {
namespace {

namespace math = boost::math;

// Doubles throughout: long double would cost several times as much for digits no count has.
using Plain = math::policies::policy<math::policies::promote_double<false>>;

} // namespace

double gamma_quantile(double shape, double p) {
    assert(shape > 0.0 && p > 0.0 && p < 1.0);
    return math::quantile(math::gamma_distribution<double, Plain>{shape, 1.0}, p);
}

double beta_quantile(double a, double b, double p) {
    assert(a > 0.0 && b > 0.0 && p > 0.0 && p < 1.0);
    return math::quantile(math::beta_distribution<double, Plain>{a, b}, p);
}

double chi_square_above(double degrees, double x) {
    assert(degrees > 0.0 && x >= 0.0);
    const math::chi_squared_distribution<double, Plain> chi_square{degrees};
    return math::cdf(math::complement(chi_square, x));
}

double t_quantile(double degrees, double p) {
    assert(degrees > 0.0 && p > 0.0 && p < 1.0);
    return math::quantile(math::students_t_distribution<double, Plain>{degrees}, p);
}

double normal_quantile(double p) {
    assert(p > 0.0 && p < 1.0);
    return math::quantile(math::normal_distribution<double, Plain>{}, p);
}

void require_confidence(double confidence) {
    require_within("confidence", confidence, 0.5, 0.9999, "", "Give a share: 0.95 is usual.");
}

} // namespace barmkeep::brewing
