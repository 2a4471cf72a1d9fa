#include "spirit/hydrometer.hpp"

#include <fmt/format.h>

#include "base/error.hpp"
#include "spirit/density_kernel.hpp"

namespace lynearm::spirit {
namespace {

// The mass of the float equals the mass of liquid it displaces; its volume at t is its volume
// at the reference times this. So the liquid's density times this is the density whose mark
// on the scale stands at the surface.
double glass_factor(units::Temperature t, const Alcoholmeter& instrument) {
  return 1.0 + instrument.glass_expansion_per_K * (t - instrument.reference).kelvins();
}

void check_range(units::Temperature t) {
  if (!(t >= coldest && t <= warmest)) {
    throw base::InputError("at", fmt::format("{:.2f} °C", t.celsius()),
                           "-20 to 40 °C, the range of the density formula (OIML R 22)");
  }
}

// A scale marked at its reference: % by volume at that temperature, of the ethanol alone.
double marked_density(double reading, const DensityAt& reference) {
  const double pure = reference(1.0).density_kgm3;
  double low = 0.0;
  double high = 1.0;
  double p = reading * (0.80 + 0.20 * reading * reading);
  for (int i = 0; i < 60; ++i) {
    const DensityAt::Value rho = reference(p);
    const double miss = p * rho.density_kgm3 - reading * pure;
    if (miss < 1e-11 && miss > -1e-11) return rho.density_kgm3;
    (miss < 0.0 ? low : high) = p;
    p -= miss / (rho.density_kgm3 + p * rho.slope);
    if (!(p >= low && p <= high)) p = 0.5 * (low + high);
  }
  return reference(p).density_kgm3;
}

}  // namespace

units::MassFraction true_mass_fraction(units::VolumeStrength reading, units::Temperature t,
                                       const Alcoholmeter& instrument) {
  check_range(t);
  const double q = reading.fraction();
  if (!(q >= 0.0 && q <= 1.0)) {
    throw base::InputError("reading", fmt::format("{:.2f} %vol", reading.percent()),
                           "0 to 100 %vol");
  }
  const double density_kgm3 = marked_density(q, DensityAt(instrument.reference.celsius())) /
                              glass_factor(t, instrument);
  const DensityAt at(t.celsius());
  if (!(density_kgm3 <= at(0.0).density_kgm3 + 1e-9 &&
        density_kgm3 >= at(1.0).density_kgm3 - 1e-9)) {
    const auto end = [&](double p) {
      return shown(units::MassFraction::fraction(p), t, instrument).percent();
    };
    throw base::InputError(
        "reading", fmt::format("{:.2f} %vol at {:.2f} °C", reading.percent(), t.celsius()),
        density_kgm3 > at(0.0).density_kgm3
            ? fmt::format("at least {:.2f} %vol, what water shows at that temperature",
                          end(0.0))
            : fmt::format("at most {:.2f} %vol, what pure ethanol shows at that temperature",
                          end(1.0)));
  }
  return units::MassFraction::fraction(at.mass_fraction(density_kgm3, q));
}

units::VolumeStrength shown(units::MassFraction ethanol, units::Temperature t,
                            const Alcoholmeter& instrument) {
  check_range(t);
  const double density_kgm3 = density(ethanol, t).kilograms_per_cubic_metre();
  const double marked = density_kgm3 * glass_factor(t, instrument);
  const DensityAt reference(instrument.reference.celsius());
  const double pure = reference(1.0).density_kgm3;
  // Beyond the scale's ends (cold water, hot pure ethanol) the mark is off the stem; it is
  // given as the end of the scale extended in proportion to density.
  if (marked > reference(0.0).density_kgm3) {
    const DensityAt::Value water = reference(0.0);
    return units::VolumeStrength::fraction((marked - water.density_kgm3) / water.slope *
                                           water.density_kgm3 / pure);
  }
  if (marked < pure) {
    const DensityAt::Value end = reference(1.0);
    return units::VolumeStrength::fraction(1.0 + (marked - pure) / end.slope *
                                                     (1.0 + end.slope / pure));
  }
  const double p = reference.mass_fraction(marked, ethanol.fraction());
  return units::VolumeStrength::fraction(p * reference(p).density_kgm3 / pure);
}

}  // namespace lynearm::spirit
