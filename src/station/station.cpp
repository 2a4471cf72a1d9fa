#include "station/station.hpp"

#include <algorithm>
#include <optional>
#include <utility>

#include "base/error.hpp"

namespace lynearm::station {

Station::Station(store::House& house, const numeric::Executor& executor,
                 std::function<journal::Moment()> now)
    : house_(house),
      now_(std::move(now)),
      seen_(std::make_shared<Seen>()),
      planned_(executor),
      followed_(executor),
      fermenting_(executor) {}

std::vector<store::Kept> Station::keep(std::span<const journal::Entry> entries) {
  return house_.journal().keep(entries, now_());
}

std::vector<store::Kept> Station::take_in(std::span<const journal::Entry> entries) {
  return house_.journal().keep(entries, std::nullopt);
}

std::shared_ptr<const Seen> Station::seen() {
  const std::lock_guard lock(folding_);
  store::Sequence last = seen_->sequence;
  for (;;) {
    std::vector<store::Numbered> more = house_.journal().since(last);
    if (more.empty()) break;
    for (store::Numbered& one : more) {
      last = one.sequence;
      entries_.push_back(std::move(one.entry));
    }
  }
  if (last != seen_->sequence) {
    seen_ = std::make_shared<Seen>(Seen{last, journal::fold(entries_)});
  }
  return seen_;
}

void Station::was_read(std::chrono::microseconds took) {
  // A long one counts at once, and is forgotten over the next few.
  const std::int64_t before = reading_us_.load();
  reading_us_.store(std::max(took.count(), before - before / 4));
}

std::shared_ptr<const PlanMade> Station::plan(const std::string& recipe, const std::string& kit,
                                              int members) {
  return planned_.of(recipe, kit, members);
}

wire::RunForecast Station::forecast(const journal::BatchState& batch,
                                    const journal::RunState& run) {
  if (!batch.plan) {
    throw base::InputError("batch", batch.name, "a batch with a plan: its kit tells the still");
  }
  if (!run.charge_known) {
    throw base::InputError("run", "a charge of unknown strength",
                           "a charge that was gauged, or that is made of gauged lots");
  }
  const std::shared_ptr<const PlanMade> made = plan(batch.plan->recipe, batch.plan->kit, 0);
  return followed_.of(made->pair.recipe, made->pair.kit, batch.plan->kit, run);
}

std::shared_ptr<const wire::FermentForecast> Station::ferment(
    const journal::BatchState& batch) {
  if (!batch.plan) {
    throw base::InputError("batch", batch.name,
                           "a batch with a plan: it tells sugar and vessel");
  }
  if (!batch.ferment.pitch) {
    throw base::InputError("batch", batch.name, "a batch whose yeast was pitched");
  }
  const std::shared_ptr<const PlanMade> made = plan(batch.plan->recipe, batch.plan->kit, 0);
  return fermenting_.of(*made, batch.plan->recipe + batch.plan->kit, batch);
}

wire::NextStep Station::next(const journal::HouseState& house,
                             const journal::BatchState& batch) const {
  const auto made = batch.plan ? planned_.ready(batch.plan->recipe, batch.plan->kit) : nullptr;
  const auto told = fermenting_.ready(batch.id);
  return next_step(house, batch, made.get(), told.get());
}

std::map<journal::Id, wire::NextStep> Station::next_steps(
    const journal::HouseState& house) const {
  std::map<journal::Id, wire::NextStep> all;
  for (const auto& [id, batch] : house.batches) all.emplace(id, next(house, batch));
  return all;
}

bool Station::warm(const numeric::Executor& executor) {
  bool made = false;
  const std::shared_ptr<const Seen> now = seen();
  for (const auto& [id, batch] : now->house.batches) {
    if (batch.closed || !batch.plan) continue;
    try {
      if (!planned_.ready(batch.plan->recipe, batch.plan->kit)) {
        (void)plan(batch.plan->recipe, batch.plan->kit, 0);
        made = true;
      }
      if (batch.ferment.pitch && !batch.ferment.racked) {
        const auto before = fermenting_.ready(id);
        made |= ferment(batch) != before;
      }
      for (const journal::RunState& run : batch.runs) {
        const bool open = run.standing != journal::RunStanding::ended;
        if (!open || !run.charge_known || followed_.begun(run.told.entry)) continue;
        const auto with = plan(batch.plan->recipe, batch.plan->kit, 0);
        (void)followed_.of(with->pair.recipe, with->pair.kit, batch.plan->kit, run, executor);
        made = true;
      }
    } catch (const base::InputError&) {
      // Told to whoever asks.
    } catch (const base::NotConverged&) {
    }
  }
  return made;
}

}  // namespace lynearm::station
