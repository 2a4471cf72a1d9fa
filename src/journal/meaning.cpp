#include "journal/meaning.hpp"

#include <algorithm>

#include "spirit/hydrometer.hpp"
#include "spirit/strength.hpp"
#include "wort/attenuation.hpp"
#include "wort/refractometer.hpp"
#include "wort/saccharometer.hpp"

namespace lynearm::journal {

using units::Plato;
using units::SpecificGravity;

units::VolumeStrength true_strength(const StrengthRead& read) {
  return spirit::volume_strength(spirit::true_mass_fraction(read.reading, read.at));
}

spirit::Lot lot_of(const VolumeRead& volume, const StrengthRead& strength) {
  return spirit::lot(volume.volume, true_strength(strength), volume.at);
}

SpecificGravity wort_gravity(const GravityRead& read) {
  switch (read.scale) {
    case GravityScale::specific_gravity:
      return wort::true_gravity(SpecificGravity::ratio(read.figure), read.at);
    case GravityScale::plato:
      return wort::true_gravity(Plato::degrees(read.figure), read.at);
    case GravityScale::brix:
      break;
  }
  return wort::specific_gravity(wort::extract(wort::Brix::degrees(read.figure), read.at));
}

SpecificGravity wash_gravity(const GravityRead& read, SpecificGravity original) {
  if (read.scale != GravityScale::brix) return wort_gravity(read);
  return wort::wash_of_original(wort::plato(original), wort::Brix::degrees(read.figure),
                                read.at)
      .gravity;
}

units::Volume wort_volume(const VolumeRead& volume, SpecificGravity gravity) {
  return wort::volume(wort::wort(volume.volume, wort::plato(gravity), volume.at));
}

units::Mass extract_in(units::Volume volume, SpecificGravity gravity) {
  return wort::wort(volume, wort::plato(gravity)).extract;
}

units::VolumeStrength wash_strength(SpecificGravity original, SpecificGravity now) {
  const Plato before = wort::plato(original);
  // Balling's formulas, fitted to beer, find a little less than nothing left in a wash that
  // ends under water's gravity.
  const Plato left = std::clamp(wort::real_extract(before, wort::plato(now)), Plato{}, before);
  return wort::alcohol_by_volume(wort::alcohol_by_mass(before, left), now);
}

}  // namespace lynearm::journal
