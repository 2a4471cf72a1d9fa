// Strip, spirit run and jars: charges out of lots, what was read beside the still, jars, and
// the cut that makes lots of them.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "base/error.hpp"
#include "journal/folding.hpp"
#include "journal/meaning.hpp"

namespace lynearm::journal {

RunState* Folding::run(const Id& id) {
  const auto found = runs_.find(id);
  if (found == runs_.end()) return nullptr;
  return &house_.batches[found->second.first].runs[found->second.second];
}

std::string Folding::labelled(std::string_view what, const Id& run_of) {
  const std::string& name = house_.batches[runs_.at(run_of).first].name;
  return name.empty() ? std::string(what) : fmt::format("{} of {}", what, name);
}

bool Folding::on(const RunBegun& body) {
  BatchState& of = batch();
  if (!all_there(body.parts)) return false;
  RunState begun;
  begun.told = told();
  begun.kind = body.kind;
  begun.parts = body.parts;
  begun.wash = body.wash;
  begun.power = body.power;
  const spirit::Lot measured =
      body.strength ? lot_of(body.charge, *body.strength) : spirit::Lot{};
  spirit::Lot sum;
  for (const LotPart& part : body.parts)
    sum = sum + take_out(*lot(part.lot), part.volume, "charge");
  if (body.strength) {
    begun.charge = measured;
    begun.charge_known = true;
  } else if (!body.parts.empty()) {
    // What the lots do not fill is water.
    const units::Mass room = spirit::lot(body.charge.volume, {}, body.charge.at).water;
    const units::Volume filled = spirit::volume(sum);
    const units::Volume rest = std::max(body.charge.volume - filled, units::Volume{});
    begun.charge = {sum.ethanol, sum.water + room * (rest / body.charge.volume)};
    begun.charge_known = true;
  } else if (body.wash && of.ferment.wash) {
    begun.charge = spirit::lot(*body.wash, of.ferment.wash->strength);
    begun.charge_known = true;
  }
  begun.charge_volume = begun.charge_known ? spirit::volume(begun.charge) : body.charge.volume;
  runs_[begun.told.entry] = {of.id, of.runs.size()};
  of.runs.push_back(std::move(begun));
  return true;
}

bool Folding::on(const RunRead& body) {
  RunState* const of = run(body.run);
  if (of == nullptr) return false;
  still::Reading reading = body.reading;
  reading.at = since(standing_->happened, of->told.at);
  reading.line = 0;
  if (reading.at < units::Duration{}) {
    throw base::InputError("at", print(standing_->happened),
                           "a time after the run's heat was turned on");
  }
  of->readings.push_back({told(), reading});
  if (reading.event && of->standing != RunStanding::ended) {
    of->standing =
        *reading.event == still::Event::stopped ? RunStanding::stopped : RunStanding::running;
  }
  return true;
}

bool Folding::on(const JarFilled& body) {
  RunState* const of = run(body.run);
  if (of == nullptr) return false;
  JarState& jar = of->jars[body.jar];
  jar.jar = body.jar;
  if (jar.filled) puzzle(fmt::format("jar {} is filled twice; this one counts", body.jar));
  jar.filled = told();
  jar.as_filled = body.volume;
  return true;
}

bool Folding::on(const RunEnded& body) {
  RunState* const of = run(body.run);
  if (of == nullptr) return false;
  if (of->ended) throw base::InputError("run", "ended again", "one end a run");
  of->ended = told();
  of->standing = RunStanding::ended;
  of->left = body.left;
  if (body.collected && body.strength) {
    of->collected = lot_of(*body.collected, *body.strength);
    if (of->kind == RunKind::strip) {
      make(LotKind::low_wines, labelled("low wines", body.run), *of->collected, true);
    }
  }
  return true;
}

bool Folding::on(const JarGauged& body) {
  RunState* const of = run(body.run);
  if (of == nullptr) return false;
  JarState& jar = of->jars[body.jar];
  jar.jar = body.jar;
  jar.lot = lot_of(body.volume, body.strength);
  jar.gauged = told();
  return true;
}

bool Folding::on(const JarNoted& body) {
  RunState* const of = run(body.run);
  if (of == nullptr) return false;
  JarState& jar = of->jars[body.jar];
  jar.jar = body.jar;
  jar.notes.push_back({told(), body.words, body.text, body.fault});
  return true;
}

bool Folding::on(const JarsAllotted& body) {
  RunState* const of = run(body.run);
  if (of == nullptr) return false;
  const auto missing =
      std::find_if(body.pours.begin(), body.pours.end(), [&](const JarPoured& p) {
        const auto jar = of->jars.find(p.jar);
        return jar == of->jars.end() || !jar->second.lot;
      });
  if (missing != body.pours.end()) return false;  // perhaps its gauging comes later
  if (of->allotted) throw base::InputError("run", "cut again", "one cut a run; correct it");

  struct Poured {
    LotKind kind;
    units::Volume JarPoured::*volume;
    std::string_view label;
    spirit::Lot sum{};
  };
  std::array<Poured, 4> vessels{{{LotKind::foreshots, &JarPoured::foreshots, "foreshots"},
                                 {LotKind::hearts, &JarPoured::hearts, "hearts"},
                                 {LotKind::feints, &JarPoured::feints, "feints"},
                                 {LotKind::apart, &JarPoured::apart, "apart"}}};
  for (const JarPoured& pour : body.pours) {
    JarState& jar = of->jars[pour.jar];
    const units::Volume held = spirit::volume(*jar.lot);
    const units::Volume poured = pour.foreshots + pour.hearts + pour.feints + pour.apart;
    constexpr double rounding = 1.0 + 1e-6;
    if (poured > held * rounding) {
      puzzle(fmt::format("jar {} holds {:.0f} mL, and {:.0f} mL of it are allotted", pour.jar,
                         held.millilitres(), poured.millilitres()));
    }
    jar.poured = pour;
    if (held <= units::Volume{}) continue;
    // More than there is: what there is, in the same shares.
    const units::Volume whole = std::max(held, poured);
    for (Poured& vessel : vessels) {
      vessel.sum = vessel.sum + *jar.lot * (pour.*vessel.volume / whole);
    }
  }
  of->allotted = told();

  int generation = 0;
  std::vector<LotName> parents;
  for (const LotPart& part : of->parts) {
    parents.push_back(part.lot);
    if (const LotState* from = lot(part.lot))
      generation = std::max(generation, from->generation);
  }
  for (const Poured& vessel : vessels) {
    if (vessel.sum.mass() <= units::Mass{}) continue;
    LotState& made = make(vessel.kind, labelled(vessel.label, body.run), vessel.sum, true);
    made.parents = parents;
    if (vessel.kind == LotKind::feints) made.generation = generation + 1;
  }
  return true;
}

}  // namespace lynearm::journal
