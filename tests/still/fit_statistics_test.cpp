// Whether a fit knows how well it knows: on invented runs with hidden constants, and with
// physics that the model lacks (synthetic_run.hpp), the constants lie inside their 80 % bands
// about four times in five. What is believed beforehand is what the hidden constants are drawn
// from, so that a constant the run does not tell has its band right as well.
//
// A few runs in the plain check, 500 under ./check --full; the table it prints is kept in
// docs/rooms/still.md.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <array>
#include <cmath>
#include <cstdlib>
#include <iostream>
#include <vector>

#include "spirit/strength.hpp"
#include "still/fit_still.hpp"
#include "still/synthetic_run.hpp"

namespace lynearm::still {
namespace {

constexpr std::array<StillConstant, 9> asked = {
    StillConstant::head_loss,          StillConstant::pot_loss,
    StillConstant::heating_efficiency, StillConstant::hold_up,
    StillConstant::pot_thermometer,    StillConstant::head_thermometer,
    StillConstant::hydrometer,         StillConstant::charge_strength,
    StillConstant::charge_volume};

std::vector<double> truth_of(const SyntheticRun& run) {
  const HiddenConstants& is = run.truth;
  return {is.head_loss.watts_per_kelvin(),
          is.pot_loss.watts_per_kelvin(),
          is.efficiency.fraction(),
          (is.hold_up.condenser + is.hold_up.parrot).litres(),
          is.pot_thermometer.kelvins(),
          is.head_thermometer.kelvins(),
          is.hydrometer_percent,
          is.charge_strength.percent() - spirit::strength(run.believed.spirit).percent(),
          is.charge_volume / spirit::volume(run.believed.spirit)};
}

FitChoices drawn_from(const SyntheticRun& run, const HiddenSpread& sd) {
  const RunSetting& kit = run.kit;
  const double percent = spirit::strength(run.believed.spirit).percent();
  return {{{StillConstant::head_loss, kit.head.loss.watts_per_kelvin(), sd.head_loss_log},
           {StillConstant::pot_loss, kit.heating.loss.watts_per_kelvin(), sd.pot_loss_log},
           {StillConstant::heating_efficiency, kit.heating.efficiency.fraction(),
            sd.efficiency_log},
           {StillConstant::hold_up, (kit.hold_up.condenser + kit.hold_up.parrot).litres(),
            sd.hold_up_log},
           {StillConstant::pot_thermometer, 0.0, sd.pot_thermometer_K},
           {StillConstant::head_thermometer, 0.0, sd.head_thermometer_K},
           {StillConstant::hydrometer, 0.0, sd.hydrometer_percent},
           {StillConstant::charge_strength, 0.0, sd.charge_strength_log * percent, 0},
           {StillConstant::charge_volume, 1.0, sd.charge_volume_log, 0}}};
}

// By how much a share of `n` draws may lie off for chance alone, once in a thousand, were it
// `share` in truth: 3.3 standard deviations of a binomial.
double chance(double share, double n) { return 3.3 * std::sqrt(share * (1.0 - share) / n); }

TEST(FitStatistics, BandsOfEightyPercentHoldAboutThatShare) {
  const char* full = std::getenv("LYNEARM_FULL");
  const int count = full != nullptr && *full != '\0' ? 500 : 24;
  std::array<double, asked.size()> inside{}, square{}, open{};
  std::vector<double> share_of_run;
  for (int seed = 1; seed <= count; ++seed) {
    const SyntheticOptions options;
    const SyntheticRun run = synthetic_run(static_cast<std::uint64_t>(seed), options);
    const StillFit fit = fit_still({{"run", run.record, run.believed, run.kit, run.pressure}},
                                   drawn_from(run, options.spread));
    const std::vector<double> truth = truth_of(run);
    double share = 0.0;
    for (std::size_t k = 0; k < asked.size(); ++k) {
      const FittedConstant& c = fit.of(asked[k], is_of_a_run(asked[k]) ? 0 : -1);
      const bool in = c.low <= truth[k] && truth[k] <= c.high;
      const double off = is_a_factor(c.constant)
                             ? std::log(truth[k] / c.value) / (c.left_open * c.before.spread)
                             : (truth[k] - c.value) / c.sd;
      inside[k] += in ? 1.0 : 0.0;
      square[k] += off * off;
      open[k] += c.left_open;
      share += in ? 1.0 / asked.size() : 0.0;
    }
    share_of_run.push_back(share);
  }
  const double n = count;
  std::cout << fmt::format("{} invented runs\n{:<20} {:>8} {:>10} {:>10}\n", count, "constant",
                           "in band", "rms of z", "left open");
  for (std::size_t k = 0; k < asked.size(); ++k) {
    const double share = inside[k] / n;
    std::cout << fmt::format("{:<20} {:>7.1f}% {:>10.2f} {:>10.2f}\n", words(asked[k]),
                             100.0 * share, std::sqrt(square[k] / n), open[k] / n);
    EXPECT_GE(share, 0.74 - chance(0.74, n)) << words(asked[k]);
    EXPECT_LE(share, 0.86 + chance(0.86, n)) << words(asked[k]);
  }
  double mean = 0.0, spread = 0.0;
  for (const double s : share_of_run) mean += s / n;
  for (const double s : share_of_run) spread += (s - mean) * (s - mean) / (n - 1.0);
  std::cout << fmt::format("all {:.1f}%\n", 100.0 * mean);
  // Constants of one run are found right or wrong together: the scatter is taken from run to
  // run.
  EXPECT_NEAR(mean, 0.80, 0.06 + 3.3 * std::sqrt(spread / n));
}

}  // namespace
}  // namespace lynearm::still
