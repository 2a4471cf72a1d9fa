#include "spirit/check_obscured.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"
#include "spirit/oak_tea.hpp"
#include "spirit/reduction_checks.hpp"

namespace lynearm::spirit {

ObscuredLot obscured_lot(units::Mass mass, units::VolumeStrength true_strength,
                         units::MassConcentration residue, double solids_mL_per_g) {
  check_amount(mass, "mass");
  const ObscuredLot litre = obscured_lot(units::Volume::litres(1.0), true_strength, residue,
                                         reference_20C, solids_mL_per_g);
  return litre * (mass / litre.mass());
}

ObscuredCorrection correct(const ObscuredLot& found, units::VolumeStrength wanted,
                           const ObscuredLot& strong, units::VolumeStrength near,
                           double solids_mL_per_g) {
  check_amount(found.spirit, "found");
  if (!(found.spirit.ethanol > units::Mass{})) {
    throw base::InputError("found", "0.00 %vol", "a spirit of some strength");
  }
  check_wanted(wanted, "wanted");
  if (!(near.fraction() >= 0.0 && near.fraction() <= 1.0)) {
    throw base::InputError("near", fmt::format("{:.3f} %vol", near.percent()),
                           "a difference in strength, zero or more");
  }
  constexpr double rounding = 1e-12;
  const double over = (true_strength(found, solids_mL_per_g) - wanted).fraction();
  ObscuredCorrection out;
  out.result = found;
  if (std::abs(over) <= std::fmax(near.fraction(), rounding)) return out;
  if (over > 0.0) {
    const ObscuredReduction reduction = reduce(found, wanted, solids_mL_per_g);
    out.remedy = Remedy::add_water;
    out.water = reduction.water;
    out.result = reduction.result;
    return out;
  }
  const units::VolumeStrength own = true_strength(strong, solids_mL_per_g);
  if (!(own > wanted)) {
    throw base::InputError("strong", fmt::format("{:.2f} %vol", own.percent()),
                           fmt::format("a spirit above {:.2f} %vol, since what was found is "
                                       "too weak",
                                       wanted.percent()));
  }
  // So much of what was found brings `strong` down to what is wanted; turned around.
  const units::Mass takes =
      reduce_with_tea_only(strong, found, wanted, solids_mL_per_g).tea.mass();
  out.remedy = Remedy::add_spirit;
  out.spirit = strong * (found.mass() / takes);
  out.result = found + out.spirit;
  return out;
}

Mistake mistake(const ObscuredLot& spirit, const ObscuredLot& besides, units::Mass water,
                const ObscuredLot& found, double solids_mL_per_g) {
  Mistake out = mistake(spirit.spirit, water, found.spirit, besides.spirit);
  const ObscuredLot planned = spirit + besides + ObscuredLot{{{}, water}, {}};
  out.mass = found.mass() - planned.mass();
  out.strength =
      true_strength(found, solids_mL_per_g) - true_strength(planned, solids_mL_per_g);
  if (out.spirit_strength) {
    const ObscuredLot was{lot(spirit.spirit.mass(), *out.spirit_strength), spirit.solids};
    out.spirit_strength = true_strength(was, solids_mL_per_g);
  }
  if (out.spirit_mass) {
    out.spirit_mass = *out.spirit_mass * (spirit.mass() / spirit.spirit.mass());
  }
  return out;
}

}  // namespace lynearm::spirit
