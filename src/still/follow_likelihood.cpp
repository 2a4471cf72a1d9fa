#include "still/follow_likelihood.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>

#include "base/error.hpp"
#include "spirit/density_kernel.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/strength.hpp"

namespace lynearm::still {
namespace {

constexpr double slips = 0.05;            // share of figures
constexpr double repeat_s = 15.0 * 60.0;  // after which an error is another one
constexpr double read_within_s = 20.0;    // of the time written down
constexpr double mains_share = 0.007;     // of the time: heat that came sooner or later
// What a thermometer shows is a while old: our estimate, for one in a pocket.
constexpr double thermometer_lag_s = 40.0;
constexpr double parrot_stays_s = 120.0;  // full, once nothing runs: our estimate
// Widths of what is believed: instrument and wandering still together.
constexpr double pot_K = 0.20, head_K = 0.25, spout_percent = 0.40;
constexpr double jar_share = 0.008, jar_mL = 10.0;
// A head that no vapour passes has no one temperature, and a jar none has run into none.
constexpr double cold_head_K = 10.0;
constexpr std::array<double, instrument_count> slip_width = {15.0, 15.0, 15.0, 1000.0};

// Student's t with five degrees of freedom, unit scale.
double student_5(double z) {
  const double a = 1.0 + z * z / 5.0;
  return 8.0 / (3.0 * std::numbers::pi * std::sqrt(5.0)) / (a * a * a);
}

// Spirit that nobody put a thermometer into, some 4 K about 20 °C; our estimate, as in a fit
// (fit_readings.cpp).
constexpr double untold_warmth_percent = 1.5;

double normal(double z) { return std::exp(-0.5 * z * z) / std::sqrt(2.0 * std::numbers::pi); }

double both(double a, double b) { return std::sqrt(a * a + b * b); }

}  // namespace

std::string_view name(Instrument instrument) {
  switch (instrument) {
    case Instrument::pot_thermometer:
      return "pot_temperature";
    case Instrument::head_thermometer:
      return "head_temperature";
    case Instrument::hydrometer:
      return "spout";
    case Instrument::jar:
      return "collected";
  }
  return "";
}

std::string_view words(Instrument instrument) {
  switch (instrument) {
    case Instrument::pot_thermometer:
      return "pot thermometer";
    case Instrument::head_thermometer:
      return "head thermometer";
    case Instrument::hydrometer:
      return "hydrometer";
    case Instrument::jar:
      return "jar";
  }
  return "";
}

std::vector<Figure> figures_of(const Reading& reading, std::size_t index,
                               const std::optional<units::Temperature>& spirit) {
  std::vector<Figure> all;
  const double at_s =
      std::fmax(reading.at.seconds() - (reading.power || reading.event ? 1.0 : 0.0), 0.0);
  const auto add = [&](Instrument instrument, double value) {
    all.push_back({index, instrument, at_s, value});
  };
  const std::optional<units::Temperature> told =
      reading.spout_temperature ? reading.spout_temperature : spirit;
  const units::Temperature t = told.value_or(units::Temperature::celsius(20.0));
  if (reading.pot_temperature) {
    add(Instrument::pot_thermometer, reading.pot_temperature->celsius());
  }
  if (reading.head_temperature) {
    add(Instrument::head_thermometer, reading.head_temperature->celsius());
  }
  if (reading.spout) {
    try {
      add(Instrument::hydrometer,
          spirit::volume_strength(spirit::true_mass_fraction(*reading.spout, t)).percent());
    } catch (const base::InputError&) {
      add(Instrument::hydrometer, reading.spout->figure);
      all.back().impossible = true;
    }
    if (!told) all.back().unsure = untold_warmth_percent;
  }
  if (reading.collected) {
    // A jar of some 65 %vol, whatever it holds: within 0.1 % from 5 to 35 °C.
    const double C = std::clamp(t.celsius(), -20.0, 40.0);
    constexpr double p = 0.57;
    const double warm =
        spirit::DensityAt(C)(p).density_kgm3 / spirit::DensityAt(20.0)(p).density_kgm3;
    add(Instrument::jar, reading.collected->millilitres() * warm);
  }
  return all;
}

Expected expected(Instrument instrument, const Instant& instant, const StillSpread& spread) {
  const double within_s = both(read_within_s, mains_share * instant.t_s);
  switch (instrument) {
    case Instrument::pot_thermometer:
      return {instant.pot_C - instant.pot_K_s * thermometer_lag_s, spread.pot_thermometer_K,
              both(pot_K, instant.pot_K_s * within_s)};
    case Instrument::head_thermometer:
      return {instant.head_C - (instant.runs() ? instant.head_K_s * thermometer_lag_s : 0.0),
              spread.head_thermometer_K,
              instant.runs() ? both(head_K, instant.head_K_s * within_s) : cold_head_K};
    case Instrument::hydrometer:
      return {instant.spout_percent, spread.hydrometer_percent,
              both(spout_percent, instant.spout_percent_s * within_s),
              instant.runs() || instant.ran_s_ago <= parrot_stays_s};
    case Instrument::jar: {
      const double mL = instant.collected_mL;
      return {mL, 0.01 * spread.jar_percent * mL,
              both(both(jar_mL, jar_share * mL), instant.flow_mL_s * read_within_s)};
    }
  }
  return {};
}

Fitness fitness(const Figure& figure, const Expected& shown, double standing) {
  const double wide = slip_width[static_cast<std::size_t>(figure.instrument)];
  const double off = figure.value - shown.value(standing);
  // Never quite nothing, so that the logarithm stays.
  const double slip = slips * (normal(off / wide) / wide + 1e-6 / wide);
  if (!shown.shows || figure.impossible) return {0.0, slip};
  return {(1.0 - slips) * student_5(off / shown.width) / shown.width, slip};
}

Pull pull(const Figure& figure, const Expected& shown, double standing) {
  if (!shown.shows || figure.impossible || shown.slope == 0.0) return {};
  const Fitness fit = fitness(figure, shown, standing);
  const double z = (figure.value - shown.value(standing)) / shown.width;
  // Student's t as a normal whose weight is met again at each turn.
  const double weight = 1.2 / (1.0 + z * z / 5.0) * fit.believed / (fit.believed + fit.slip);
  const double slope = shown.slope / shown.width;
  return {(figure.value - shown.base) / shown.slope, weight * slope * slope};
}

std::vector<std::size_t> neighbours(const std::vector<Figure>& figures, const Figure& figure) {
  std::vector<std::size_t> near;
  for (std::size_t i = 0; i < figures.size(); ++i) {
    if (figures[i].instrument == figure.instrument &&
        std::abs(figures[i].at_s - figure.at_s) < silent_for.seconds()) {
      near.push_back(i);
    }
  }
  return near;
}

std::vector<double> counts(const std::vector<Figure>& figures) {
  std::vector<double> all(figures.size(), 1.0);
  std::vector<std::size_t> order(figures.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return figures[a].at_s < figures[b].at_s;
  });
  std::array<double, instrument_count> last{};
  last.fill(-1e9);
  for (const std::size_t i : order) {
    double& before = last[static_cast<std::size_t>(figures[i].instrument)];
    all[i] = -std::expm1(-std::fmax(figures[i].at_s - before, 1.0) / repeat_s);
    before = figures[i].at_s;
  }
  return all;
}

}  // namespace lynearm::still
