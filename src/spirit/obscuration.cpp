#include "spirit/obscuration.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"
#include "numeric/root.hpp"
#include "spirit/reduction_checks.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::MassConcentration;
using units::MassFraction;
using units::VolumeStrength;

void check_solids(double solids_mL_per_g) {
  if (!(solids_mL_per_g >= least_solids_mL_per_g && solids_mL_per_g <= most_solids_mL_per_g)) {
    throw base::InputError(
        "solids_mL_per_g", fmt::format("{:.3f} mL/g", solids_mL_per_g),
        fmt::format("{:.2f} to {:.2f} mL/g; sucrose takes {:.2f}", least_solids_mL_per_g,
                    most_solids_mL_per_g, sucrose_mL_per_g));
  }
}

void check_lot(const ObscuredLot& lot) {
  check_amount(lot.spirit, "spirit");
  check_amount(lot.solids, "solids");
}

void check_residue(MassConcentration residue) {
  if (!(residue >= MassConcentration{} && residue <= most_residue)) {
    throw base::InputError("residue", fmt::format("{:.3f} g/L", residue.grams_per_litre()),
                           fmt::format("0 to {:.0f} g/L; more is a liqueur, to be distilled",
                                       most_residue.grams_per_litre()));
  }
}

void check_strength(VolumeStrength strength, const char* field) {
  if (!(strength.fraction() >= 0.0 && strength.fraction() <= 1.0)) {
    throw base::InputError(field, fmt::format("{:.2f} %vol", strength.percent()),
                           "0 to 100 %vol");
  }
}

// Litres that the solids take in a litre.
double solids_part(MassConcentration residue, double solids_mL_per_g) {
  return residue.grams_per_litre() * solids_mL_per_g * 1e-3;
}

double kgm3(MassFraction p) { return density(p, reference_20C).kilograms_per_cubic_metre(); }

// Density at 20 °C of a spirit of this true strength: a litre of it is solids, and around them
// ethanol and water that are stronger by so much.
double density_kgm3(VolumeStrength true_strength, MassConcentration residue,
                    double solids_mL_per_g) {
  const double room = 1.0 - solids_part(residue, solids_mL_per_g);
  const VolumeStrength around = true_strength / room;
  if (!(around.fraction() <= 1.0)) {
    throw base::InputError(
        "strength", fmt::format("{:.2f} %vol", true_strength.percent()),
        fmt::format("at most {:.2f} %vol: the solids take the rest", 100.0 * room));
  }
  return kgm3(mass_fraction(around)) * room + residue.grams_per_litre();
}

}  // namespace

units::Volume volume(const ObscuredLot& lot, units::Temperature t, double solids_mL_per_g) {
  check_solids(solids_mL_per_g);
  check_lot(lot);
  return volume(lot.spirit, t) +
         units::Volume::millilitres(lot.solids.grams() * solids_mL_per_g);
}

units::Density density(const ObscuredLot& lot, units::Temperature t, double solids_mL_per_g) {
  const units::Volume filled = volume(lot, t, solids_mL_per_g);
  if (!(filled > units::Volume{})) {
    throw base::InputError("spirit", "0.0000 kg", "a lot that is not empty");
  }
  return units::Density::kilograms_per_cubic_metre(lot.mass().kilograms() /
                                                   filled.cubic_metres());
}

MassConcentration residue(const ObscuredLot& lot, double solids_mL_per_g) {
  const units::Volume filled = volume(lot, reference_20C, solids_mL_per_g);
  if (!(filled > units::Volume{})) return {};
  return MassConcentration::grams_per_litre(lot.solids.grams() / filled.litres());
}

VolumeStrength true_strength(const ObscuredLot& lot, double solids_mL_per_g) {
  const units::Volume filled = volume(lot, reference_20C, solids_mL_per_g);
  if (!(filled > units::Volume{})) return {};
  return VolumeStrength::fraction(pure_alcohol(lot.spirit) / filled);
}

VolumeStrength apparent_strength(const ObscuredLot& lot, double solids_mL_per_g) {
  const units::Density shown = density(lot, reference_20C, solids_mL_per_g);
  // The heaviest the alcoholmeter reads is water; a lot of water alone may round past it.
  constexpr double rounding = 1e-9;
  if (!(shown.kilograms_per_cubic_metre() <= kgm3(MassFraction{}) + rounding)) {
    throw base::InputError(
        "spirit", fmt::format("{:.3f} kg/m³", shown.kilograms_per_cubic_metre()),
        "a spirit lighter than water: in this one an alcoholmeter shows nothing");
  }
  return volume_strength(mass_fraction_at(shown, reference_20C));
}

