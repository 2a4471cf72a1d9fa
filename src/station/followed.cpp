#include "station/followed.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/error.hpp"
#include "plan/still_prior.hpp"
#include "vapour/boiling_curve.hpp"

namespace lynearm::station {
namespace {

constexpr units::Duration told_together = units::Duration::minutes(1.0);
constexpr std::uint64_t seed = 1;  // the same readings give the same forecast

// The rules as text: two sets of one text are one set.
std::string border(const std::optional<still::Border>& border) {
  if (!border) return "-";
  return std::visit(
      [&](const auto& at) {
        return fmt::format("{}:{}", border->index(), units::base_value(at));
      },
      *border);
}

std::string made_of(const still::CutRules& rules, const std::string& kit_text,
                    const journal::RunState& run) {
  return fmt::format("{} {} {} {} {} {} {} {} {}", run.charge.ethanol.kilograms(),
                     run.charge.water.kilograms(), run.charge_known,
                     run.power ? run.power->watts() : -1.0, border(rules.foreshots_end),
                     border(rules.heads_end), border(rules.hearts_end), border(rules.stop),
                     kit_text);
}

// What stands under the spout was collected too: as each jar was filled, with all before it.
// Marks of the jars, so as warm as it ran. Of jars told together, from a list, the last tells
// the sum. Ends at a jar that is missing or told out of turn.
std::vector<journal::RunPoint> jars_filled(const journal::RunState& run) {
  std::vector<journal::RunPoint> filled;
  still::Reading full;
  full.collected = units::Volume{};
  int next = 1;
  for (const auto& [number, jar] : run.jars) {
    if (number != next++ || !jar.filled || !jar.as_filled) break;
    const units::Duration at = since(jar.filled->at, run.told.at);
    if (at < full.at || at > still::longest_run) break;
    full.at = at;
    full.collected = *full.collected + *jar.as_filled;
    if (!filled.empty() && at - filled.back().reading.at < told_together) filled.pop_back();
    filled.push_back({*jar.filled, full});
  }
  return filled;
}

// Each jar among the readings by its time, which leaves those in the order they have.
std::vector<const journal::RunPoint*> in_order(const std::vector<journal::RunPoint>& readings,
                                               const std::vector<journal::RunPoint>& jars) {
  std::vector<const journal::RunPoint*> points;
  points.reserve(readings.size() + jars.size());
  for (const journal::RunPoint& reading : readings) points.push_back(&reading);
  for (const journal::RunPoint& jar : jars) {
    const auto later = std::find_if(
        points.begin(), points.end(),
        [&jar](const journal::RunPoint* point) { return point->reading.at > jar.reading.at; });
    points.insert(later, &jar);
  }
  return points;
}

// What the forecast takes for granted while the pot still heats up at more.
std::optional<units::Power> turns_down_to(const still::Follower& follower) {
  const still::RunSetting& plan = follower.prior().setting;
  const still::Fire& fire = follower.fire();
  if (!plan.to_the_boil || !fire.turns_down || fire.stopped_at) return std::nullopt;
  if (follower.now().spout) return std::nullopt;  // it boils
  const units::Power now = fire.steps.empty() ? *plan.to_the_boil : fire.steps.front().power;
  if (!(plan.heating.power < now)) return std::nullopt;
  return plan.heating.power;
}

}  // namespace

plan::RunAhead ahead_of(const journal::RunState& run) {
  plan::RunAhead ahead;
  ahead.charge = run.charge;
  ahead.gentle = run.kind == journal::RunKind::spirit;
  ahead.from_the_start = run.power;
  ahead.charge_gauged = run.charge_known;
  return ahead;
}

void Followed::begin(Desk& desk, const plan::Recipe& recipe, const plan::Kit& kit,
                     const journal::RunState& run, const numeric::Executor& executor) const {
  desk.follower.reset();
  desk.ended.clear();
  desk.taken.clear();
  desk.refused.clear();
  desk.crowded = 0;
  desk.told.reset();
  desk.made_of.clear();
  const plan::RunAhead ahead = ahead_of(run);
  desk.follower.emplace(plan::still_prior(kit, ahead), plan::cut_rules(recipe, ahead),
                        vapour::BoilingCurve(kit.place.pressure), seed, members_, executor);
}

const std::vector<still::Reading>& Followed::readings(const Desk& desk) {
  return desk.follower ? desk.follower->readings() : desk.ended;
}

std::optional<std::set<journal::Id>> Followed::not_taken(const Desk& desk,
                                                         const Points& points) {
  const std::vector<still::Reading>& taken = readings(desk);
  // Half a follower is none.
  if (taken.size() != desk.taken.size()) return std::nullopt;
  std::map<journal::Id, const still::Reading*> told;
  for (const journal::RunPoint* point : points) {
    told.emplace(point->told.entry, &point->reading);
  }
  for (std::size_t i = 0; i < taken.size(); ++i) {
    const auto same = told.find(desk.taken[i]);
    if (same == told.end() || !(*same->second == taken[i])) return std::nullopt;
    told.erase(same);
  }
  for (const wire::Refused& refused : desk.refused) {
    if (told.erase(refused.entry) == 0) return std::nullopt;
  }
  std::set<journal::Id> fresh;
  for (const auto& [entry, reading] : told) fresh.insert(entry);
  return fresh;
}

void Followed::take(Desk& desk, const Points& points, const std::set<journal::Id>& fresh,
                    const numeric::Executor& executor) {
  for (const journal::RunPoint* point : points) {
    const journal::Id& entry = point->told.entry;
    if (!fresh.contains(entry)) continue;
    try {
      const still::Update update = desk.follower->take_quietly(point->reading, executor);
      desk.taken.push_back(entry);
      if (!update.crowded.empty()) ++desk.crowded;
    } catch (const base::InputError& error) {
      desk.refused.push_back({entry, base::sentence(error.faults().front())});
    }
    desk.told.reset();
  }
}

wire::RunForecast Followed::tell(const Desk& desk, const journal::RunState& run,
                                 const numeric::Executor& executor) {
  const still::Follower& follower = *desk.follower;
  wire::RunForecast told;
  told.run = run.told.entry;
  told.readings = desk.taken;
  // By the run's clock: a reading that came late is not the latest.
  const std::vector<still::Reading>& taken = follower.readings();
  const auto latest = std::max_element(
      taken.begin(), taken.end(),
      [](const still::Reading& a, const still::Reading& b) { return a.at < b.at; });
  if (latest != taken.end()) told.latest = *latest;
  if (!run.ended) told.turns_down_to = turns_down_to(follower);
  told.now = follower.now();
  told.forecast = follower.forecast(executor);
  told.doubts = follower.doubts();
  told.refused = desk.refused;
  told.crowded = desk.crowded;
  told.constants = follower.constants();
  return told;
}

void Followed::follow(Desk& desk, const plan::Recipe& recipe, const plan::Kit& kit,
                      const std::string& kit_text, const journal::RunState& run,
                      const numeric::Executor& executor) const {
  const std::string parts = made_of(plan::cut_rules(recipe, ahead_of(run)), kit_text, run);
  const std::vector<journal::RunPoint> jars = jars_filled(run);
  const Points points = in_order(run.readings, jars);
  std::optional<std::set<journal::Id>> fresh;
  if (desk.made_of == parts) fresh = not_taken(desk, points);
  if (!desk.told || !fresh || !fresh->empty()) {
    if (!desk.follower || !fresh) {
      begin(desk, recipe, kit, run, executor);
      fresh = not_taken(desk, points);
    }
    take(desk, points, *fresh, executor);
    desk.made_of = parts;
    if (!desk.told) desk.told = tell(desk, run, executor);
  }
  // Of an ended run little more is to be told; should there be, it is followed afresh.
  if (run.ended && desk.follower) {
    desk.ended = desk.follower->readings();
    desk.follower.reset();
  }
}

bool Followed::begun(const journal::Id& run) const {
  const std::lock_guard lock(mutex_);
  return desks_.contains(run);
}

wire::RunForecast Followed::of(const plan::Recipe& recipe, const plan::Kit& kit,
                               const std::string& kit_text, const journal::RunState& run) {
  return of(recipe, kit, kit_text, run, executor_);
}

wire::RunForecast Followed::of(const plan::Recipe& recipe, const plan::Kit& kit,
                               const std::string& kit_text, const journal::RunState& run,
                               const numeric::Executor& executor) {
  std::shared_ptr<Desk> desk;
  {
    const std::lock_guard lock(mutex_);
    std::shared_ptr<Desk>& place = desks_[run.told.entry];
    if (!place) place = std::make_shared<Desk>();
    desk = place;
  }
  const std::lock_guard lock(desk->mutex);
  try {
    follow(*desk, recipe, kit, kit_text, run, executor);
  } catch (...) {
    // Half a follower is none.
    desk->follower.reset();
    throw;
  }
  return *desk->told;
}

}  // namespace lynearm::station
