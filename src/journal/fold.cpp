#include "journal/fold.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "base/error.hpp"
#include "journal/folding.hpp"

namespace lynearm::journal {

Waits Folding::take(const Standing& standing) {
  standing_ = &standing;
  told_now_.clear();
  Waits waits = std::visit([this](const auto& body) { return on(body); }, standing.said->body);
  if (!waits) told_now_.push_back(Need{standing.id});
  return waits;
}

Told Folding::told() const {
  return {standing_->id, standing_->happened, standing_->said->who, standing_->corrections};
}

BatchState& Folding::batch() {
  if (!standing_->said->batch) {
    throw CannotBe{"It names no batch, and cannot be told without one."};
  }
  return house_.batches[*standing_->said->batch];
}

namespace {

std::string as_a_sentence(std::string why) {
  if (!why.empty() && why.front() >= 'a' && why.front() <= 'z') {
    why.front() = static_cast<char>(why.front() - 'a' + 'A');
  }
  if (!why.ends_with('.')) why += '.';
  return why;
}

}  // namespace

void Folding::puzzle(const Standing& standing, std::string why, bool counts) {
  const std::optional<Id>& batch = standing.said->batch;
  auto& puzzles = batch ? house_.batches[*batch].puzzles : house_.puzzles;
  why = as_a_sentence(std::move(why));
  // An entry that names a lot twice says the same twice.
  for (auto one = puzzles.rbegin(); one != puzzles.rend() && one->entry == standing.id; ++one) {
    if (one->why == why) return;
  }
  puzzles.push_back({standing.id, std::move(why), counts});
}

Waits Folding::on(const BatchBegun& body) {
  BatchState& of = batch();
  if (of.begun) throw CannotBe{"The batch was begun already; what is told first counts."};
  of.begun = told();
  of.name = body.name;
  of.remark = body.remark;
  of.invented = body.invented;
  return taken;
}

Waits Folding::on(const BatchPlanned& body) {
  BatchState& of = batch();
  const int earlier = of.plan ? of.plan->earlier + 1 : 0;
  of.plan = PlanState{told(), body.recipe, body.kit, earlier};
  return taken;
}

Waits Folding::on(const BatchClosed&) {
  batch().closed = told();
  return taken;
}

Waits Folding::on(const KitStated& body) {
  const int earlier = house_.kit ? house_.kit->earlier + 1 : 0;
  house_.kit = PlanState{told(), "", body.kit, earlier};
  return taken;
}

Waits Folding::on(const Note& body) {
  NoteState note{told(), standing_->said->stage, body.text, body.attachments};
  (standing_->said->batch ? batch().notes : house_.notes).push_back(std::move(note));
  return taken;
}

Waits Folding::on(const Struck&) { return taken; }

Waits Folding::on(const StepMarked& body) {
  batch().steps.push_back({told(), standing_->said->stage, body.step, body.done});
  return taken;
}

Waits Folding::on(const Added& body) {
  batch().additions.push_back({told(), standing_->said->stage, body});
  return taken;
}

Waits Folding::on(const AirRead& body) {
  (standing_->said->batch ? batch().airs : house_.airs).push_back({told(), body});
  return taken;
}

Waits Folding::on(const CopperCleaned& body) {
  house_.cleanings.push_back({told(), body});
  return taken;
}

Waits Folding::on(const Upheld& body) {
  (standing_->said->batch ? batch().upheld : house_.upheld).push_back({told(), body});
  return taken;
}

Waits Folding::on(const Foreign& body) {
  puzzle("a kind this program does not know: " + body.kind);
  return taken;
}

void Folding::finish() {
  const auto earlier = [](const auto& a, const auto& b) { return a.told.at < b.told.at; };
  for (auto& [id, batch] : house_.batches) {
    batch.id = id;
    // What had to wait stands in its place.
    std::stable_sort(batch.ferment.points.begin(), batch.ferment.points.end(), earlier);
    std::stable_sort(batch.runs.begin(), batch.runs.end(), earlier);
  }
}

namespace {

std::string why_waiting(const Need& need) {
  switch (need.what) {
    case Need::What::gauged_jar:
      return fmt::format("jar {} of that run is not gauged", need.jar);
    case Need::What::pitch:
      return "a refractometer's figure tells nothing while the wort at the pitch is not known";
    case Need::What::entry:
      break;
  }
  return "it speaks of a run or a lot that is not in the journal";
}

bool is_told_of_a_run(const Body& body) {
  return std::visit(
      [](const auto& of) {
        return requires { of.run; };
      },
      body);
}

// Takes entries in the order in which things happened; one that speaks of what is not there
// yet is taken as soon as that is.
class Queue {
 public:
  Queue(const std::vector<Standing>& entries, Folding& folding)
      : entries_(entries), folding_(folding) {}

  void take(std::size_t place) {
    ready_.insert(place);
    take_ready();
  }

  // A run that was begun stands, whatever became of a lot in its charge.
  void take_runs_without_their_lots() {
    while (const std::optional<std::size_t> place = first_run_waiting()) {
      for (auto& [need, places] : waiting_) std::erase(places, *place);
      folding_.let_lots_miss(true);
      take_one(*place);
      folding_.let_lots_miss(false);
      take_ready();
    }
  }

