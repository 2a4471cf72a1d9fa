#include "plan/class_findings.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>
#include <cmath>

#include "mash/ingredient.hpp"
#include "spirit/strength.hpp"
#include "wood/species.hpp"

namespace lynearm::plan {
namespace {

// Rounding of our own arithmetic, relative to the figures here.
constexpr double rounding = 1e-9;

struct Said {
  Ruling ruling = Ruling::kept;
  std::string says;
};

Ruling ruling_of(bool surely, bool never) {
  if (surely) return Ruling::kept;
  return never ? Ruling::breaks : Ruling::cannot_tell;
}

// ---- grain ----------------------------------------------------------------------------------

// A share of the grain in percent, from what is surely of the kind to what may be.
struct Shares {
  double sure = 0.0;
  double may = 0.0;
};

bool made_so(const GrainFact& grain, MadeAs made_as) {
  return made_as == MadeAs::either || grain.malted == (made_as == MadeAs::malted);
}

Shares shares_of(const std::vector<GrainFact>& grain, const ClassRule& rule,
                 units::Mass GrainFact::*mass) {
  double all = 0.0;
  Shares shares;
  for (const GrainFact& one : grain) {
    const double kg = (one.*mass).kilograms();
    all += kg;
    if (!made_so(one, rule.made_as)) continue;
    const bool is_it = rule.cereal == Cereal::any || one.cereal == rule.cereal;
    if (is_it) shares.sure += kg;
    if (is_it || one.cereal == Cereal::not_known) shares.may += kg;
  }
  if (all <= 0.0) return {};
  // A whole stays a whole, whatever the order of its parts was summed in.
  return {std::min(100.0, 100.0 * shares.sure / all),
          std::min(100.0, 100.0 * shares.may / all)};
}

Said share(const ClassRule& rule, const SpiritFacts& facts) {
  if (facts.grain.empty()) return {Ruling::breaks, "there is no grain"};
  const Shares as_is = shares_of(facts.grain, rule, &GrainFact::mass);
  const Shares dry = shares_of(facts.grain, rule, &GrainFact::dry);
  const double limit = rule.limit.value;
  const double slack = rounding * 100.0;
  const bool least = rule.kind == RuleKind::share_at_least;
  const double low = std::min(as_is.sure, dry.sure);
  const double high = std::max(as_is.may, dry.may);
  const Ruling ruling = least ? ruling_of(low >= limit - slack, high < limit - slack)
                              : ruling_of(high <= limit + slack, low > limit + slack);
  if (as_is.may > as_is.sure) {
    return {ruling,
            fmt::format("it is {:.1f} to {:.1f} %, for the cereal of a malt is not known",
                        as_is.sure, as_is.may)};
  }
  if (ruling == Ruling::cannot_tell) {
    return {ruling,
            fmt::format("it is {:.1f} % as it comes and {:.1f} % dry; the text does not "
                        "say which counts",
                        as_is.sure, dry.sure)};
  }
  return {ruling,
          as_is.sure <= 0.0 ? "there is none" : fmt::format("it is {:.1f} %", as_is.sure)};
}

Said grain_alone(const SpiritFacts& facts) {
  units::Mass grain;
  for (const GrainFact& one : facts.grain) grain += one.mass;
  if (facts.sugars > units::Mass{}) {
    return {Ruling::breaks, fmt::format("{:.1f} kg of sugar beside {:.1f} kg of grain",
                                        facts.sugars.kilograms(), grain.kilograms())};
  }
  return {Ruling::kept, fmt::format("{:.1f} kg of grain, no sugar", grain.kilograms())};
}

Said malt(const ClassRule& rule, const SpiritFacts& facts) {
  const auto such = [&](const GrainFact& one, Cereal cereal) {
    return one.malted && (cereal == Cereal::any || one.cereal == cereal);
  };
  for (const GrainFact& one : facts.grain) {
    if (such(one, rule.cereal)) return {Ruling::kept, one.name};
  }
  for (const GrainFact& one : facts.grain) {
    if (such(one, Cereal::not_known)) {
      return {Ruling::cannot_tell, fmt::format("of what {} is made is not known", one.name)};
    }
  }
  return {Ruling::breaks, "there is none"};
}

// ---- strengths ------------------------------------------------------------------------------

// In the text's unit. Proof is that of 60 °F, so not quite twice the % by volume at 20 °C.
double in_unit(units::VolumeStrength strength, const Limit& limit) {
  if (limit.unit != "proof") return strength.percent();
  return spirit::proof(spirit::mass_fraction(strength)).degrees();
}

std::string shown(units::VolumeStrength strength, const Limit& limit) {
  if (limit.unit != "proof") return fmt::format("{:.1f} %vol", strength.percent());
  return fmt::format("{:.1f} proof ({:.1f} %vol)", in_unit(strength, limit),
                     strength.percent());
}

// A strength that the maker sets is compared as it is printed, to a tenth. What misses a limit
// in proof by no more than the two scales' temperatures make is not told: 40.0 % at 20 °C
// is 79.9 proof at 60 °F.
Said set_strength(const ClassRule& rule, units::VolumeStrength strength, const char* says) {
  constexpr double between_scales_proof = 0.2;
  const Limit& limit = rule.limit;
  const double value = std::round(in_unit(strength, limit) * 10.0) / 10.0;
  const bool least = rule.kind == RuleKind::bottled_at_least;
  const double miss =
      (least ? limit.value - value : value - limit.value) - rounding * limit.value;
  const bool near = limit.unit == "proof" && miss <= between_scales_proof;
  const Ruling ruling = ruling_of(miss <= 0.0, !near);
  return {ruling, fmt::format("{} at {}{}", says, shown(strength, limit),
                              ruling == Ruling::cannot_tell
                                  ? ", so near that the scale it is read on decides"
                                  : "")};
}

Said distilled(const ClassRule& rule, const SpiritFacts& facts) {
  if (!facts.distilled) return {Ruling::cannot_tell, "there are no hearts"};
  const double low =
      in_unit(std::max(*facts.distilled - facts.doubt, units::VolumeStrength{}), rule.limit);
  const double high =
      in_unit(std::min(*facts.distilled + facts.doubt, units::VolumeStrength::percent(100.0)),
              rule.limit);
  const double limit = rule.limit.value;
  Ruling ruling = Ruling::cannot_tell;
  switch (rule.kind) {
    case RuleKind::distilled_under:
      ruling = ruling_of(high < limit, low >= limit);
      break;
    case RuleKind::distilled_at_most:
      ruling = ruling_of(high <= limit, low > limit);
      break;
    case RuleKind::distilled_over:
      ruling = ruling_of(low > limit, high <= limit);
      break;
    default:
      ruling = ruling_of(low >= limit, high < limit);
      break;
  }
  std::string says = fmt::format("the hearts are {}", shown(*facts.distilled, rule.limit));
  if (ruling == Ruling::cannot_tell) {
    says +=
        fmt::format(", too near to tell before they are gauged ({:.1f} to {:.1f})", low, high);
  }
  return {ruling, says};
}

// ---- wood -----------------------------------------------------------------------------------

std::string time_of(units::Duration time) {
  const double months = time.months();
  return months < 24.0 - 1e-6 ? fmt::format("{:.0f} months", months)
                              : fmt::format("{:.1f} years", time.years());
}

std::string staves_of(const WoodFact& wood) {
  return fmt::format("{}; staves in glass are not storage in a cask", wood.name);
}

Said cask(const ClassRule& rule, const SpiritFacts& facts) {
  if (!facts.wood) {
    return rule.if_in_wood ? Said{Ruling::kept, "it meets no wood"}
                           : Said{Ruling::breaks, "it meets no wood"};
  }
  const WoodFact& wood = *facts.wood;
  if (!wood.cask) {
    // Where no cask is needed, staves are not forbidden by it: charred ones are.
    if (!rule.if_in_wood) return {Ruling::breaks, staves_of(wood)};
    return wood.charred ? Said{Ruling::breaks, wood.name}
                        : Said{Ruling::cannot_tell, staves_of(wood)};
  }
  bool such = true;
  switch (rule.cask) {
    case CaskKind::wood:
      break;
    case CaskKind::oak:
      such = wood.oak;
      break;
    case CaskKind::used_oak:
      such = wood.oak && wood.used;
      break;
    case CaskKind::new_charred_oak:
      such = wood.oak && !wood.used && wood.charred;
      break;
    case CaskKind::used_or_uncharred_oak:
      such = wood.oak && (wood.used || !wood.charred);
      break;
  }
  return {such ? Ruling::kept : Ruling::breaks, wood.name};
}

Said matured(const ClassRule& rule, const SpiritFacts& facts) {
  if (!facts.wood) return {Ruling::breaks, "no time in wood"};
  const WoodFact& wood = *facts.wood;
  const std::string time = time_of(wood.time);
  if (!wood.cask) {
    return {Ruling::breaks, fmt::format("{} on staves in glass, none in a cask", time)};
  }
  // A year of the calendar has 365 days or 366.
  const double days = wood.time.days();
  const double slack_days = 1e-6;
  const Ruling ruling = ruling_of(wood.time.years() >= rule.limit.value - slack_days,
                                  days < 365.0 * rule.limit.value - slack_days);
  return {ruling, ruling == Ruling::cannot_tell
                      ? fmt::format("{:.0f} days; a leap year decides", days)
                      : fmt::format("{} in the cask", time)};
}

// ---- one rule -------------------------------------------------------------------------------

bool asked_of(const ClassRule& rule, const SpiritFacts& facts) {
  if (rule.kind == RuleKind::entry_at_most) return facts.wood.has_value();
  if (rule.kind == RuleKind::cask_at_most) return facts.wood && facts.wood->cask;
  return true;
}

Said judged(const ClassRule& rule, const SpiritFacts& facts) {
  const double limit = rule.limit.value;
  const double slack = rounding * limit;
  switch (rule.kind) {
    case RuleKind::grain_alone:
      return grain_alone(facts);
    case RuleKind::share_at_least:
    case RuleKind::share_at_most:
      return share(rule, facts);
    case RuleKind::malt:
      return malt(rule, facts);
    case RuleKind::distilled_under:
    case RuleKind::distilled_over:
    case RuleKind::distilled_at_most:
    case RuleKind::distilled_at_least:
      return distilled(rule, facts);
    case RuleKind::pot_still:
      return facts.plates == 0
                 ? Said{Ruling::kept, "a pot still"}
                 : Said{Ruling::cannot_tell,
                        fmt::format("whether a pot with {} plates counts", facts.plates)};
    case RuleKind::column_still:
      return facts.plates == 0
                 ? Said{Ruling::breaks, "a pot still"}
                 : Said{Ruling::cannot_tell,
                        fmt::format("whether a pot with {} plates counts", facts.plates)};
    case RuleKind::entry_at_most:
      return set_strength(rule, facts.entry, "it goes in");
    case RuleKind::cask:
      return cask(rule, facts);
    case RuleKind::cask_at_most:
      return {facts.wood->holds.litres() <= limit + slack ? Ruling::kept : Ruling::breaks,
              fmt::format("it holds {:g} L", facts.wood->holds.litres())};
    case RuleKind::matured_at_least:
      return matured(rule, facts);
    case RuleKind::bottled_at_least:
      return set_strength(rule, facts.bottled, "it is bottled");
    case RuleKind::condition:
      return {Ruling::condition, ""};
  }
  return {Ruling::cannot_tell, ""};
}

Ruling together(const std::vector<RuleFinding>& rules) {
  const auto any = [&rules](Ruling ruling) {
    return std::any_of(rules.begin(), rules.end(),
                       [ruling](const RuleFinding& one) { return one.ruling == ruling; });
  };
  if (any(Ruling::breaks)) return Ruling::breaks;
  return any(Ruling::cannot_tell) ? Ruling::cannot_tell : Ruling::kept;
}

// What follows for a class from parts of the batch that no rule names.
void add_our_conditions(const SpiritFacts& facts, const ClassFinding& found, bool of_grain,
                        bool of_cask, std::vector<RuleFinding>& rules) {
  if (facts.feints && of_grain) {
    rules.push_back({"feints", "", Ruling::condition,
                     "The feints in the charge come from mashes that keep the same rules", "",
                     base::Standing::our_estimate});
  }
  if (of_cask && facts.beyond_cask > units::Volume::millilitres(1.0) &&
      together(found.rules) != Ruling::breaks) {
    rules.push_back({"beyond-cask", "", Ruling::condition,
                     fmt::format("{:.1f} L do not fit the cask and cannot carry it",
                                 facts.beyond_cask.litres()),
                     "", base::Standing::our_estimate});
  }
}

ClassFinding found_of(const LegalClass& legal, const SpiritFacts& facts) {
  ClassFinding found{&legal, Ruling::kept, {}};
  bool of_grain = false;
  bool of_cask = false;
  for (const ClassRule& rule : class_rules()) {
    if (std::find(rule.of.begin(), rule.of.end(), legal.id) == rule.of.end()) continue;
    of_grain = of_grain || rule.kind == RuleKind::grain_alone;
    of_cask = of_cask || (rule.kind == RuleKind::cask && !rule.if_in_wood);
    if (!asked_of(rule, facts)) continue;
    Said said = judged(rule, facts);
    found.rules.push_back(
        {rule.id, rule.at, said.ruling, demand(rule), std::move(said.says), rule.standing});
  }
  std::vector<RuleFinding> ours;
  add_our_conditions(facts, found, of_grain, of_cask, ours);
  found.rules.insert(found.rules.end(), ours.begin(), ours.end());
  found.ruling = together(found.rules);
  return found;
}

WoodFact wood_of(const WoodStep& step, const Kit& kit) {
  WoodFact fact;
  fact.oak = step.species.ends_with("-oak");
  fact.charred = step.toast.starts_with("char-");
  fact.time = step.time;
  // The botanical name behind the comma says nothing to a rule.
  const std::string_view species = wood::species(step.species).name;
  std::string toast(wood::toast(step.toast).name);
  toast.front() = static_cast<char>(std::tolower(toast.front()));
  const std::string kind = fmt::format("{}, {}", species.substr(0, species.find(',')), toast);
  const auto* name = std::get_if<std::string>(&step.in);
  if (name == nullptr) {
    fact.name = fmt::format("staves of {}", kind);
    return fact;
  }
  fact.cask = true;
  const auto has = std::find_if(kit.casks.begin(), kit.casks.end(),
                                [name](const Cask& cask) { return cask.name == *name; });
  if (has != kit.casks.end()) {
    fact.used = has->used;
    fact.holds = has->volume;
  }
  fact.name = fmt::format("{}, {}, of {}", *name, fact.used ? "used" : "new", kind);
  return fact;
}

}  // namespace

SpiritFacts facts_of(const Recipe& recipe, const Kit& kit, const Plan& plan) {
  SpiritFacts facts;
  const mash::Bill& lines = plan.mash.bill.lines;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const mash::Ingredient& ingredient = lines[i].ingredient;
    if (!mash::is_grain(ingredient)) {
      facts.sugars += lines[i].mass;
      continue;
    }
    facts.grain.push_back(
        {cereal_of(ingredient.id),
         ingredient.sort == mash::Sort::malt || ingredient.sort == mash::Sort::roasted_malt,
         lines[i].mass, plan.mash.bill.potential.lines[i].dry, ingredient.name});
  }
  if (plan.spirit.hearts_all.mass() > units::Mass::milligrams(1.0)) {
    facts.distilled = spirit::strength(plan.spirit.hearts_all);
  }
  facts.doubt = kit.instruments.alcoholmeter;
  facts.plates = kit.still.plates;
  if (recipe.wood) facts.wood = wood_of(*recipe.wood, kit);
  if (plan.finish.wood) facts.beyond_cask = spirit::volume(plan.finish.wood->beyond_cask);
  facts.entry = plan.finish.reduce.strength;
  facts.bottled = plan.finish.bottle.strength;
  facts.feints = recipe.spirit_run.feints.has_value();
  return facts;
}

std::vector<ClassFinding> class_findings(const SpiritFacts& facts) {
  std::vector<ClassFinding> found;
  found.reserve(legal_classes().size());
  for (const LegalClass& legal : legal_classes()) found.push_back(found_of(legal, facts));
  return found;
}

std::vector<ClassFinding> class_findings(const Recipe& recipe, const Kit& kit,
                                         const Plan& plan) {
  return class_findings(facts_of(recipe, kit, plan));
}

}  // namespace lynearm::plan
