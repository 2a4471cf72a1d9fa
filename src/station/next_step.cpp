#include "station/next_step.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>
#include <vector>

#include "journal/pure_volume.hpp"
#include "station/left_over.hpp"
#include "station/taken_up.hpp"

namespace lynearm::station {
namespace {

using journal::Moment;
using journal::Stage;
using units::Duration;
using wire::NextStanding;
using wire::NextStep;

Moment latest(Moment a, const std::optional<journal::Told>& b) {
  return b ? std::max(a, b->at) : a;
}

// ---- the plan's steps
// ------------------------------------------------------------------------

/// Where in the plan a stage's n-th beginning and end lie. A run of the still begins with its
/// charge.
class Steps {
 public:
  explicit Steps(const PlanMade* made) : made_(made) {}

  [[nodiscard]] std::optional<Duration> begins(std::string_view stage,
                                               std::string_view what = "") const {
    const plan::Step* found = nullptr;
    each([&](const plan::Step& step) {
      if (found == nullptr && step.stage == stage && has(step, what)) found = &step;
    });
    return found ? std::optional(found->start) : std::nullopt;
  }
  [[nodiscard]] std::optional<Duration> ends(std::string_view stage,
                                             std::string_view what = "") const {
    std::optional<Duration> end;
    each([&](const plan::Step& step) {
      if (step.stage == stage && !step.beside && has(step, what)) {
        end = std::max(end.value_or(Duration{}), step.end());
      }
    });
    return end;
  }

 private:
  static bool has(const plan::Step& step, std::string_view what) {
    return std::string_view(step.what).starts_with(what);
  }
  template <class Use>
  void each(const Use& use) const {
    if (made_ == nullptr) return;
    for (const plan::Step& step : made_->plan.timeline.steps) use(step);
  }

