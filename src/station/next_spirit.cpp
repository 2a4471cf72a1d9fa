#include <fmt/format.h>

#include <algorithm>
#include <utility>
#include <vector>

#include "station/left_over.hpp"
#include "station/next_stage.hpp"
#include "station/next_step.hpp"
#include "station/taken_up.hpp"

namespace lynearm::station {
namespace {

using journal::Moment;
using journal::Stage;
using units::Duration;
using wire::NextStanding;
using wire::NextStep;

// Samples by the plan's days since it was laid on wood; after the last, the day it comes off.
NextStep of_wood(const journal::HouseState& house,
                 const std::vector<const journal::LotState*>& wooded, const PlanMade* made) {
  const journal::LotState& lot =
      **std::max_element(wooded.begin(), wooded.end(),
                         [](const auto* a, const auto* b) { return a->told.at < b->told.at; });
  NextStep next{.what = "On wood: draw a sample", .stage = Stage::wood, .since = lot.told.at};
  if (made == nullptr || !made->plan.finish.wood) return next;
  const plan::WoodPlan& wood = *made->plan.finish.wood;
  // The plan's time is that on wood in all.
  const Duration time = std::max(Duration{}, wood.time - on_wood_before(house, lot));
  Moment sampled = lot.told.at;
  for (const journal::LotUse& use : lot.uses) {
    if (use.where == "sample") sampled = std::max(sampled, use.told.at);
  }
  next.since = sampled;
  for (const Duration& day : wood.sampling_days) {
    const Moment due = wire::later(lot.told.at, day);
    // A sample half a day early is that day's sample.
    if (due <= wire::later(sampled, Duration::hours(12.0))) continue;
    if (day > time - Duration::days(2.0)) break;  // the last is drawn when it is bottled
    set_due(next, due, late_after_wood, "the plan's sampling days, counted from the filling");
    return next;
  }
  next.what = "Taste, and take it off the wood";
  set_due(next, wire::later(lot.told.at, time), late_after_wood,
          "the plan's time on wood, counted from the first filling; the nose decides");
  return next;
}

// All that was meant to go on went on. What was kept back of it, for topping up, for the next
// batch or for the palate, is no task.
NextStep at_the_end(const journal::HouseState& house, const journal::BatchState& batch) {
  NextStep next{.what = "All is in bottles: close the batch", .since = batch.last};
  next.standing = NextStanding::done;
  const KeptBack kept = kept_back(house, batch);
  if (!(kept.volume > units::Volume{})) return next;
  const bool bottled = kept.bottle > units::Volume{};
  next.what = fmt::format("{}{:.2f} L kept back: close the batch, or use it",
                          bottled ? "In bottles, " : "", kept.volume.litres());
  if (!bottled || kept.volume >= kept.bottle) {
    // One bottle more could be filled.
    next.standing = NextStanding::waits;
    next.stage = Stage::bottle;
  }
  return next;
}

}  // namespace

wire::NextStep after_the_cut(const journal::HouseState& house, const journal::BatchState& batch,
                             const StepsAhead& steps, const PlanMade* made) {
  std::vector<const journal::LotState*> hearts, spirit, wooded;
  bool any = false;
  for (const journal::LotState& lot : house.lots) {
    if (lot.batch != batch.id) continue;
    any = true;
    if (!(lot.left.mass() > units::Mass{}) || spirit::volume(lot.left) < worth_naming) continue;
    if (went_on(lot)) continue;  // the rest of it was kept back
    if (lot.name.kind == journal::LotKind::hearts) hearts.push_back(&lot);
    if (lot.name.kind == journal::LotKind::spirit) (lot.wood ? wooded : spirit).push_back(&lot);
  }
  const auto last = [&](const auto& some) {
    Moment at = some.empty() ? batch.last : some.front()->told.at;
    for (const auto* lot : some) at = std::max(at, lot->told.at);
    return at;
  };
  if (!hearts.empty() || !any) {
    NextStep next{.what = "Reduce the hearts", .stage = Stage::reduce, .since = last(hearts)};
    set_due(next, moved(steps.ends("Jars"), steps.begins("Reduce"), next.since),
            late_after_hands, by_plan);
    return next;
  }
  if (!wooded.empty()) return of_wood(house, wooded, made);
  if (!spirit.empty()) {
    NextStep next{
        .what = "Lay on wood, or bottle", .stage = Stage::wood, .since = last(spirit)};
    const bool off = std::any_of(house.lots.begin(), house.lots.end(), [&](const auto& lot) {
      return lot.batch == batch.id && lot.wood;
    });
    if (off || (made != nullptr && !made->plan.finish.wood)) {
      next.what = "Reduce to bottling strength, and bottle";
      next.stage = Stage::bottle;
      set_due(next, next.since, late_after_wood, by_plan);
    } else {
      set_due(next, moved(steps.ends("Reduce"), steps.begins("Wood"), next.since),
              late_after_wood, by_plan);
    }
    return next;
  }
  return at_the_end(house, batch);
}

}  // namespace lynearm::station
