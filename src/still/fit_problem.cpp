#include "still/fit_problem.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <tuple>
#include <utility>

namespace lynearm::still {
namespace {

constexpr double tolerance = 1e-7;
constexpr std::size_t most_kept = 4;

std::string at(std::size_t run, std::string_view what) {
  return fmt::format("runs[{}].{}", run, what);
}

// The offset that an instrument's figures carry.
double offset(LogInstrument instrument, const Figures& figures) {
  switch (instrument) {
    case LogInstrument::pot_thermometer:
      return figures.pot_offset_K;
    case LogInstrument::head_thermometer:
      return figures.head_offset_K;
    case LogInstrument::hydrometer:
      return figures.hydrometer_percent;
    default:
      return 0.0;
  }
}

// A reading close to the boil, the first drop or a change of the fire stands at a corner of the
// curve, and a search stumbles over corners. Since it was taken somewhere in its minute, it is
// compared with the mean of that time. So is every other reading: a mean that began only near a
// corner was a small jump when the corner moved, and the slope over it told a constant to a
// hundredth of what it was known to.
constexpr double window_s = 60.0;
constexpr int window_parts = 5;  // either way

Moment in_its_minute(const Run& run, double t_s) {
  Moment mean;
  double weights = 0.0;
  for (int i = -window_parts; i <= window_parts; ++i) {
    const double weight = 1.0 - std::abs(i) / (window_parts + 1.0);
    const Moment m = moment(run, t_s + window_s * i / window_parts);
    for (const auto figure : {&Moment::pot_C, &Moment::head_C, &Moment::spout_percent,
                              &Moment::litres, &Moment::over_L_s}) {
      mean.*figure += weight * m.*figure;
    }
    weights += weight;
  }
  for (const auto figure : {&Moment::pot_C, &Moment::head_C, &Moment::spout_percent,
                            &Moment::litres, &Moment::over_L_s}) {
    mean.*figure /= weights;
  }
  return mean;
}

// A log given twice would count twice and look like two runs that agree.
void refuse_copies(const std::vector<RecordedRun>& runs) {
  for (std::size_t i = 1; i < runs.size(); ++i) {
    for (std::size_t j = 0; j < i; ++j) {
      if (runs[i].record.readings.empty() ||
          runs[i].record.readings != runs[j].record.readings) {
        continue;
      }
      throw base::InputError(at(i, "record"), runs[i].name,
                             fmt::format("another log: this one has the readings of run {}, "
                                         "and each run counts once",
                                         j + 1));
    }
  }
}

// An entry that repeats an earlier one.
struct Twice {
  LogInstrument instrument = LogInstrument::pot_thermometer;
  double figure = 0.0;
  int line = 0, first_line = 0;
};

// Takes out what one instrument showed at one time for the second time, as when a log was
// pasted twice into one file.
std::vector<Twice> drop_repeated(std::vector<Seen>& readings) {
  std::vector<Twice> twice;
  std::vector<Seen> kept;
  std::map<std::tuple<LogInstrument, double, double>, int> lines;
  for (const Seen& s : readings) {
    const auto [first, is_new] = lines.try_emplace({s.instrument, s.t_s, s.figure}, s.line);
    if (is_new) {
      kept.push_back(s);
    } else {
      twice.push_back({s.instrument, s.figure, s.line, first->second});
    }
  }
  readings = std::move(kept);
  return twice;
}

}  // namespace

FitProblem::FitProblem(const std::vector<RecordedRun>& runs, const FitChoices& choices,
                       std::vector<PassedOver>& passed_over) {
  if (runs.empty()) throw base::InputError("runs", "none", "at least one logged run");
  refuse_copies(runs);
  for (std::size_t i = 0; i < runs.size(); ++i) {
    const RecordedRun& logged = runs[i];
    const Record record = by_time(logged.record);
    LoggedPower power =
        logged_power(record, logged.setting.heating.power, logged.setting.to_the_boil);
    for (const Reading& r : power.passed_over) {
      passed_over.push_back(
          {static_cast<int>(i), r.line,
           fmt::format("power {:.0f} W, alone between others that agree", r.power->watts())});
    }
    SeenRun readings = seen(record, power.heat_off);
    for (const Twice& twice : drop_repeated(readings.readings)) {
      passed_over.push_back(
          {static_cast<int>(i), twice.line,
           fmt::format("{} {:.4g} {}, there already on line {}", words(twice.instrument),
                       twice.figure, unit_of(twice.instrument), twice.first_line)});
    }
    for (const Reading& r : readings.unread) {
      passed_over.push_back({static_cast<int>(i), r.line,
                             fmt::format("spout {}, which no spirit shows at its temperature",
                                         spirit::print(*r.spout))});
    }
    if (readings.readings.empty()) {
      throw base::InputError(at(i, "record"), "no reading",
                             "temperatures, strengths or volumes, each with its time");
    }
    RunSetting setting = logged.setting;
    setting.tolerance = tolerance;
    if (!power.steps.empty()) {
      setting.heating.power = power.steps.front().power;
      setting.to_the_boil.reset();
      setting.power_steps.assign(power.steps.begin() + 1, power.steps.end());
      if (power.heat_off && !setting.power_steps.empty() &&
          setting.power_steps.back().power <= units::Power{}) {
        setting.power_steps.pop_back();
      }
    }
    const double end_s =
        power.heat_off ? power.heat_off->seconds() : readings.readings.back().t_s;
    runs_.push_back({logged.charge, setting, vapour::BoilingCurve(logged.pressure), end_s,
                     readings_.size(), readings.readings.size()});
    for (const Seen& s : readings.readings) readings_.push_back({static_cast<int>(i), s});
  }
  const auto add = [&](StillConstant constant, int run) {
    const auto& of = runs_[static_cast<std::size_t>(std::max(run, 0))];
    Belief b = belief(constant, of.charge, of.stated, run);
    for (const Belief& chosen : choices.beliefs) {
      if (chosen.constant == constant && chosen.run == run) b = chosen;
    }
    unknowns_.push_back(b);
  };
  const auto all = {StillConstant::head_loss,          StillConstant::pot_loss,
                    StillConstant::heating_efficiency, StillConstant::hold_up,
                    StillConstant::pot_thermometer,    StillConstant::head_thermometer,
                    StillConstant::hydrometer,         StillConstant::charge_strength,
                    StillConstant::charge_volume,      StillConstant::charge_temperature,
                    StillConstant::first_power};
  for (const StillConstant c : all) {
    if (!is_of_a_run(c)) add(c, -1);
  }
  for (int i = 0; i < this->runs(); ++i) {
    for (const StillConstant c : all) {
      if (is_of_a_run(c)) add(c, i);
    }
  }
  kept_.resize(runs_.size());
}

Figures FitProblem::figures(int i, const std::vector<double>& steps) const {
  Figures f;
  for (std::size_t k = 0; k < unknowns_.size(); ++k) {
    const Belief& b = unknowns_[k];
    if (b.run == -1 || b.run == i) f.of(b.constant) = figure_at(b, steps[k]);
  }
  return f;
}

Run FitProblem::compute(const Ready& ready, const Figures& figures) const {
  const Charge charge = with(ready.charge, figures);
  const RunSetting setting = with(ready.stated, figures);
  Stop stop;
  stop.after = units::Duration::seconds(ready.end_s + 1.0);
  try {
    return distil(charge, setting, ready.curve, stop);
  } catch (const base::InputError& error) {
    // The first drop comes after the last reading: a run too late, but a run.
    if (error.faults().front().field != "run.stop.after") throw;
  }
  stop.after = units::Duration::seconds(3.0 * ready.end_s + 7200.0);
  return distil(charge, setting, ready.curve, stop);
}

std::vector<double> FitProblem::true_figures(int i, const Figures& figures) const {
  const Ready& ready = runs_[static_cast<std::size_t>(i)];
  auto& kept = kept_[static_cast<std::size_t>(i)];
  const auto known = std::find_if(kept.begin(), kept.end(),
                                  [&](const Kept& k) { return k.figures.same_run(figures); });
  if (known != kept.end()) {
    std::rotate(kept.begin(), known, known + 1);
    return kept.front().shown;
  }
  const Run run = compute(ready, figures);
  std::vector<double> shown;
  shown.reserve(ready.count);
  double last_s = -1.0;
  Moment now;
  for (std::size_t k = 0; k < ready.count; ++k) {
    const Seen& s = readings_[ready.first + k].seen;
    if (s.t_s != last_s) now = in_its_minute(run, s.t_s);
    last_s = s.t_s;
    shown.push_back(expected(s, now, ready.curve));
  }
  kept.insert(kept.begin(), {figures, shown});
  if (kept.size() > most_kept) kept.pop_back();
  return shown;
}

std::vector<double> FitProblem::shown(const std::vector<double>& steps) const {
  std::vector<double> all;
  all.reserve(readings_.size());
  for (int i = 0; i < runs(); ++i) {
    const Figures f = figures(i, steps);
    const std::vector<double> own = true_figures(i, f);
    const std::size_t first = runs_[static_cast<std::size_t>(i)].first;
    for (std::size_t k = 0; k < own.size(); ++k) {
      all.push_back(own[k] + offset(readings_[first + k].seen.instrument, f));
    }
  }
  return all;
}

std::vector<double> FitProblem::slopes(const std::vector<double>& steps) const {
  constexpr double aside_s = 45.0;
  std::vector<double> all;
  for (int i = 0; i < runs(); ++i) {
    const Ready& ready = runs_[static_cast<std::size_t>(i)];
    const Run run = compute(ready, figures(i, steps));
    for (std::size_t k = 0; k < ready.count; ++k) {
      const Seen& s = readings_[ready.first + k].seen;
      const double from_s = std::fmax(s.t_s - aside_s, 0.0);
      const double to_s = s.t_s + aside_s;
      all.push_back((expected(s, moment(run, to_s), ready.curve) -
                     expected(s, moment(run, from_s), ready.curve)) /
                    (to_s - from_s));
    }
  }
  return all;
}

Run FitProblem::run(int i, const std::vector<double>& steps) const {
  return compute(runs_[static_cast<std::size_t>(i)], figures(i, steps));
}

Run FitProblem::run_as_stated(int i) const {
  const Ready& ready = runs_[static_cast<std::size_t>(i)];
  Stop stop;
  stop.after = units::Duration::seconds(ready.end_s + 1.0);
  return distil(ready.charge, ready.stated, ready.curve, stop);
}

}  // namespace lynearm::still
