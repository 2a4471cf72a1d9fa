#include "spirit/refractometer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/error.hpp"
#include "numeric/interpolate.hpp"
#include "numeric/root.hpp"
#include "spirit/density_kernel.hpp"

namespace lynearm::spirit {
namespace {

using units::MassFraction;
using units::RefractiveIndex;
using units::Temperature;

struct Knot {
  double percent_mass, index, slope_per_percent;
};

// Index at 20 °C. Our fit to the CRC table, 62 rows printed to 0.0001: values at each per cent
// with the least sum of squared third differences that keep within 0.000045 of every row, water
// held at 1.33299 (the zero of the sucrose scale, from memory); of that curve the points and
// slopes below. It has one maximum, and one turn of curvature, near 14 %. A curve through the
// rounded rows themselves would have a dozen.
// clang-format off
constexpr Knot knots[] = {
    {  0, 1.332990, +5.6339e-4}, {  5, 1.336045, +6.5746e-4}, { 10, 1.339524, +7.2697e-4},
    { 15, 1.343234, +7.4951e-4}, { 20, 1.346945, +7.2761e-4}, { 25, 1.350441, +6.6429e-4},
    { 30, 1.353536, +5.7023e-4}, { 35, 1.356136, +4.7149e-4}, { 40, 1.358286, +3.9265e-4},
    { 45, 1.360092, +3.3048e-4}, { 50, 1.361593, +2.7110e-4}, { 55, 1.362815, +2.1906e-4},
    { 60, 1.363800, +1.7621e-4}, { 65, 1.364588, +1.3992e-4}, { 70, 1.365199, +1.0345e-4},
    { 75, 1.365608, +0.5824e-4}, { 80, 1.365755, -0.0175e-4}, { 85, 1.365584, -0.6792e-4},
    { 90, 1.365010, -1.6959e-4}, { 94, 1.364155, -2.5012e-4}, { 96, 1.363645, -2.5933e-4},
    { 98, 1.362955, -5.0627e-4}, { 99, 1.362327, -7.5230e-4}, {100, 1.361445, -10.1453e-4},
};
// clang-format on

numeric::Curve make_curve() {
  std::vector<double> x, y, slope;
  for (const Knot& knot : knots) {
    x.push_back(knot.percent_mass);
    y.push_back(knot.index);
    slope.push_back(knot.slope_per_percent);
  }
  return {x, y, slope};
}

double refraction(double n) { return (n * n - 1.0) / (n * n + 2.0); }
double index(double refraction) {
  return std::sqrt((1.0 + 2.0 * refraction) / (1.0 - refraction));
}

// Specific refraction of water at 589.3 nm, IAPWS R9-97 (Harvey, Gallagher and Levelt Sengers
// 1998), from memory; as recalled it gives the release's check value 1.334344 at 0 °C and 589
// nm. Only its ratio to 20 °C is used. The refraction of a liquid is not quite constant:
// water's falls by 3e-5 a kelvin.
double iapws_water_mL_per_g(double t_C, double density_kgm3) {
  constexpr double wave2 = (0.5893 / 0.589) * (0.5893 / 0.589);
  constexpr double ultraviolet2 = 0.2292020 * 0.2292020, infrared2 = 5.432937 * 5.432937;
  const double warmth = (t_C + 273.15) / 273.15;
  const double rho = density_kgm3 / 1000.0;
  return 0.244257733 + 9.74634476e-3 * rho - 3.73234996e-3 * warmth +
         2.68678472e-4 * wave2 * warmth + 1.58920570e-3 / wave2 +
         2.45934259e-3 / (wave2 - ultraviolet2) + 0.900704920 / (wave2 - infrared2) -
         1.66626219e-2 * rho * rho;
}

// Ethanol's rises, by this a kelvin: then its index falls by 0.00040 a kelvin from 20 to 25 °C,
// to 1.3594 (from memory). Held constant it would fall by 0.00044.
constexpr double ethanol_drift_per_K = 9.23e-5;

// The index along the strengths at one temperature.
class IndexAt {
 public:
  explicit IndexAt(double t_C)
      : at_(t_C),
        at_20C_(20.0),
        water_drift_(iapws_water_mL_per_g(t_C, at_(0.0).density_kgm3) /
                         iapws_water_mL_per_g(20.0, at_20C_(0.0).density_kgm3) -
                     1.0),
        ethanol_drift_(ethanol_drift_per_K * (t_C - 20.0)),
        curve_(&curve_20C()),
        water_mL_per_g_(refraction_20C(0.0)),
        ethanol_mL_per_g_(refraction_20C(1.0)) {}

  [[nodiscard]] double specific_refraction_mL_per_g(double p) const {
    return refraction_20C(p) + (1.0 - p) * water_mL_per_g_ * water_drift_ +
           p * ethanol_mL_per_g_ * ethanol_drift_;
  }
  [[nodiscard]] double density_g_per_mL(double p) const { return at_(p).density_kgm3 / 1000.0; }
  [[nodiscard]] double operator()(double p) const {
    return index(specific_refraction_mL_per_g(p) * density_g_per_mL(p));
  }

  [[nodiscard]] double maximum() const {
    return numeric::minimum_between([this](double p) { return -(*this)(p); }, 0.6, 0.95);
  }
  /// Where the index is n between two strengths, at one of which it is at most n and at the
  /// other at least n.
  [[nodiscard]] double between(double n, double low, double high) const {
    return numeric::root_between([&](double p) { return (*this)(p)-n; }, low, high,
                                 "strength from refractive index", {1e-14, 100})
        .value;
  }

