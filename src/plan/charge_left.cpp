#include "plan/charge_left.hpp"

#include <fmt/format.h>

#include <cmath>
#include <string>

#include "base/error.hpp"
#include "base/field_names.hpp"
#include "mash/heat.hpp"
#include "plan/element_findings.hpp"
#include "plan/run_plan.hpp"
#include "plan/still_parts.hpp"
#include "spirit/density.hpp"
#include "still/charge.hpp"
#include "units/print.hpp"

namespace lynearm::plan {
namespace {

const char* stage_of(const ChargeFilled& charge) {
  return charge.gentle ? "Spirit run" : "Strip";
}

// A spirit run may be thinned so that enough is left; a strip gets no water.
const char* more_of(const ChargeFilled& charge) {
  return charge.gentle ? "Charge more, with water if need be" : "Charge more";
}

units::Volume room_of(units::Mass grain) {
  return units::Volume::litres(grain.kilograms() * mash::grain_displacement_L_per_kg);
}

// The planned charge in another amount; of another strength it has other spirit in the room
// that its extract and grain leave.
still::Charge filled(const ChargeFilled& charge, const RunPlan& planned, double share) {
  still::Charge pot = planned.charge;
  pot.spirit = pot.spirit * share;
  pot.extract = pot.extract * share;
  if (!charge.strength) return pot;
  const units::Volume liquid = charge.volume - room_of(planned.solids) * share;
  const units::Volume undissolved =
      liquid - still::volume({{}, pot.extract, {}}, spirit::reference_20C);
  const auto within =
      units::VolumeStrength::fraction(charge.strength->fraction() * (liquid / undissolved));
  if (within > units::VolumeStrength::percent(100.0)) {
    throw base::InputError("strength", units::print(*charge.strength),
                           fmt::format("up to {:.1f} %vol beside what is dissolved in the wash",
                                       std::floor(1000.0 * (undissolved / liquid)) / 10.0));
  }
  pot.spirit = spirit::lot(undissolved, within);
  return pot;
}

// What has come over, as it is measured, when the pot has fallen to what the element needs;
// none where it has at the first drop.
std::optional<units::Volume> over_until_bare(const still::Charge& pot, RunWish wish,
                                             const Kit& kit, const Drawn& drawn,
                                             const vapour::BoilingCurve& curve) {
  wish.stop.least_in_pot = kit.still.boiler.element_covered_above - room_of(wish.solids);
  try {
    return spirit::volume(plan_run(pot, wish, kit, drawn, curve).collected);
  } catch (const base::InputError& error) {
    for (const base::Fault& fault : error.faults()) {
      if (fault.field != "run.stop.least_in_pot") throw;
    }
    return std::nullopt;
  }
}

Finding exposed_at_end(const ChargeFilled& charge, const ChargeLeft& of,
                       const std::optional<units::Volume>& over) {
  const auto [left, needs] = units::print_apart(*of.left, of.needs);
  // Rounded down, so that it is still covered there.
  const double until_L = over ? std::floor(10.0 * over->litres()) / 10.0 : 0.0;
  const std::string earlier =
      until_L > 0.0 ? fmt::format("stop earlier, before {:.1f} L has come over", until_L)
                    : std::string("do not heat it");
  return {Weight::danger, "element-exposed", stage_of(charge),
          fmt::format("Of this charge about {} is left in the boiler at the end; the element "
                      "needs {} over it and burns dry.",
                      left, needs),
          fmt::format("{}, or {}.", more_of(charge), earlier)};
}

}  // namespace

ChargeLeft charge_left(const ChargeFilled& charge, const Kit& kit) {
  ChargeLeft of;
  of.needs = kit.still.boiler.element_covered_above;
  if (charge.volume >= of.needs) return of;
  of.findings.push_back(
      charge_bares_element(charge.volume, kit.still.boiler, stage_of(charge)));
  return of;
}

ChargeLeft charge_left(const ChargeFilled& charge, const Recipe& recipe, const Kit& kit,
                       const Plan& plan) {
  ChargeLeft of = charge_left(charge, kit);
  if (!of.findings.empty()) return of;
  const RunPlan& planned = charge.gentle ? plan.spirit.one : plan.strip.one;
  const double share = charge.volume / planned.charge_volume;
  const Drawn drawn = medians(kit);
  const vapour::BoilingCurve curve(kit.place.pressure);
  RunWish wish =
      charge.gentle ? spirit_wish(recipe.spirit_run, drawn) : strip_wish(recipe.strip, drawn);
  wish.solids = planned.solids * share;
  base::with_names({{"charge.spirit", "strength"}, {"run.hold_up", "volume"}}, [&] {
    const still::Charge pot = filled(charge, planned, share);
    const RunPlan run = plan_run(pot, wish, kit, drawn, curve);
    of.left = run.left_in_pot;
    of.spirit_left = run.run.left();
    if (*of.left < of.needs) {
      of.findings.push_back(
          exposed_at_end(charge, of, over_until_bare(pot, wish, kit, drawn, curve)));
    }
  });
  if (*of.left >= of.needs && *of.left < of.needs * element_soon_shows) {
    const auto [left, needs] = units::print_apart(*of.left, of.needs);
    of.findings.push_back(
        {Weight::caution, "element-nearly-exposed", stage_of(charge),
         fmt::format("Of this charge about {} is left over an element that needs {}.", left,
                     needs),
         "Watch the level; stop before it shows."});
  }
  return of;
}

}  // namespace lynearm::plan