  const PlanMade* made_;
};

// `from` in the plan happened at `at`: when does `to` come?
std::optional<Moment> moved(const std::optional<Duration>& from,
                            const std::optional<Duration>& to, Moment at) {
  if (!from || !to) return std::nullopt;
  return wire::later(at, std::max(Duration{}, *to - *from));
}

// The same for what waits for hands alone: it is due as soon as they are free. A pause so long
// is the plan's night, which is not the one that is to come: where in the day it is, only the
// maker knows.
std::optional<Moment> hands_free(const std::optional<Duration>& from,
                                 const std::optional<Duration>& to, Moment at) {
  constexpr Duration night = Duration::hours(5.0);
  if (from && to && *to - *from > night) return at;
  return moved(from, to, at);
}

void set_due(NextStep& next, std::optional<Moment> due, Duration late_after, std::string by) {
  if (!due) return;
  next.due = due;
  next.late_after = wire::later(*due, late_after);
  next.due_by = std::move(by);
}

constexpr const char* by_plan = "the plan's steps, counted from what was done";

// ---- stage by stage
// --------------------------------------------------------------------------

std::string run_name(const char* one, int number, int of) {
  return of > 1 ? fmt::format("{} {} of {}", one, number, of) : std::string(one);
}

NextStep of_run(const journal::RunState& run, Moment last) {
  const bool strips = run.kind == journal::RunKind::strip;
  const bool on = run.standing == journal::RunStanding::running;
  NextStep next;
  next.what =
      on ? (strips ? "A strip is on: read it" : "The spirit run is on: read it")
         : (strips ? "A strip is stopped: resume it" : "A spirit run is stopped: resume it");
  next.stage = strips ? Stage::strip : Stage::spirit_run;
  next.since = on ? run.told.at : last;
  next.standing = NextStanding::now;
  return next;
}

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

NextStep mash_day(const journal::BatchState& batch, const Steps& steps, const PlanMade* made) {
  NextStep next{.what = "Mash day", .stage = Stage::mash, .since = batch.last};
  // The plan has no date; once something is done, the rest follows by its steps.
  std::optional<Moment> begun;
  const auto see = [&](Moment at) { begun = std::min(begun.value_or(at), at); };
  for (const auto& one : batch.mash.temperatures) see(one.told.at);
  for (const auto& one : batch.mash.waters) see(one.told.at);
  for (const auto& one : batch.mash.worts) see(one.told.at);
  for (const auto& one : batch.steps) {
    if (one.stage == Stage::mash) see(one.told.at);
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
      next.stage = Stage::ferment;
    }
    return next;
  }
  next.since = mash.done_at();
  const plan::Step* const now = mash.in_hand();
  if (now == nullptr) {
    next.what = "Top up the wort and pitch";
    next.stage = Stage::ferment;
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

// The plan's own days, while its readings are not weighed.
std::optional<Moment> rested_by_plan(const journal::BatchState& batch, const PlanMade* made) {
  if (made == nullptr || made->plan.ferment.pace.ending != ferment::Ending::dry) {
    return std::nullopt;
  }
  return wire::later(batch.ferment.pitch->told.at, made->plan.ferment.ready_after);
}

NextStep of_ferment(const journal::BatchState& batch, const PlanMade* made,
                    const wire::FermentForecast* forecast) {
  NextStep next{.what = "Read the ferment", .stage = Stage::ferment, .since = batch.last};
  const Moment pitched = batch.ferment.pitch->told.at;
  Moment read = pitched;
  for (const journal::FermentPoint& point : batch.ferment.points) {
    if (point.gravity) read = std::max(read, point.told.at);
  }
  next.since = read;
  if (forecast != nullptr && forecast->followed.stuck) {
    next.what = "The ferment may have stuck: look at its causes";
    set_due(next, read, late_after_hands, "its readings");
    return next;
  }
  const bool corrected = forecast != nullptr && forecast->followed.believed() > 0;
  const bool doubted = forecast != nullptr && !corrected && forecast->followed.gravities > 0;
  std::optional<Moment> dry, rested;
  if (forecast != nullptr && forecast->followed.dry.median) {
    dry = wire::later(pitched, *forecast->followed.dry.median);
    rested = wire::later(*dry, forecast->rest);
  } else if (forecast == nullptr) {
    rested = rested_by_plan(batch, made);
    if (rested) dry = wire::later(pitched, made->plan.ferment.dry_after);
  }
  const char* const by =
      corrected ? "the ferment's forecast, corrected by its readings"
      : doubted ? "the plan's days, counted from the pitch: no reading is believed yet"
                : "the plan's days, counted from the pitch";
  // Read after it was dry: nothing is left but the rest.
  if (dry && rested && read >= *dry) {
    next.what = "Rack the wash once it has rested and cleared";
    set_due(next, rested, late_after_hands, by);
    return next;
  }
  Moment due = wire::later(read, between_gravities);
  // Nearly dry at the latest reading: one more reading when it should be.
  if (dry && *dry > read && *dry < due) due = *dry;
  set_due(next, due, late_after_hands, "a reading a day; dry by " + std::string(by));
  if (!dry) next.due_by = "a reading a day";
  return next;
}

bool gauged_by_jars(const journal::RunState& run) {
  return run.allotted || (!run.jars.empty() &&
                          std::all_of(run.jars.begin(), run.jars.end(), [](const auto& jar) {
                            return jar.second.lot.has_value();
                          }));
}

// Whether the strips took all that was racked, as well as a mark is read.
bool all_wash_stripped(const journal::BatchState& batch) {
  if (!batch.ferment.racked) return false;
  const units::Volume racked = batch.ferment.racked->clear;
  units::Volume left = racked;
  for (const journal::RunState& run : batch.runs) {
    if (run.kind != journal::RunKind::strip) continue;
    if (run.wash) left = left - *run.wash;
    if (!run.wash && run.parts.empty()) return false;  // what it took was not told
  }
  return left <= racked * journal::volume_share_sd;
}

NextStep of_stripping(const journal::BatchState& batch, const Steps& steps,
                      const PlanMade* made) {
  int strips = 0;
  bool to_gauge = false;
  Moment ended = batch.last;
  for (const journal::RunState& run : batch.runs) {
    if (run.kind != journal::RunKind::strip) continue;
    ++strips;
    ended = latest(run.told.at, run.ended);
    to_gauge = to_gauge || (run.ended && !run.collected && !gauged_by_jars(run));
  }
  int planned = made != nullptr ? made->plan.strip.runs : 0;
  if (all_wash_stripped(batch)) planned = std::min(planned, strips);
  NextStep next{.stage = Stage::strip, .since = ended};
  // Nothing can be charged of low wines that were not gauged: the strip ended warm.
  if (to_gauge) {
    next.what = "Gauge the low wines";
    if (planned > strips) {
      next.what += fmt::format("; strip {} of {} can begin meanwhile", strips + 1, planned);
    }
    return next;
  }
  if (strips == 0) {
    if (batch.ferment.racked) next.since = batch.ferment.racked->told.at;
    next.what = run_name("Strip", 1, planned);
    set_due(next, hands_free(steps.ends("Ferment"), steps.begins("Strip"), next.since),
            late_after_hands, by_plan);
  } else if (planned > strips) {
    next.what = run_name("Strip", strips + 1, planned);
    set_due(
        next,
        hands_free(steps.ends("Strip", fmt::format("Strip {} of {}", strips, planned)),
                   steps.begins("Strip", fmt::format("Strip {} of {}", strips + 1, planned)),
                   ended),
        late_after_hands, by_plan);
  } else if (planned > 0) {
    next.what = "Begin the spirit run";
    next.stage = Stage::spirit_run;
    set_due(next, hands_free(steps.ends("Strip"), steps.begins("Spirit run"), ended),
            late_after_hands, by_plan);
  } else {
    next.what = "Strip on, or begin the spirit run";
  }
  return next;
}

NextStep of_jars(const journal::RunState& run, const Steps& steps) {
  const Moment ended = latest(run.told.at, run.ended);
  NextStep next{.what = "Gauge and cut the jars", .stage = Stage::jars, .since = ended};
  set_due(next, moved(steps.begins("Jars", "Air"), steps.begins("Jars", "Regauge"), ended),
          late_after_hands, "jars aired by the plan, counted from the run's end");
  return next;
}

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

NextStep after_the_cut(const journal::HouseState& house, const journal::BatchState& batch,
                       const Steps& steps, const PlanMade* made) {
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

// One still can run while jars air and spirit rests: that it can is told beside what waits.
NextStep beside_a_run(NextStep next, const std::string& run) {
  if (run.empty()) return next;
  if (next.standing == NextStanding::done) {
    next.what = "Begin " + run;
    next.stage = run.starts_with("strip") ? Stage::strip : Stage::spirit_run;
    next.standing = NextStanding::waits;
  } else {
    next.what += fmt::format("; {} can begin meanwhile", run);
  }
  return next;
}

}  // namespace

NextStep next_step(const journal::HouseState& house, const journal::BatchState& batch,
                   const PlanMade* made, const wire::FermentForecast* ferment) {
  if (batch.closed) {
    NextStep next{.what = "Closed", .since = batch.closed->at};
    next.standing = NextStanding::done;
    return next;
  }
  for (const journal::RunStanding standing :
       {journal::RunStanding::running, journal::RunStanding::stopped}) {
    for (const journal::RunState& run : batch.runs) {
      if (run.standing == standing) return of_run(run, batch.last);
    }
  }
  const Steps steps(made);
  bool cut = false;
  for (const journal::RunState& run : batch.runs) {
    if (run.kind != journal::RunKind::spirit) continue;
    if (!run.allotted)
      return beside_a_run(of_jars(run, steps), another_run(house, batch, made));
    cut = true;
  }
  if (cut) {
    return beside_a_run(after_the_cut(house, batch, steps, made),
                        another_run(house, batch, made));
  }
  if (!batch.runs.empty() || batch.ferment.racked) return of_stripping(batch, steps, made);
  if (batch.ferment.pitch) return of_ferment(batch, made, ferment);
  if (batch.plan) return mash_day(batch, steps, made);
  return {.what = "Write the mash bill", .stage = Stage::mash_bill, .since = batch.last};
}

}  // namespace lynearm::station
