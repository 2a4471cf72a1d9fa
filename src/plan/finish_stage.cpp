#include "plan/finish_stage.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "spirit/density.hpp"
#include "spirit/reduction.hpp"
#include "spirit/strength.hpp"
#include "wood/evaporation.hpp"
#include "wood/sampling.hpp"
#include "wood/species.hpp"

namespace lynearm::plan {
namespace {

bool is_empty(const spirit::Lot& lot) { return lot.mass() <= units::Mass{}; }

// Water to `to`, or none and a finding when the spirit is weaker already.
spirit::Lot reduced(const spirit::Lot& spirit, units::VolumeStrength to,
                    const std::string& stage, units::Mass& water, units::Volume* contraction,
                    std::vector<Finding>& findings) {
  if (is_empty(spirit)) return spirit;
  const units::VolumeStrength has = spirit::strength(spirit);
  if (has < to) {
    findings.push_back({Weight::caution, "weaker-than-wanted", stage,
                        fmt::format("The spirit comes at {:.1f} %vol, under the {:.1f} %vol "
                                    "wanted; it is left as it is.",
                                    has.percent(), to.percent()),
                        "Cut the hearts earlier, or ask for less strength."});
    return spirit;
  }
  const spirit::Reduction reduction = spirit::reduce(spirit, to);
  water = reduction.water;
  if (contraction != nullptr) *contraction = reduction.contraction;
  return reduction.result;
}

ReducePlan plan_reduce(const Recipe& recipe, const Drawn& drawn, const spirit::Lot& hearts,
                       std::vector<Finding>& findings) {
  ReducePlan plan;
  plan.moved_loss = hearts * drawn.transfer_loss.fraction();
  plan.hearts = hearts - plan.moved_loss;
  plan.result = reduced(plan.hearts, recipe.reduce.maturing, "Reduce", plan.water,
                        &plan.contraction, findings);
  plan.water_volume =
      spirit::volume(spirit::Lot{{}, plan.water}, recipe.reduce.water_temperature);
  plan.volume = spirit::volume(plan.result);
  plan.strength = spirit::strength(plan.result);
  return plan;
}

// Wood and what it does; the cask or staves are chosen here.
class WoodDay {
 public:
  WoodDay(const Recipe& recipe, const Kit& kit, const Drawn& drawn, const spirit::Lot& spirit,
          std::vector<Finding>& findings)
      : step_(*recipe.wood), kit_(kit), drawn_(drawn), spirit_(spirit), findings_(findings) {}

  WoodPlan plan() {
    plan_.time = step_.time;
    plan_.sampling_days = wood::sampling_days(step_.time);
    if (std::holds_alternative<std::string>(step_.in)) {
      in_cask(std::get<std::string>(step_.in));
    } else {
      in_glass(std::get<Staves>(step_.in));
    }
    plan_.like_cask_years = wood::cask_years_of(plan_.extract);
    take_samples();
    plan_.volume = spirit::volume(plan_.matured);
    plan_.strength = spirit::strength(plan_.matured);
    return std::move(plan_);
  }

 private:
  double richness() const {
    return wood::gift(wood::species(step_.species), wood::toast(step_.toast)).colour;
  }

  wood::Rest conditions() const { return {step_.temperature, spirit::strength(spirit_)}; }

  void in_cask(const std::string& name) {
    const auto cask = std::find_if(kit_.casks.begin(), kit_.casks.end(),
                                   [&](const Cask& c) { return c.name == name; });
    plan_.in = name;
    const units::Volume all = spirit::volume(spirit_);
    const units::Volume room = wood::fill_volume(cask->volume);
    plan_.filled = std::min(all, room);
    plan_.into_wood = spirit_ * (plan_.filled / all);
    plan_.beyond_cask = spirit_ - plan_.into_wood;
    cask_size_findings(*cask, all, room);
    wood::Wood wood = wood::cask(cask->volume);
    wood.richness = richness();
    wood.depth = cask->stave_thickness;
    wood.fill = cask->used ? 2 : 1;
    plan_.surface = wood.surface;
    plan_.times_a_200L_cask = wood::times_a_200L_cask(wood.surface);
    plan_.extract = wood::extract(wood, step_.time, conditions());
    wood::Walls walls = wood::walls(cask->volume, !cask->used);
    walls.thickness = cask->stave_thickness;
    if (wood_drinks_it_all(wood::soak_in(walls.area), cask->used)) return;
    wood::Permeability oak;
    oak.water *= drawn_.evaporation_factor.fraction();
    oak.ethanol *= drawn_.evaporation_factor.fraction();
    const wood::Rested rested = wood::rest(
        plan_.into_wood, walls, {step_.temperature, kit_.place.humidity}, step_.time, oak);
    plan_.soaked = rested.soaked;
    plan_.evaporated = rested.evaporated;
    plan_.matured = rested.course.back().lot;
    shrunk();
  }

