#include "spirit/check_reading.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"
#include "spirit/reduction_checks.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

void check_spirit(const Lot& lot, const char* field) {
  check_amount(lot, field);
  if (!(lot.ethanol > units::Mass{})) {
    throw base::InputError(field, "0.00 %vol", "a spirit of some strength");
  }
}

}  // namespace

Correction correct(const Lot& found, units::VolumeStrength wanted,
                   std::optional<units::VolumeStrength> strong, units::VolumeStrength near) {
  check_spirit(found, "found");
  check_wanted(wanted, "wanted");
  if (!(near.fraction() >= 0.0 && near.fraction() <= 1.0)) {
    throw base::InputError("near", fmt::format("{:.3f} %vol", near.percent()),
                           "a difference in strength, zero or more");
  }
  constexpr double rounding = 1e-12;
  const double over = (strength(found) - wanted).fraction();
  Correction out;
  if (std::abs(over) <= std::fmax(near.fraction(), rounding)) {
    out.result = found;
  } else if (over > 0.0) {
    const Reduction reduction = reduce(found, wanted);
    out.remedy = Remedy::add_water;
    out.water = reduction.water;
    out.result = reduction.result;
  } else {
    if (!strong || !(*strong > wanted && strong->fraction() <= 1.0)) {
      throw base::InputError(
          "strong", strong ? fmt::format("{:.2f} %vol", strong->percent()) : "",
          fmt::format("a spirit above {:.2f} %vol, since what was found is too weak",
                      wanted.percent()));
    }
    const double wanted_p = mass_fraction(wanted).fraction();
    const double strong_p = mass_fraction(*strong).fraction();
    const units::Mass add = (found.mass() * wanted_p - found.ethanol) / (strong_p - wanted_p);
    out.remedy = Remedy::add_spirit;
    out.spirit = {add * strong_p, add * (1.0 - strong_p)};
    out.result = found + out.spirit;
  }
  out.volume_at_20C = volume(out.result);
  return out;
}

Mistake mistake(const Lot& spirit, units::Mass water, const Lot& found, const Lot& besides) {
  check_spirit(spirit, "spirit");
  check_amount(water, "water");
  check_amount(besides, "besides");
  check_spirit(found, "found");
  const Lot planned = spirit + besides + Lot{{}, water};
  const double found_p = mass_fraction(found).fraction();
  const double spirit_p = mass_fraction(spirit).fraction();
  Mistake out;
  out.mass = found.mass() - planned.mass();
  out.pure_alcohol = pure_alcohol(found) - pure_alcohol(planned);
  out.strength = strength(found) - strength(planned);
  out.water = planned.ethanol / found_p - planned.mass();
  const double would_be_p = (planned.mass() * found_p - besides.ethanol) / spirit.mass();
  if (would_be_p >= 0.0 && would_be_p <= 1.0) {
    out.spirit_strength = volume_strength(units::MassFraction::fraction(would_be_p));
  }
  // What all but the spirit lacks of the strength found, over what the spirit has beyond it.
  const units::Mass lacking = (water + besides.mass()) * found_p - besides.ethanol;
  if (lacking > units::Mass{} && spirit_p > found_p) {
    out.spirit_mass = lacking / (spirit_p - found_p) - spirit.mass();
  }
  return out;
}

}  // namespace lynearm::spirit
