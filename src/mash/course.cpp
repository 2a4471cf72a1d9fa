#include "mash/course.hpp"

#include <algorithm>
#include <cmath>

#include "mash/limits.hpp"

namespace lynearm::mash {
namespace {

units::Duration end_of(const Course& course) {
  return course.empty() ? units::Duration() : course.back().at;
}

/// Moments from 0 to `time`, even, at most `spacing` apart.
std::vector<units::Duration> moments(units::Duration time, units::Duration spacing) {
  within("course.spacing", spacing.minutes(), 0.01, 1e5, "min");
  const int parts = std::max(1, static_cast<int>(std::ceil(time / spacing)));
  std::vector<units::Duration> at;
  for (int i = 0; i <= parts; ++i) at.push_back(time * (static_cast<double>(i) / parts));
  return at;
}

}  // namespace

void append(Course& course, Phase phase, units::Temperature start, units::Temperature end,
            units::Duration time) {
  within("course.time", time.hours(), 0.0, 1e5, "h");
  const units::Duration from = end_of(course);
  course.push_back({from, start, phase});
  course.push_back({from + time, end, phase});
}

void append_cooling(Course& course, units::Temperature start, units::Temperature end,
                    units::HeatCapacity body, const Cooling& cooling, units::Duration spacing) {
  const units::Duration from = end_of(course);
  for (const units::Duration& at : moments(time_to_cool(start, end, body, cooling), spacing)) {
    course.push_back({from + at, temperature_after(start, at, body, cooling), Phase::cooling});
  }
}

void append_heating(Course& course, units::Temperature start, units::Temperature end,
                    units::HeatCapacity body, units::Power heat, units::HeatLoss loss,
                    units::Temperature ambient, units::Duration spacing) {
  const units::Duration from = end_of(course);
  const units::Duration whole = time_to_heat(start, end, body, heat, loss, ambient);
  const double c = body.joules_per_kelvin();
  const double u = loss.watts_per_kelvin();
  const double to_spare_W = heat.watts() - u * (start - ambient).kelvins();
  for (const units::Duration& at : moments(whole, spacing)) {
    const double x = u * at.seconds() / c;
    // (1 - exp(-x)) / x, which stays exact when nothing is lost.
    const double slowing = x > 0.0 ? -std::expm1(-x) / x : 1.0;
    course.push_back(
        {from + at,
         start + units::TemperatureChange::kelvins(to_spare_W * at.seconds() / c * slowing),
         Phase::heating});
  }
}

void append_rest(Course& course, const Rested& rested) {
  const units::Duration from = end_of(course);
  for (const RestPoint& point : rested.course) {
    course.push_back({from + point.at, point.temperature, Phase::resting});
  }
}

}  // namespace lynearm::mash
