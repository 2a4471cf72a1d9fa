#include "station/next_step.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "journal/pure_volume.hpp"
#include "station/left_over.hpp"
#include "station/next_stage.hpp"

namespace lynearm::station {
namespace {

using journal::Moment;
using journal::Stage;
using wire::NextStanding;
using wire::NextStep;

Moment latest(Moment a, const std::optional<journal::Told>& b) {
  return b ? std::max(a, b->at) : a;
}

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

NextStep of_stripping(const journal::BatchState& batch, const StepsAhead& steps,
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

NextStep of_jars(const journal::RunState& run, const StepsAhead& steps) {
  const Moment ended = latest(run.told.at, run.ended);
  NextStep next{.what = "Gauge and cut the jars", .stage = Stage::jars, .since = ended};
  set_due(next, moved(steps.begins("Jars", "Air"), steps.begins("Jars", "Regauge"), ended),
          late_after_hands, "jars aired by the plan, counted from the run's end");
  return next;
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
  const StepsAhead steps(made);
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