  void cask_size_findings(const Cask& cask, units::Volume all, units::Volume room) {
    if (all > room) {
      findings_.push_back(
          {Weight::caution, "cask-too-small", "Wood",
           fmt::format("{:.2f} L of spirit for the {} of {:.1f} L, which takes "
                       "{:.2f} L with its ullage.",
                       all.litres(), cask.name, cask.volume.litres(), room.litres()),
           fmt::format("Keep {:.2f} L in glass for topping up, or take a larger "
                       "cask.",
                       (all - room).litres())});
    } else if (all < cask.volume * 0.85) {
      findings_.push_back(
          {Weight::caution, "cask-too-large", "Wood",
           fmt::format("{:.2f} L of spirit fills the {} of {:.1f} L to {:.0f} % "
                       "only: dry staves leak and lose more.",
                       all.litres(), cask.name, cask.volume.litres(),
                       100.0 * (all / cask.volume)),
           "Take a smaller cask, staves in glass, or wait for the next batch."});
    }
    if (cask.volume < units::Volume::litres(30.0) && !cask.used) {
      findings_.push_back(
          {Weight::remark, "small-new-cask", "Wood",
           fmt::format("A new cask of {:.0f} L gives wood {:.1f} times as fast as "
                       "one of 200 L: it over-oaks within months.",
                       cask.volume.litres(),
                       wood::times_a_200L_cask(wood::cask_surface(cask.volume))),
           "Taste every two weeks; move the spirit to glass when it is enough."});
    }
  }

  void in_glass(const Staves& staves) {
    plan_.in = "staves";
    plan_.filled = spirit::volume(spirit_);
    plan_.into_wood = spirit_;
    const wood::Stave stave = kit_.staves ? wood::Stave{kit_.staves->length, kit_.staves->width,
                                                        kit_.staves->thickness}
                                          : wood::Stave{};
    // "Ready" is anchored in the trade's own toasted staves, so the count is found for wood as
    // rich as those; what this wood and toast really give is told by `extract`.
    const wood::Wood like;
    const double wanted =
        staves.count ? static_cast<double>(*staves.count) : staves_for_the_time(stave, like);
    plan_.staves = std::max(1, static_cast<int>(std::lround(wanted)));
    if (kit_.staves && kit_.staves->count > 0 && plan_.staves > kit_.staves->count) {
      findings_.push_back({Weight::caution, "too-few-staves", "Wood",
                           fmt::format("{} staves are wanted and the kit has {}.", plan_.staves,
                                       kit_.staves->count),
                           "Cut more staves, or give it more time."});
      plan_.staves = kit_.staves->count;
    }
    wood::Wood wood = wood::staves(stave, plan_.staves, plan_.filled);
    wood.richness = richness();
    plan_.surface = wood.surface;
    plan_.times_a_200L_cask = wood::times_a_200L_cask(wood.surface);
    if (out_of_range(wood)) return;
    plan_.extract = wood::extract(wood, step_.time, conditions());
    if (wood_drinks_it_all(wood::soak_in(stave, plan_.staves), false)) return;
    const wood::GlassRest rest =
        wood::rest_in_glass(plan_.into_wood, stave, plan_.staves, step_.time,
                            wood::good_closure * drawn_.evaporation_factor.fraction());
    plan_.soaked = rest.soaked;
    plan_.evaporated = rest.escaped;
    plan_.matured = rest.left;
    shrunk();
  }

  // A time so short that no number of staves would do is planned with the most wood there is a
  // forecast for, and said below by its own finding.
  double staves_for_the_time(const wood::Stave& stave, const wood::Wood& like) {
    try {
      return wood::staves_for(wood::ready, step_.time, stave, plan_.filled, like, conditions());
    } catch (const base::InputError&) {
      findings_.push_back(
          {Weight::caution, "time-too-short", "Wood",
           fmt::format("In {:.0f} days no number of staves makes the spirit ready.",
                       step_.time.days()),
           "Give it more time, or name the number of staves."});
      const units::Area most = units::Area::square_centimetres(1000.0 * plan_.filled.litres());
      return most / wood::area(stave);
    }
  }

