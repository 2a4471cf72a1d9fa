// The spirit run: the charge made up of low wines, feints and water, the run, and its cuts.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "numeric/root.hpp"
#include "plan/still_parts.hpp"
#include "plan/still_prior.hpp"
#include "spirit/density.hpp"
#include "spirit/reduction.hpp"
#include "spirit/strength.hpp"

namespace lynearm::plan {
namespace {

struct MadeUp {
  spirit::Lot charge;
  units::Mass water;
};

// The fill limit is a habit, not an edge: a charge a little over it is one charge.
constexpr double hardly_over = 1.005;

// Feints and a share of the low wines, with the water that brings them to the wanted strength.
MadeUp made_up(const spirit::Lot& feints, const spirit::Lot& low_wines, double share,
               units::VolumeStrength at_most) {
  MadeUp made{feints + low_wines * share, {}};
  if (made.charge.mass() <= units::Mass{}) return made;
  if (spirit::strength(made.charge) > at_most) {
    const spirit::Reduction reduction = spirit::reduce(made.charge, at_most);
    made.charge = reduction.result;
    made.water = reduction.water;
  }
  return made;
}

// A border on the run that was computed: where it lies, or the end when it is never reached.
struct Found {
  still::Point at;
  bool from_the_start = false;
  bool never = false;
};

Found place(const still::Run& run, const Border& border) {
  if (const auto* volume = std::get_if<units::Volume>(&border)) {
    if (*volume >= run.last().collected) return {run.last(), false, true};
    return {still::point_at_volume(run, *volume), false, false};
  }
  if (const auto* strength = std::get_if<units::VolumeStrength>(&border)) {
    if (run.first().spout <= *strength) return {run.first(), true, false};
    const auto at = still::when_spout_falls_to(run, *strength);
    return at ? Found{*at, false, false} : Found{run.last(), false, true};
  }
  const units::Temperature head = std::get<units::Temperature>(border);
  if (run.first().head_temperature >= head) return {run.first(), true, false};
  const auto at = still::when_head_rises_to(run, head);
  return at ? Found{*at, false, false} : Found{run.last(), false, true};
}

std::string shown(const Border& border) {
  if (const auto* volume = std::get_if<units::Volume>(&border)) {
    return fmt::format("{:.0f} mL", volume->millilitres());
  }
  if (const auto* strength = std::get_if<units::VolumeStrength>(&border)) {
    return fmt::format("{:.1f} %vol", strength->percent());
  }
  return fmt::format("{:.1f} °C", std::get<units::Temperature>(border).celsius());
}

// A border read with the maker's own instruments: their errors move it.
Border as_read(const Border& border, const Drawn& drawn) {
  if (const auto* strength = std::get_if<units::VolumeStrength>(&border)) {
    return std::clamp(*strength + drawn.alcoholmeter_error, units::VolumeStrength::percent(0.2),
                      units::VolumeStrength::percent(97.0));
  }
  if (const auto* head = std::get_if<units::Temperature>(&border)) {
    return *head + drawn.thermometer_error;
  }
  return border;
}

class SpiritRun {
 public:
  SpiritRun(const Recipe& recipe, const Kit& kit, const Drawn& drawn, const StripPlan& strip,
            const vapour::BoilingCurve& curve, std::vector<Finding>& findings)
      : step_(recipe.spirit_run),
        kit_(kit),
        drawn_(drawn),
        strip_(strip),
        curve_(curve),
        findings_(findings) {}

  SpiritPlan plan() {
    make_up();
    run();
    cut();
    return std::move(plan_);
  }

 private:
  void make_up() {
    plan_.fill_limit = kit_.still.boiler.total * kit_.still.boiler.spirit_fill.fraction();
    const spirit::Lot& low_wines = strip_.low_wines;
    if (step_.feints) {
      plan_.feints_in = spirit::lot(step_.feints->volume, step_.feints->strength);
    }
    const MadeUp all = made_up(plan_.feints_in, low_wines, 1.0, step_.charge_at_most);
    const units::Volume volume = spirit::volume(all.charge);
    plan_.of_a_charge = volume / plan_.fill_limit;
    plan_.runs = 1;
    if (plan_.of_a_charge <= hardly_over) {
      take(all, 1.0);
    } else if (step_.surplus == Surplus::second_run) {
      plan_.runs = static_cast<int>(std::ceil(plan_.of_a_charge / hardly_over));
      take(all, 1.0);
    } else {
      keep_surplus();
    }
    charge_findings(volume);
  }

  void take(const MadeUp& made, double share) {
    plan_.water = made.water;
    plan_.low_wines_in = strip_.low_wines * share;
    plan_.low_wines_kept = strip_.low_wines - plan_.low_wines_in;
    charge_ = made.charge * (1.0 / plan_.runs);
  }

