#include "wort/saccharometer.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "spirit/density.hpp"
#include "wort/gravity.hpp"

namespace lynearm::wort {
namespace {

using spirit::SpecificGravity60F;
using units::Plato;
using units::SpecificGravity;
using units::Temperature;

constexpr SpecificGravity lowest_mark = lightest;
constexpr SpecificGravity highest_mark = SpecificGravity::ratio(1.170);

void accept(const char* field, SpecificGravity gravity, Temperature t) {
  if (!(gravity >= lowest_mark && gravity <= highest_mark))
    throw base::InputError(field, fmt::format("{:.4f}", gravity.ratio()), "0.970 to 1.170");
  if (!(t >= Temperature::celsius(0.0) && t <= Temperature::celsius(60.0)))
    throw base::InputError("temperature", fmt::format("{:.1f} °C", t.celsius()), "0 to 60 °C");
}

// A wash under SG 1.000 is taken to swell as water does.
double expansion_beyond_water(Plato extract, Temperature t) {
  return relative_expansion(std::max(extract, Plato::degrees(0.0)), t);
}

/// The scale's figure at `t` over the gravity at 20 °C, for a wort of that gravity.
double shown_over_true(double gravity, Temperature t, const Saccharometer& instrument) {
  const double glass =
      1.0 + instrument.glass_expansion_per_K * (t - instrument.reference).kelvins();
  const Plato extract = plato(SpecificGravity::ratio(std::max(gravity, 1.0)));
  const double wort_over_20C =
      water_density(t) / water_at_20C / expansion_beyond_water(extract, t);
  const double scale = water_at_20C / water_density(instrument.reference);
  return wort_over_20C * scale * glass;
}

Saccharometer at_60F(double glass_expansion_per_K) {
  return {spirit::reference_60F, glass_expansion_per_K};
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

SpecificGravity true_gravity(SpecificGravity60F reading, Temperature t,
                             double glass_expansion_per_K) {
  return true_gravity(SpecificGravity::ratio(reading.ratio()), t,
                      at_60F(glass_expansion_per_K));
}

SpecificGravity60F shown_60F(SpecificGravity gravity, Temperature t,
                             double glass_expansion_per_K) {
  return SpecificGravity60F::ratio(shown(gravity, t, at_60F(glass_expansion_per_K)).ratio());
}

SpecificGravity true_gravity(Plato reading, Temperature t, const Saccharometer& instrument) {
  const Plato least = plato(lowest_mark), most = plato(highest_mark);
  if (!(reading >= least && reading <= most))
    throw base::InputError("reading", fmt::format("{:.2f} °P", reading.degrees()),
                           fmt::format("{:.1f} to {:.1f} °P", least.degrees(), most.degrees()));
  // The mark stands where the glass floats in such a wort at its reference.
  const double against_water =
      specific_gravity(reading).ratio() / expansion_beyond_water(reading, instrument.reference);
  return true_gravity(SpecificGravity::ratio(against_water), t, instrument);
}

Plato shown_plato(SpecificGravity gravity, Temperature t, const Saccharometer& instrument) {
  const double against_water = shown(gravity, t, instrument).ratio();
  Plato mark = plato(SpecificGravity::ratio(against_water));
  double step_P = 1.0;
  for (int i = 0; i < 20 && std::abs(step_P) > 1e-13; ++i) {
    const double at_20C = against_water * expansion_beyond_water(mark, instrument.reference);
    const Plato next = plato(SpecificGravity::ratio(at_20C));
    step_P = (next - mark).degrees();
    mark = next;
  }
  base::ensure(std::abs(step_P) < 1e-11, "the mark of an extract settles");
  return mark;
}

}  // namespace lynearm::wort
