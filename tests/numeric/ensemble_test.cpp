#include "numeric/ensemble.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <set>

#include "base/error.hpp"

namespace lynearm::numeric {
namespace {

// Seeds are fixed, so these are the same samples everywhere. The tolerances are four standard
// errors of each moment for independent draws.
constexpr int many = 200000;

TEST(Draw, UniformHasTheMomentsOfTheUniformDistribution) {
  Draw draw(7, 0);
  double sum = 0.0, squares = 0.0;
  for (int i = 0; i < many; ++i) {
    const double u = draw.uniform();
    ASSERT_GT(u, 0.0);
    ASSERT_LT(u, 1.0);
    sum += u - 0.5;
    squares += (u - 0.5) * (u - 0.5);
  }
  EXPECT_NEAR(sum / many, 0.0, 4.0 * std::sqrt(1.0 / 12.0 / many));
  EXPECT_NEAR(squares / many, 1.0 / 12.0, 4.0 * std::sqrt(1.0 / 180.0 / many));
}

TEST(Draw, NormalHasTheMomentsOfTheNormalDistribution) {
  Draw draw(11, 3);
  double m1 = 0.0, m2 = 0.0, m3 = 0.0, m4 = 0.0;
  for (int i = 0; i < many; ++i) {
    const double z = draw.normal();
    m1 += z;
    m2 += z * z;
    m3 += z * z * z;
    m4 += z * z * z * z;
  }
  EXPECT_NEAR(m1 / many, 0.0, 4.0 * std::sqrt(1.0 / many));
  EXPECT_NEAR(m2 / many, 1.0, 4.0 * std::sqrt(2.0 / many));
  EXPECT_NEAR(m3 / many, 0.0, 4.0 * std::sqrt(15.0 / many));
  EXPECT_NEAR(m4 / many, 3.0, 4.0 * std::sqrt(96.0 / many));
}

TEST(Draw, FirstDrawsOfManyMembersAreUniformToo) {
  // Members differ by a counter; what they draw first must not show it.
  double sum = 0.0, product = 0.0;
  double before = Draw(1, 0).uniform() - 0.5;
  for (std::uint64_t member = 1; member <= many; ++member) {
    const double u = Draw(1, member).uniform() - 0.5;
    sum += u;
    product += u * before;
    before = u;
  }
  EXPECT_NEAR(sum / many, 0.0, 4.0 * std::sqrt(1.0 / 12.0 / many));
  EXPECT_NEAR(product / many, 0.0, 4.0 / 12.0 / std::sqrt(many));
}

TEST(Draw, TheSameSeedAndMemberDrawTheSameStream) {
  Draw a(42, 5), b(42, 5);
  for (int i = 0; i < 100; ++i) EXPECT_EQ(a.normal(), b.normal());
}

TEST(Draw, AnotherSeedOrMemberDrawsAnotherStream) {
  std::set<double> firsts;
  for (std::uint64_t seed = 0; seed < 30; ++seed) {
    for (std::uint64_t member = 0; member < 30; ++member) {
      firsts.insert(Draw(seed, member).uniform());
    }
  }
  EXPECT_EQ(firsts.size(), 900U);
}

TEST(Draw, TheStreamStaysAsItIs) {
  // Regression values of our own code: stored forecasts must come out again.
  Draw draw(1, 2);
  EXPECT_DOUBLE_EQ(draw.uniform(), 0.65883693895346473);
  EXPECT_DOUBLE_EQ(draw.uniform(), 0.51714542999427571);
}

TEST(Band, IsTheTenthTheMiddleAndTheNinetiethPercentile) {
  std::vector<double> values;
  for (int i = 100; i >= 0; --i) values.push_back(i);
  const Band b = band(values);
  EXPECT_DOUBLE_EQ(b.low, 10.0);
  EXPECT_DOUBLE_EQ(b.median, 50.0);
  EXPECT_DOUBLE_EQ(b.high, 90.0);
}

TEST(Band, InterpolatesBetweenOrderStatistics) {
  const Band b = band({3.0, 1.0});
  EXPECT_DOUBLE_EQ(b.low, 1.2);
  EXPECT_DOUBLE_EQ(b.median, 2.0);
  EXPECT_DOUBLE_EQ(b.high, 2.8);
}

TEST(Band, OfOneValueHasNoWidth) {
  const Band b = band({4.5});
  EXPECT_EQ(b.low, 4.5);
  EXPECT_EQ(b.median, 4.5);
  EXPECT_EQ(b.high, 4.5);
}

TEST(Band, OfNothingIsOurFault) { EXPECT_THROW((void)band({}), base::BrokenInvariant); }

TEST(Band, OfNormalDrawsIsOnePointTwoEightDeviationsWide) {
  Draw draw(3, 1);
  std::vector<double> values;
  for (int i = 0; i < many; ++i) values.push_back(draw.normal());
  const Band b = band(values);
  // The 90th percentile of the normal distribution, 1.2815516; standard error of a quantile
  // sqrt(p (1 - p) / n) / density, times four.
  const double error = 4.0 * std::sqrt(0.09 / many) / 0.17549833;
  EXPECT_NEAR(b.high, 1.2815516, error);
  EXPECT_NEAR(b.low, -1.2815516, error);
}

TEST(Executor, OneAfterAnotherRunsEachTaskOnceInOrder) {
  std::vector<std::size_t> ran;
  one_after_another()(5, [&ran](std::size_t i) { ran.push_back(i); });
  EXPECT_EQ(ran, (std::vector<std::size_t>{0, 1, 2, 3, 4}));
  one_after_another()(0, [](std::size_t) { FAIL(); });
}

}  // namespace
}  // namespace lynearm::numeric
