#include "station/followed.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

#include "base/error.hpp"
#include "plan/still_prior.hpp"
#include "vapour/boiling_curve.hpp"

namespace lynearm::station {
namespace {

constexpr std::uint64_t seed = 1;  // the same readings give the same forecast

plan::RunAhead ahead_of(const journal::RunState& run) {
  return {run.charge, run.kind == journal::RunKind::spirit, run.power, std::nullopt};
}

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
  return fmt::format("{} {} {} {} {} {} {}", run.charge.ethanol.kilograms(),
                     run.charge.water.kilograms(), run.power ? run.power->watts() : -1.0,
                     border(rules.heads_end), border(rules.hearts_end), border(rules.stop),
                     kit_text);
}

}  // namespace

void Followed::begin(Desk& desk, const plan::Recipe& recipe, const plan::Kit& kit,
                     const journal::RunState& run, const numeric::Executor& executor) const {
  desk.follower.reset();
  desk.taken.clear();
  desk.refused.clear();
  desk.crowded = 0;
  desk.told.reset();
  desk.made_of.clear();
  const plan::RunAhead ahead = ahead_of(run);
  desk.follower.emplace(plan::still_prior(kit, ahead), plan::cut_rules(recipe, ahead),
                        vapour::BoilingCurve(kit.place.pressure), seed, members_, executor);
}

// Takes what is new; false when what was taken is no longer so.
bool Followed::catch_up(Desk& desk, const journal::RunState& run,
                        const numeric::Executor& executor) const {
  std::map<journal::Id, const still::Reading*> fresh;
  for (const journal::RunPoint& point : run.readings) {
    fresh.emplace(point.told.entry, &point.reading);
  }
  for (const Taken& taken : desk.taken) {
    const auto same = fresh.find(taken.entry);
    if (same == fresh.end() || !(*same->second == taken.reading)) return false;
    fresh.erase(same);
  }
  for (const wire::Refused& refused : desk.refused) {
    if (fresh.erase(refused.entry) == 0) return false;
  }
  for (const journal::RunPoint& point : run.readings) {
    const journal::Id& entry = point.told.entry;
    if (!fresh.contains(entry)) continue;
    try {
      const still::Update update = desk.follower->take_quietly(point.reading, executor);
      desk.taken.push_back({entry, point.reading});
      if (!update.crowded.empty()) ++desk.crowded;
    } catch (const base::InputError& error) {
      desk.refused.push_back({entry, base::sentence(error.faults().front())});
    }
    desk.told.reset();
  }
  return true;
}

void Followed::follow(Desk& desk, const plan::Recipe& recipe, const plan::Kit& kit,
                      const std::string& kit_text, const journal::RunState& run,
                      const numeric::Executor& executor) const {
  const std::string parts = made_of(plan::cut_rules(recipe, ahead_of(run)), kit_text, run);
  if (!desk.follower || desk.made_of != parts) begin(desk, recipe, kit, run, executor);
  if (!catch_up(desk, run, executor)) {
    begin(desk, recipe, kit, run, executor);
    catch_up(desk, run, executor);
  }
  desk.made_of = parts;
  if (!desk.told) {
    const still::Follower& follower = *desk.follower;
    wire::RunForecast told;
    told.run = run.told.entry;
    for (const Taken& taken : desk.taken) told.readings.push_back(taken.entry);
    // By the run's clock: a reading that came late is not the latest.
    const auto latest = std::max_element(
        desk.taken.begin(), desk.taken.end(),
        [](const Taken& a, const Taken& b) { return a.reading.at < b.reading.at; });
    if (latest != desk.taken.end()) told.latest = latest->reading;
    told.now = follower.now();
    told.forecast = follower.forecast(executor);
    told.doubts = follower.doubts();
    told.refused = desk.refused;
    told.crowded = desk.crowded;
    told.constants = follower.constants();
    desk.told = std::move(told);
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
