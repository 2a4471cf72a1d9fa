#include "spirit/lot.hpp"

#include <fmt/format.h>

#include "base/error.hpp"
#include "spirit/density.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

units::Density pure_ethanol_20C() {
  return density(units::MassFraction::fraction(1.0), reference_20C);
}

void check_not_negative(double amount, std::string_view field, std::string_view shown) {
  if (!(amount >= 0.0)) {
    throw base::InputError(std::string(field), std::string(shown), "zero or more");
  }
}

}  // namespace

Lot lot(units::Volume volume, units::VolumeStrength strength, units::Temperature t) {
  check_not_negative(volume.litres(), "volume", fmt::format("{:.4f} L", volume.litres()));
  const units::MassFraction p = mass_fraction(strength);
  const units::Mass mass =
      units::Mass::kilograms(density(p, t).kilograms_per_cubic_metre() * volume.cubic_metres());
  return {mass * p.fraction(), mass * (1.0 - p.fraction())};
}

Lot lot(units::Mass mass, units::VolumeStrength strength) {
  check_not_negative(mass.kilograms(), "mass", fmt::format("{:.4f} kg", mass.kilograms()));
  const units::MassFraction p = mass_fraction(strength);
  return {mass * p.fraction(), mass * (1.0 - p.fraction())};
}

units::MassFraction mass_fraction(const Lot& lot) {
  const units::Mass mass = lot.mass();
  if (mass <= units::Mass{}) return {};
  return units::MassFraction::fraction(lot.ethanol / mass);
}

units::VolumeStrength strength(const Lot& lot) { return volume_strength(mass_fraction(lot)); }

units::Volume volume(const Lot& lot, units::Temperature t) {
  return units::Volume::cubic_metres(
      lot.mass().kilograms() / density(mass_fraction(lot), t).kilograms_per_cubic_metre());
}

units::Volume pure_alcohol(const Lot& lot) {
  return units::Volume::cubic_metres(lot.ethanol.kilograms() /
                                     pure_ethanol_20C().kilograms_per_cubic_metre());
}

units::Mass ethanol_in(units::Volume pure_alcohol) {
  return units::Mass::kilograms(pure_alcohol.cubic_metres() *
                                pure_ethanol_20C().kilograms_per_cubic_metre());
}

}  // namespace lynearm::spirit
