#include "spirit/marks.hpp"

#include <fmt/format.h>

#include "base/error.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

double checked_reference_C(Scale scale, const Hydrometer& hydrometer) {
  const units::Temperature reference = hydrometer.reference.value_or(reference_of(scale));
  if (!(reference >= coldest && reference <= warmest)) {
    throw base::InputError("reference", fmt::format("{:.2f} °C", reference.celsius()),
                           "-20 to 40 °C, the range of the density formula (OIML R 22)");
  }
  return reference.celsius();
}

double checked_expansion_per_K(const Hydrometer& hydrometer) {
  const double expansion = hydrometer.glass_expansion_per_K;
  if (!(expansion >= 0.0 && expansion <= 1e-3)) {
    throw base::InputError("glass_expansion", fmt::format("{:g}", expansion),
                           "0 to 0.001 per kelvin; soda-lime glass has 0.000025");
  }
  return expansion;
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

}  // namespace

bool of_density(Scale scale) {
  return scale == Scale::density || scale == Scale::specific_gravity ||
         scale == Scale::specific_gravity_60F;
}

ScaleEnds ends_of(Scale scale) {
  if (scale == Scale::density) return {700.0, 1100.0};
  if (of_density(scale)) return {0.7, 1.1};
  return {0.0, scale == Scale::us_proof ? 200.0 : 100.0};
}

Marks::Marks(Scale scale, const Hydrometer& hydrometer)
    : scale_(scale),
      reference_C_(checked_reference_C(scale, hydrometer)),
      expansion_per_K_(checked_expansion_per_K(hydrometer)),
      at_(reference_C_) {}

double Marks::density_kgm3(double figure) const {
  if (scale_ == Scale::density) return figure;
  if (of_density(scale_)) return figure * at_.water_kgm3();
  const ScaleEnds ends = ends_of(scale_);
  if (!(figure >= ends.first && figure <= ends.last)) {
    throw base::InputError(
        "reading", print({figure, scale_}),
        fmt::format("{:.0f} to {}", ends.first, print({ends.last, scale_}, 0)));
  }
  return at_(mixture_of({figure, scale_}).fraction()).density_kgm3;
}

double Marks::figure(double density_kgm3) const {
  if (scale_ == Scale::density) return density_kgm3;
  if (of_density(scale_)) return density_kgm3 / at_.water_kgm3();
  const auto figure_of = [&](double p) {
    return reading_of(units::MassFraction::fraction(p), scale_).figure;
  };
  const Found found = at_.mass_fraction(density_kgm3);
  if (found.fit == Fit::mixture) return figure_of(found.mass_fraction);
  // The scale's figure per kg/m³ at the end, from a thousandth of the range.
  const double end = found.mass_fraction;
  const double near = end > 0.5 ? end - 1e-3 : end + 1e-3;
  const double end_kgm3 = end > 0.5 ? at_.pure_ethanol_kgm3() : at_.water_kgm3();
  const double per_kgm3 =
      (figure_of(near) - figure_of(end)) / (at_(near).density_kgm3 - end_kgm3);
  return figure_of(end) + (density_kgm3 - end_kgm3) * per_kgm3;
}

}  // namespace lynearm::spirit
