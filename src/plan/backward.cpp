#include "plan/backward.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/error.hpp"
#include "numeric/root.hpp"

namespace lynearm::plan {
namespace {

// A batch scaled to the kit is not answered below this share of the recipe.
constexpr double least_of_the_recipe = 0.01;

Border scaled(const Border& border, double factor) {
  if (const auto* volume = std::get_if<units::Volume>(&border)) return *volume * factor;
  return border;
}

// Whether a finding says that something physical does not fit, whatever the maker's wishes.
bool is_misfit(const Finding& finding) {
  static constexpr const char* codes[] = {
      "vessel-overfilled", "vessel-too-full", "boiler-overfilled",
      "charge-over-fill",  "wash-left-over",  "more-wort-than-wanted",
      "no-room-for-foam",  "element-exposed", "coolant-short"};
  return std::any_of(std::begin(codes), std::end(codes),
                     [&finding](const char* code) { return finding.code == code; });
}

class Trial {
 public:
  Trial(const Recipe& recipe, const Kit& kit)
      : recipe_(recipe), kit_(kit), drawn_(medians(kit)), curve_(kit.place.pressure) {}

  [[nodiscard]] Plan at(double factor) const {
    return make(recipe_at(factor), kit_, drawn_, curve_);
  }

  // Borders by volume belong to one charge of the boiler, which does not grow with the batch:
  // beyond a full one there are more charges, or low wines are kept.
  [[nodiscard]] Recipe recipe_at(double factor) const {
    if (!charges_) {
      try {
        charges_ = make(recipe_, kit_, drawn_, curve_).spirit.of_a_charge;
      } catch (const base::InputError&) {
        charges_ = 1.0;  // the size given cannot be run; borders then grow with the batch
      }
    }
    const auto one_charge = [this](double charges) {
      if (charges <= 1.0) return charges;
      return recipe_.spirit_run.surplus == Surplus::keep ? 1.0 : charges / std::ceil(charges);
    };
    return scaled(recipe_, factor, one_charge(*charges_ * factor) / one_charge(*charges_));
  }

  // Whether the vessels overflow, which only gets worse with size.
  // beyond_a_model   what is taken of a size that no model can follow
  [[nodiscard]] bool outgrown(double factor, bool beyond_a_model) const {
    try {
      const Plan plan = at(factor);
      return std::any_of(
          plan.findings.begin(), plan.findings.end(), [](const Finding& finding) {
            return finding.code == "vessel-overfilled" || finding.code == "vessel-too-full";
          });
    } catch (const base::InputError&) {
      return false;
    } catch (const base::NotConverged&) {
      return beyond_a_model;
    }
  }

  [[nodiscard]] bool fits(double factor) const {
    try {
      const Plan plan = at(factor);
      return std::none_of(plan.findings.begin(), plan.findings.end(), is_misfit);
    } catch (const base::InputError&) {
      return false;  // a batch too large for a heater or a cask, or too small to run
    } catch (const base::NotConverged&) {
      return false;  // beyond what a model can follow
    }
  }

  // What stands against this size, in its own words.
  [[nodiscard]] std::string misfit(double factor) const {
    try {
      const Plan plan = at(factor);
      const auto found = std::find_if(plan.findings.begin(), plan.findings.end(), is_misfit);
      return found == plan.findings.end() ? "" : found->says;
    } catch (const base::InputError&) {
      return "";
    } catch (const base::NotConverged&) {
      return "";
    }
  }

  [[nodiscard]] double spirit_L(double factor) const {
    return at(factor).finish.reduce.volume.litres();
  }

