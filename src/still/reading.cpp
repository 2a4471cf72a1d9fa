#include "still/reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>
#include <utility>

#include "units/print.hpp"

namespace lynearm::still {
namespace {

class Check {
 public:
  explicit Check(const Reading& reading) : reading_(reading) {}

  template <class Q>
  void between(const char* field, const std::optional<Q>& value, Q least, Q most) {
    if (!value) return;
    if (!std::isfinite(units::base_value(*value))) {
      tell(field, "not a number", fmt::format("a {}", units::kind<Q>().noun));
    } else if (*value < least || *value > most) {
      tell(field, units::concise(*value),
           fmt::format("a {} from {} to {}", units::kind<Q>().noun, units::concise(least),
                       units::concise(most)));
    }
  }

  void spout() {
    if (!reading_.spout) return;
    const auto [least, most] = limits(reading_.spout->scale);
    const double figure = reading_.spout->figure;
    if (figure >= least && figure <= most) return;  // false for what is not a number
    tell("spout", std::isfinite(figure) ? spirit::print(*reading_.spout) : "not a number",
         fmt::format("a reading from {} to {} on that scale", least, most));
  }

  void event() {
    if (!reading_.event || *reading_.event != Event::stopped || !reading_.power) return;
    if (*reading_.power > units::Power{}) {
      tell("power", units::concise(*reading_.power), "none drawn where the run is stopped");
    }
  }

  std::vector<base::Fault> faults;

 private:
  static std::pair<double, double> limits(spirit::Scale scale) {
    switch (scale) {
      case spirit::Scale::us_proof:
        return {0.0, 200.0};
      case spirit::Scale::density:
        return {700.0, 1100.0};
      case spirit::Scale::specific_gravity:
      case spirit::Scale::specific_gravity_60F:
        return {0.7, 1.1};
      default:
        return {0.0, 100.0};
    }
  }

  void tell(const char* field, std::string value, std::string accepted) {
    faults.push_back({field, std::move(value), std::move(accepted), "", reading_.line});
  }

  const Reading& reading_;
};

}  // namespace

std::vector<base::Fault> faults_of(const Reading& reading) {
  Check check(reading);
  check.between("at", std::optional(reading.at), units::Duration{}, longest_run);
  check.between("power", reading.power, units::Power{}, most_power);
  const auto temperature = [&](const char* field, std::optional<units::Temperature> t) {
    check.between(field, t, coldest_reading, hottest_reading);
  };
  temperature("pot_temperature", reading.pot_temperature);
  temperature("head_temperature", reading.head_temperature);
  check.spout();
  temperature("spout_temperature", reading.spout_temperature);
  check.between("collected", reading.collected, units::Volume{}, most_collected);
  temperature("coolant_in", reading.coolant_in);
  temperature("coolant_out", reading.coolant_out);
  check.between("coolant_flow", reading.coolant_flow, units::VolumeFlow{}, most_coolant);
  check.event();
  return std::move(check.faults);
}

void require_plausible(const Reading& reading) {
  std::vector<base::Fault> faults = faults_of(reading);
  if (!faults.empty()) throw base::InputError(std::move(faults));
}

Record by_time(Record record) {
  // A time that is no number goes last: it must not spoil the order of the others.
  const auto seconds = [](const Reading& reading) {
    const double at = reading.at.seconds();
    return std::isnan(at) ? std::numeric_limits<double>::infinity() : at;
  };
  std::stable_sort(record.readings.begin(), record.readings.end(),
                   [&](const Reading& a, const Reading& b) { return seconds(a) < seconds(b); });
  return record;
}

std::vector<base::Fault> faults_of(const Record& record) {
  std::vector<base::Fault> faults;
  for (const Reading& reading : record.readings) {
    std::vector<base::Fault> own = faults_of(reading);
    faults.insert(faults.end(), own.begin(), own.end());
  }
  bool stopped = false;
  for (const Reading& reading : by_time(record).readings) {
    if (!reading.event) continue;
    const bool stops = *reading.event == Event::stopped;
    if (stops == stopped) {
      faults.push_back({"event", std::string(word(*reading.event)),
                        stops ? "resumed, since the run is stopped already"
                              : "stopped, since the run is going",
                        "", reading.line});
    }
    stopped = stops;
  }
  return faults;
}

std::string_view word(Event event) { return event == Event::stopped ? "stopped" : "resumed"; }

std::optional<Event> event_of(std::string_view text) {
  for (const Event event : {Event::stopped, Event::resumed}) {
    if (text == word(event)) return event;
  }
  return std::nullopt;
}

}  // namespace lynearm::still
