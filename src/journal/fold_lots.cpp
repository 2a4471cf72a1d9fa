// Lots: brought, gauged, taken from, poured together, onto wood and off it, into bottles.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "journal/folding.hpp"
#include "journal/meaning.hpp"

namespace lynearm::journal {

LotState* Folding::lot(const LotName& name) {
  const auto found = lots_.find(name);
  return found == lots_.end() ? nullptr : &house_.lots[found->second];
}

Waits Folding::missing(const std::vector<LotPart>& parts) {
  for (const LotPart& part : parts) {
    if (lot(part.lot) == nullptr) return waits_for(part.lot.entry);
  }
  return taken;
}

LotState& Folding::make(LotKind kind, std::string label, const spirit::Lot& of, bool measured,
                        const std::optional<Id>& by) {
  LotState made;
  made.told = told();
  made.batch = standing_->said->batch;
  made.name = {by.value_or(standing_->id), kind};
  made.label = std::move(label);
  made.made = made.left = of;
  made.measured = measured;
  lots_[made.name] = house_.lots.size();
  return house_.lots.emplace_back(std::move(made));
}

LotUse Folding::use(std::string where, const spirit::Lot& of) const {
  return {told(), std::move(where), of, standing_->said->batch};
}

spirit::Lot Folding::take_out(LotState& from, units::Volume volume, std::string where) {
  const units::Volume there = spirit::volume(from.left);
  if (volume > there * two_gaugings) {
    puzzle_that_counts(
        fmt::format("{:.3f} L are taken out of {:.3f} L of {}: all there was "
                    "counts as taken",
                    volume.litres(), there.litres(), from.label));
  }
  double share = there > units::Volume{} ? volume / there : 0.0;
  // Told to the millilitre, or to rounding, all is all: no crumbs.
  const bool crumb = there - volume <= units::Volume::millilitres(1.0);
  if (share > 1.0 - 1e-6 || (crumb && share > 0.99)) share = 1.0;
  const spirit::Lot out = from.left * share;
  from.left = share < 1.0 ? from.left - out : spirit::Lot{};
  from.uses.push_back(use(std::move(where), out));
  return out;
}

Waits Folding::on(const LotBrought& body) {
  LotState& made = make(body.kind, body.name, lot_of(body.volume, body.strength), true);
  made.brought = true;
  if (body.kind == LotKind::feints) made.generation = 1;
  return taken;
}

Waits Folding::on(const LotGauged& body) {
  LotState* const of = lot(body.lot);
  if (of == nullptr) return gauges_a_strip(body) ? taken : waits_for(body.lot.entry);
  const spirit::Lot now = lot_of(body.volume, body.strength);
  of->uses.push_back(use("gauging", of->left - now));
  of->left = now;
  of->measured = true;
  of->residue.reset();  // of a gauging before
  return taken;
}

Waits Folding::on(const LotTaken& body) {
  LotState* const of = lot(body.lot);
  if (of == nullptr) return waits_for(body.lot.entry);
  constexpr std::array<std::string_view, 6> words = {"sample",    "tasted", "spilt",
                                                     "destroyed", "given",  "other"};
  take_out(*of, body.volume, std::string(words[static_cast<std::size_t>(body.gone)]));
  return taken;
}

Waits Folding::on(const LotMade& body) {
  if (const Waits waits = missing(body.parts)) return waits;
  spirit::Lot sum{{}, body.water};
  std::vector<LotName> parents;
  for (const LotPart& part : body.parts) {
    sum = sum + take_out(*lot(part.lot), part.volume, "blend");
    parents.push_back(part.lot);
  }
  // A strength without a volume tells what the mass poured together is made of; a volume
  // without a strength, how much there is of what was computed.
  std::optional<spirit::Lot> measured;
  if (body.volume || body.strength) {
    measured = or_puzzle([&] {
      if (body.residue && body.strength) {
        return body.volume ? lot_of(*body.volume, *body.strength, *body.residue)
                           : lot_of(sum.mass(), *body.strength, *body.residue);
      }
      if (body.volume && body.strength) return lot_of(*body.volume, *body.strength);
      if (body.strength) return spirit::lot(sum.mass(), true_strength(*body.strength));
      return spirit::lot(body.volume->volume, spirit::strength(sum), body.volume->at);
    });
  }
  LotState& made = make(LotKind::spirit, body.name, sum, false);
  made.reckoned = true;
  if (body.strength) made.residue = body.residue;
  made.parents = std::move(parents);
  made.generation = generation_of(body.parts);
  if (measured) {
    made.uses.push_back(use("gauging", sum - *measured));
    made.left = *measured;
    made.measured = true;
  }
  return taken;
}

Waits Folding::on(const WoodFilled& body) {
  LotState* const from = lot(body.part.lot);
  if (from == nullptr) return waits_for(body.part.lot.entry);
  const std::string label = from->label;
  const int generation = from->generation;
  const spirit::Lot filled = take_out(*from, body.part.volume, "wood");
  LotState& made =
      make(LotKind::spirit, fmt::format("{}, in {}", label, body.in), filled, false);
  made.reckoned = true;
  made.parents = {body.part.lot};
  made.generation = generation;
  made.wood =
      OnWood{body.in, body.species, body.toast, body.staves, body.used_times, body.besides};
  return taken;
}

Waits Folding::on(const WoodSampled& body) {
  LotState* const of = lot(body.lot);
  if (of == nullptr) return waits_for(body.lot.entry);
  take_out(*of, body.volume, "sample");
  if (!body.text.empty() || !body.words.empty()) {
    std::string text = fmt::format("{}", fmt::join(body.words, ", "));
    if (!text.empty() && !body.text.empty()) text += ": ";
    NoteState note{told(), Stage::wood, text + body.text, {}};
    (standing_->said->batch ? batch().notes : house_.notes).push_back(std::move(note));
  }
  return taken;
}

Waits Folding::on(const WoodTopped& body) {
  LotState* const of = lot(body.lot);
  if (of == nullptr) return waits_for(body.lot.entry);
  LotState* const from = lot(body.part.lot);
  if (from == nullptr) return waits_for(body.part.lot.entry);
  if (!of->wood) throw CannotBe{fmt::format("{} is not on wood.", of->label)};
  if (of->left.mass() <= units::Mass{}) {
    throw CannotBe{fmt::format("{} was taken off the wood already.", of->label)};
  }
  if (from == of) {
    throw CannotBe{fmt::format("{} cannot be topped up with itself.", of->label)};
  }
  const spirit::Lot poured = take_out(*from, body.part.volume, "topping up");
  // What came in is a use below nothing, so that the lot still balances.
  of->uses.push_back(use(std::string(topped_up), poured * -1.0));
  of->left = of->left + poured;
  of->generation = std::max(of->generation, from->generation);
  if (std::find(of->parents.begin(), of->parents.end(), body.part.lot) == of->parents.end()) {
    of->parents.push_back(body.part.lot);
  }
  return taken;
}

Waits Folding::on(const Labelled& body) {
  LotState* const of = lot(body.lot);
  if (of == nullptr) return waits_for(body.lot.entry);
  if (!of->bottles)
    throw CannotBe{fmt::format("{} is not in bottles: only bottles bear labels.", of->label)};
  of->bottles->label = OnLabel{told(), body.name, body.strength, body.names_class, body.rule};
  return taken;
}

Waits Folding::on(const WoodEmptied& body) {
  LotState* const of = lot(body.lot);
  if (of == nullptr) return waits_for(body.lot.entry);
  if (!of->wood) throw CannotBe{fmt::format("{} is not on wood.", of->label)};
  if (of->left.mass() <= units::Mass{}) {
    throw CannotBe{fmt::format("{} was taken off the wood already.", of->label)};
  }
  const spirit::Lot off = lot_of(body.volume, body.strength);
  const std::string label = of->label;
  const int generation = of->generation;
  of->uses.push_back(use("soaked and evaporated", of->left - off));
  of->uses.push_back(use("off the wood", off));
  of->left = {};
  LotState& made = make(LotKind::spirit, label + ", off the wood", off, true);
  made.parents = {body.lot};
  made.generation = generation;
  return taken;
}

Waits Folding::on(const Bottled& body) {
  LotState* const from = lot(body.part.lot);
  if (from == nullptr) return waits_for(body.part.lot.entry);
  const spirit::Lot filled =
      spirit::lot(body.size * static_cast<double>(body.bottles), body.strength);
  const std::string label = from->label;
  const int generation = from->generation;
  const spirit::Lot poured = take_out(*from, body.part.volume, "bottles");
  LotState& made = make(LotKind::bottles, label + ", bottled", poured, true);
  made.reckoned = true;
  made.residue = body.residue;
  made.parents = {body.part.lot};
  made.generation = generation;
  made.bottles = InBottles{body.bottles, body.size, body.strength};
  made.uses.push_back(use("gauging", poured - filled));
  made.left = filled;
  return taken;
}

}  // namespace lynearm::journal