 private:
  static const numeric::Curve& curve_20C() {
    static const numeric::Curve made = make_curve();
    return made;
  }
  [[nodiscard]] double refraction_20C(double p) const {
    return refraction((*curve_)(100.0 * p)) / (at_20C_(p).density_kgm3 / 1000.0);
  }

  DensityAt at_, at_20C_;
  double water_drift_, ethanol_drift_;
  const numeric::Curve* curve_;
  double water_mL_per_g_, ethanol_mL_per_g_;
};

double checked_celsius(Temperature t) {
  if (!(t >= coldest_refracted && t <= warmest_refracted))
    throw base::InputError("temperature", fmt::format("{:.2f} °C", t.celsius()),
                           "0 to 40 °C, the range of the refractive index of spirit");
  return t.celsius();
}

double checked_fraction(MassFraction ethanol) {
  if (!(ethanol.fraction() >= 0.0 && ethanol.fraction() <= 1.0))
    throw base::InputError("strength", fmt::format("{:.4f} % mass", ethanol.percent()),
                           "0 to 100 % by mass");
  return ethanol.fraction();
}

// The reading brought within [low, high], from which it may miss by the table's own blur.
double checked_reading(RefractiveIndex reading, double low, double high,
                       const std::string& accepted) {
  constexpr double blur = table_blur.ratio() * (1.0 + 1e-9);
  const double n = reading.ratio();
  if (!(n >= low - blur && n <= high + blur))
    throw base::InputError("reading", fmt::format("{:.5f}", n), accepted);
  return std::clamp(n, low, high);
}

}  // namespace

RefractiveIndex refractive_index(MassFraction ethanol, Temperature t) {
  const double p = checked_fraction(ethanol);
  return RefractiveIndex::ratio(IndexAt(checked_celsius(t))(p));
}

RefractiveMaximum refractive_maximum(Temperature t) {
  const IndexAt at(checked_celsius(t));
  const double p = at.maximum();
  return {MassFraction::fraction(p), RefractiveIndex::ratio(at(p))};
}

RefractedStrength strengths(RefractiveIndex reading, Temperature t) {
  const IndexAt at(checked_celsius(t));
  const double top = at.maximum();
  const double water = at(0.0), pure = at(1.0), most = at(top);
  const double blur = table_blur.ratio();
  const double n = checked_reading(
      reading, water, most,
      fmt::format("a refractive index of {:.4f} (water) to {:.4f} (the most any spirit shows, "
                  "at {:.0f} % by mass) at {:.1f} °C",
                  water, most, 100.0 * top, t.celsius()));
  RefractedStrength answer;
  answer.flat = n >= most - blur;
  const double sought = answer.flat ? most - blur : n;
  answer.weak = MassFraction::fraction(at.between(sought, 0.0, top));
  if (sought > pure) {
    answer.strong = MassFraction::fraction(at.between(sought, top, 1.0));
  } else if (sought >= pure - blur) {
    answer.strong = MassFraction::fraction(1.0);
  }
  return answer;
}

StrengthSpan strengths_within(MassFraction about, RefractiveIndex doubt, Temperature t) {
  const IndexAt at(checked_celsius(t));
  const double p = checked_fraction(about);
  if (!(doubt.ratio() > 0.0 && doubt.ratio() <= 0.01))
    throw base::InputError("doubt", fmt::format("{:.6g}", doubt.ratio()),
                           "a doubt of the reading above 0, to 0.01");
  const double top = at.maximum();
  const double least = at(p) - doubt.ratio(), greatest = at(p) + doubt.ratio();
  // Downhill from the strength to either side, and uphill unless the top is within the doubt.
  const bool over_the_top = at(top) <= greatest;
  const double from_weak = std::min(p, top), from_strong = std::max(p, top);
  double low = 0.0, high = 1.0;
  if (p > top && !over_the_top) {
    low = at.between(greatest, top, p);
  } else if (at(0.0) < least) {
    low = at.between(least, 0.0, from_weak);
  }
  if (p < top && !over_the_top) {
    high = at.between(greatest, p, top);
  } else if (at(1.0) < least) {
    high = at.between(least, from_strong, 1.0);
  }
  return {MassFraction::fraction(low), MassFraction::fraction(high)};
}

MassFraction strength_of_diluted(RefractiveIndex reading, Dilution dilution, Temperature t) {
  const IndexAt at(checked_celsius(t));
  const double water_g_per_mL = at.density_g_per_mL(0.0);
  const auto diluted = [&](double p) {
    if (dilution == Dilution::equal_masses) return 0.5 * p;
    const double spirit_g_per_mL = at.density_g_per_mL(p);
    return p * spirit_g_per_mL / (spirit_g_per_mL + water_g_per_mL);
  };
  const double water = at(0.0), most = at(diluted(1.0));
  const double n = checked_reading(
      reading, water, most,
      fmt::format("a refractive index of {:.4f} (water) to {:.4f} (pure ethanol diluted) at "
                  "{:.1f} °C",
                  water, most, t.celsius()));
  return MassFraction::fraction(
      numeric::root_between([&](double p) { return at(diluted(p)) - n; }, 0.0, 1.0,
                            "strength from the index of a diluted sample", {1e-14, 100})
          .value);
}

double specific_refraction_mL_per_g(MassFraction ethanol, Temperature t) {
  const double p = checked_fraction(ethanol);
  return IndexAt(checked_celsius(t)).specific_refraction_mL_per_g(p);
}

RefractiveIndex index_of_refraction(double refraction) {
  base::ensure(refraction >= 0.0 && refraction < 1.0, "a refraction lies from 0 to below 1");
  return RefractiveIndex::ratio(index(refraction));
}

double refraction_of(RefractiveIndex index) { return refraction(index.ratio()); }

}  // namespace lynearm::spirit
