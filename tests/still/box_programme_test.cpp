#include "still/box_programme.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "still/shelves.hpp"

namespace lynearm::still {
namespace {

double sum(const std::vector<double>& a, const std::vector<double>& b) {
  double s = 0.0;
  for (std::size_t i = 0; i < a.size(); ++i) s += a[i] * b[i];
  return s;
}

// With the term that decides between jars that are alike.
double cost(const BoxProgramme& p, const std::vector<double>& h) {
  double c = p.linear.empty() ? 0.0 : sum(p.linear, h);
  for (std::size_t i = 0; i < h.size(); ++i) c += 1e-9 * p.size[i] * h[i] * h[i];
  for (const auto& g : p.squares) c += sum(g, h) * sum(g, h);
  return c;
}

TEST(BoxProgramme, takesTheLightestFirst) {
  // One load: the least of it for 1.5 jars' worth is the lightest whole and half the next.
  BoxProgramme p;
  p.size = {1.0, 1.0, 1.0};
  p.squares = {{3.0, 1.0, 2.0}};
  p.total = 1.5;
  const BoxSolution s = solve(p);
  EXPECT_NEAR(s.share[0], 0.0, 1e-12);
  EXPECT_NEAR(s.share[1], 1.0, 1e-12);
  EXPECT_NEAR(s.share[2], 0.5, 1e-12);
  // d/dt (1 + 2 (t - 1))^2 at t = 1.5.
  EXPECT_NEAR(s.price, 8.0, 1e-7);
}

TEST(BoxProgramme, balancesTwoLoads) {
  // Jars that carry one load each: equal halves have the least sum of squares.
  BoxProgramme p;
  p.size = {1.0, 1.0};
  p.squares = {{1.0, 0.0}, {0.0, 2.0}};
  p.total = 1.0;
  const BoxSolution s = solve(p);
  EXPECT_NEAR(s.share[0], 0.8, 1e-8);
  EXPECT_NEAR(s.share[1], 0.2, 1e-8);
}

TEST(BoxProgramme, sharesEvenlyBetweenJarsThatAreAlike) {
  BoxProgramme p;
  p.size = {1.0, 2.0, 1.0};
  p.squares = {{1.0, 2.0, 1.0}};
  p.total = 2.0;
  for (const double h : solve(p).share) EXPECT_NEAR(h, 0.5, 1e-6);
}

TEST(BoxProgramme, keepsABalance) {
  // The first jar alone would be lightest, but the others must balance it: the third at a load
  // of 0.45 + 0.9, or the second at 0.6 + 1.2.
  BoxProgramme p;
  p.size = {1.0, 1.0, 1.0};
  p.squares = {{1.0, 4.0, 2.0}};
  p.total = 0.9;
  p.balance = {0.5, -1.0, -0.5};
  p.start = {0.48, 0.06, 0.36};
  const BoxSolution s = solve(p);
  EXPECT_NEAR(s.share[0], 0.45, 1e-12);
  EXPECT_NEAR(s.share[1], 0.0, 1e-12);
  EXPECT_NEAR(s.share[2], 0.45, 1e-12);
}

// Optimality put back: no exchange of a little of one jar for as much of another lowers the
// cost, at random programmes.
RC_GTEST_PROP(BoxProgramme, isNotBeatenByAnyExchange, ()) {
  const int n = *rc::gen::inRange(2, 25);
  BoxProgramme p;
  p.squares.resize(3);
  double all = 0.0;
  for (int i = 0; i < n; ++i) {
    p.size.push_back(any_figure(0.001, 1.0));
    all += p.size.back();
    for (auto& g : p.squares) g.push_back(any_figure(0.0, 2.0) * p.size.back());
  }
  p.total = all * any_figure(0.02, 0.98);
  const BoxSolution s = solve(p);
  RC_ASSERT(std::abs(sum(p.size, s.share) - p.total) <= 1e-11 * all);
  const double least = cost(p, s.share);
  for (std::size_t i = 0; i < p.size.size(); ++i) {
    for (std::size_t j = 0; j < p.size.size(); ++j) {
      const double amount =
          1e-3 * std::min((1.0 - s.share[i]) * p.size[i], s.share[j] * p.size[j]);
      auto other = s.share;
      other[i] += amount / p.size[i];
      other[j] -= amount / p.size[j];
      RC_ASSERT(cost(p, other) >= least * (1.0 - 1e-13));
    }
  }
}

}  // namespace
}  // namespace lynearm::still
