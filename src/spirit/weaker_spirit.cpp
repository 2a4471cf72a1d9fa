#include "spirit/weaker_spirit.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"
#include "spirit/density.hpp"
#include "spirit/reduction_checks.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

WeakerReduction made(const Lot& spirit, const Lot& weaker, units::Mass water,
                     units::Mass water_alone) {
  const Blend mixed = blend({spirit, weaker, {{}, water}});
  return {weaker,           water, water_alone - water, mixed.result, mixed.volume_at_20C,
          mixed.contraction};
}

double density_20C_kgm3(double p) {
  return density(units::MassFraction::fraction(p), reference_20C).kilograms_per_cubic_metre();
}

}  // namespace

WeakerReduction reduce_with(const Lot& spirit, const Lot& weaker, units::VolumeStrength to) {
  check_amount(weaker, "weaker");
  const units::Mass alone = reduce(spirit, to).water;
  const Lot both = spirit + weaker;
  const double to_p = mass_fraction(to).fraction();
  // What the spirit has above the target must carry what the weaker lacks.
  const units::Mass above = spirit.ethanol - spirit.mass() * to_p;
  const units::Mass lacking = weaker.mass() * to_p - weaker.ethanol;
  constexpr double rounding = 1e-12;
  if (lacking > above + both.mass() * rounding) {
    const Lot most = weaker * std::max(0.0, above / lacking);
    throw base::InputError(
        "weaker",
        fmt::format("{:.3f} L of {:.2f} %vol", volume(weaker).litres(),
                    strength(weaker).percent()),
        fmt::format("at most {:.3f} L ({:.3f} kg) of it; more brings the spirit under {:.2f} "
                    "%vol without any water",
                    rounded_down(volume(most).litres(), 3),
                    rounded_down(most.mass().kilograms(), 3), to.percent()));
  }
  const units::Mass water = std::max(units::Mass{}, (above - lacking) / to_p);
  return made(spirit, weaker, water, alone);
}

WeakerReduction reduce_with_share(const Lot& spirit, units::VolumeStrength weaker,
                                  units::Share share, units::VolumeStrength to, ShareBy by) {
  const units::Mass alone = reduce(spirit, to).water;
  if (!(share.fraction() >= 0.0 && share.fraction() <= 1.0)) {
    throw base::InputError("share", fmt::format("{:.2f} %", share.percent()), "0 to 100 %");
  }
  const double to_p = mass_fraction(to).fraction();
  const double weaker_p = mass_fraction(weaker).fraction();
  const double weaker_kgm3 = by == ShareBy::volume ? density_20C_kgm3(weaker_p) : 1.0;
  const double water_kgm3 = by == ShareBy::volume ? density_20C_kgm3(0.0) : 1.0;
  const double weaker_part = share.fraction() * weaker_kgm3;
  const double water_part = (1.0 - share.fraction()) * water_kgm3;
  const double by_mass = weaker_part / (weaker_part + water_part);
  const double diluent_p = by_mass * weaker_p;
  if (!(diluent_p < to_p)) {
    // Where the diluent has the target's own strength: no amount of it lowers the spirit to it.
    const double limit = to_p / weaker_p;
    const double limit_share =
        limit * water_kgm3 / (limit * water_kgm3 + (1.0 - limit) * weaker_kgm3);
    throw base::InputError(
        "share", fmt::format("{:.2f} % of {:.2f} %vol", share.percent(), weaker.percent()),
        fmt::format("under {:.2f} %, where the diluent itself is {:.2f} %vol",
                    rounded_down(100.0 * limit_share, 2), to.percent()));
  }
  const units::Mass above = std::max(units::Mass{}, spirit.ethanol - spirit.mass() * to_p);
  const units::Mass diluent = above / (to_p - diluent_p);
  const units::Mass weaker_mass = diluent * by_mass;
  return made(spirit, {weaker_mass * weaker_p, weaker_mass * (1.0 - weaker_p)},
              diluent * (1.0 - by_mass), alone);
}

WeakerReduction reduce_with_only(const Lot& spirit, units::VolumeStrength weaker,
                                 units::VolumeStrength to) {
  check_wanted(to, "to");
  if (!(weaker.fraction() >= 0.0 && weaker < to)) {
    throw base::InputError("weaker", fmt::format("{:.2f} %vol", weaker.percent()),
                           fmt::format("0 to under {:.2f} %vol, the strength wanted: no amount "
                                       "of stronger spirit brings it there",
                                       to.percent()));
  }
  return reduce_with_share(spirit, weaker, units::Share::fraction(1.0), to, ShareBy::mass);
}

}  // namespace lynearm::spirit
