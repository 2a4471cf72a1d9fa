#include "station/advice.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>
#include <variant>

#include "base/error.hpp"
#include "ferment/yeast.hpp"
#include "mash/ingredient.hpp"
#include "plan/still_prior.hpp"
#include "station/followed.hpp"
#include "still/estimated_loads.hpp"
#include "wood/species.hpp"

namespace lynearm::station {

namespace {

const std::string& accepted_strength() {
  static const std::string accepted = fmt::format(
      "a jar gauged above 0, to {:.0f} %vol, as no still passes the azeotrope; "
      "gauge it again",
      still::strongest_jar.percent());
  return accepted;
}

[[noreturn]] void refuse_misread(const ShelfJars& shelf) {
  std::vector<base::Fault> faults;
  for (const auto& [number, strength] : shelf.misread) {
    faults.push_back({fmt::format("jar {}", number),
                      fmt::format("gauged at {:.1f} %vol", strength.percent()),
                      accepted_strength(), "", 0, 0});
  }
  throw base::InputError(std::move(faults));
}

}  // namespace

ShelfJars shelf_jars(const journal::RunState& run) {
  ShelfJars shelf;
  std::vector<still::Jar> jars;
  for (const auto& [number, jar] : run.jars) {
    if (!jar.lot || jar.lot->mass() <= units::Mass{}) continue;
    still::Jar one;
    one.label = std::to_string(number);
    one.volume = spirit::volume(*jar.lot);
    one.strength = spirit::strength(*jar.lot);
    if (!(one.strength > units::VolumeStrength{} && one.strength <= still::strongest_jar)) {
      shelf.misread.emplace(number, one.strength);
      continue;
    }
    for (const journal::JarNote& note : jar.notes) one.fault = note.fault.value_or(one.fault);
    jars.push_back(std::move(one));
    shelf.numbers.push_back(number);
  }
  if (jars.empty() && !shelf.misread.empty()) refuse_misread(shelf);
  if (jars.empty()) throw base::InputError("jars", "none gauged", "jars gauged after airing");
  still::FilledJars filled = still::fill_loads(std::move(jars));
  shelf.jars = std::move(filled.jars);
  shelf.alcohol_left = filled.alcohol_left;
  shelf.left_assumed = filled.left_assumed;
  return shelf;
}

void keep_to_plan(ShelfJars& shelf, const plan::Recipe& recipe, const journal::RunState& run) {
  const still::CutRules rules = plan::cut_rules(recipe, ahead_of(run));
  const auto volume = [](const std::optional<still::Border>& border) {
    const auto* run_off = border ? std::get_if<units::Volume>(&*border) : nullptr;
    return run_off != nullptr ? std::optional(*run_off) : std::nullopt;
  };
  shelf.foreshots_end = volume(rules.foreshots_end);
  shelf.heads_end = volume(rules.heads_end);
}

PouredJars poured(const ShelfJars& shelf, const std::vector<journal::JarPoured>& pours) {
  still::Allotment allotment(shelf.jars.size());
  for (std::size_t i = 0; i < shelf.jars.size(); ++i) allotment[i].apart = shelf.jars[i].volume;
  std::vector<base::Fault> faults;
  std::vector<bool> named(shelf.jars.size(), false);
  for (std::size_t i = 0; i < pours.size(); ++i) {
    const journal::JarPoured& pour = pours[i];
    const std::string field = fmt::format("jars[{}]", i);
    const units::Volume used = pour.foreshots + pour.hearts + pour.feints;
    if (const auto misread = shelf.misread.find(pour.jar); misread != shelf.misread.end()) {
      if (!(used > units::Volume{})) continue;  // stands apart, as if it were not named
      faults.push_back(
          {field + ".jar",
           fmt::format("{}, gauged at {:.1f} %vol", pour.jar, misread->second.percent()),
           accepted_strength(), "", 0, 0});
      continue;
    }
    const auto found = std::find(shelf.numbers.begin(), shelf.numbers.end(), pour.jar);
    if (found == shelf.numbers.end()) {
      faults.push_back(
          {field + ".jar", std::to_string(pour.jar), "a jar that is gauged", "", 0, 0});
      continue;
    }
    const auto jar = static_cast<std::size_t>(found - shelf.numbers.begin());
    if (named[jar]) {
      faults.push_back({field + ".jar", std::to_string(pour.jar), "each jar once", "", 0, 0});
      continue;
    }
    named[jar] = true;
    const units::Volume held = shelf.jars[jar].volume;
    // A page rounds to the millilitre; half of one beyond the jar is the jar.
    if (used > held + units::Volume::millilitres(0.5)) {
      faults.push_back({field, fmt::format("{:.0f} mL", used.millilitres()),
                        fmt::format("at most the {:.0f} mL of the jar", held.millilitres()), "",
                        0, 0});
      continue;
    }
    const double fits = used > held ? held / used : 1.0;
    allotment[jar] = {pour.foreshots * fits, pour.hearts * fits, pour.feints * fits,
                      std::max(held - used * fits, units::Volume{})};
  }
  if (!faults.empty()) throw base::InputError(std::move(faults));
  still::Outcome outcome = still::evaluate(shelf.jars, allotment);
  return {std::move(allotment), outcome};
}

still::CutProposal cuts(const ShelfJars& shelf, const still::Purpose& purpose) {
  if (!shelf.misread.empty()) refuse_misread(shelf);
  still::Wishes wishes;
  wishes.weights = purpose.weights;
  wishes.foreshots = shelf.foreshots_end;
  wishes.heads = shelf.heads_end;
  return still::propose(shelf.jars, wishes);
}

wire::Choices choices() {
  constexpr std::array<std::string_view, 7> sorts = {
      "raw grain", "gelatinised grain", "malt", "roasted malt", "sugar", "honey", "molasses"};
  wire::Choices all;
  for (const mash::Ingredient& one : mash::ingredients()) {
    all.ingredients.push_back({one.id, one.name,
                               std::string(sorts[static_cast<std::size_t>(one.sort)]),
                               one.extract.value, one.moisture.value});
  }
  for (const ferment::Yeast& one : ferment::yeasts()) {
    all.yeasts.push_back({std::string(one.id), std::string(one.name), "", {}, {}});
  }
  for (const wood::Species& one : wood::species()) {
    all.species.push_back({std::string(one.id), std::string(one.name), "", {}, {}});
  }
  for (const wood::Toast& one : wood::toasts()) {
    all.toasts.push_back({std::string(one.id), std::string(one.name), "", {}, {}});
  }
  return all;
}

}  // namespace lynearm::station
