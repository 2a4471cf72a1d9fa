// Strip, spirit run and jars: charges out of lots, what was read beside the still, jars, and
// the cut that makes lots of them.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <set>
#include <utility>

#include "journal/folding.hpp"
#include "journal/meaning.hpp"

namespace lynearm::journal {

RunState* Folding::run(const Id& id) {
  const auto found = runs_.find(id);
  if (found == runs_.end()) return nullptr;
  const Id& of = found->second.first;
  const std::optional<Id>& named = standing_->said->batch;
  if (named && *named != of) throw CannotBe{"It speaks of a run of another batch."};
  return &house_.batches[of].runs[found->second.second];
}

std::string Folding::labelled(std::string_view what, const Id& run_of,
                              std::string_view joined) {
  const std::string& name = house_.batches[runs_.at(run_of).first].name;
  return name.empty() ? std::string(what) : fmt::format("{} {} {}", what, joined, name);
}

int Folding::generation_of(const std::vector<LotPart>& parts) {
  int generation = 0;
  for (const LotPart& part : parts) {
    if (const LotState* from = lot(part.lot))
      generation = std::max(generation, from->generation);
  }
  return generation;
}

Waits Folding::on(const RunBegun& body) {
  BatchState& of = batch();
  const Waits waits = missing(body.parts);
  if (waits && !lots_may_miss_) return waits;
  RunState begun;
  begun.told = told();
  begun.kind = body.kind;
  begun.parts = body.parts;
  begun.wash = body.wash;
  begun.power = body.power;
  spirit::Lot sum;
  std::size_t absent = 0;
  for (const LotPart& part : body.parts) {
    LotState* const from = lot(part.lot);
    if (from == nullptr) ++absent;
    if (from != nullptr) sum = sum + take_out(*from, part.volume, "charge");
  }
  if (absent > 0) {
    const std::string which =
        body.parts.size() == 1
            ? "the lot in its charge is"
            : fmt::format("of the {} lots in its charge {}", body.parts.size(),
                          absent == 1 ? "one is" : fmt::format("{} are", absent));
    puzzle(which + " not in the journal, or struck out; the run stands");
  }
  begun.put_in = spirit::volume(sum) + body.wash.value_or(units::Volume{});
  const std::optional<WashState>& wash = of.ferment.wash;
  const bool parts_known = !waits && (!body.parts.empty() || body.wash) && (!body.wash || wash);
  // What cannot be made out leaves a run whose charge is not known: a run all the same.
  std::optional<spirit::Lot> charge;
  if (body.strength) {
    charge = or_puzzle([&] { return lot_of(body.charge, *body.strength); });
    begun.charge_gauged = charge.has_value();
  }
  if (!charge && parts_known) {
    if (body.wash) sum = sum + spirit::lot(*body.wash, wash->strength);
    // What lots and wash do not fill is water.
    charge = or_puzzle([&] { return made_up_to(sum, body.charge); });
  }
  begun.charge_known = charge.has_value();
  begun.charge = charge.value_or(spirit::Lot{});
  begun.charge_volume = charge ? spirit::volume(*charge) : watery_volume(body.charge);
  begun.charge_told =
      charge
          ? body.charge.volume * (begun.charge_volume / spirit::volume(*charge, body.charge.at))
          : begun.charge_volume;
  runs_[begun.told.entry] = {of.id, of.runs.size()};
  of.runs.push_back(std::move(begun));
  return taken;
}

Waits Folding::on(const RunRead& body) {
  RunState* const of = run(body.run);
  if (of == nullptr) return waits_for(body.run);
  still::Reading reading = body.reading;
  reading.at = since(standing_->happened, of->told.at);
  // Another device's clock; it was read at the heat's going on.
  if (reading.at < units::Duration{} && reading.at * -1.0 <= clocks_differ) reading.at = {};
  reading.line = 0;
  if (reading.at < units::Duration{}) {
    of->before_heat.push_back(told());
    return taken;
  }
  if (reading.at > still::longest_run) {
    throw CannotBe{
        fmt::format("It is told for a time {} after the heat of its run went on: no "
                    "run lasts so long.",
                    how_long(reading.at))};
  }
  if (reading.event) {
    const bool stops = *reading.event == still::Event::stopped;
    if (stops == of->stopped) {
      // Those who follow the run need them to alternate.
      puzzle(stops ? "stopped, where the run was stopped already: left out"
                   : "resumed, where the run was going: left out");
      reading.event.reset();
    } else {
      of->stopped = stops;
      if (of->standing != RunStanding::ended) {
        of->standing = stops ? RunStanding::stopped : RunStanding::running;
      }
    }
  }
  of->readings.push_back({told(), std::move(reading)});
  return taken;
}

Waits Folding::on(const JarFilled& body) {
  RunState* const of = run(body.run);
  if (of == nullptr) return waits_for(body.run);
  JarState& jar = of->jars[body.jar];
  jar.jar = body.jar;
  if (jar.filled) puzzle(fmt::format("jar {} is filled twice; this one counts", body.jar));
  jar.filled = told();
  jar.as_filled = body.volume;
  return taken;
}

Waits Folding::on(const RunEnded& body) {
  RunState* const of = run(body.run);
  if (of == nullptr) return waits_for(body.run);
  if (of->ended) {
    throw CannotBe{
        "The run had ended already: a run ends once, and its first end counts. If that one was "
        "told wrongly, correct it."};
  }
  of->ended = told();
  of->standing = RunStanding::ended;
  of->left = body.left;
  of->collected_read = body.collected;
  if (body.left && body.left_strength) {
    const VolumeRead left{*body.left, body.left_strength->at};
    of->left_lot = or_puzzle([&] { return lot_of(left, *body.left_strength); });
  }
  if (body.collected && body.strength) {
    of->collected = or_puzzle([&] { return lot_of(*body.collected, *body.strength); });
  }
  if (of->collected && of->kind == RunKind::strip) make_low_wines(*of, *of->collected);
  return taken;
}

void Folding::make_low_wines(const RunState& run, const spirit::Lot& all) {
  LotState& made = make(LotKind::low_wines, labelled("low wines", run.told.entry), all, true,
                        run.ended->entry);
  for (const LotPart& part : run.parts) made.parents.push_back(part.lot);
  made.generation = generation_of(run.parts);
}

bool Folding::gauges_a_strip(const LotGauged& body) {
  if (body.lot.kind != LotKind::low_wines || !standing_->said->batch) return false;
  for (RunState& of : batch().runs) {
    if (of.kind != RunKind::strip || !of.ended || of.ended->entry != body.lot.entry) continue;
    if (of.allotted) {
      throw CannotBe{"The jars of that strip were allotted: their lots are what is gauged."};
    }
    of.collected = lot_of(body.volume, body.strength);
    of.collected_read = body.volume;
    make_low_wines(of, *of.collected);
    told_now_.push_back(Need{body.lot.entry});
    return true;
  }
  return false;
}

Waits Folding::on(const JarGauged& body) {
  RunState* const of = run(body.run);
  if (of == nullptr) return waits_for(body.run);
  const auto known = of->jars.find(body.jar);
  if (known != of->jars.end() && known->second.poured) {
    throw CannotBe{fmt::format(
        "Jar {} is told to have been gauged {} after the cut that poured it out. If "
        "the cut was made later, correct when; else it is the lot that was made "
        "that is gauged.",
        body.jar, how_long(since(standing_->happened, of->allotted->at)))};
  }
  const spirit::Lot gauged = lot_of(body.volume, body.strength);
  JarState& jar = of->jars[body.jar];
  jar.jar = body.jar;
  jar.lot = jar.left = gauged;
  jar.gauged = told();
  told_now_.push_back(Need{body.run, Need::What::gauged_jar, body.jar});
  return taken;
}

Waits Folding::on(const JarNoted& body) {
  RunState* const of = run(body.run);
  if (of == nullptr) return waits_for(body.run);
  JarState& jar = of->jars[body.jar];
  jar.jar = body.jar;
  jar.notes.push_back({told(), body.words, body.text, body.fault});
  return taken;
}

Waits Folding::on(const JarsAllotted& body) {
  RunState* const of = run(body.run);
  if (of == nullptr) return waits_for(body.run);
  if (of->allotted) {
    throw CannotBe{
        "The jars of this run were allotted already: a run is cut once. To cut it otherwise, "
        "correct the first cut."};
  }
  std::set<int> named;
  for (const JarPoured& pour : body.pours) {
    if (!named.insert(pour.jar).second) {
      throw CannotBe{fmt::format("Jar {} is allotted twice in one cut.", pour.jar)};
    }
    const auto jar = of->jars.find(pour.jar);
    if (jar == of->jars.end() || !jar->second.lot) {
      return Need{body.run, Need::What::gauged_jar, pour.jar};
    }
  }

  struct Vessel {
    LotKind kind;
    units::Volume JarPoured::*volume;
    std::string_view label;
    std::string_view joined = "of";
    spirit::Lot sum{};
  };
  std::array<Vessel, 4> vessels{
      {{LotKind::foreshots, &JarPoured::foreshots, "foreshots"},
       {LotKind::hearts, &JarPoured::hearts, "hearts"},
       {LotKind::feints, &JarPoured::feints, "feints"},
       {LotKind::apart, &JarPoured::apart, "spirit set apart", "at"}}};
  for (const JarPoured& pour : body.pours) {
    JarState& jar = of->jars[pour.jar];
    const units::Volume held = spirit::volume(*jar.lot);
    const units::Volume poured = pour.foreshots + pour.hearts + pour.feints + pour.apart;
    if (poured > held * two_gaugings) {
      puzzle_that_counts(
          fmt::format("jar {} holds {:.0f} mL, and {:.0f} mL of it are allotted: what it holds "
                      "counts, in the same shares",
                      pour.jar, held.millilitres(), poured.millilitres()));
    }
    jar.poured = pour;
    if (poured <= units::Volume{}) continue;
    // To rounding all: all.
    const bool all = !(poured < held * (1.0 - 1e-6));
    const double share = all ? 1.0 : poured / held;
    jar.left = all ? spirit::Lot{} : *jar.lot * (1.0 - share);
    for (Vessel& vessel : vessels) {
      vessel.sum = vessel.sum + *jar.lot * (share * (pour.*vessel.volume / poured));
    }
  }
  of->allotted = told();

  std::vector<LotName> parents;
  for (const LotPart& part : of->parts) parents.push_back(part.lot);
  const int generation = generation_of(of->parts);
  for (const Vessel& vessel : vessels) {
    if (vessel.sum.mass() <= units::Mass{}) continue;
    LotState& made =
        make(vessel.kind, labelled(vessel.label, body.run, vessel.joined), vessel.sum, true);
    made.parents = parents;
    if (vessel.kind == LotKind::feints) made.generation = generation + 1;
  }
  return taken;
}

}  // namespace lynearm::journal
