#include "station/station.hpp"

#include <algorithm>
#include <optional>
#include <utility>

namespace lynearm::station {

Station::Station(store::House& house, const numeric::Executor& executor,
                 std::function<journal::Moment()> now)
    : house_(house),
      now_(std::move(now)),
      seen_(std::make_shared<Seen>()),
      planned_(executor),
      followed_(executor) {}

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

}  // namespace lynearm::station
