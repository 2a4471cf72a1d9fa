#include "numeric/uncertainty.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "base/error.hpp"
#include "numeric/ensemble.hpp"
#include "numeric/normal.hpp"

namespace lynearm::numeric {
namespace {

using Values = std::vector<double>;

TEST(Normal, EightyPercentLieWithinHalfOfTheBandOnEitherSide) {
  EXPECT_NEAR(std::erf(half_of_80 / std::sqrt(2.0)), 0.8, 1e-15);
}

TEST(Uncertainty, of_a_sum_adds_in_squares) {
  const auto results = propagate([](const Values& x) { return Values{x[0] + x[1]}; },
                                 {{10.0, 0.3}, {20.0, 0.4}});
  EXPECT_DOUBLE_EQ(results.at(0).value, 30.0);
  EXPECT_NEAR(results[0].standard, 0.5, 1e-12);
}

TEST(Uncertainty, of_a_product_adds_relatively) {
  const auto results = propagate([](const Values& x) { return Values{x[0] * x[1]}; },
                                 {{10.0, 0.1}, {20.0, 0.4}});
  EXPECT_NEAR(results.at(0).standard / 200.0, std::hypot(0.01, 0.02), 1e-12);
}

TEST(Uncertainty, keeps_the_sign_of_each_contribution) {
  const auto results = propagate([](const Values& x) { return Values{x[0] - 3.0 * x[1]}; },
                                 {{1.0, 0.1}, {1.0, 0.1}});
  EXPECT_NEAR(results.at(0).contributions.at(0), 0.1, 1e-12);
  EXPECT_NEAR(results[0].contributions.at(1), -0.3, 1e-12);
}

TEST(Uncertainty, of_a_known_input_contributes_nothing) {
  const auto results = propagate([](const Values& x) { return Values{x[0] * x[1]}; },
                                 {{10.0, 0.0}, {20.0, 0.4}});
  EXPECT_EQ(results.at(0).contributions.at(0), 0.0);
  EXPECT_NEAR(results[0].standard, 4.0, 1e-10);
}

TEST(Uncertainty, at_the_end_of_a_range_takes_the_slope_from_inside) {
  const auto ends_at_one = [](const Values& x) {
    if (x[0] > 1.0) throw base::InputError("x", "above 1", "at most 1");
    return Values{5.0 * x[0]};
  };
  EXPECT_NEAR(propagate(ends_at_one, {{1.0, 0.2}}).at(0).standard, 1.0, 1e-10);
}

TEST(Uncertainty, passes_on_a_refusal_on_both_sides) {
  const auto only_at_one = [](const Values& x) {
    if (x[0] != 1.0) throw base::InputError("x", "not 1", "1");
    return Values{1.0};
  };
  EXPECT_THROW(static_cast<void>(propagate(only_at_one, {{1.0, 0.2}})), base::InputError);
}

// JCGM 100:2008, annex H.1 (end gauge): the second-order-free part of its table H.1, with the
// seven inputs in nanometres and kelvins; the combined standard uncertainty is printed as 32
// nm.
TEST(Uncertainty, of_the_end_gauge_of_gum_H1_is_32_nm) {
  // l = l_S + d - l_S (delta_alpha * theta + alpha_S * delta_theta), in nm.
  const auto length = [](const Values& x) {
    return Values{x[0] + x[1] + x[2] + x[3] - x[0] * (x[4] * (x[6] + x[7]) + x[8] * x[5])};
  };
  // l_S, mean of d, comparator random, comparator systematic, delta_alpha, delta_theta,
  // mean bed temperature, its cyclic variation, alpha_S.
  const auto results = propagate(length, {{50.000623e6, 25.0},
                                          {215.0, 5.8},
                                          {0.0, 3.9},
                                          {0.0, 6.7},
                                          {0.0, 0.58e-6},
                                          {0.0, 0.029},
                                          {-0.1, 0.2},
                                          {0.0, 0.35},
                                          {11.5e-6, 1.2e-6}});
  EXPECT_NEAR(results.at(0).value, 50.000838e6, 0.5);
  EXPECT_NEAR(results[0].standard, 32.0, 0.5);
}

TEST(Uncertainty, agrees_with_a_simulation_of_a_gently_curved_function) {
  const auto curved = [](const Values& x) { return Values{std::exp(x[0]) * std::sqrt(x[1])}; };
  const std::vector<MeasuredInput> inputs{{0.2, 0.02}, {4.0, 0.1}};
  const MeasuredResult first_order = propagate(curved, inputs).at(0);
  Draw draw(7, 0);
  double sum = 0.0;
  double squares = 0.0;
  constexpr int draws = 100'000;
  for (int i = 0; i < draws; ++i) {
    const double value = curved({inputs[0].value + inputs[0].standard * draw.normal(),
                                 inputs[1].value + inputs[1].standard * draw.normal()})[0] -
                         first_order.value;
    sum += value;
    squares += value * value;
  }
  const double simulated = std::sqrt(squares / draws - sum * sum / draws / draws);
  EXPECT_NEAR(first_order.standard / simulated, 1.0, 0.01);
}

TEST(Uncertainty, of_limits_is_their_half_width_over_the_root_of_three) {
  EXPECT_DOUBLE_EQ(standard_of_limits(0.5), 0.5 / std::sqrt(3.0));
}

}  // namespace
}  // namespace lynearm::numeric
