#include "wort/wash.hpp"

namespace lynearm::wort {

units::Volume volume(const Wash& wash, units::Temperature t) {
  const units::Volume spirit_volume = spirit::volume(lot(wash), t);
  if (wash.extract.kilograms() == 0.0) return spirit_volume;
  // What the extract adds to that much water alone.
  const units::Volume added =
      volume(Wort{wash.water, wash.extract}, t) - volume(Wort{wash.water, {}}, t);
  return spirit_volume + added;
}

units::SpecificGravity specific_gravity(const Wash& wash) {
  if (wash.mass().kilograms() <= 0.0) return units::SpecificGravity::ratio(1.0);
  return units::SpecificGravity::ratio(wash.mass().kilograms() / volume(wash).cubic_metres() /
                                       water_at_20C.kilograms_per_cubic_metre());
}

units::VolumeStrength strength(const Wash& wash) {
  if (wash.mass().kilograms() <= 0.0) return {};
  return units::VolumeStrength::fraction(spirit::pure_alcohol(lot(wash)) / volume(wash));
}

units::Plato real_extract(const Wash& wash) {
  if (wash.mass().kilograms() <= 0.0) return {};
  return units::Plato::degrees(100.0 * (wash.extract / wash.mass()));
}

}  // namespace lynearm::wort