  // What still waits never will be taken. What was told of a run goes with a run struck out.
  // Returns how many of each batch went so.
  std::map<Id, std::size_t> give_up(const std::set<Id>& struck) {
    std::map<std::size_t, std::string> whys;
    std::map<Id, std::size_t> gone;
    for (const auto& [need, places] : waiting_) {
      for (const std::size_t place : places) {
        const Entry& said = *entries_[place].said;
        if (said.batch && struck.contains(need.id) && is_told_of_a_run(said.body)) {
          ++gone[*said.batch];
        } else {
          whys.emplace(place, why_waiting(need));
        }
      }
    }
    for (auto& [place, why] : whys) folding_.puzzle(entries_[place], std::move(why));
    return gone;
  }

 private:
  void take_ready() {
    while (!ready_.empty()) {
      const std::size_t next = *ready_.begin();
      ready_.erase(ready_.begin());
      take_one(next);
    }
  }

  [[nodiscard]] std::optional<std::size_t> first_run_waiting() const {
    std::optional<std::size_t> first;
    for (const auto& [need, places] : waiting_) {
      for (const std::size_t place : places) {
        const bool run = std::holds_alternative<RunBegun>(entries_[place].said->body);
        if (run && (!first || place < *first)) first = place;
      }
    }
    return first;
  }

  void take_one(std::size_t place) {
    const Standing& standing = entries_[place];
    try {
      if (const Waits waits = folding_.take(standing)) {
        waiting_[*waits].push_back(place);
        return;
      }
    } catch (const CannotBe& cannot) {
      return folding_.puzzle(standing, cannot.why);
    } catch (const base::InputError& error) {
      return folding_.puzzle(standing, base::sentence(error.faults().front()));
    } catch (const base::NotConverged& error) {
      return folding_.puzzle(standing, error.what());
    }
    if (waiting_.empty()) return;
    for (const Need& told : folding_.told_now()) {
      const auto waited = waiting_.find(told);
      if (waited == waiting_.end()) continue;
      ready_.insert(waited->second.begin(), waited->second.end());
      waiting_.erase(waited);
    }
  }

  const std::vector<Standing>& entries_;
  Folding& folding_;
  std::set<std::size_t> ready_;
  std::map<Need, std::vector<std::size_t>> waiting_;
};

// What stands of no entry: how many were struck out, and corrections without effect.
void tell_the_rest(std::span<const Entry> entries, const Standings& all, HouseState& house) {
  if (all.struck.empty() && all.idle.empty()) return;
  std::map<Id, const Entry*> by_id;
  for (const Entry& entry : entries) by_id.emplace(entry.id, &entry);
  for (const Id& id : all.struck) {
    const Entry& said = *by_id.at(id);
    if (!said.batch) continue;
    BatchState& of = house.batches[*said.batch];
    ++of.struck;
    // A batch whose beginning never happened is in nobody's hands, whatever else was told of
    // it.
    const auto* begun = std::get_if<BatchBegun>(&said.body);
    if (begun != nullptr && !of.begun) {
      of.name = begun->name + " (struck out)";
      of.invented = begun->invented;
      // A still that is on stays in sight.
      const bool heated = std::any_of(of.runs.begin(), of.runs.end(), [](const RunState& run) {
        return run.standing != RunStanding::ended;
      });
      if (!of.closed && !heated) of.closed = Told{said.id, happened(said), said.who, 0};
    }
  }
  for (const Idle& idle : all.idle) {
    const std::optional<Id>& batch = by_id.at(idle.id)->batch;
    auto& puzzles = batch ? house.batches[*batch].puzzles : house.puzzles;
    puzzles.push_back({idle.id, as_a_sentence(idle.why)});
  }
}

}  // namespace

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
  Queue queue(all.entries, folding);
  // Batches first: what is made of one is named after it, whenever it was begun.
  const auto begins = [&](std::size_t place) {
    return std::holds_alternative<BatchBegun>(all.entries[place].said->body);
  };
  for (std::size_t i = 0; i < all.entries.size(); ++i) {
    if (begins(i)) queue.take(i);
  }
  for (std::size_t i = 0; i < all.entries.size(); ++i) {
    if (!begins(i)) queue.take(i);
  }
  queue.take_runs_without_their_lots();
  const std::set<Id> struck(all.struck.begin(), all.struck.end());
  for (const auto& [batch, count] : queue.give_up(struck)) house.batches[batch].struck += count;
  tell_the_rest(entries, all, house);
  folding.finish();
  return house;
}

std::optional<spirit::Lot> gauged_when_made(const LotState& lot) {
  if (!lot.reckoned) return std::nullopt;
  const auto found = std::find_if(lot.uses.begin(), lot.uses.end(), [&](const LotUse& use) {
    return use.where == "gauging" && use.told.entry == lot.told.entry;
  });
  if (found == lot.uses.end()) return std::nullopt;
  return lot.made - found->lot;
}

std::vector<spirit::Lot> poured_in(const HouseState& state, const LotState& lot) {
  std::vector<spirit::Lot> poured;
  if (!lot.reckoned) return poured;
  const std::set<LotName> parents(lot.parents.begin(), lot.parents.end());
  for (const LotName& name : parents) {
    const LotState* const from = lot_named(state, name);
    if (from == nullptr) continue;
    for (const LotUse& use : from->uses) {
      if (use.told.entry == lot.told.entry) poured.push_back(use.lot);
    }
  }
  return poured;
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
