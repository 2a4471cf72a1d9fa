#include "spirit/hydrometer.hpp"

#include <fmt/format.h>

#include "base/error.hpp"
#include "spirit/density_kernel.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

units::Temperature reference_in(Scale scale, const Hydrometer& hydrometer) {
  return hydrometer.reference.value_or(reference_of(scale));
}

// The mass of the float equals the mass of liquid it displaces; its volume at t is its volume
// at the reference times this. So the liquid's density times this is the density whose mark
// on the scale stands at the surface.
double glass_factor(units::Temperature t, Scale scale, const Hydrometer& hydrometer) {
  return 1.0 +
         hydrometer.glass_expansion_per_K * (t - reference_in(scale, hydrometer)).kelvins();
}

void check_range(units::Temperature t, std::string_view field) {
  if (!(t >= coldest && t <= warmest)) {
    throw base::InputError(std::string(field), fmt::format("{:.2f} °C", t.celsius()),
                           "-20 to 40 °C, the range of the density formula (OIML R 22)");
  }
}

units::MassFraction mixture_of(const Reading& reading) {
  switch (reading.scale) {
    case Scale::percent_vol:
      return mass_fraction(units::VolumeStrength::percent(reading.figure));
    case Scale::percent_vol_15C:
      return mass_fraction(VolumeStrength15C::percent(reading.figure));
    case Scale::percent_vol_60F:
      return mass_fraction(VolumeStrength60F::percent(reading.figure));
    case Scale::percent_mass:
      return units::MassFraction::percent(reading.figure);
    case Scale::us_proof:
      return mass_fraction(Proof::degrees(reading.figure));
    case Scale::density:
    case Scale::specific_gravity:
    case Scale::specific_gravity_60F:
      break;
  }
  throw base::BrokenInvariant("a scale of density is not asked for its mixture");
}

bool of_density(Scale scale) {
  return scale == Scale::density || scale == Scale::specific_gravity ||
         scale == Scale::specific_gravity_60F;
}

double water_kgm3(units::Temperature t) {
  return density(units::MassFraction{}, t).kilograms_per_cubic_metre();
}

// Density of the liquid in which the mark stands at the surface, at the glass's reference.
double marked_kgm3(const Reading& reading, const Hydrometer& hydrometer) {
  const units::Temperature reference = reference_in(reading.scale, hydrometer);
  if (reading.scale == Scale::density) return reading.figure;
  if (of_density(reading.scale)) return reading.figure * water_kgm3(reference);
  try {
    return density(mixture_of(reading), reference).kilograms_per_cubic_metre();
  } catch (const base::InputError& fault) {
    throw base::InputError("reading", print(reading), fault.faults().front().accepted);
  }
}

// The figure at the surface of a liquid that is `marked_kgm3` dense at the reference.
double figure_at(double marked_kgm3, Scale scale, const Hydrometer& hydrometer) {
  const units::Temperature reference = reference_in(scale, hydrometer);
  if (scale == Scale::density) return marked_kgm3;
  if (of_density(scale)) return marked_kgm3 / water_kgm3(reference);
  const DensityAt at(reference.celsius());
  const DensityAt::Value water = at(0.0);
  const DensityAt::Value pure = at(1.0);
  const auto figure = [&](double p) {
    return reading_of(units::MassFraction::fraction(p), scale).figure;
  };
  // The scale's figure per kg/m³ at an end of it, from a thousandth of the range.
  constexpr double near = 1e-3;
  if (marked_kgm3 > water.density_kgm3) {
    const double per_kgm3 = figure(near) / (at(near).density_kgm3 - water.density_kgm3);
    return (marked_kgm3 - water.density_kgm3) * per_kgm3;
  }
  if (marked_kgm3 < pure.density_kgm3) {
    const double per_kgm3 =
        (figure(1.0) - figure(1.0 - near)) / (pure.density_kgm3 - at(1.0 - near).density_kgm3);
    return figure(1.0) + (marked_kgm3 - pure.density_kgm3) * per_kgm3;
  }
  const double guess =
      (water.density_kgm3 - marked_kgm3) / (water.density_kgm3 - pure.density_kgm3);
  return figure(at.mass_fraction(marked_kgm3, guess));
}

}  // namespace

units::Density density_shown(const Reading& reading, units::Temperature t,
                             const Hydrometer& hydrometer) {
  check_range(t, "at");
  return units::Density::kilograms_per_cubic_metre(marked_kgm3(reading, hydrometer) /
                                                   glass_factor(t, reading.scale, hydrometer));
}

units::MassFraction true_mass_fraction(const Reading& reading, units::Temperature t,
                                       const Hydrometer& hydrometer) {
  const double density_kgm3 = density_shown(reading, t, hydrometer).kilograms_per_cubic_metre();
  const DensityAt at(t.celsius());
  const double heaviest = at(0.0).density_kgm3;
  const double lightest = at(1.0).density_kgm3;
  constexpr double rounding = 1e-9;
  if (!(density_kgm3 <= heaviest + rounding && density_kgm3 >= lightest - rounding)) {
    const auto end = [&](double p) {
      return print(shown(units::MassFraction::fraction(p), t, reading.scale, hydrometer));
    };
    throw base::InputError("reading", print(reading),
                           fmt::format("at {:.1f} °C, {} (water) to {} (pure ethanol)",
                                       t.celsius(), end(0.0), end(1.0)));
  }
  const double guess = (heaviest - density_kgm3) / (heaviest - lightest);
  return units::MassFraction::fraction(at.mass_fraction(density_kgm3, guess));
}

Reading shown(units::MassFraction ethanol, units::Temperature t, Scale scale,
              const Hydrometer& hydrometer) {
  check_range(t, "at");
  const double marked =
      density(ethanol, t).kilograms_per_cubic_metre() * glass_factor(t, scale, hydrometer);
  return {figure_at(marked, scale, hydrometer), scale};
}

}  // namespace lynearm::spirit
