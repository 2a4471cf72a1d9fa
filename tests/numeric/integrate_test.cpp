// Against solutions known in closed form.
#include "numeric/integrate.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include "base/error.hpp"

namespace lynearm::numeric {
namespace {

void decay(double, const State& y, State& rate) { rate[0] = -y[0]; }
void oscillator(double, const State& y, State& rate) {
  rate[0] = y[1];
  rate[1] = -y[0];
}

TEST(Integrate, FollowsExponentialDecay) {
  const Path path = integrate(decay, {1.0}, 0.0, 5.0, 0.5, "decay");
  ASSERT_EQ(path.at.size(), 11U);
  ASSERT_EQ(path.state.size(), path.at.size());
  EXPECT_FALSE(path.stopped);
  for (std::size_t i = 0; i < path.at.size(); ++i) {
    EXPECT_NEAR(path.state[i][0], std::exp(-path.at[i]), 2e-8) << path.at[i];
  }
}

TEST(Integrate, FollowsTenTurnsOfAnOscillator) {
  const double end = 20.0 * std::numbers::pi;
  const Path path = integrate(oscillator, {0.0, 1.0}, 0.0, end, 1.0, "oscillator");
  EXPECT_NEAR(path.state.back()[0], 0.0, 1e-6);
  EXPECT_NEAR(path.state.back()[1], 1.0, 1e-6);
}

TEST(Integrate, ARateThatDependsOnTheVariableAlone) {
  const auto rate = [](double s, const State&, State& out) { out[0] = 3.0 * s * s; };
  const Path path = integrate(rate, {0.0}, 1.0, 2.0, 10.0, "cubic");
  EXPECT_EQ(path.at, (std::vector<double>{1.0, 2.0}));
  EXPECT_NEAR(path.state.back()[0], 7.0, 1e-9);
}

TEST(Integrate, KeepsPointsAtTheSpacingAndNoTwoThatCoincide) {
  // 0.1 has no exact binary form: ten sums of it fall short of 1 by one part in 10^16, and the
  // end was once kept twice.
  const Path path = integrate(decay, {1.0}, 0.0, 1.0, 0.1, "decay");
  ASSERT_EQ(path.at.size(), 11U);
  EXPECT_EQ(path.at.front(), 0.0);
  EXPECT_EQ(path.at.back(), 1.0);
  for (std::size_t i = 1; i < path.at.size(); ++i) {
    EXPECT_NEAR(path.at[i] - path.at[i - 1], 0.1, 1e-12);
  }
}

TEST(Integrate, FindsAnEventToTheToleranceNotToTheStep) {
  const auto half_left = [](double, const State& y) { return y[0] - 0.5; };
  const Path path = integrate(decay, {1.0}, 0.0, 100.0, 0.25, "half life", half_left);
  EXPECT_TRUE(path.stopped);
  EXPECT_NEAR(path.at.back(), std::numbers::ln2, 1e-8);
  EXPECT_NEAR(path.state.back()[0], 0.5, 1e-9);
  EXPECT_EQ(path.at.size(), 4U);  // 0, 0.25, 0.5, ln 2
}

TEST(Integrate, AnEventMayDependOnTheVariable) {
  const auto at_two = [](double s, const State&) { return 2.0 - s; };
  const Path path = integrate(decay, {1.0}, 0.0, 10.0, 100.0, "clock", at_two);
  EXPECT_TRUE(path.stopped);
  EXPECT_NEAR(path.at.back(), 2.0, 1e-11);
}

TEST(Integrate, AnEventThatIsThereAtTheStartEndsThePathThere) {
  const auto already = [](double, const State& y) { return 0.5 - y[0]; };
  const Path path = integrate(decay, {1.0}, 3.0, 10.0, 1.0, "decay", already);
  EXPECT_TRUE(path.stopped);
  EXPECT_EQ(path.at, std::vector<double>{3.0});
}

TEST(Integrate, AnEventThatNeverComesLetsThePathEnd) {
  const auto never = [](double, const State& y) { return y[0]; };
  const Path path = integrate(decay, {1.0}, 0.0, 2.0, 1.0, "decay", never);
  EXPECT_FALSE(path.stopped);
  EXPECT_EQ(path.at.back(), 2.0);
}

TEST(Integrate, NoLengthIsOnePoint) {
  const Path path = integrate(decay, {1.0}, 1.0, 1.0, 1.0, "decay");
  EXPECT_EQ(path.at, std::vector<double>{1.0});
  EXPECT_FALSE(path.stopped);
}

TEST(Integrate, ARateThatIsNotFiniteIsNotFollowed) {
  for (const double bad :
       {std::numeric_limits<double>::quiet_NaN(), std::numeric_limits<double>::infinity()}) {
    const auto rate = [bad](double s, const State&, State& out) {
      out[0] = s > 0.5 ? bad : 1.0;
    };
    EXPECT_THROW((void)integrate(rate, {0.0}, 0.0, 1.0, 1.0, "broken"), base::NotConverged)
        << bad;
  }
}

TEST(Integrate, ASolutionThatRunsToInfinityIsNotConverged) {
  // y' = y^2 from 1 has a pole at 1.
  const auto rate = [](double, const State& y, State& out) { out[0] = y[0] * y[0]; };
  EXPECT_THROW((void)integrate(rate, {1.0}, 0.0, 2.0, 1.0, "pole"), base::NotConverged);
}

TEST(Integrate, StopsWhenTheStepsRunOut) {
  StepControl few;
  few.most_steps = 3;
  EXPECT_THROW((void)integrate(oscillator, {0.0, 1.0}, 0.0, 100.0, 1.0, "oscillator", {}, few),
               base::NotConverged);
}

TEST(Integrate, ARateWithoutAnySmoothnessIsNotConverged) {
  // Each call answers the opposite of the one before, so that no step has a small error.
  StepControl strict;
  strict.absolute = 1e-300;
  double sign = 1.0;
  const auto rate = [&sign](double, const State&, State& out) {
    sign = -sign;
    out[0] = sign;
  };
  EXPECT_THROW((void)integrate(rate, {0.0}, 0.0, 1.0, 1.0, "noise", {}, strict),
               base::NotConverged);
}

TEST(Integrate, BackwardOrWithoutSpacingIsOurFault) {
  EXPECT_THROW((void)integrate(decay, {1.0}, 1.0, 0.0, 1.0, "decay"), base::BrokenInvariant);
  EXPECT_THROW((void)integrate(decay, {1.0}, 0.0, 1.0, 0.0, "decay"), base::BrokenInvariant);
}

}  // namespace
}  // namespace lynearm::numeric
