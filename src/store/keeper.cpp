#include "store/keeper.hpp"

#include <fmt/format.h>

#include <map>
#include <utility>

#include "base/error.hpp"
#include "store/trouble.hpp"

namespace lynearm::store {
namespace {

// Rows of one transaction, past which no further call is taken in: bounds how long the first
// caller waits for the last.
constexpr std::size_t most_rows = 2000;

// Decides the calls of one transaction in their order, against what the journal holds and what
// earlier calls of the same transaction add to it.
class Decision {
 public:
  Decision(std::vector<Row> found, Sequence last) : next_(last + 1) {
    for (Row& row : found) known_.emplace(row.id, std::move(row));
  }

  Outcome decide(const std::vector<Row>& rows) {
    std::vector<Kept> kept;
    std::vector<base::Fault> faults;
    std::vector<Row> fresh;
    std::map<journal::Id, const Row*> within;  // of this call
    Sequence next = next_;
    fresh.reserve(rows.size());  // so that pointers into it hold
    for (std::size_t i = 0; i < rows.size(); ++i) {
      const Row* const there = find(rows[i].id, within);
      if (there == nullptr) {
        Row& row = fresh.emplace_back(rows[i]);
        row.sequence = next++;
        within.emplace(row.id, &row);
        kept.push_back({row.id, row.sequence, true});
      } else if (same(*there, rows[i])) {
        kept.push_back({there->id, there->sequence, false});
      } else {
        faults.push_back({fmt::format("entries[{}].id", i), print(rows[i].id),
                          "an id of its own: an entry that tells something else has this one",
                          "", 0, 0});
      }
    }
    if (!faults.empty()) return std::make_exception_ptr(base::InputError(std::move(faults)));
    next_ = next;
    for (Row& row : fresh) {
      known_.emplace(row.id, row);
      added_.push_back(std::move(row));
    }
    return kept;
  }

  [[nodiscard]] const std::vector<Row>& added() const { return added_; }

 private:
  const Row* find(const journal::Id& id,
                  const std::map<journal::Id, const Row*>& within) const {
    if (const auto own = within.find(id); own != within.end()) return own->second;
    const auto there = known_.find(id);
    return there == known_.end() ? nullptr : &there->second;
  }

  std::map<journal::Id, Row> known_;
  std::vector<Row> added_;
  Sequence next_;
};

}  // namespace

Keeper::Keeper(Engine& engine, std::function<void(Sequence)> told)
    : engine_(&engine), told_(std::move(told)), thread_([this] { work(); }) {}

Keeper::~Keeper() {
  {
    const std::lock_guard lock(mutex_);
    closed_ = true;
  }
  filled_.notify_all();
  thread_.join();
}

void Keeper::keep(std::vector<Row> rows, std::function<void(Outcome)> done) {
  {
    const std::lock_guard lock(mutex_);
    calls_.push_back({std::move(rows), std::move(done)});
  }
  filled_.notify_one();
}

void Keeper::work() {
  for (;;) {
    std::vector<Call> calls = next();
    if (calls.empty()) return;
    write(calls);
  }
}

std::vector<Keeper::Call> Keeper::next() {
  std::unique_lock lock(mutex_);
  filled_.wait(lock, [this] { return closed_ || !calls_.empty(); });
  std::vector<Call> taken;
  std::size_t rows = 0;
  while (!calls_.empty() && (taken.empty() || rows + calls_.front().rows.size() <= most_rows)) {
    rows += calls_.front().rows.size();
    taken.push_back(std::move(calls_.front()));
    calls_.pop_front();
  }
  return taken;
}

void Keeper::write(std::vector<Call>& calls) {
  std::vector<Outcome> outcomes;
  try {
    outcomes = write_together(calls);
  } catch (const Trouble& trouble) {
    if (trouble.kind() == Trouble::Kind::refused && calls.size() > 1) {
      // Something in one of them: each by itself, so that only that one fails.
      for (Call& call : calls) {
        std::vector<Call> alone;
        alone.push_back(std::move(call));
        write(alone);
      }
      return;
    }
    outcomes.assign(calls.size(), Outcome(std::current_exception()));
  } catch (...) {
    outcomes.assign(calls.size(), Outcome(std::current_exception()));
  }
  Sequence last = 0;
  for (std::size_t i = 0; i < calls.size(); ++i) {
    if (const auto* kept = std::get_if<std::vector<Kept>>(&outcomes[i])) {
      for (const Kept& one : *kept) last = one.now ? std::max(last, one.sequence) : last;
    }
    calls[i].done(std::move(outcomes[i]));
  }
  if (last > 0) told_(last);
}

std::vector<Outcome> Keeper::write_together(std::vector<Call>& calls) {
  std::vector<journal::Id> ids;
  for (const Call& call : calls) {
    for (const Row& row : call.rows) ids.push_back(row.id);
  }
  const std::unique_ptr<Engine::Writing> writing = engine_->begin();
  Decision decision(writing->found(ids), writing->last());
  std::vector<Outcome> outcomes;
  outcomes.reserve(calls.size());
  for (const Call& call : calls) outcomes.push_back(decision.decide(call.rows));
  if (!decision.added().empty()) {
    writing->add(decision.added());
    writing->commit();
  }
  return outcomes;
}

}  // namespace lynearm::store
