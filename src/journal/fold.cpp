#include "journal/fold.hpp"

#include <algorithm>
#include <utility>

#include "base/error.hpp"
#include "journal/folding.hpp"

namespace lynearm::journal {
namespace {

void note_puzzle(HouseState& house, const Standing& standing, std::string why) {
  const std::optional<Id>& batch = standing.said->batch;
  auto& puzzles = batch ? house.batches[*batch].puzzles : house.puzzles;
  puzzles.push_back({standing.id, std::move(why)});
}

}  // namespace

bool Folding::take(const Standing& standing) {
  standing_ = &standing;
  return std::visit([this](const auto& body) { return on(body); }, standing.said->body);
}

Told Folding::told() const {
  return {standing_->id, standing_->happened, standing_->said->who, standing_->corrections};
}

BatchState& Folding::batch() {
  if (!standing_->said->batch) {
    throw base::InputError("batch", "", "the batch that it belongs to");
  }
  return house_.batches[*standing_->said->batch];
}

void Folding::puzzle(std::string why) { note_puzzle(house_, *standing_, std::move(why)); }

bool Folding::on(const BatchBegun& body) {
  BatchState& of = batch();
  if (of.begun) throw base::InputError("batch", body.name, "a batch that is not begun yet");
  of.begun = told();
  of.name = body.name;
  of.remark = body.remark;
  of.invented = body.invented;
  return true;
}

bool Folding::on(const BatchPlanned& body) {
  BatchState& of = batch();
  const int earlier = of.plan ? of.plan->earlier + 1 : 0;
  of.plan = PlanState{told(), body.recipe, body.kit, earlier};
  return true;
}

bool Folding::on(const BatchClosed&) {
  batch().closed = told();
  return true;
}

bool Folding::on(const KitStated& body) {
  const int earlier = house_.kit ? house_.kit->earlier + 1 : 0;
  house_.kit = PlanState{told(), "", body.kit, earlier};
  return true;
}

bool Folding::on(const Note& body) {
  NoteState note{told(), standing_->said->stage, body.text, body.attachments};
  (standing_->said->batch ? batch().notes : house_.notes).push_back(std::move(note));
  return true;
}

bool Folding::on(const Struck&) { return true; }

bool Folding::on(const StepMarked& body) {
  batch().steps.push_back({told(), standing_->said->stage, body.step, body.done});
  return true;
}

bool Folding::on(const Foreign& body) {
  puzzle("a kind this program does not know: " + body.kind);
  return true;
}

HouseState fold(std::span<const Entry> entries) {
  const Standings all = standings(entries);
  HouseState house;
  for (const Standing& standing : all.entries) {
    if (!standing.said->batch) continue;
    BatchState& of = house.batches[*standing.said->batch];
    of.id = *standing.said->batch;
    if (of.entries++ == 0) of.first = standing.happened;
    of.last = standing.happened;
  }

  Folding folding(house);
  const auto taken = [&](const Standing& standing) {
    try {
      return folding.take(standing);
    } catch (const base::InputError& error) {
      note_puzzle(house, standing, base::sentence(error.faults().front()));
      return true;
    }
  };
  std::vector<const Standing*> waiting;
  for (const Standing& standing : all.entries) {
    if (!taken(standing)) waiting.push_back(&standing);
  }
  // What came before what it speaks of; in order of time again, until nothing moves.
  for (std::size_t before = waiting.size() + 1; waiting.size() < before;) {
    before = waiting.size();
    std::erase_if(waiting, [&](const Standing* standing) { return taken(*standing); });
  }
  for (const Standing* standing : waiting) {
    note_puzzle(house, *standing,
                "it speaks of a run, a jar or a lot that is not in the journal");
  }

  std::map<Id, const Entry*> by_id;
  for (const Entry& entry : entries) by_id.emplace(entry.id, &entry);
  for (const Id& id : all.struck) {
    const std::optional<Id>& batch = by_id.at(id)->batch;
    if (batch) ++house.batches[*batch].struck;
  }
  for (const Idle& idle : all.idle) {
    const std::optional<Id>& batch = by_id.at(idle.id)->batch;
    auto& puzzles = batch ? house.batches[*batch].puzzles : house.puzzles;
    puzzles.push_back({idle.id, idle.why});
  }
  for (auto& [id, batch] : house.batches) {
    batch.id = id;
    // A reading that came late stands in its place.
    for (RunState& run : batch.runs) {
      std::stable_sort(
          run.readings.begin(), run.readings.end(),
          [](const RunPoint& a, const RunPoint& b) { return a.told.at < b.told.at; });
    }
  }
  return house;
}

const LotState* lot_named(const HouseState& state, const LotName& name) {
  const auto found = std::find_if(state.lots.begin(), state.lots.end(),
                                  [&](const LotState& lot) { return lot.name == name; });
  return found == state.lots.end() ? nullptr : &*found;
}

const RunState* run_named(const BatchState& state, const Id& entry) {
  const auto found = std::find_if(state.runs.begin(), state.runs.end(),
                                  [&](const RunState& run) { return run.told.entry == entry; });
  return found == state.runs.end() ? nullptr : &*found;
}

}  // namespace lynearm::journal
