#include "spirit/oak_tea.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"
#include "numeric/root.hpp"
#include "spirit/reduction.hpp"
#include "spirit/reduction_checks.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

// Asking for the strength it already has adds no water; rounding must not make that an error.
constexpr double rounding = 1e-12;

void check_to(const ObscuredLot& spirit, units::VolumeStrength to, double solids_mL_per_g) {
  const units::VolumeStrength own = true_strength(spirit, solids_mL_per_g);
  if (!(to.fraction() > 0.0 && to.fraction() <= own.fraction() + rounding)) {
    throw base::InputError(
        "to", fmt::format("{:.2f} %vol", to.percent()),
        fmt::format("above 0 and at most the spirit's own true {:.2f} %vol; water cannot "
                    "strengthen it",
                    own.percent()));
  }
}

ObscuredReduction made(const ObscuredLot& spirit, const ObscuredLot& tea, units::Mass water,
                       double solids_mL_per_g) {
  const auto litres = [&](const ObscuredLot& lot) {
    return volume(lot, reference_20C, solids_mL_per_g);
  };
  const ObscuredLot added{{{}, water}, {}};
  ObscuredReduction out;
  out.tea = tea;
  out.water = water;
  out.result = spirit + tea + added;
  out.volume_at_20C = litres(out.result);
  out.contraction = litres(spirit) + litres(tea) + litres(added) - out.volume_at_20C;
  out.true_strength = true_strength(out.result, solids_mL_per_g);
  out.apparent_strength = apparent_strength(out.result, solids_mL_per_g);
  out.residue = residue(out.result, solids_mL_per_g);
  return out;
}

// At the wanted strength the whole fills a known volume; less the solids' own, the ethanol and
// water fill the rest, and so have a known strength of their own.
units::Mass water_to(const ObscuredLot& lot, units::VolumeStrength to, double solids_mL_per_g) {
  const units::Volume alcohol = pure_alcohol(lot.spirit);
  const units::Volume whole = alcohol / to.fraction();
  const units::Volume rest =
      whole - units::Volume::millilitres(lot.solids.grams() * solids_mL_per_g);
  // Where water is not wanted, rounding must not ask for spirit instead.
  const double around = std::min(alcohol / rest, strength(lot.spirit).fraction());
  return reduce(lot.spirit, units::VolumeStrength::fraction(around)).water;
}

// How much of `tea` alone brings `spirit` to `to`, as a multiple of `tea`.
double times_tea(const ObscuredLot& spirit, const ObscuredLot& tea, units::VolumeStrength to,
                 double solids_mL_per_g) {
  // Pure alcohol beyond the wanted strength, litres; falls with tea.
  const auto beyond = [&](double times) {
    const ObscuredLot mixed = spirit + tea * times;
    return pure_alcohol(mixed.spirit).litres() -
           to.fraction() * volume(mixed, reference_20C, solids_mL_per_g).litres();
  };
  const double at_none = beyond(0.0);
  if (at_none <= 0.0) return 0.0;
  // Beyond and lacking, were there no contraction, balance near here; contraction asks for a
  // little more, which the doubling finds.
  const double lacking = to.fraction() * volume(tea, reference_20C, solids_mL_per_g).litres() -
                         pure_alcohol(tea.spirit).litres();
  const double unit = at_none / lacking;
  double high = 1.0;
  while (beyond(high * unit) > 0.0) high *= 2.0;
  const auto scaled = [&](double share) { return beyond(share * high * unit) / at_none; };
  return numeric::root_between(scaled, 0.0, 1.0, "tea to a strength", {1e-15, 200}).value *
         high * unit;
}

bool under(const ObscuredLot& tea, units::VolumeStrength to, double solids_mL_per_g) {
  return true_strength(tea, solids_mL_per_g) < to;
}

}  // namespace

ObscuredReduction reduce(const ObscuredLot& spirit, units::VolumeStrength to,
                         double solids_mL_per_g) {
  check_to(spirit, to, solids_mL_per_g);
  return made(spirit, {}, water_to(spirit, to, solids_mL_per_g), solids_mL_per_g);
}

ObscuredReduction reduce_with_tea(const ObscuredLot& spirit, const ObscuredLot& tea,
                                  units::VolumeStrength to, double solids_mL_per_g) {
  check_to(spirit, to, solids_mL_per_g);
  const ObscuredLot both = spirit + tea;
  const units::VolumeStrength mixed = true_strength(both, solids_mL_per_g);
  if (!(to.fraction() <= mixed.fraction() + rounding)) {
    const ObscuredLot most = tea * times_tea(spirit, tea, to, solids_mL_per_g);
    throw base::InputError(
        "tea",
        fmt::format("{:.3f} L of true {:.2f} %vol",
                    volume(tea, reference_20C, solids_mL_per_g).litres(),
                    true_strength(tea, solids_mL_per_g).percent()),
        fmt::format("at most {:.3f} L ({:.3f} kg) of it; more brings the spirit under {:.2f} "
                    "%vol without any water",
                    rounded_down(volume(most, reference_20C, solids_mL_per_g).litres(), 3),
                    rounded_down(most.mass().kilograms(), 3), to.percent()));
  }
  return made(spirit, tea, water_to(both, to, solids_mL_per_g), solids_mL_per_g);
}

ObscuredReduction reduce_with_tea_only(const ObscuredLot& spirit, const ObscuredLot& tea,
                                       units::VolumeStrength to, double solids_mL_per_g) {
  check_to(spirit, to, solids_mL_per_g);
  if (!(tea.mass() > units::Mass{} && under(tea, to, solids_mL_per_g))) {
    throw base::InputError(
        "tea",
        fmt::format("{:.4f} kg of true {:.2f} %vol", tea.mass().kilograms(),
                    true_strength(tea, solids_mL_per_g).percent()),
        fmt::format("some tea under {:.2f} %vol, the strength wanted", to.percent()));
  }
  return made(spirit, tea * times_tea(spirit, tea, to, solids_mL_per_g), {}, solids_mL_per_g);
}

}  // namespace lynearm::spirit