 private:
  const Recipe& recipe_;
  const Kit& kit_;
  Drawn drawn_;
  vapour::BoilingCurve curve_;
  mutable std::optional<double> charges_;  // of the recipe as given; found when first asked
};

bool is_sugar(const BillLine& line) {
  return line.use == Use::boil || line.use == Use::ferment;
}

units::SpecificGravity gravity_of(const Recipe& recipe, const Kit& kit, const Drawn& drawn) {
  std::vector<Finding> ignored;
  return plan_mash(recipe, kit, drawn, ignored).wort.original_gravity;
}

Solved by_sugar(const Recipe& recipe, const Kit& kit, const Drawn& drawn, double wanted) {
  const bool any = std::any_of(recipe.bill.begin(), recipe.bill.end(), is_sugar);
  if (!any) {
    throw base::InputError(
        "gravity", fmt::format("{:.4f}", wanted),
        "a recipe with a sugar to change, or one whose gravity is set by water");
  }
  const auto with = [&recipe](double factor) {
    Recipe changed = recipe;
    for (BillLine& line : changed.bill) {
      if (is_sugar(line)) line.mass = line.mass * factor;
    }
    return changed;
  };
  const auto miss = [&](double factor) {
    try {
      return gravity_of(with(factor), kit, drawn).ratio() - wanted;
    } catch (const base::InputError&) {
      return 1.0;  // a syrup beyond every table: far over any gravity
    }
  };
  constexpr double least = 1e-3;
  double most = 1.0;
  if (miss(least) > 0.0) {
    throw base::InputError(
        "gravity", fmt::format("{:.4f}", wanted),
        fmt::format("at least {:.4f}, what the grain alone gives; for less use more water",
                    gravity_of(with(least), kit, drawn).ratio()));
  }
  while (miss(most) < 0.0) {
    most *= 1.5;
    if (most > 50.0) {
      throw base::InputError("gravity", fmt::format("{:.4f}", wanted),
                             "a gravity that fifty times the recipe's sugar reaches");
    }
  }
  const double factor = numeric::root_between(miss, least, most, "sugar for a gravity",
                                              {.width = 1e-7, .most_iterations = 100})
                            .value;
  Solved solved{with(factor), 1.0, ""};
  units::Mass sugar;
  for (const BillLine& line : solved.recipe.bill) {
    if (is_sugar(line)) sugar += line.mass;
  }
  solved.says = fmt::format(
      "Sugar made {:.2f} kg ({:.2f} times the recipe's) for a gravity of "
      "{:.4f}.",
      sugar.kilograms(), factor, wanted);
  return solved;
}

Solved by_water(const Recipe& recipe, const Kit& kit, const Drawn& drawn, double wanted) {
  std::vector<Finding> ignored;
  const WortPlan before = plan_mash(recipe, kit, drawn, ignored).wort;
  const auto with = [&recipe](units::Volume fill) {
    Recipe changed = recipe;
    changed.ferment.fill_to = fill;
    return changed;
  };
  const auto miss = [&](double fill_L) {
    return gravity_of(with(units::Volume::litres(fill_L)), kit, drawn).ratio() - wanted;
  };
  // No topping-up water at all gives the strongest wort there is.
  const double least_L = before.before_topping_up.litres() * 1.02;
  if (miss(least_L) < 0.0) {
    throw base::InputError(
        "gravity", fmt::format("{:.4f}", wanted),
        fmt::format(
            "at most {:.4f}, what the wort has before any topping up; for more use less "
            "sparge water, or sugar",
            gravity_of(with(units::Volume::litres(least_L)), kit, drawn).ratio()));
  }
  double most_L = least_L * 1.5;
  while (miss(most_L) > 0.0) {
    most_L *= 1.5;
    if (most_L > least_L * 1000.0) {
      throw base::InputError("gravity", fmt::format("{:.4f}", wanted), "a gravity above 1.000");
    }
  }
  const double fill = numeric::root_between(miss, least_L, most_L, "water for a gravity",
                                            {.width = 1e-6, .most_iterations = 100})
                          .value;
  return {with(units::Volume::litres(fill)), 1.0,
          fmt::format("Filled to {:.1f} L for a gravity of {:.4f}.", fill, wanted)};
}

}  // namespace

Recipe scaled(const Recipe& recipe, double factor, std::optional<double> charge_factor) {
  if (!(factor >= 1e-3 && factor <= 1e3)) {
    throw base::InputError("scale", fmt::format("{:.6g}", factor), "0.001 to 1000");
  }
  Recipe s = recipe;
  for (BillLine& line : s.bill) line.mass = line.mass * factor;
  s.mash.water = s.mash.water * factor;
  if (s.mash.cook) {
    s.mash.cook->water = s.mash.cook->water * factor;
    s.mash.cook->boil_off = s.mash.cook->boil_off * factor;
  }
  for (Sparge& sparge : s.mash.sparges) sparge.water = sparge.water * factor;
  if (s.sugar_boil) {
    s.sugar_boil->water = s.sugar_boil->water * factor;
    s.sugar_boil->boil_off = s.sugar_boil->boil_off * factor;
  }
  if (s.ferment.fill_to) s.ferment.fill_to = *s.ferment.fill_to * factor;
  s.strip.charges.reset();
  if (s.spirit_run.feints) s.spirit_run.feints->volume = s.spirit_run.feints->volume * factor;
  const double per_run = charge_factor.value_or(factor);
  for (std::optional<Border>* border : {&s.spirit_run.foreshots_end, &s.spirit_run.heads_end}) {
    if (*border) *border = scaled(**border, per_run);
  }
  s.spirit_run.hearts_end = scaled(s.spirit_run.hearts_end, per_run);
  s.spirit_run.tails_end = scaled(s.spirit_run.tails_end, per_run);
  return s;
}

Solved scale_to_kit(const Recipe& recipe, const Kit& kit) {
  const Trial trial(recipe, kit);
  // Fitting is not quite monotone (a small remainder of wash may come and go with the number
  // of charges), so the search comes down from far above and takes the first size that fits.
  double high = 1.0;
  while (!trial.outgrown(high, true) && high < 500.0) high *= 1.3;
  std::vector<double> sizes{high};
  while (sizes.back() * 0.98 >= least_of_the_recipe) sizes.push_back(sizes.back() * 0.98);
  // Overflowing alone is monotone: no size down to the last that overflows is tried, and each
  // below it.
  const auto overflows = [&trial](double size) { return trial.outgrown(size, false); };
  const auto low_at =
      std::find_if(std::partition_point(sizes.begin(), sizes.end(), overflows), sizes.end(),
                   [&trial](double size) { return trial.fits(size); });
  if (low_at == sizes.end()) {
    const std::string misfit = trial.misfit(1.0);
    throw base::InputError("scale-to-kit", recipe.name,
                           misfit.empty()
                               ? "a recipe that fits the kit at some size"
                               : "a recipe that fits the kit at some size; as it is: " +
                                     misfit.substr(0, misfit.size() - 1));
  }
  double low = *low_at;
  double over = low / 0.98;
  while (over - low > 1e-3 * low) {
    const double middle = 0.5 * (low + over);
    (trial.fits(middle) ? low : over) = middle;
  }
  return {trial.recipe_at(low), low,
          fmt::format("Every amount times {:.3f}: the largest batch that fits the kit. A "
                      "little more, and: {}",
                      low, trial.misfit(over))};
}

Solved for_spirit(const Recipe& recipe, const Kit& kit, units::Volume volume,
                  units::VolumeStrength strength) {
  Recipe at_strength = recipe;
  at_strength.reduce.maturing = strength;
  at_strength.bottle.strength = std::min(at_strength.bottle.strength, strength);
  const Trial trial(at_strength, kit);
  const double wanted = volume.litres();
  const auto miss = [&](double factor) {
    try {
      return trial.spirit_L(factor) - wanted;
    } catch (const base::InputError&) {
      return -wanted;  // too small to run, or too large to heat: no spirit
    } catch (const base::NotConverged&) {
      return -wanted;
    }
  };
  double low = 1.0;
  while (miss(low) > 0.0 && low > 2e-3) low *= 0.8;
  double high = low;
  double best = miss(high);
  double best_at = high;
  while (miss(high) < 0.0) {
    low = high;
    high *= 1.25;
    if (high > 100.0) {
      throw base::InputError(
          "for", fmt::format("{:.2f} L", wanted),
          fmt::format(
              "at most about {:.2f} L, what {:.2f} times the recipe gives here{}",
              best + wanted, best_at,
              recipe.spirit_run.surplus == Surplus::keep
                  ? "; a second run for the surplus lifts the limit of one spirit charge"
                  : ""));
    }
    if (miss(high) > best) {
      best = miss(high);
      best_at = high;
    }
  }
  // Bisection, not a root finder: the yield jumps where the number of charges changes.
  while (high - low > 1e-5 * high) {
    const double middle = 0.5 * (low + high);
    (miss(middle) < 0.0 ? low : high) = middle;
  }
  const double off = miss(high);
  return {trial.recipe_at(high), high,
          fmt::format("Every amount times {:.3f} for {:.2f} L at {:.1f} %vol{}.", high, wanted,
                      strength.percent(),
                      off > 1e-3 * wanted
                          ? fmt::format("; the least batch that reaches it gives {:.2f} L",
                                        wanted + off)
                          : std::string())};
}

Solved for_gravity(const Recipe& recipe, const Kit& kit, units::SpecificGravity gravity) {
  std::vector<base::Fault> faults = contradictions(recipe, kit);
  if (!faults.empty()) throw base::InputError(std::move(faults));
  const Drawn drawn = medians(kit);
  return recipe.ferment.gravity_by == GravityBy::sugar
             ? by_sugar(recipe, kit, drawn, gravity.ratio())
             : by_water(recipe, kit, drawn, gravity.ratio());
}

}  // namespace lynearm::plan
