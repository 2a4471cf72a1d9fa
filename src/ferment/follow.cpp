#include "ferment/follow.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>
#include <utility>

#include "base/error.hpp"
#include "ferment/weighed_courses.hpp"
#include "wort/wash.hpp"

namespace lynearm::ferment {
namespace {

using units::Duration;
using units::SpecificGravity;

constexpr double never = std::numeric_limits<double>::infinity();
constexpr int course_steps = 60;
constexpr Duration usual_horizon = Duration::days(30.0);
// Slower than a hydrometer tells in a day.
constexpr double standing_per_day = 0.001;

struct Ends {
  double low, median, high;
};

/// Of figures with weights; those that are never come last.
class Weighed {
 public:
  void add(double value, double weight) {
    rows_.emplace_back(value, weight);
    sum_ += weight;
  }
  Ends ends() {
    std::sort(rows_.begin(), rows_.end());
    return {at(0.1), at(0.5), at(0.9)};
  }

 private:
  // Straight between the middles of the weights.
  double at(double share) const {
    double before = 0.0, place_before = 0.0, value_before = rows_.front().first;
    for (std::size_t i = 0; i < rows_.size(); ++i) {
      const auto& [value, weight] = rows_[i];
      const double place = (before + 0.5 * weight) / sum_;
      if (place >= share) {
        if (i == 0 || !std::isfinite(value) || place <= place_before) return value;
        return std::lerp(value_before, value, (share - place_before) / (place - place_before));
      }
      before += weight;
      place_before = place;
      value_before = value;
    }
    return rows_.back().first;
  }

  std::vector<std::pair<double, double>> rows_;
  double sum_ = 0.0;
};

using Courses = std::vector<WeighedCourse>;

Ends ends_of(const Courses& courses, const std::function<double(const WeighedCourse&)>& figure,
             bool only_going_on = false) {
  Weighed weighed;
  for (const WeighedCourse& one : courses) {
    if (only_going_on && one.stops) continue;
    weighed.add(figure(one), one.weight);
  }
  return weighed.ends();
}

LikelyGravity gravity(const Ends& ends) {
  return {SpecificGravity::ratio(ends.low), SpecificGravity::ratio(ends.median),
          SpecificGravity::ratio(ends.high)};
}
LikelyFigure likely(const Ends& ends) { return {ends.low, ends.median, ends.high}; }

std::optional<Duration> moment(double hours) {
  if (!std::isfinite(hours)) return std::nullopt;
  return Duration::hours(hours);
}

// What to look at when it has stuck.
std::vector<std::string> causes_of(const Batch& batch, const Yeast& yeast,
                                   const std::vector<Reading>& readings, double warmth_C,
                                   double done) {
  std::vector<std::string> causes;
  const double volume_L = wort::volume(batch.wort).litres();
  const double sugar_g = hexose(batch.wort, batch.sugars).grams();
  if (warmth_C < yeast.coolest.value.celsius()) {
    causes.push_back(fmt::format(
        "Warmth: {:.1f} °C; under {:.0f} °C {} is sluggish. Warm it by a few degrees a "
        "day.",
        warmth_C, yeast.coolest.value.celsius(), yeast.name));
  } else if (warmth_C > yeast.warmest.value.celsius()) {
    causes.push_back(
        fmt::format("Heat: {:.1f} °C; over {:.0f} °C {} suffers. Cool it; fresh yeast "
                    "may be needed.",
                    warmth_C, yeast.warmest.value.celsius(), yeast.name));
  }
  const double nitrogen_mg_g = 1000.0 * batch.nitrogen.grams() / sugar_g;
  if (nitrogen_mg_g < 0.7) {
    causes.push_back(
        fmt::format("Yeast food: {:.2f} mg of assimilable nitrogen to a gram of sugar "
                    "by the plan; below 0.7 it may stick.",
                    nitrogen_mg_g));
  }
  const double strength =
      100.0 * done * sugar_g * ethanol_per_hexose * batch.yield.fraction() / volume_L / 789.24;
  if (strength > 0.85 * batch.tolerance.percent()) {
    causes.push_back(fmt::format("Strength: about {:.1f} %vol already; {} bears about {:.0f}.",
                                 strength, yeast.name, batch.tolerance.percent()));
  }
  if (const double pitch = batch.yeast.grams() / volume_L; pitch < 0.3) {
    causes.push_back(fmt::format("Pitch: {:.2f} g of dry yeast to a litre is little.", pitch));
  }
  const bool hydrometer = std::any_of(readings.begin(), readings.end(), [](const Reading& r) {
    return r.gravity && !r.by_refractometer;
  });
  if (!hydrometer) {
    causes.emplace_back(
        "The reading itself: only a refractometer was used; read a hydrometer.");
  }
  causes.emplace_back(
      "Acid: measure the pH; under about 3.5 yeast slows. Stir the yeast up, keeping the lid's "
      "outlet open.");
  return causes;
}

void check(const std::vector<Reading>& readings, std::size_t members) {
  if (members < 50 || members > 5000) {
    throw base::InputError("members", fmt::format("{}", members), "50 to 5000");
  }
  for (const Reading& reading : readings) {
    if (!(reading.at.days() >= 0.0 && reading.at.days() <= 120.0)) {
      throw base::InputError("reading.at", fmt::format("{:.4g} days", reading.at.days()),
                             "0 to 120 days after the pitch");
    }
  }
}

// Which gravities the courses say are simply wrong, with what they expect in their place.
std::vector<DoubtedGravity> doubted(const Courses& all, const std::vector<Reading>& readings,
                                    const PaceDoubt& doubt) {
  std::vector<DoubtedGravity> doubts;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const Reading& reading = readings[i];
    if (!reading.gravity) continue;
    double wrong = 0.0;
    for (const WeighedCourse& one : all) {
      wrong += one.weight * wrong_by(reading, one.course, doubt);
    }
    if (wrong <= 0.5) continue;
    doubts.push_back({i, gravity(ends_of(all, [&](const auto& one) {
                        return one.course.gravity_at(reading.at.hours());
                      }))});
  }
  return doubts;
}

// The last gravity that is believed; null where none is.
const Reading* last_believed(const std::vector<Reading>& readings,
                             const std::vector<DoubtedGravity>& doubts) {
  const Reading* last = nullptr;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    const bool doubt = std::any_of(doubts.begin(), doubts.end(),
                                   [i](const auto& one) { return one.reading == i; });
    if (!readings[i].gravity || doubt) continue;
    if (last == nullptr || last->at <= readings[i].at) last = &readings[i];
  }
  return last;
}

