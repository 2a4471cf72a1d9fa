#include "numeric/root.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>
#include <numbers>

#include "base/error.hpp"

namespace lynearm::numeric {
namespace {

TEST(Root, FindsKnownRoots) {
  EXPECT_NEAR(root_between([](double x) { return std::cos(x); }, 1.0, 2.0, "test").value,
              std::numbers::pi / 2.0, 1e-12);
  EXPECT_NEAR(root_between([](double x) { return x * x - 2.0; }, 0.0, 2.0, "test").value,
              std::numbers::sqrt2, 1e-12);
  // Falling functions, and wide brackets.
  EXPECT_NEAR(
      root_between([](double x) { return 1.0 - std::exp(x - 3.0); }, -50.0, 20.0, "test").value,
      3.0, 1e-11);
}

TEST(Root, PutsTheResultBackIntoItsEquation) {
  const auto f = [](double x) { return std::exp(x) - 5.0; };
  const Root root = root_between(f, 0.0, 3.0, "test");
  EXPECT_DOUBLE_EQ(root.residual, f(root.value));
  EXPECT_LT(std::abs(root.residual), 1e-10);
  EXPECT_GT(root.iterations, 2);
  EXPECT_LT(root.iterations, 30);
}

TEST(Root, AnEndThatIsTheRootIsReturned) {
  EXPECT_EQ(root_between([](double x) { return x; }, 0.0, 1.0, "test").value, 0.0);
  EXPECT_EQ(root_between([](double x) { return x - 1.0; }, 0.0, 1.0, "test").value, 1.0);
}

TEST(Root, OfASteepAndAFlatFunctionIsFound) {
  RootTolerance wide;
  wide.width = 1e-9;
  const auto flat = [](double x) { return std::pow(x - 0.3, 3.0); };
  const auto steep = [](double x) { return std::atan(1e8 * (x - 0.3)); };
  EXPECT_NEAR(root_between(flat, 0.0, 1.0, "test", wide).value, 0.3, 1e-9);
  EXPECT_NEAR(root_between(steep, 0.0, 1.0, "test").value, 0.3, 1e-11);
}

TEST(Root, TooFlatToBeNarrowedIsRefusedNotGuessed) {
  // After a hundred evaluations the bracket of a ninefold root is still 5e-9 wide.
  EXPECT_THROW(
      (void)root_between([](double x) { return std::pow(x - 0.3, 9.0); }, 0.0, 1.0, "test"),
      base::NotConverged);
}

TEST(Root, OneSignAtBothEndsNamesBracketAndProcedure) {
  try {
    (void)root_between([](double x) { return x * x + 1.0; }, -1.0, 2.0, "bubble point");
    FAIL() << "a root was invented";
  } catch (const base::NotConverged& error) {
    EXPECT_STREQ(error.what(),
                 "bubble point did not converge: no change of sign: 2 at -1, 5 at 2");
  }
}

TEST(Root, AValueThatIsNotFiniteIsNotSearchedThrough) {
  const auto f = [](double x) {
    return x > 0.5 && x < 1.5 ? std::numeric_limits<double>::quiet_NaN() : x - 1.0;
  };
  EXPECT_THROW((void)root_between(f, 0.0, 2.0, "test"), base::NotConverged);
  EXPECT_THROW((void)root_between(f, 1.0, 2.0, "test"), base::NotConverged);
}

TEST(Root, StopsWhenTheIterationsRunOut) {
  RootTolerance few;
  few.most_iterations = 2;
  EXPECT_THROW((void)root_between([](double x) { return std::pow(x - 0.3, 9.0); }, 0.0, 1.0,
                                  "test", few),
               base::NotConverged);
}

RC_GTEST_PROP(RootProperty, OfAnyMonotoneCubicIsItsInverse, ()) {
  const double x = *rc::gen::inRange(-100000, 100001) * 1e-4;
  const double a = *rc::gen::inRange(1, 1001) * 1e-2;
  const auto cubic = [a](double s) { return s * s * s + a * s; };
  const double target = cubic(x);
  const Root root =
      root_between([&](double s) { return cubic(s) - target; }, -11.0, 12.0, "cubic");
  RC_ASSERT(std::abs(root.value - x) < 1e-10);
}

TEST(Minimum, OfAParabolaIsItsVertex) {
  // Half the digits of a double is all that function values can tell.
  EXPECT_NEAR(minimum_between([](double x) { return (x - 0.7) * (x - 0.7) + 2.0; }, 0.0, 3.0),
              0.7, 1e-7);
}

TEST(Minimum, OfAMonotoneFunctionIsAnEnd) {
  EXPECT_NEAR(minimum_between([](double x) { return std::exp(x); }, 1.0, 4.0), 1.0, 1e-6);
}

}  // namespace
}  // namespace lynearm::numeric
