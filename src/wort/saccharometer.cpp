#include "wort/saccharometer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "wort/gravity.hpp"

namespace lynearm::wort {
namespace {

using units::SpecificGravity;
using units::Temperature;

void accept(const char* field, SpecificGravity gravity, Temperature t) {
  if (!(gravity.ratio() >= 0.970 && gravity.ratio() <= 1.170))
    throw base::InputError(field, fmt::format("{:.4f}", gravity.ratio()), "0.970 to 1.170");
  if (!(t >= Temperature::celsius(0.0) && t <= Temperature::celsius(60.0)))
    throw base::InputError("temperature", fmt::format("{:.1f} °C", t.celsius()), "0 to 60 °C");
}

/// The scale's figure at `t` over the gravity at 20 °C, for a wort of that gravity.
double shown_over_true(double gravity, Temperature t, const Saccharometer& instrument) {
  const double glass =
      1.0 + instrument.glass_expansion_per_K * (t - instrument.reference).kelvins();
  // A wash under SG 1.000 is taken to swell as water does.
  const units::Plato extract = plato(SpecificGravity::ratio(std::max(gravity, 1.0)));
  const double wort_over_20C = water_density(t) / water_at_20C / relative_expansion(extract, t);
  const double scale = water_at_20C / water_density(instrument.reference);
  return wort_over_20C * scale * glass;
}

}  // namespace

SpecificGravity true_gravity(SpecificGravity reading, Temperature t,
                             const Saccharometer& instrument) {
  accept("reading", reading, t);
  // The factor depends on the gravity through the small expansion only: a few rounds settle.
  double gravity = reading.ratio();
  double step = 1.0;
  for (int i = 0; i < 20 && std::abs(step) > 1e-14; ++i) {
    const double next = reading.ratio() / shown_over_true(gravity, t, instrument);
    step = next - gravity;
    gravity = next;
  }
  base::ensure(std::abs(step) < 1e-12, "true gravity settles");
  return SpecificGravity::ratio(gravity);
}

SpecificGravity shown(SpecificGravity gravity, Temperature t, const Saccharometer& instrument) {
  accept("gravity", gravity, t);
  return SpecificGravity::ratio(gravity.ratio() *
                                shown_over_true(gravity.ratio(), t, instrument));
}

}  // namespace lynearm::wort
