#include "plan/house.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"
#include "vapour/atmosphere.hpp"

namespace lynearm::plan {
namespace {

std::optional<units::Duration> time_by(const mash::Cooling& cooling, units::HeatCapacity body,
                                       units::Temperature from, units::Temperature to) {
  if ((cooling.vessel + cooling.coil).watts_per_kelvin() <= 0.0) return std::nullopt;
  if (mash::settling_temperature(cooling) >= to) return std::nullopt;
  return mash::time_to_cool(from, to, body, cooling);
}

}  // namespace

units::Temperature boiling_water(const Kit& kit) {
  // The tables of water's volume end at 100 °C; what lies above it at the highest pressures,
  // 0.7 K at most, is left out.
  return std::min(vapour::water_boiling_point(kit.place.pressure),
                  units::Temperature::celsius(100.0));
}

mash::Cooling cooling_of(const Vessel& vessel, CoolBy by, const Kit& kit, const Drawn& drawn) {
  const double factor = drawn.heat_loss_factor.fraction();
  mash::Cooling cooling;
  cooling.vessel = (by == CoolBy::lid_off ? vessel.loss_open : vessel.loss_lid_on) * factor;
  cooling.ambient = kit.place.ambient;
  if (by == CoolBy::coil) {
    cooling.coil = vessel.cooling_coil;
    cooling.coil_water = kit.liquor.cold;
  }
  return cooling;
}

CoolingPlan plan_cooling(const Vessel& vessel, units::HeatCapacity body,
                         units::Temperature from, units::Temperature to, CoolBy by,
                         const Kit& kit, const Drawn& drawn) {
  CoolingPlan plan{from, to, units::Duration::hours(-1.0),
                   {},   {}, units::Duration::hours(-1.0)};
  const auto way = [&](CoolBy chosen) {
    return time_by(cooling_of(vessel, chosen, kit, drawn), body, from, to);
  };
  const std::optional<units::Duration> lid_on = way(CoolBy::lid_on);
  if (lid_on) plan.lid_on = *lid_on;
  if (vessel.loss_open > vessel.loss_lid_on) plan.lid_off = way(CoolBy::lid_off);
  if (vessel.cooling_coil > units::HeatLoss{}) plan.with_coil = way(CoolBy::coil);
  std::optional<units::Duration> planned = lid_on;
  if (by == CoolBy::lid_off && plan.lid_off) {
    planned = plan.lid_off;
    plan.by = CoolBy::lid_off;
  } else if (by == CoolBy::coil && plan.with_coil) {
    planned = plan.with_coil;
    plan.by = CoolBy::coil;
  }
  if (planned) plan.planned = *planned;
  return plan;
}

void watch_fullness(const Vessel& vessel, units::Volume fullest, const std::string& stage,
                    const std::string& when, std::vector<Finding>& findings) {
  if (fullest > vessel.total) {
    findings.push_back(
        {Weight::stop, "vessel-overfilled", stage,
         fmt::format("The {} would hold {:.1f} L {}, and its brim is at {:.1f} L.", vessel.name,
                     fullest.litres(), when, vessel.total.litres()),
         fmt::format("Take {:.1f} L less, a larger vessel, or a smaller batch.",
                     (fullest - vessel.working).litres())});
  } else if (fullest > vessel.working) {
    findings.push_back(
        {Weight::caution, "vessel-too-full", stage,
         fmt::format("The {} holds {:.1f} L {}: {:.1f} L over its safe {:.1f} L.", vessel.name,
                     fullest.litres(), when, (fullest - vessel.working).litres(),
                     vessel.working.litres()),
         fmt::format("Hold back {:.1f} L, or scale the batch down.",
                     (fullest - vessel.working).litres())});
  }
}

units::Energy drawn_to_heat(const mash::Contents& contents, units::Temperature to,
                            const Kit& kit) {
  const double rise_K = std::max(0.0, (to - contents.temperature).kelvins());
  return units::Energy::joules(mash::heat_capacity(contents).joules_per_kelvin() * rise_K /
                               kit.still.boiler.heat_efficiency.fraction());
}

const Vessel& vessel_named(const Kit& kit, const std::string& name) {
  const Vessel* vessel = kit.vessel(name);
  base::ensure(vessel != nullptr, fmt::format("the kit has the vessel \"{}\"", name));
  return *vessel;
}

}  // namespace lynearm::plan
