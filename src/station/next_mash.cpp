#include <string>
#include <utility>
#include <vector>

#include "station/next_stage.hpp"
#include "station/next_step.hpp"

namespace lynearm::station {
namespace {

using journal::Moment;

// The steps of the mash that hands work through one after the other, as far as they are done.
class MashSteps {
 public:
  MashSteps(const journal::BatchState& batch, const PlanMade* made) {
    if (made == nullptr) return;
    for (const plan::Step& step : made->plan.timeline.steps) {
      if (step.stage == "Mash" && !step.beside) steps_.push_back(&step);
    }
    // Whoever works does not mark each: the furthest that is done counts.
    for (std::size_t i = 0; i < steps_.size(); ++i) {
      const journal::StepState* mark = nullptr;
      for (const journal::StepState& one : batch.steps) {
        if (one.step == steps_[i]->what) mark = &one;  // one marked again stands again
      }
      if (mark != nullptr && mark->done) done(i, mark->told.at);
    }
    // A wort that was drawn ends its run-off, marked or not.
    std::size_t from = 0;
    for (const journal::WortState& wort : batch.mash.worts) {
      if (wort.from == "sugar") continue;
      while (from < steps_.size() && !runs_off(*steps_[from])) ++from;
      if (from == steps_.size()) break;
      done(from++, wort.told.at);
    }
  }

  /// Nothing is known to be done.
  [[nodiscard]] bool untouched() const { return !last_; }
  /// In hand, or null when the last one is done.
  [[nodiscard]] const plan::Step* in_hand() const {
    return last_ && last_->first + 1 < steps_.size() ? steps_[last_->first + 1] : nullptr;
  }
  [[nodiscard]] const plan::Step* after_it() const {
    return last_ && last_->first + 2 < steps_.size() ? steps_[last_->first + 2] : nullptr;
  }
  /// The step before it, which must be there.
  [[nodiscard]] const plan::Step& behind() const { return *steps_[last_->first]; }
  [[nodiscard]] Moment done_at() const { return last_->second; }

 private:
  static bool runs_off(const plan::Step& step) {
    const std::string_view what = step.what;
    return what.starts_with("Drain") || what.starts_with("Sparge with");
  }
  void done(std::size_t i, Moment at) {
    if (!last_ || last_->first <= i) last_ = {i, at};
  }

  std::vector<const plan::Step*> steps_;
  std::optional<std::pair<std::size_t, Moment>> last_;  ///< place and time
};

// "Rest; it drifts to 63.9 °C": "rest".
std::string in_short(const plan::Step& step) {
  std::string what = step.what.substr(0, step.what.find(';'));
  if (!what.empty() && what[0] >= 'A' && what[0] <= 'Z') what[0] += 'a' - 'A';
  return what;
}

}  // namespace

wire::NextStep mash_day(const journal::BatchState& batch, const StepsAhead& steps,
                        const PlanMade* made) {
  wire::NextStep next{.what = "Mash day", .stage = journal::Stage::mash, .since = batch.last};
  // The plan has no date; once something is done, the rest follows by its steps.
  std::optional<Moment> begun;
  const auto see = [&](Moment at) { begun = std::min(begun.value_or(at), at); };
  for (const auto& one : batch.mash.temperatures) see(one.told.at);
  for (const auto& one : batch.mash.waters) see(one.told.at);
  for (const auto& one : batch.mash.worts) see(one.told.at);
  for (const auto& one : batch.steps) {
    if (one.stage == journal::Stage::mash) see(one.told.at);
  }
  if (!begun) return next;
  next.since = *begun;
  const MashSteps mash(batch, made);
  if (mash.untouched()) {
    if (batch.mash.worts.empty()) {
      next.what = "Mash: mind the rest, then draw the wort";
      set_due(next, moved(steps.begins("Mash"), steps.begins("Mash", "Drain"), *begun),
              late_after_mash, by_plan);
    } else {
      next.what = "Cool the wort, top it up and pitch";
      next.stage = journal::Stage::ferment;
    }
    return next;
  }
  next.since = mash.done_at();
  const plan::Step* const now = mash.in_hand();
  if (now == nullptr) {
    next.what = "Top up the wort and pitch";
    next.stage = journal::Stage::ferment;
    set_due(next, hands_free(mash.behind().end(), steps.begins("Ferment"), next.since),
            late_after_mash, by_plan);
    return next;
  }
  next.what = "Mash: " + in_short(*now);
  // What only time does ends with what a hand does after it.
  if (now->attention == plan::Attention::wait) {
    const plan::Step* const then = mash.after_it();
    next.what += ", then " + (then != nullptr ? in_short(*then) : "top it up and pitch");
  }
  set_due(next, moved(mash.behind().end(), now->end(), next.since), late_after_mash, by_plan);
  return next;
}

}  // namespace lynearm::station
