#include "journal/meaning.hpp"

#include <algorithm>

#include "ferment/yield.hpp"
#include "numeric/root.hpp"
#include "spirit/check_obscured.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/strength.hpp"
#include "wort/refractometer.hpp"
#include "wort/saccharometer.hpp"
#include "wort/wash.hpp"

namespace lynearm::journal {

using units::Plato;
using units::SpecificGravity;

units::VolumeStrength true_strength(const StrengthRead& read) {
  return spirit::volume_strength(spirit::true_mass_fraction(read.reading, read.at));
}

spirit::Lot lot_of(const VolumeRead& volume, const StrengthRead& strength) {
  return spirit::lot(volume.volume, true_strength(strength), volume.at);
}

spirit::Lot lot_of(const VolumeRead& volume, const StrengthRead& strength,
                   units::MassConcentration residue) {
  const units::VolumeStrength truly = spirit::true_strength(true_strength(strength), residue);
  return spirit::obscured_lot(volume.volume, truly, residue, volume.at).spirit;
}

spirit::Lot lot_of(units::Mass mass, const StrengthRead& strength,
                   units::MassConcentration residue) {
  const units::VolumeStrength truly = spirit::true_strength(true_strength(strength), residue);
  return spirit::obscured_lot(mass, truly, residue).spirit;
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

units::Volume watery_volume(const VolumeRead& volume) {
  const auto at = std::clamp(volume.at, units::Temperature::celsius(0.0),
                             units::Temperature::celsius(100.0));
  return volume.volume * (wort::water_density(at) / wort::water_at_20C);
}

spirit::Lot made_up_to(const spirit::Lot& lot, const VolumeRead& to) {
  const auto filled = [&](double water_kg) {
    return spirit::volume(
        spirit::Lot{lot.ethanol, lot.water + units::Mass::kilograms(water_kg)}, to.at);
  };
  if (filled(0.0) >= to.volume) return lot;
  const double all_water_kg = spirit::lot(to.volume, {}, to.at).water.kilograms();
  const auto over_L = [&](double water_kg) { return (filled(water_kg) - to.volume).litres(); };
  const double water_kg =
      over_L(all_water_kg) <= 0.0
          ? all_water_kg
          : numeric::root_between(over_L, 0.0, all_water_kg, "water to make up a charge").value;
  return {lot.ethanol, lot.water + units::Mass::kilograms(water_kg)};
}

units::Mass extract_in(units::Volume volume, SpecificGravity gravity) {
  return wort::wort(volume, wort::plato(gravity)).extract;
}

units::VolumeStrength wash_strength(SpecificGravity original, SpecificGravity now) {
  constexpr ferment::Sugars all{units::Share::fraction(1.0), ferment::hexose_per_disaccharide};
  const wort::Wort before = wort::wort(units::Mass::kilograms(100.0), wort::plato(original));
  if (before.extract <= units::Mass{}) return {};
  const auto after = [&](double done) {
    return ferment::ferment(before, all, ferment::usual_yield, units::Share::fraction(done))
        .wash;
  };
  const auto over = [&](double done) {
    return wort::specific_gravity(after(done)).ratio() - now.ratio();
  };
  if (over(0.0) <= 0.0) return {};
  const double done =
      over(1.0) >= 0.0 ? 1.0
                       : numeric::root_between(over, 0.0, 1.0, "wash by its gravities").value;
  return wort::strength(after(done));
}

}  // namespace lynearm::journal