  // One stave in hundreds of litres, or many in a glass: nothing is known of either.
  bool out_of_range(const wood::Wood& wood) {
    const double surface = wood.surface.square_centimetres_per_litre();
    if (surface >= 1.0 && surface <= 2000.0) return false;
    findings_.push_back({Weight::stop, "wood-out-of-range", "Wood",
                         fmt::format("{:.3g} cm² of wood to a litre is outside what can be "
                                     "forecast, 1 to 2000.",
                                     surface),
                         "Give another number of staves, or a cask."});
    plan_.matured = plan_.into_wood;
    return true;
  }

  // So little spirit for so much new wood that hardly any would come out again: said, and the
  // spirit is planned on without wood.
  bool wood_drinks_it_all(units::Volume soaks, bool soaked_before) {
    if (soaked_before || soaks < plan_.filled * 0.7) return false;
    findings_.push_back({Weight::stop, "wood-drinks-it-all", "Wood",
                         fmt::format("New wood of that size takes up {:.2f} L, and there are "
                                     "{:.2f} L of spirit.",
                                     soaks.litres(), plan_.filled.litres()),
                         "Use less wood, a used cask, or a larger batch."});
    plan_.matured = plan_.into_wood;
    return true;
  }

  void shrunk() {
    plan_.evaporated_volume =
        spirit::volume(plan_.into_wood - plan_.soaked) - spirit::volume(plan_.matured);
  }

  void take_samples() {
    const units::Volume all =
        plan_.each_sample * static_cast<double>(plan_.sampling_days.size());
    const units::Volume left = spirit::volume(plan_.matured);
    // A batch so small that sampling would empty it is not sampled.
    if (all > left * 0.2) {
      plan_.sampling_days.clear();
      return;
    }
    plan_.samples = plan_.matured * (all / left);
    plan_.matured = plan_.matured - plan_.samples;
  }

  const WoodStep& step_;
  const Kit& kit_;
  const Drawn& drawn_;
  const spirit::Lot& spirit_;
  std::vector<Finding>& findings_;
  WoodPlan plan_;
};

BottlePlan plan_bottle(const Recipe& recipe, const Drawn& drawn, const spirit::Lot& matured,
                       std::vector<Finding>& findings) {
  BottlePlan plan;
  plan.size = recipe.bottle.size;
  plan.moved_loss = matured * drawn.transfer_loss.fraction();
  const spirit::Lot moved = matured - plan.moved_loss;
  const spirit::Lot reduced_lot =
      reduced(moved, recipe.bottle.strength, "Bottle", plan.water, nullptr, findings);
  plan.filter_loss = reduced_lot * recipe.bottle.filter_loss.fraction();
  const spirit::Lot filtered = reduced_lot - plan.filter_loss;
  plan.volume = spirit::volume(filtered);
  plan.strength = spirit::strength(filtered);
  plan.bottles = static_cast<int>(std::floor(plan.volume / plan.size + 1e-9));
  if (!is_empty(filtered)) {
    plan.in_bottles = filtered * std::min(1.0, plan.size * plan.bottles / plan.volume);
  }
  plan.remainder = filtered - plan.in_bottles;
  plan.remainder_volume = spirit::volume(plan.remainder);
  return plan;
}

}  // namespace

FinishStage plan_finish(const Recipe& recipe, const Kit& kit, const Drawn& drawn,
                        const spirit::Lot& hearts, std::vector<Finding>& findings) {
  FinishStage stage;
  stage.reduce = plan_reduce(recipe, drawn, hearts, findings);
  spirit::Lot matured = stage.reduce.result;
  if (recipe.wood && !is_empty(matured) &&
      stage.reduce.strength >= units::VolumeStrength::percent(20.0)) {
    stage.wood = WoodDay(recipe, kit, drawn, stage.reduce.result, findings).plan();
    matured = stage.wood->matured;
  }
  stage.bottle = plan_bottle(recipe, drawn, matured, findings);
  return stage;
}

}  // namespace lynearm::plan