  // The share of the low wines that just fills the boiler with the feints and the water.
  void keep_surplus() {
    const auto over = [&](double share) {
      return (spirit::volume(
                  made_up(plan_.feints_in, strip_.low_wines, share, step_.charge_at_most)
                      .charge) -
              plan_.fill_limit)
          .litres();
    };
    if (over(0.0) >= 0.0) {
      throw base::InputError(
          "spirit_run.feints", fmt::format("{:.2f} L", step_.feints->volume.litres()),
          fmt::format("feints that leave room for low wines in the {:.1f} L charge",
                      plan_.fill_limit.litres()));
    }
    const double share = numeric::root_between(over, 0.0, 1.0, "share of low wines").value;
    take(made_up(plan_.feints_in, strip_.low_wines, share, step_.charge_at_most), share);
  }

  void charge_findings(units::Volume all) {
    if (plan_.of_a_charge > hardly_over) {
      const units::Volume kept = spirit::volume(plan_.low_wines_kept);
      findings_.push_back(
          {Weight::caution, "low-wines-over-a-charge", "Spirit run",
           plan_.runs > 1
               ? fmt::format(
                     "Low wines and feints make {:.1f} L, {:.2f} charges of {:.1f} L: they "
                     "are run in {} equal charges.",
                     all.litres(), plan_.of_a_charge, plan_.fill_limit.litres(), plan_.runs)
               : fmt::format(
                     "Low wines and feints make {:.1f} L, more than one charge of {:.1f} L: "
                     "{:.1f} L of low wines are kept.",
                     all.litres(), plan_.fill_limit.litres(), kept.litres()),
           plan_.runs > 1 ? "Or keep the surplus for the next batch."
                          : "Put them into the next batch's charge, or let the surplus have a "
                            "second run."});
    } else if (plan_.of_a_charge < 0.5) {
      findings_.push_back(
          {Weight::caution, "low-wines-under-a-charge", "Spirit run",
           fmt::format(
               "Low wines and feints make {:.1f} L, {:.0f} % of a spirit charge of this "
               "boiler: cuts are coarse and the pot runs low.",
               all.litres(), 100.0 * plan_.of_a_charge),
           "Collect the low wines of two batches, or add feints."});
    }
    const units::VolumeStrength strength = spirit::strength(charge_);
    if (strength > units::VolumeStrength::percent(40.0)) {
      findings_.push_back({Weight::danger, "charge-too-strong", "Spirit run",
                           fmt::format("The charge is {:.1f} %vol; over 40 it burns easily and "
                                       "cuts badly.",
                                       strength.percent()),
                           "Bring it to 30 %vol with water: the most a charge may have."});
    } else if (strength > units::VolumeStrength::percent(31.0)) {
      findings_.push_back(
          {Weight::caution, "charge-strong", "Spirit run",
           fmt::format("The charge is {:.1f} %vol; at or under 30 it parts best.",
                       strength.percent()),
           "Water it down: let a charge have 30 %vol at most."});
    } else if (strength < units::VolumeStrength::percent(15.0)) {
      findings_.push_back({Weight::caution, "charge-weak", "Spirit run",
                           fmt::format("The charge is only {:.1f} %vol: much heat for little "
                                       "spirit.",
                                       strength.percent()),
                           "Stop the strips earlier, or strip the low wines once more."});
    }
  }

  void run() {
    const Boiler& boiler = kit_.still.boiler;
    const still::Charge pot{charge_, {}, kit_.place.ambient};
    plan_.one = plan_run(pot, spirit_wish(step_, drawn_), kit_, drawn_, curve_);
    const bool by_strength = std::holds_alternative<units::VolumeStrength>(step_.tails_end);
    if (!by_strength && plan_.one.run.ending == still::Ending::spout_strength) {
      findings_.push_back({Weight::caution, "border-not-reached", "Spirit run",
                           fmt::format("The run is spent before the end of the tails ({}).",
                                       shown(step_.tails_end)),
                           "End the tails sooner."});
    }
    run_findings(plan_.one, kit_, "Spirit run", findings_);
    if (!boiler.power_adjustable) {
      findings_.push_back(
          {Weight::remark, "power-fixed", "Spirit run",
           "The boiler's heat cannot be turned down; a gentle run parts better.",
           "A controller for the element, or a smaller flame."});
    }
  }

