// The sentences said of what a follower answers.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "still/follow_answer.hpp"

namespace lynearm::still {
namespace {

// Where the plan warns that an element will soon show (plan/run_plan.cpp).
constexpr double nearly = 1.2;
// Said from this share of the possible stills on.
constexpr double worth_saying = 0.01;

int percent_of(units::Share share) {
  return static_cast<int>(std::lround(std::clamp(share.percent(), 0.0, 100.0)));
}

std::string left_in_words(const StillNow& now) {
  const Likely<units::Volume>& left = now.left_in_pot;
  return fmt::format("{:.1f} L ({:.1f} to {:.1f}) is left in the pot", left.median.litres(),
                     left.low.litres(), left.high.litres());
}

std::string needed_in_words(const StillNow& now) {
  return fmt::format("the element needs {:.1f} L over it", now.floor.least.litres());
}

}  // namespace

std::string shown(const Doubt& doubt) {
  switch (doubt.instrument) {
    case Instrument::pot_thermometer:
    case Instrument::head_thermometer:
      return fmt::format("{:.1f} °C", doubt.shown);
    case Instrument::hydrometer:
      return fmt::format("{:.1f} %vol", doubt.shown);
    case Instrument::jar:
      return fmt::format("{:.0f} mL", doubt.shown);
  }
  return "";
}

std::string sentence(const Doubt& doubt) {
  if (doubt.nothing_runs) return "does not fit (nothing is expected to run then)";
  switch (doubt.instrument) {
    case Instrument::pot_thermometer:
    case Instrument::head_thermometer:
      return fmt::format("does not fit (expected {:.1f}–{:.1f} °C)", doubt.low, doubt.high);
    case Instrument::hydrometer:
      return fmt::format("does not fit (expected {:.1f}–{:.1f} %vol)", doubt.low, doubt.high);
    case Instrument::jar:
      // The band of what came over reaches below nought while nothing has.
      return fmt::format("does not fit (expected {:.0f}–{:.0f} mL)", std::max(0.0, doubt.low),
                         std::max(0.0, doubt.high));
  }
  return "";
}

LearntWords words(const Learnt& learnt) {
  const auto written = [&learnt](double value, double sd) {
    const int decimals =
        sd > 0.0 ? std::clamp(1 - static_cast<int>(std::floor(std::log10(sd))), 0, 3) : 2;
    std::string text = fmt::format("{:.{}f}", value, decimals);
    // What rounds to nothing has no sign.
    if (text.starts_with('-') && text.find_first_of("123456789") == std::string::npos) {
      text.erase(0, 1);
    }
    return fmt::format("{} ± {:.{}f} {}", text, sd, decimals, unit(learnt.constant));
  };
  return {written(learnt.value, learnt.sd), written(learnt.before, learnt.before_sd)};
}

std::string fire_words(const StillNow& now) {
  if (now.nothing_runs.fraction() < worth_saying) return "";
  return fmt::format("nothing runs at this power ({} % of the possible stills)",
                     percent_of(now.nothing_runs));
}

std::optional<PotDanger> pot_danger(const StillNow& now) {
  // As the plan does; but a band that reaches below counts as below.
  if (!(now.left_in_pot.low < now.floor.least)) return std::nullopt;
  if (!now.floor.element) {
    return PotDanger{fmt::format("{}: nearly dry.", left_in_words(now)),
                     "Pot nearly dry: heat off first"};
  }
  return PotDanger{
      fmt::format("{}; {} and burns dry.", left_in_words(now), needed_in_words(now)),
      "Element bare: heat off first"};
}

std::string pot_caution(const StillNow& now) {
  if (const std::optional<PotDanger> danger = pot_danger(now)) {
    return fmt::format("{} {}", danger->stands,
                       now.heated ? heat_off_first : "Leave the heat off.");
  }
  if (!now.floor.element || now.left_in_pot.low >= now.floor.least * nearly) return "";
  return fmt::format("{}; {}. Watch the level; heat off before it shows.", left_in_words(now),
                     needed_in_words(now));
}

std::string sentence(const FireRemark& remark) {
  switch (remark.oddity) {
    case FireOddity::stopped_again:
      return fmt::format(
          "stopped, but by the log the heat is off since {:.0f} min: that stands",
          remark.since.minutes());
    case FireOddity::resumed_while_heated:
      return "resumed, but by the log the heat was not off: the fire is taken to have burnt on";
    case FireOddity::power_while_stopped:
      return fmt::format(
          "a power, but by the log the heat is off since {:.0f} min: kept for when the run is "
          "resumed; if the heat is on, log \"resumed\"",
          remark.since.minutes());
  }
  return "";
}

std::string why_no_time(const NextDecision& next) {
  if (!next.no_time) return "";
  const int missed = percent_of(units::Share::fraction(1.0 - next.reached.fraction()));
  switch (*next.no_time) {
    case NoTime::heat_off:
      return "no time while the heat is off";
    case NoTime::fire_too_low:
      return fmt::format("not reached at this power (in {} % of the possible stills)", missed);
    case NoTime::out_of_reach:
      if (next.decision == Decision::pot_low) {
        return fmt::format("may come before the end (in {} % of the possible stills)",
                           100 - missed);
      }
      return fmt::format("out of reach of this run (in {} % of the possible stills)", missed);
  }
  return "";
}

}  // namespace lynearm::still
