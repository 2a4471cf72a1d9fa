#include "still/shelf.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/error.hpp"
#include "spirit/strength.hpp"
#include "still/yardstick.hpp"

namespace lynearm::still {
namespace {

using units::Volume;
using units::VolumeStrength;

bool any_open(const std::vector<Use>& uses) {
  return std::find(uses.begin(), uses.end(), Use::open) != uses.end();
}

// The heads that were wished aside go to the feints.
std::vector<Use> without_heads(const std::vector<Jar>& jars, const Wishes& wishes,
                               std::vector<Use> uses) {
  if (!wishes.heads) return uses;
  std::vector<Use> fewer = uses;
  Volume run;
  for (const std::size_t i : running_order(jars)) {
    if (fewer[i] == Use::open && run + jars[i].volume * 0.5 < *wishes.heads) {
      fewer[i] = Use::feints;
    }
    run += jars[i].volume;
  }
  return any_open(fewer) ? fewer : uses;
}

/// So little of the foreshots at most may run into a jar for the feints. Our choice.
constexpr double last_of_foreshots = 0.25;

// The jars' uses with the foreshots found. A jar in which they end is mixed: with only the last
// of them in it it is for the feints, and none of it is hearts.
std::vector<Use> uses_of(const std::vector<Jar>& jars, const Wishes& wishes) {
  std::vector<Use> uses;
  bool stated = false;
  for (const Jar& jar : jars) {
    uses.push_back(jar.use);
    stated = stated || jar.use == Use::foreshots;
  }
  if (!stated || wishes.foreshots) {
    Volume run;
    for (const std::size_t i : running_order(jars)) {
      const bool first = run <= Volume{};
      const Volume to_come = wishes.foreshots.value_or(Volume{}) - run;
      if (first || to_come > wishes.foreshots.value_or(Volume{}) * last_of_foreshots) {
        uses[i] = Use::foreshots;
      } else if (to_come > Volume{} && uses[i] == Use::open) {
        uses[i] = Use::feints;
      }
      run += jars[i].volume;
    }
  }
  return without_heads(jars, wishes, std::move(uses));
}

}  // namespace

Shelf::Shelf(const std::vector<Jar>& jars, const Wishes& wishes)
    : jars_(jars), wishes_(wishes), uses_(uses_of(jars, wishes)) {
  yardstick_ = wishes.yardstick.value_or(yardstick_of(jars));
  for (std::size_t i = 0; i < jars.size(); ++i) {
    if (uses_[i] != Use::open) continue;
    if (wishes.jars_at_least && jars[i].strength < *wishes.jars_at_least) continue;
    open_.push_back(i);
    lots_.push_back(lot_of(jars[i]));
    alcohol_L_ += spirit::pure_alcohol(lots_.back()).litres();
  }
  require_any();
  require_strengths();
  lay_out();
}

void Shelf::require_any() const {
  if (!open_.empty()) return;
  const bool by_strength =
      wishes_.jars_at_least &&
      std::any_of(uses_.begin(), uses_.end(), [](Use use) { return use == Use::open; });
  if (!by_strength) {
    throw base::InputError("jars", fmt::format("{} of them", jars_.size()),
                           "at least one besides the foreshots, the feints and those apart");
  }
  VolumeStrength strongest;
  for (std::size_t i = 0; i < jars_.size(); ++i) {
    if (uses_[i] == Use::open) strongest = std::max(strongest, jars_[i].strength);
  }
  throw base::InputError("jars_at_least",
                         fmt::format("{:.6g} %vol", wishes_.jars_at_least->percent()),
                         fmt::format("at most {:.2f} %vol, that of the strongest jar open to "
                                     "the hearts",
                                     strongest.percent()));
}

void Shelf::require_strengths() const {
  VolumeStrength weakest = VolumeStrength::percent(100.0);
  VolumeStrength strongest;
  for (const std::size_t i : open_) {
    weakest = std::min(weakest, jars_[i].strength);
    strongest = std::max(strongest, jars_[i].strength);
  }
  const auto& least = wishes_.hearts_at_least;
  const auto& most = wishes_.hearts_at_most;
  if (least && !(*least > VolumeStrength{} && *least <= strongest)) {
    throw base::InputError(
        "hearts_at_least", fmt::format("{:.6g} %vol", least->percent()),
        fmt::format("a strength above 0, to {:.2f} %vol, that of the strongest jar open to "
                    "the hearts",
                    strongest.percent()));
  }
  if (most && !(*most >= weakest)) {
    throw base::InputError(
        "hearts_at_most", fmt::format("{:.6g} %vol", most->percent()),
        fmt::format("{:.2f} %vol or more, that of the weakest jar open to the hearts; "
                    "water lowers it afterwards",
                    weakest.percent()));
  }
  if (least && most && *most - *least < nearest_limits * (1.0 - 1e-9)) {
    throw base::InputError("hearts_at_least", fmt::format("{:.6g} %vol", least->percent()),
                           fmt::format("at least {:.1f} %vol below the {:.6g} %vol that they "
                                       "may have",
                                       nearest_limits.percent(), most->percent()));
  }
}

spirit::Lot Shelf::hearts(const std::vector<double>& shares) const {
  spirit::Lot sum;
  for (std::size_t i = 0; i < open_.size(); ++i) sum = sum + lots_[i] * shares[i];
  return sum;
}

Allotment Shelf::allotment(double share, bool exact) const {
  std::vector<double> shares = with(share).share;
  for (double& h : shares) {
    // A ten-thousandth of a millilitre in a litre is poured by nobody.
    if (exact) break;
    if (h < 1e-7) h = 0.0;
    if (h > 1.0 - 1e-7) h = 1.0;
  }
  Allotment made(jars_.size());
  for (std::size_t i = 0; i < jars_.size(); ++i) {
    Poured& poured = made[i];
    (uses_[i] == Use::foreshots ? poured.foreshots
     : uses_[i] == Use::apart   ? poured.apart
                                : poured.feints) = jars_[i].volume;
  }
  for (std::size_t k = 0; k < open_.size(); ++k) {
    Poured& poured = made[open_[k]];
    const Volume whole = jars_[open_[k]].volume;
    poured.hearts = whole * shares[k];
    poured.feints = whole * (1.0 - shares[k]);
  }
  return made;
}

}  // namespace lynearm::still
