// The run's own steps against slower ways to the same answer.
#include <gtest/gtest.h>

#include <cmath>
#include <iostream>

#include "numeric/integrate.hpp"
#include "still/run.hpp"
#include "still/runs.hpp"
#include "vapour/equilibrium.hpp"

namespace lynearm::still {
namespace {

using units::MoleFraction;
using units::Pressure;
using units::Share;

TEST(Rayleigh, IntegralByQuadratureGivesTheMolesLeft) {
  // ln(n0/n1) = integral of dx/(y - x), by Simpson over ln x with y from bubble_point(), not
  // from the table that the run uses.
  for (const double percent : {8.0, 28.0, 60.0}) {
    const still::Run run = run_of(100.0, percent, 0.0, 3.0);
    const double high = std::log(run.first().pot_ethanol.fraction());
    const double low = std::log(run.last().pot_ethanol.fraction());
    constexpr int parts = 2000;
    double sum = 0.0;
    for (int i = 0; i <= parts; ++i) {
      const double x = std::exp(std::lerp(low, high, static_cast<double>(i) / parts));
      const double y =
          vapour::bubble_point(MoleFraction::fraction(x), Pressure::atmospheres(1.0))
              .vapour.fraction();
      const double weight = i == 0 || i == parts ? 1.0 : (i % 2 == 1 ? 4.0 : 2.0);
      sum += weight * x / (y - x);
    }
    const double integral = sum * (high - low) / parts / 3.0;
    const double ours = std::log(run.first().in_pot / run.last().in_pot);
    std::cout << percent << " %: ln(n0/n) off by " << ours - integral << '\n';
    EXPECT_NEAR(ours, integral, 1e-6) << percent;
  }
}

TEST(Run, AgreesWithIntegrationAtTightTolerance) {
  const auto& curve = at_one_atmosphere();
  double worst = 0.0;
  for (const double percent : {8.0, 28.0, 90.0}) {
    for (const double reflux : {0.0, 10.0, 50.0, 90.0}) {
      const still::Run run = run_of(100.0, percent, reflux, 2.0);
      const auto share = Share::percent(reflux);
      const auto rate = [&](double, const numeric::State& s, numeric::State& slope) {
        const auto x = MoleFraction::fraction(s[0]);
        const MoleFraction drop = curve.first_drop(curve.vapour(x), share, x);
        slope[0] = -(curve.vapour(drop).fraction() - s[0]);
      };
      const double end = std::log(run.first().in_pot / run.last().in_pot);
      numeric::StepControl tight;
      tight.relative = 1e-11;
      tight.absolute = 1e-14;
      const numeric::Path path =
          numeric::integrate(rate, {run.first().pot_ethanol.fraction()}, 0.0, end, end,
                             "run, for comparison", {}, tight);
      const double off = run.last().pot_ethanol.fraction() / path.state.back()[0] - 1.0;
      worst = std::max(worst, std::abs(off));
      EXPECT_NEAR(off, 0.0, 1e-6) << percent << " %, reflux " << reflux;
    }
  }
  std::cout << "worst relative error of the pot's mole fraction at the end: " << worst << '\n';
}

TEST(PointAtVolume, BetweenPointsIsWhatARunStoppedThereSays) {
  const still::Run whole = run_of(100.0, 28.0, 10.0, 5.0);
  double worst_spout = 0.0;
  double worst_K = 0.0;
  for (double litres = 0.37; litres < whole.last().collected.litres(); litres += 1.13) {
    Stop stop;
    stop.collected = units::Volume::litres(litres);
    const still::Run part = distil(whole.charge, whole.setting, at_one_atmosphere(), stop);
    const Point between = point_at_volume(whole, units::Volume::litres(litres));
    worst_spout =
        std::max(worst_spout, std::abs((between.spout - part.last().spout).percent()));
    worst_K = std::max(
        worst_K, std::abs((between.head_temperature - part.last().head_temperature).kelvins()));
    EXPECT_NEAR(between.into_pot / part.last().into_pot, 1.0, 1e-5) << litres;
    EXPECT_NEAR(between.since_boiling / part.last().since_boiling, 1.0, 1e-4) << litres;
    // A difference of two potfuls: 1e-8 of the pot is 1e-3 %vol of the first third of a litre.
    EXPECT_NEAR(between.cumulative.percent(), part.last().cumulative.percent(), 1e-3);
  }
  std::cout << "between points: spout off by " << worst_spout << " %vol, head by " << worst_K
            << " K\n";
  EXPECT_LT(worst_spout, 1e-3);
  EXPECT_LT(worst_K, 1e-3);
}

}  // namespace
}  // namespace lynearm::still
