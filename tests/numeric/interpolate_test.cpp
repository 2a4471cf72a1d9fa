#include "numeric/interpolate.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/error.hpp"

namespace lynearm::numeric {
namespace {

TEST(Curve, PassesThroughItsPoints) {
  const std::vector<double> x{0.0, 1.0, 2.5, 4.0, 10.0};
  const std::vector<double> y{1.0, 3.0, 2.0, 2.0, 8.0};
  const Curve curve(x, y);
  for (std::size_t i = 0; i < x.size(); ++i) EXPECT_DOUBLE_EQ(curve(x[i]), y[i]);
  EXPECT_EQ(curve.first(), 0.0);
  EXPECT_EQ(curve.last(), 10.0);
}

TEST(Curve, ReproducesACubicWhoseSlopesItIsGiven) {
  const auto y = [](double x) { return 2.0 - x + 0.5 * x * x - 0.25 * x * x * x; };
  const auto dy = [](double x) { return -1.0 + x - 0.75 * x * x; };
  const std::vector<double> x{-2.0, 0.0, 0.5, 3.0};
  std::vector<double> values, slopes;
  for (const double at : x) {
    values.push_back(y(at));
    slopes.push_back(dy(at));
  }
  const Curve curve(x, values, slopes);
  for (double at = -2.0; at <= 3.0; at += 0.01) {
    EXPECT_NEAR(curve(at), y(at), 1e-13) << at;
    EXPECT_NEAR(curve.slope(at), dy(at), 1e-12) << at;
  }
}

TEST(Curve, OfTwoPointsIsALine) {
  const Curve line({1.0, 3.0}, {10.0, 20.0});
  EXPECT_DOUBLE_EQ(line(1.5), 12.5);
  EXPECT_DOUBLE_EQ(line.slope(2.7), 5.0);
}

TEST(Curve, SlopeIsTheDerivative) {
  const Curve curve({0.0, 1.0, 2.0, 4.0}, {0.0, 1.0, 8.0, 64.0});
  for (const double at : {0.3, 0.9, 1.5, 3.2}) {
    EXPECT_NEAR(curve.slope(at), (curve(at + 1e-6) - curve(at - 1e-6)) / 2e-6, 1e-6) << at;
  }
}

TEST(Curve, DoesNotExtrapolate) {
  const Curve curve({0.0, 1.0}, {0.0, 1.0});
  EXPECT_THROW((void)curve(-0.01), base::BrokenInvariant);
  EXPECT_THROW((void)curve(1.01), base::BrokenInvariant);
  EXPECT_THROW((void)curve.slope(1.01), base::BrokenInvariant);
  EXPECT_THROW((void)curve(std::numeric_limits<double>::quiet_NaN()), base::BrokenInvariant);
  EXPECT_DOUBLE_EQ(curve(1.0 + 1e-12), 1.0);  // rounding is forgiven
}

TEST(Curve, WantsTwoPointsAndOneValueEach) {
  EXPECT_THROW(Curve({1.0}, {1.0}), base::BrokenInvariant);
  EXPECT_THROW(Curve({1.0, 2.0}, {1.0}), base::BrokenInvariant);
  EXPECT_THROW(Curve({1.0, 2.0}, {1.0, 2.0}, {0.0}), base::BrokenInvariant);
}

RC_GTEST_PROP(CurveProperty, IsMonotoneWhereItsPointsAre, ()) {
  const auto steps =
      *rc::gen::suchThat(rc::gen::container<std::vector<int>>(rc::gen::inRange(0, 1000)),
                         [](const std::vector<int>& s) { return !s.empty(); });
  std::vector<double> x{0.0}, y{0.0};
  for (const int step : steps) {
    x.push_back(x.back() + 0.1 + *rc::gen::inRange(0, 100) * 0.1);
    y.push_back(y.back() + step * 0.01);
  }
  const Curve curve(x, y);
  double before = curve(0.0);
  for (int i = 1; i <= 400; ++i) {
    const double now = curve(x.back() * i / 400.0);
    RC_ASSERT(now >= before - 1e-12 * (1.0 + y.back()));
    before = now;
  }
}

RC_GTEST_PROP(CurveProperty, DoesNotLeaveTheRangeOfItsPoints, ()) {
  std::vector<double> x{0.0, 1.0, 3.0, 4.0, 7.0}, y;
  for (std::size_t i = 0; i < x.size(); ++i) y.push_back(*rc::gen::inRange(-1000, 1000) * 0.01);
  const Curve curve(x, y);
  const auto [low, high] = std::minmax_element(y.begin(), y.end());
  for (int i = 0; i <= 140; ++i) {
    const double value = curve(7.0 * i / 140.0);
    RC_ASSERT(value >= *low - 1e-12 && value <= *high + 1e-12);
  }
}

}  // namespace
}  // namespace lynearm::numeric
