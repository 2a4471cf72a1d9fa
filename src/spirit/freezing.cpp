#include "spirit/freezing.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"
#include "numeric/interpolate.hpp"
#include "numeric/root.hpp"

namespace lynearm::spirit {
namespace {

using units::MassFraction;
using units::Temperature;

// CRC Handbook of Chemistry and Physics, 102nd ed.: % by mass, depression in kelvin.
const numeric::Curve& depression_K() {
  static const numeric::Curve curve(
      {0, 1, 5, 10, 20, 30, 40, 50, 60, 68},
      {0.0, 0.40, 2.09, 4.47, 10.92, 20.47, 29.26, 37.67, 44.93, 49.52});
  return curve;
}

void accept(MassFraction ethanol, MassFraction most) {
  if (!(ethanol.fraction() >= 0.0 && ethanol <= most))
    throw base::InputError("strength", fmt::format("{:.4f} % mass", ethanol.percent()),
                           fmt::format("0 to {:.0f} % by mass", most.percent()));
}

void accept(Temperature t) {
  if (!(t >= freezing_point(strongest_frozen) && std::isfinite(t.celsius())))
    throw base::InputError("temperature", fmt::format("{:.2f} °C", t.celsius()),
                           "-49.5 °C or warmer, the range of the freezing curve");
}

}  // namespace

Temperature freezing_point(MassFraction ethanol) {
  accept(ethanol, strongest_frozen);
  return Temperature::celsius(0.0 - depression_K()(ethanol.percent()));
}

bool may_be_frozen(MassFraction ethanol, Temperature t) {
  accept(ethanol, MassFraction::fraction(1.0));
  accept(t);
  return ethanol <= strongest_frozen && t < freezing_point(ethanol);
}

MassFraction weakest_liquid(Temperature t) {
  accept(t);
  if (t.celsius() >= 0.0) return MassFraction::fraction(0.0);
  if (t == freezing_point(strongest_frozen)) return strongest_frozen;
  const numeric::Root percent =
      numeric::root_between([&](double p) { return depression_K()(p) + t.celsius(); }, 0.0,
                            strongest_frozen.percent(), "strength from freezing point");
  return MassFraction::percent(percent.value);
}

}  // namespace lynearm::spirit
