// How the wash is divided into charges, and one stripping run of it.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "mash/heat.hpp"
#include "plan/still_parts.hpp"
#include "plan/still_stage.hpp"

namespace lynearm::plan {
namespace {

// A remainder smaller than this part of a charge is not worth a run's fuel and evening.
constexpr double worth_a_run = 0.1;

struct Division {
  int runs = 0;
  units::Volume charge;
  units::Volume left_over;
};

// Equal charges are kinder than full ones and a small last one; a small remainder is left over.
Division divide(units::Volume wash, units::Volume limit, const StripStep& strip) {
  const auto equal = [&](int runs) {
    const units::Volume charge = std::min(wash / runs, limit);
    return Division{runs, charge, std::max(wash - charge * runs, units::Volume{})};
  };
  if (strip.charges) return equal(*strip.charges);
  const units::Volume full = strip.charge.value_or(limit);
  const double charges = wash / full;
  const int whole = static_cast<int>(std::floor(charges + 1e-9));
  const double remainder = std::max(0.0, charges - whole);
  if (whole == 0) return {1, wash, {}};
  if (remainder < worth_a_run) return {whole, full, full * remainder};
  const int runs = whole + 1;
  return {runs, wash / runs, {}};
}

}  // namespace

RunWish strip_wish(const StripStep& step, const Drawn& drawn) {
  RunWish wish;
  wish.spout_temperature = step.spout_temperature;
  // The maker stops at what the glass shows; the glass is off by its own error.
  wish.stop.spout_strength =
      std::max(step.stop + drawn.alcoholmeter_error, units::VolumeStrength::percent(0.2));
  wish.stop_key = "strip.stop";
  wish.stop_shown = fmt::format("{:.1f} %vol", step.stop.percent());
  return wish;
}

StripPlan plan_strip(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
                     const FermentPlan& ferment, bool foams, const vapour::BoilingCurve& curve,
                     std::vector<Finding>& findings) {
  const Boiler& boiler = kit.still.boiler;
  const bool thick = ferment.solids > units::Mass{};
  StripPlan plan;
  plan.foams = foams || thick;
  plan.fill_limit =
      boiler.total * (plan.foams ? boiler.grain_fill : boiler.wash_fill).fraction();
  const Division division = divide(ferment.racked_volume, plan.fill_limit, recipe.strip);
  plan.runs = division.runs;
  const double per_run = division.charge / ferment.racked_volume;
  const wort::Wash charge = ferment.racked * per_run;
  plan.left_over = ferment.racked * (division.left_over / ferment.racked_volume);
  plan.left_over_volume = division.left_over;

  still::Charge pot{wort::lot(charge), charge.extract, kit.place.ambient};
  RunWish wish = strip_wish(recipe.strip, drawn);
  wish.solids = ferment.solids * per_run;
  plan.one = plan_run(pot, wish, kit, drawn, curve);
  // Of the wash as it is gauged, its extract taking room; the same as the ferment's figure.
  plan.one.charge_strength = wort::strength(charge);
  const double runs = plan.runs;
  plan.low_wines = plan.one.collected * runs;
  plan.left_in_pots = plan.one.run.left() * runs;
  plan.lost = plan.one.lost * runs;
  plan.low_wines_volume = spirit::volume(plan.low_wines);
  plan.low_wines_strength = spirit::strength(plan.low_wines);

  if (plan.left_over_volume > units::Volume::litres(0.05)) {
    const double whole_charges = plan.left_over_volume / plan.fill_limit;
    findings.push_back(
        {whole_charges > 0.5 ? Weight::stop : Weight::caution, "wash-left-over", "Strip",
         fmt::format("{} charges of {:.1f} L leave {:.1f} L of wash, {:.2f} L of pure alcohol.",
                     plan.runs, division.charge.litres(), plan.left_over_volume.litres(),
                     spirit::pure_alcohol(wort::lot(plan.left_over)).litres()),
         whole_charges > worth_a_run
             ? fmt::format(
                   "Run {} charges, or make less wash.",
                   static_cast<int>(std::ceil(ferment.racked_volume / plan.fill_limit - 1e-9)))
             : "Hold it for the next strip within a day or two, or let it go."});
  }
  if (division.charge > plan.fill_limit * 1.001) {
    findings.push_back(
        {Weight::caution, "charge-over-fill", "Strip",
         fmt::format("Charges of {:.1f} L are over the {:.1f} L that this wash may "
                     "fill of a {:.1f} L boiler.",
                     division.charge.litres(), plan.fill_limit.litres(), boiler.total.litres()),
         "Charge less: foam carries over into the condenser and can block it."});
  }
  if (foams) {
    findings.push_back(
        {Weight::remark, "wash-foams", "Strip",
         fmt::format("Rye, oats and wheat foam: charges are held to {:.0f} % of the "
                     "boiler.",
                     boiler.grain_fill.percent()),
         "Degas the wash, heat the first quarter hour gently, have an antifoam "
         "at hand."});
  }
  const bool direct = boiler.heat == BoilerHeat::element || boiler.heat == BoilerHeat::flame ||
                      boiler.heat == BoilerHeat::plate;
  if (thick && direct) {
    findings.push_back(
        {Weight::stop, "grain-on-direct-heat", "Strip",
         "The wash is stripped on the grain over direct heat: it scorches.",
         "Press it first, or use a steam jacket or water bath. Direct heat: clear "
         "wash only."});
  }
  run_findings(plan.one, kit, "Strip", findings);
  return plan;
}

}  // namespace lynearm::plan