ObscuredLot obscured_lot(units::Volume filled, VolumeStrength strength,
                         MassConcentration residue, units::Temperature t,
                         double solids_mL_per_g) {
  check_solids(solids_mL_per_g);
  check_strength(strength, "strength");
  check_residue(residue);
  const double mass_kg = density_kgm3(strength, residue, solids_mL_per_g) * 1e-3;
  const units::Mass ethanol = ethanol_in(units::Volume::litres(strength.fraction()));
  const units::Mass solids = units::Mass::grams(residue.grams_per_litre());
  const units::Mass water =
      std::max(units::Mass{}, units::Mass::kilograms(mass_kg) - ethanol - solids);
  const ObscuredLot litre{{ethanol, water}, solids};
  const double times = filled / volume(litre, t, solids_mL_per_g);
  const ObscuredLot lot = litre * times;
  check_amount(lot.mass(), "volume");
  return lot;
}

VolumeStrength true_strength(VolumeStrength apparent, MassConcentration residue,
                             double solids_mL_per_g) {
  check_solids(solids_mL_per_g);
  check_strength(apparent, "apparent");
  check_residue(residue);
  if (residue == MassConcentration{}) return apparent;
  // A litre as read; take the solids out, mass and volume, and gauge what is left.
  const double shown_kgm3 = kgm3(mass_fraction(apparent));
  const double room = 1.0 - solids_part(residue, solids_mL_per_g);
  const double around_kgm3 = (shown_kgm3 - residue.grams_per_litre()) / room;
  const double lightest = kgm3(MassFraction::fraction(1.0));
  if (!(around_kgm3 >= lightest)) {
    throw base::InputError(
        "residue", fmt::format("{:.3f} g/L", residue.grams_per_litre()),
        fmt::format(
            "at most {:.3f} g/L: with more, {:.2f} %vol would be more than pure alcohol",
            (shown_kgm3 - lightest) / (1.0 - lightest * solids_mL_per_g * 1e-3),
            apparent.percent()));
  }
  const MassFraction around =
      mass_fraction_at(units::Density::kilograms_per_cubic_metre(around_kgm3), reference_20C);
  return volume_strength(around) * room;
}

VolumeStrength apparent_strength(VolumeStrength strength, MassConcentration residue,
                                 double solids_mL_per_g) {
  check_solids(solids_mL_per_g);
  check_strength(strength, "strength");
  check_residue(residue);
  if (residue == MassConcentration{}) return strength;
  const double shown_kgm3 = density_kgm3(strength, residue, solids_mL_per_g);
  if (!(shown_kgm3 <= kgm3(MassFraction{}))) {
    throw base::InputError("apparent", fmt::format("{:.3f} kg/m³", shown_kgm3),
                           "a spirit lighter than water: in this one an alcoholmeter shows "
                           "nothing");
  }
  return volume_strength(
      mass_fraction_at(units::Density::kilograms_per_cubic_metre(shown_kgm3), reference_20C));
}

MassConcentration residue(VolumeStrength apparent, VolumeStrength strength,
                          double solids_mL_per_g) {
  check_solids(solids_mL_per_g);
  check_strength(apparent, "apparent");
  check_strength(strength, "strength");
  const double shown_kgm3 = kgm3(mass_fraction(apparent));
  // Grams a litre that still leave room for the ethanol, and none of it for water.
  const double room_g_per_L = (1.0 - strength.fraction()) / (solids_mL_per_g * 1e-3);
  const double most_g_per_L = std::min(most_residue.grams_per_litre(), room_g_per_L);
  const auto miss_kgm3 = [&](double share) {
    return density_kgm3(strength, MassConcentration::grams_per_litre(share * most_g_per_L),
                        solids_mL_per_g) -
           shown_kgm3;
  };
  if (strength == apparent) return {};
  const bool within = strength > apparent && miss_kgm3(1.0) >= 0.0;
  if (!within) {
    throw base::InputError(
        "strength", fmt::format("{:.2f} %vol", strength.percent()),
        fmt::format(
            "at or above the apparent {:.2f} %vol, by no more than {:.0f} g/L of solids "
            "explain",
            apparent.percent(), most_residue.grams_per_litre()));
  }
  const numeric::Root root = numeric::root_between(miss_kgm3, 0.0, 1.0, "residue of a spirit");
  return MassConcentration::grams_per_litre(root.value * most_g_per_L);
}

}  // namespace lynearm::spirit
