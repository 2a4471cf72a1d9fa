#include "numeric/steps.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

namespace lynearm::numeric {
namespace {

// x'' = -x: sine and cosine, whose answer is known at every time.
const auto turn = [](const std::array<double, 2>& s, std::array<double, 2>& d, double) {
  d = {s[1], -s[0]};
};

TEST(Steps, FollowSineAndCosineToTheToleranceAsked) {
  double last = 1.0;
  for (const double relative : {1e-5, 1e-8, 1e-11}) {
    AdaptiveSteps<2> steps(relative, {1.0, 1.0});
    steps.start(turn, {0.0, 1.0}, 0.0, 0.1);
    const double end = 10.0 * std::numbers::pi;
    while (steps.last().to < end) ASSERT_TRUE(steps.advance(turn, end - steps.last().to));
    const double off = std::hypot(steps.last().at_to[0], steps.last().at_to[1] - 1.0);
    EXPECT_LT(off, 100.0 * relative);
    EXPECT_LT(off, last);
    last = off;
  }
}

TEST(Steps, BetweenTheirEndsFollowACubicOfFourthOrder) {
  AdaptiveSteps<2> steps(1e-10, {1.0, 1.0});
  steps.start(turn, {0.0, 1.0}, 0.0, 0.02);
  ASSERT_TRUE(steps.advance(turn, 0.02));
  const TakenStep<2>& step = steps.last();
  const double h = step.to - step.from;
  for (const double part : {0.0, 0.25, 0.5, 0.9, 1.0}) {
    const double t = step.from + part * h;
    // h^4/384 of the fourth derivative, which is at most 1.
    EXPECT_NEAR(step.at(t)[0], std::sin(t), std::pow(h, 4) / 384.0 + 1e-15);
  }
}

TEST(Steps, ShortenedEndWhereTheyAreTold) {
  AdaptiveSteps<2> steps(1e-10, {1.0, 1.0});
  steps.start(turn, {0.0, 1.0}, 0.0, 0.05);
  ASSERT_TRUE(steps.advance(turn, 0.05));
  steps.shorten(turn, 0.03);
  EXPECT_EQ(steps.last().to, 0.03);
  // One step of fifth order: h^6/720 is 1e-12.
  EXPECT_NEAR(steps.last().at_to[0], std::sin(0.03), 1e-12);
  EXPECT_NEAR(steps.last().slope_to[0], std::cos(0.03), 1e-11);
  ASSERT_TRUE(steps.advance(turn, 1.0));
  EXPECT_EQ(steps.last().from, 0.03);
}

TEST(Steps, LeaveOutOfTheControlWhatHasAnEndlessFloor) {
  const auto rate = [](const std::array<double, 2>& s, std::array<double, 2>& d, double t) {
    d = {-s[0], std::cos(1e3 * t)};
  };
  AdaptiveSteps<2> steps(1e-8, {1.0, std::numeric_limits<double>::infinity()});
  steps.start(rate, {1.0, 0.0}, 0.0, 0.1);
  ASSERT_TRUE(steps.advance(rate, 1.0));
  EXPECT_GT(steps.last().to, 0.05);
}

TEST(Steps, DoNotTakeAStateThatIsNoNumber) {
  // Once the error of the element after it hid the one that was no number.
  const auto rate = [](const std::array<double, 3>&, std::array<double, 3>& d, double t) {
    d = {t > 1.0 ? std::numeric_limits<double>::quiet_NaN() : 1.0, 0.0, 0.0};
  };
  AdaptiveSteps<3> steps(1e-8, {1.0, 1.0, 1.0});
  steps.start(rate, {0.0, 0.0, 0.0}, 0.5, 2.0);
  while (steps.advance(rate, 2.0)) ASSERT_LE(steps.last().to, 1.0);
}

TEST(Steps, SayWhenNoneIsShortEnough) {
  const auto rate = [](const std::array<double, 1>&, std::array<double, 1>& d, double t) {
    d = {t > 1.0 ? std::numeric_limits<double>::quiet_NaN() : 1.0};
  };
  AdaptiveSteps<1> steps(1e-8, {1.0});
  steps.start(rate, {0.0}, 1.0, 0.1);
  EXPECT_FALSE(steps.advance(rate, 1.0));
}

}  // namespace
}  // namespace lynearm::numeric
