#include "still/follow_fire.hpp"

#include <algorithm>
#include <cmath>

namespace lynearm::still {
namespace {

// A power within this of the one that burns is the same.
constexpr double same_power = 0.01;
// A stopped run is thought to go on after this; the forecast gives no times meanwhile.
constexpr units::Duration rest = units::Duration::hours(12.0);
// The fire is turned down at the latest so long after the boil that the medians expect.
constexpr units::Duration turned_down_by = units::Duration::minutes(20.0);
constexpr units::Duration at_once = units::Duration::seconds(1.0);
// Figures of a run are the same to 7 digits as at 1e-9.
constexpr double enough_for_a_filter = 1e-6;

bool near(units::Power a, units::Power b) {
  return std::abs((a - b).watts()) <= same_power * std::fmax(a.watts(), b.watts());
}

// Readings of the fire, put one after the other.
class FireReader {
 public:
  FireReader(const RunSetting& plan, units::Duration boiling)
      : plan_(plan), boiling_(boiling), before_stop_(plan.heating.power) {
    fire_.steps.push_back({units::Duration{}, plan.to_the_boil.value_or(plan.heating.power)});
  }

  void read(const Reading& reading, std::size_t index) {
    // No power logged is heat off, and power logged after that is heat on again.
    const bool off = !reading.event && reading.power && *reading.power <= units::Power{};
    const bool on_again = !reading.event && by_power_ && reading.power && !off;
    if (off && fire_.stopped_at) return;
    if (reading.event == Event::stopped && fire_.stopped_at) {
      // Said by word after a power of nothing it is no contradiction.
      if (!by_power_) remark(index, FireOddity::stopped_again);
      by_power_ = false;
      return;
    }
    if (reading.event == Event::resumed && !fire_.stopped_at) {
      remark(index, FireOddity::resumed_while_heated);
      if (reading.power) set(reading.at, *reading.power);
      return;
    }
    if (reading.event == Event::stopped || off) {
      by_power_ = off;
      if (fire_.steps.size() > 1) before_stop_ = fire_.steps.back().power;
      fire_.stopped_at = reading.at;
      set(reading.at, units::Power{});
      return;
    }
    if (reading.event == Event::resumed || on_again) {
      fire_.stopped_at.reset();
      by_power_ = false;
    }
    const units::Power power = reading.power.value_or(before_stop_);
    if (fire_.stopped_at) {
      // Said while it stands: meant for when it goes on.
      remark(index, FireOddity::power_while_stopped);
      before_stop_ = power;
    } else if (!reading.event && heats_up(power)) {
      fire_.steps.front().power = power;
    } else {
      set(reading.at, power);
    }
  }

  Fire finish(units::Duration latest) {
    if (fire_.stopped_at) {
      units::Duration resumes = *fire_.stopped_at + rest;
      while (resumes <= latest) resumes += rest;
      fire_.steps.push_back({resumes, before_stop_});
    }
    return fire_;
  }

 private:
  void remark(std::size_t index, FireOddity oddity) {
    fire_.remarks.push_back({index, oddity, fire_.stopped_at.value_or(units::Duration{})});
  }

  // Nearer to what is planned before the boil than to what is planned after it.
  [[nodiscard]] bool heats_up(units::Power power) const {
    return fire_.steps.size() == 1 && fire_.turns_down && plan_.to_the_boil &&
           std::abs((power - *plan_.to_the_boil).watts()) <
               std::abs((power - plan_.heating.power).watts());
  }

  void set(units::Duration at, units::Power power) {
    const bool first = fire_.steps.size() == 1;
    if (first && fire_.turns_down) {
      fire_.turns_down = plan_.to_the_boil && at > boiling_ + turned_down_by;
    }
    const units::Power burns =
        first && fire_.turns_down ? plan_.heating.power : fire_.steps.back().power;
    if (at - std::get<units::Duration>(fire_.steps.back().from) < at_once) {
      fire_.steps.back().power = power;
    } else if (!near(burns, power)) {
      fire_.steps.push_back({at, power});
    }
  }

  const RunSetting& plan_;
  units::Duration boiling_;
  units::Power before_stop_;
  bool by_power_ = false;  // stopped by a power of nothing, not by word
  Fire fire_;
};

}  // namespace

bool operator==(const Fire& a, const Fire& b) {
  return a.turns_down == b.turns_down && a.stopped_at == b.stopped_at &&
         std::equal(a.steps.begin(), a.steps.end(), b.steps.begin(), b.steps.end(),
                    [](const PowerStep& x, const PowerStep& y) {
                      return x.from == y.from && x.power == y.power;
                    });
}

Fire read_fire(const std::vector<Reading>& readings, const RunSetting& plan,
               units::Duration boiling, units::Duration latest) {
  std::vector<std::size_t> of_the_fire;
  for (std::size_t i = 0; i < readings.size(); ++i) {
    if (readings[i].power || readings[i].event) of_the_fire.push_back(i);
  }
  if (of_the_fire.empty()) return {};
  std::stable_sort(
      of_the_fire.begin(), of_the_fire.end(),
      [&readings](std::size_t a, std::size_t b) { return readings[a].at < readings[b].at; });
  FireReader reader(plan, boiling);
  for (const std::size_t i : of_the_fire) reader.read(readings[i], i);
  return reader.finish(latest);
}

RunSetting with_fire(const RunSetting& setting, const Fire& fire) {
  RunSetting driven = setting;
  driven.tolerance = enough_for_a_filter;
  if (fire.steps.empty()) return driven;
  if (setting.to_the_boil && fire.turns_down) {
    driven.to_the_boil = fire.steps.front().power;
  } else {
    driven.to_the_boil.reset();
    driven.heating.power = fire.steps.front().power;
  }
  const bool changed = fire.steps.size() > 1 || !fire.turns_down;
  if (changed) driven.power_steps.assign(fire.steps.begin() + 1, fire.steps.end());
  return driven;
}

}  // namespace lynearm::still
