// Lots: what was gauged of one, against what was there before; bottles against their lot.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "base/error.hpp"
#include "journal/asking.hpp"
#include "spirit/obscuration.hpp"
#include "spirit/strength.hpp"

namespace lynearm::journal {
namespace {

using units::VolumeStrength;

bool gauges(const LotUse& use) {
  return use.where == "gauging" || use.where == "soaked and evaporated";
}

std::string more_than_there_was(const LotState& lot, const LotUse& use, double now_L,
                                double before_L) {
  const std::string name = lot.label.empty() ? "the lot" : lot.label;
  const bool making = lot.reckoned && use.told.entry == lot.told.entry;
  if (making && lot.bottles) {
    return fmt::format(
        "The bottles hold {:.2f} L of pure alcohol; what was poured into them held {:.2f} L.",
        now_L, before_L);
  }
  if (making) {
    return fmt::format("What was made holds {:.2f} L of pure alcohol; its parts held {:.2f} L.",
                       now_L, before_L);
  }
  if (use.where == "gauging") {
    return fmt::format("Gauged anew, {} holds {:.2f} L of pure alcohol; there were {:.2f} L.",
                       name, now_L, before_L);
  }
  return fmt::format("{:.2f} L of pure alcohol came off the wood; {} held {:.2f} L.", now_L,
                     name, before_L);
}

// Each gauging against what was there, which is the less known the more was taken out since it
// was gauged last.
void ask_of_gaugings(const HouseState& house, const LotState& lot, const DeskOf& desk) {
  Amount there;
  // As sure as its parts, whatever water went in.
  const std::vector<spirit::Lot> parts = poured_in(house, lot);
  for (const spirit::Lot& part : parts) there.add(part);
  if (parts.empty()) there.add(lot.made);
  spirit::Lot left = lot.made;
  for (const LotUse& use : lot.uses) {
    left = left - use.lot;
    const units::Volume pure = spirit::pure_alcohol(use.lot);
    if (!gauges(use)) {
      there.add(PureVolume{pure * -1.0, pure * volume_share_sd});
      continue;
    }
    const bool some = left.ethanol > units::Mass{} && left.water > units::Mass{};
    const Amount now = some ? Amount{}.add(left) : Amount{};
    Desk* const at = desk(use.batch);
    if (at != nullptr && cannot_be(now, there, at->glass)) {
      at->asking.ask(use.told.entry, more_than_there_was(lot, use, now.value().litres(),
                                                         there.value().litres()));
    }
    there = now;
  }
}

// Whether it, or what it is made of, lay on wood. From the still nothing comes over of that.
bool was_on_wood(const HouseState& house, const LotState& lot, std::set<LotName>& seen) {
  if (lot.name.kind != LotKind::spirit && lot.name.kind != LotKind::bottles) return false;
  if (lot.wood) return true;
  return std::any_of(lot.parents.begin(), lot.parents.end(), [&](const LotName& name) {
    if (!seen.insert(name).second) return false;
    const LotState* const of = lot_named(house, name);
    return of != nullptr && was_on_wood(house, *of, seen);
  });
}

// How far above its gauged strength what was read on an alcoholmeter may truly be.
VolumeStrength hidden(const HouseState& house, const LotState& bottles, const LotState& from,
                      VolumeStrength gauged) {
  if (bottles.residue && !from.residue) {
    try {
      return spirit::true_strength(gauged, *bottles.residue) - gauged;
    } catch (const base::InputError&) {
      return {};  // no spirit holds so much and reads so: nothing is explained by it
    }
  }
  std::set<LotName> seen;
  return was_on_wood(house, from, seen) ? hidden_by_wood : VolumeStrength{};
}

// Gauged when it was poured together, against what its parts and the water make: a water that
// was told wrongly leaves the alcohol as it is.
void ask_of_making(const HouseState& house, const LotState& lot, const Glass& glass,
                   Asking& asking) {
  const std::optional<spirit::Lot> gauged = gauged_when_made(lot);
  if (lot.bottles || !gauged || !(gauged->mass() > units::Mass{})) return;
  units::Mass parts;
  for (const spirit::Lot& part : poured_in(house, lot)) parts += part.mass();
  // Gauged as it came out, and the water never told.
  if (lot.made.mass() - parts < units::Mass::grams(1.0) &&
      spirit::strength(*gauged) < spirit::strength(lot.made)) {
    return;
  }
  const units::Volume made = spirit::volume(lot.made);
  const units::Volume told = spirit::volume(*gauged);
  const VolumeStrength reckoned = spirit::strength(lot.made);
  const VolumeStrength read = spirit::strength(*gauged);
  double off = std::abs((read - reckoned).percent());
  const LotState* const from =
      lot.parents.size() == 1 ? lot_named(house, lot.parents.front()) : nullptr;
  if (from != nullptr && read > reckoned) off -= hidden(house, lot, *from, reckoned).percent();
  // Each of the parts and the water by its own mark or scale.
  const double sd =
      std::hypot(reading_sd(glass, reckoned).percent(), reading_sd(glass, read).percent(),
                 std::sqrt(2.0) * volume_share_sd * reckoned.percent());
  const bool other = off > alike_strength.percent() && off > impossible_deviations * sd;
  if (!other && !(told < made * (1.0 - under_the_mark)) && !cannot_be(told, made)) return;
  asking.ask(
      lot.told.entry,
      fmt::format("Of its parts and the water it would be {:.2f} L at {:.1f} %vol; it was "
                  "gauged at {:.2f} L and {:.1f} %vol{}.",
                  made.litres(), reckoned.percent(), told.litres(), read.percent(),
                  read < reckoned && !lot.residue
                      ? "; what is dissolved in it makes it read low, if drying leaves any"
                      : ""));
}

void ask_of_bottles(const HouseState& house, const LotState& lot, const Glass& glass,
                    Asking& asking) {
  const LotState* const from =
      lot.parents.size() == 1 ? lot_named(house, lot.parents.front()) : nullptr;
  if (from == nullptr || !(lot.made.mass() > units::Mass{})) return;
  const VolumeStrength gauged = spirit::strength(lot.made);
  const VolumeStrength told = lot.bottles->strength;
  double off = std::abs((told - gauged).percent());
  if (!(off > alike_strength.percent())) return;
  if (told > gauged) off -= hidden(house, lot, *from, gauged).percent();
  // What is only reckoned of its parts is as sure as their volumes.
  const double sd =
      std::hypot(reading_sd(glass, gauged).percent(), reading_sd(glass, told).percent(),
                 from->measured ? 0.0 : volume_share_sd * gauged.percent());
  if (!(off > alike_strength.percent() && off > impossible_deviations * sd)) return;
  asking.ask(lot.told.entry,
             fmt::format("The bottling tells {:.1f} %vol; {} was {} at {:.1f} %vol.",
                         told.percent(), from->label.empty() ? "its lot" : from->label,
                         from->measured ? "gauged" : "reckoned", gauged.percent()));
}

}  // namespace

void ask_of_lot(const HouseState& house, const LotState& lot, const DeskOf& desk) {
  Desk* const at = desk(lot.batch);
  if (at != nullptr && lot.bottles) ask_of_bottles(house, lot, at->glass, at->asking);
  ask_of_gaugings(house, lot, desk);
  if (at != nullptr) ask_of_making(house, lot, at->glass, at->asking);
}

}  // namespace lynearm::journal
