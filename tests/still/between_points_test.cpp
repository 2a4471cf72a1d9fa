#include "still/between_points.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "still/runs.hpp"

namespace lynearm::still {
namespace {

TEST(BetweenPoints, WeightsGiveBackACubic) {
  const auto cubic = [](double t) { return 2.0 - t + 0.5 * t * t - 0.1 * t * t * t; };
  const std::array<double, 4> nodes{-1.0, 0.5, 2.0, 2.5};
  for (const double t : {-1.0, 0.0, 1.3, 2.5}) {
    const auto w = weights(nodes, t);
    double value = 0.0, sum = 0.0;
    for (std::size_t k = 0; k < nodes.size(); ++k) {
      value += w[k] * cubic(nodes[k]);
      sum += w[k];
    }
    EXPECT_NEAR(value, cubic(t), 1e-14) << t;
    EXPECT_NEAR(sum, 1.0, 1e-14) << t;
  }
}

TEST(BetweenPoints, WeightsOfTwoNodesAreAStraightLine) {
  const std::array<double, 2> nodes{1.0, 3.0};
  const auto w = weights(nodes, 1.5);
  EXPECT_DOUBLE_EQ(w[0], 0.75);
  EXPECT_DOUBLE_EQ(w[1], 0.25);
  EXPECT_EQ(w[2], 0.0);
}

// A fire that is changed while spirit runs: points to either side know nothing of each other.
TEST(BetweenPoints, NeighboursStayWithinTheirStretch) {
  RunSetting setting = setting_with(10.0);
  setting.head = {};
  setting.head.loss = units::HeatLoss::watts_per_kelvin(2.0);
  setting.power_steps = {{units::Volume::litres(2.0), units::Power::kilowatts(1.0)}};
  const still::Run run =
      distil(charge_of(20.0, 28.0), setting, at_one_atmosphere(), spout_at(20.0));
  ASSERT_EQ(run.smooth.size(), 2U);
  const std::size_t jump = run.smooth[1];
  for (std::size_t i = 0; i + 1 < run.points.size(); ++i) {
    const Neighbours near = neighbours(run, i);
    EXPECT_EQ(near.count, 4U) << i;
    EXPECT_TRUE(near.start + near.count <= jump || near.start >= jump) << i;
    if (i + 1 == jump) continue;  // the jump itself
    EXPECT_LE(near.start, i);
    EXPECT_GT(near.start + near.count, i + 1);
  }
}

}  // namespace
}  // namespace lynearm::still