std::vector<Reading> without_gravities(std::vector<Reading> readings) {
  for (Reading& one : readings) one.gravity.reset();
  std::erase_if(readings, [](const Reading& one) { return !one.temperature; });
  return readings;
}

}  // namespace

Followed follow(const Batch& batch, const Kinetics& kinetics, const Yeast& yeast,
                const PaceDoubt& doubt, const std::vector<Reading>& readings,
                std::uint64_t seed, std::size_t members, const numeric::Executor& executor) {
  check(readings, members);
  Duration latest;
  for (const Reading& reading : readings) latest = std::max(latest, reading.at);
  const Duration horizon =
      std::min(std::max(usual_horizon, latest + Duration::days(10.0)), Duration::days(120.0));
  const DrawnCourse planned = drawn_course(batch, kinetics, doubt, {}, false, horizon);
  const auto weighed_by = [&](const std::vector<Reading>& by) {
    return weighed_courses(batch, kinetics, doubt, by, horizon, seed, members, executor);
  };
  Courses all = weighed_by(readings);

  Followed out;
  out.gravities = static_cast<std::size_t>(
      std::count_if(readings.begin(), readings.end(),
                    [](const Reading& reading) { return reading.gravity.has_value(); }));
  out.doubts = doubted(all, readings, doubt);
  bool read = !readings.empty();
  if (out.gravities > 0 && out.believed() == 0) {
    // A gravity that is not believed still chose, of all courses, those that lie least far from
    // it. Without one that is, the forecast is what it would be had none been read.
    const std::vector<Reading> rest = without_gravities(readings);
    all = weighed_by(rest);
    read = !rest.empty();
    for (DoubtedGravity& one : out.doubts) {
      const double at_h = readings[one.reading].at.hours();
      one.expected = gravity(
          ends_of(all, [&](const auto& course) { return course.course.gravity_at(at_h); }));
    }
  }
  double squares = 0.0, stopped = 0.0;
  for (const WeighedCourse& one : all) {
    squares += one.weight * one.weight;
    if (one.stops) stopped += one.weight;
  }
  out.effective = 1.0 / squares;
  out.stopped = units::Share::fraction(std::clamp(stopped, 0.0, 1.0));
  const double going = 1.0 - stopped;

  // Dry, if it goes on. When it almost surely stops nothing is left to say of that.
  if (going > 1e-6) {
    Ends dry = ends_of(
        all, [](const auto& one) { return one.course.dry_h.value_or(never); }, true);
    if (!read) dry.median = planned.dry_h.value_or(never);
    out.dry = {moment(dry.low), moment(dry.median), moment(dry.high)};
  }
  out.end = gravity(ends_of(all, [](const auto& one) { return one.course.end_gravity; }));
  out.pace =
      likely(ends_of(all, [&](const auto& one) { return vigour_factor(doubt, one.off); }));
  out.sugar =
      likely(ends_of(all, [&](const auto& one) { return sugar_factor(doubt, one.off); }));
  out.lag_h = likely(ends_of(all, [](const auto& one) { return one.course.lag_h; }));

  const double dry_h = out.dry.high  ? out.dry.high->hours()
                       : out.dry.low ? 1.5 * out.dry.low->hours()
                                     : 14.0 * 24.0;
  const double until_h = std::min(std::max(dry_h, latest.hours()) + 24.0, horizon.hours());
  for (int i = 0; i <= course_steps; ++i) {
    const double at_h = until_h * i / course_steps;
    Ends ends = ends_of(all, [&](const auto& one) { return one.course.gravity_at(at_h); });
    if (!read) ends.median = std::clamp(planned.gravity_at(at_h), ends.low, ends.high);
    out.course.push_back({Duration::hours(at_h), gravity(ends)});
  }

  const Reading* const last = last_believed(readings, out.doubts);
  double done = 0.0;
  if (last != nullptr && stopped > 0.5) {
    const double at_h = last->at.hours();
    const Ends fall = ends_of(all, [&](const auto& one) {
      return one.course.gravity_at(at_h) - one.course.gravity_at(at_h + 24.0);
    });
    out.stuck = fall.median < standing_per_day;
    const double way = planned.gravity.front() - planned.end_gravity;
    done = std::clamp((planned.gravity.front() - last->gravity->ratio()) / std::max(1e-6, way),
                      0.0, 1.0);
  }
  if (out.stuck) {
    double warmth_C = planned.temperature_at(latest.hours());
    Duration warmth_at;
    for (const Reading& reading : readings) {
      if (!reading.temperature || reading.at < warmth_at) continue;
      warmth_at = reading.at;
      warmth_C = reading.temperature->celsius();
    }
    out.causes = causes_of(batch, yeast, readings, warmth_C, done);
  }
  return out;
}

}  // namespace lynearm::ferment