  void cut() {
    const still::Run& run = plan_.one.run;
    const units::Volume charge = plan_.one.charge_volume;
    const Border foreshots_end = step_.foreshots_end.value_or(charge * usual_foreshots_end);
    const Border heads_end = step_.heads_end.value_or(charge * usual_heads_end);
    const std::pair<const char*, const Border*> borders[] = {
        {"foreshots", &foreshots_end}, {"heads", &heads_end}, {"hearts", &step_.hearts_end}};
    still::Point at[3];
    const still::Point* before = &run.first();
    for (std::size_t i = 0; i < 3; ++i) {
      const Found found = place(run, as_read(*borders[i].second, drawn_));
      at[i] = found.at;
      border_findings(borders[i].first, *borders[i].second, found, *before);
      if (at[i].collected < before->collected) at[i] = *before;
      before = &at[i];
    }
    plan_.foreshots = still::fraction(run.first(), at[0]);
    plan_.heads = still::fraction(at[0], at[1]);
    plan_.hearts = still::fraction(at[1], at[2]);
    plan_.tails = still::fraction(at[2], run.last());
    // What clings and escapes is taken from each fraction in its proportion.
    const double runs = plan_.runs;
    const double kept_share = (plan_.one.collected.mass() / run.distillate().mass()) * runs;
    plan_.foreshots_away = plan_.foreshots.lot * kept_share;
    const spirit::Lot heads = plan_.heads.lot * kept_share;
    plan_.hearts_all = plan_.hearts.lot * kept_share;
    plan_.feints_kept = plan_.tails.lot * kept_share;
    (step_.keep_heads ? plan_.feints_kept : plan_.heads_away) =
        step_.keep_heads ? plan_.feints_kept + heads : heads;
    plan_.left_in_pots = run.left() * runs;
    plan_.lost = plan_.one.lost * runs;
    if (plan_.heads.pure_alcohol > plan_.hearts.pure_alcohol * 0.25) {
      findings_.push_back(
          {Weight::caution, "heads-heavy", "Spirit run",
           fmt::format("The heads hold {:.2f} L of pure alcohol, {:.0f} % of what "
                       "the hearts have.",
                       plan_.heads.pure_alcohol.litres(),
                       100.0 * (plan_.heads.pure_alcohol / plan_.hearts.pure_alcohol)),
           "End the heads earlier, or by volume; the nose decides."});
    }
    if (plan_.hearts.volume < units::Volume::millilitres(1.0)) {
      findings_.push_back({Weight::stop, "no-hearts", "Spirit run",
                           "By the recipe's borders nothing is left for the hearts.",
                           "Look at the ends of heads and hearts against the run's curve."});
    }
  }

  void border_findings(const std::string& name, const Border& border, const Found& found,
                       const still::Point& before) {
    if (found.never) {
      findings_.push_back(
          {Weight::caution, "border-not-reached", "Spirit run",
           fmt::format("The run ends before the end of the {} ({}).", name, shown(border)),
           "Move the border, or run further."});
    } else if (found.from_the_start && name != std::string("foreshots")) {
      findings_.push_back(
          {Weight::caution, "border-from-the-start", "Spirit run",
           fmt::format("The run is past the end of the {} ({}) from its first drops at "
                       "{:.1f} %vol.",
                       name, shown(border), plan_.one.run.first().spout.percent()),
           "Give the border by volume, or a gentler run."});
    } else if (found.at.collected < before.collected) {
      findings_.push_back(
          {Weight::caution, "borders-out-of-order", "Spirit run",
           fmt::format("The end of the {} ({}) comes before the border ahead of it.", name,
                       shown(border)),
           "Order the borders: foreshots, heads, hearts, tails."});
    }
  }

  const SpiritRunStep& step_;
  const Kit& kit_;
  const Drawn& drawn_;
  const StripPlan& strip_;
  const vapour::BoilingCurve& curve_;
  std::vector<Finding>& findings_;
  SpiritPlan plan_;
  spirit::Lot charge_;
};

}  // namespace

RunWish spirit_wish(const SpiritRunStep& step, const Drawn& drawn) {
  RunWish wish;
  wish.gentle = true;
  wish.spout_temperature = step.spout_temperature;
  wish.stop_key = "spirit_run.tails_end";
  wish.stop_shown = shown(step.tails_end);
  const Border end = as_read(step.tails_end, drawn);
  if (const auto* strength = std::get_if<units::VolumeStrength>(&end)) {
    wish.stop.spout_strength = *strength;
  } else if (const auto* head = std::get_if<units::Temperature>(&end)) {
    wish.stop.head_temperature = *head;
    wish.stop.spout_strength = units::VolumeStrength::percent(0.5);
  } else {
    wish.stop.collected = std::get<units::Volume>(end);
    wish.stop.spout_strength = units::VolumeStrength::percent(0.5);
  }
  return wish;
}

SpiritPlan plan_spirit(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
                       const StripPlan& strip, const vapour::BoilingCurve& curve,
                       std::vector<Finding>& findings) {
  return SpiritRun(recipe, kit, drawn, strip, curve, findings).plan();
}

StillStage plan_still(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
                      const FermentPlan& ferment, bool foams, const vapour::BoilingCurve& curve,
                      std::vector<Finding>& findings) {
  StillStage stage;
  stage.strip = plan_strip(recipe, kit, drawn, ferment, foams, curve, findings);
  stage.spirit = plan_spirit(recipe, kit, drawn, stage.strip, curve, findings);
  return stage;
}

}  // namespace lynearm::plan
