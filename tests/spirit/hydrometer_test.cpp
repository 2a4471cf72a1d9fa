#include "spirit/hydrometer.hpp"

#include <gtest/gtest.h>

#include <limits>

#include "base/error.hpp"
#include "spirit/density.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::MassFraction;
using units::Temperature;
using units::VolumeStrength;

double true_percent_vol(double reading, double t_C) {
  return volume_strength(true_mass_fraction(Reading{reading}, Temperature::celsius(t_C)))
      .percent();
}

TEST(Hydrometer, is_right_as_it_reads_at_its_reference_temperature) {
  for (int q = 0; q <= 100; q += 5) EXPECT_NEAR(true_percent_vol(q, 20.0), q, 1e-9);
}

TEST(Hydrometer, of_65_read_at_35_degrees_means_59_8) {
  // A worked case: 65 %vol read at 35 °C is 59.8 % true.
  EXPECT_NEAR(true_percent_vol(65.0, 35.0), 59.8, 0.05);
}

// An independent float: its mass and its volume at the reference are fixed by the mark it
// would show; at t the glass has another volume and the float sinks until it displaces its own
// mass. The stem's immersion is found by bisection on the balance of masses.
TEST(Hydrometer, agrees_with_a_simulated_float) {
  for (const double reading : {20.0, 40.0, 62.4, 80.0}) {
    for (const double t_C : {-5.0, 5.0, 27.5, 35.0}) {
      const Temperature t = Temperature::celsius(t_C);
      const double mass_g = 100.0;
      const double marked =
          density(mass_fraction(VolumeStrength::percent(reading)), reference_20C)
              .kilograms_per_cubic_metre();
      const double displaced_mL_at_reference = mass_g / marked * 1000.0;
      const double displaced_mL =
          displaced_mL_at_reference * (1.0 + soda_lime_expansion_per_K * (t_C - 20.0));
      double low = 0.0;
      double high = 1.0;
      for (int i = 0; i < 60; ++i) {
        const double p = 0.5 * (low + high);
        const double floats_mL =
            mass_g / density(MassFraction::fraction(p), t).kilograms_per_cubic_metre() * 1000.0;
        (floats_mL < displaced_mL ? low : high) = p;
      }
      EXPECT_NEAR(true_mass_fraction(Reading{reading}, t).fraction(), 0.5 * (low + high),
                  1e-10);
    }
  }
}

TEST(Hydrometer, shows_back_what_it_was_read_as) {
  for (int q = 1; q < 100; ++q) {
    for (int t = -20; t <= 40; t += 5) {
      const Temperature at = Temperature::celsius(t);
      MassFraction p;
      try {
        p = true_mass_fraction(Reading{static_cast<double>(q)}, at);
      } catch (const base::InputError&) {
        continue;  // no spirit shows this there; refused is right, and tested below
      }
      EXPECT_NEAR(shown(p, at, Scale::percent_vol).figure, q, 1e-8) << q << " at " << t;
    }
  }
}

TEST(Hydrometer, reads_high_in_warm_spirit_and_low_in_cold) {
  for (int q = 10; q <= 90; q += 10) {
    EXPECT_LT(true_percent_vol(q, 30.0), q);
    EXPECT_GT(true_percent_vol(q, 10.0), q);
  }
}

TEST(Hydrometer, names_what_would_fit_when_no_spirit_reads_so) {
  try {
    static_cast<void>(true_mass_fraction(Reading{0.0}, Temperature::celsius(35.0)));
    FAIL() << "water shows more than 0 at 35 °C, so 0 cannot be a reading there";
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().at(0).field, "reading");
    EXPECT_EQ(error.faults().at(0).accepted,
              "at 35.0 °C, 2.6 %vol (water) to 102.4 %vol (pure ethanol)");
  }
}

TEST(Hydrometer, refuses_what_no_glass_shows_and_no_glass_is) {
  constexpr double nan = std::numeric_limits<double>::quiet_NaN();
  const auto refused = [](const Reading& reading, double t_C, const Hydrometer& glass,
                          const char* field) {
    const Temperature t = Temperature::celsius(t_C);
    for (const bool true_or_shown : {false, true}) {
      try {
        if (true_or_shown) {
          static_cast<void>(true_mass_fraction(reading, t, glass));
        } else {
          static_cast<void>(density_shown(reading, t, glass));
        }
        ADD_FAILURE() << print(reading) << " at " << t_C;
      } catch (const base::InputError& error) {
        EXPECT_EQ(error.faults().at(0).field, field);
      }
    }
  };
  for (const double figure : {-0.001, 100.001, nan}) {
    refused({figure, Scale::percent_vol}, 20.0, {}, "reading");
    refused({figure, Scale::percent_mass}, 20.0, {}, "reading");
  }
  refused({200.001, Scale::us_proof}, 20.0, {}, "reading");
  for (const double t_C : {-20.001, 40.001, nan}) {
    refused({50.0, Scale::percent_vol}, t_C, {}, "at");
    refused({50.0, Scale::percent_vol}, 20.0, {Temperature::celsius(t_C)}, "reference");
  }
  for (const double expansion : {-1e-9, 0.00101, nan}) {
    refused({50.0, Scale::percent_vol}, 20.0, {std::nullopt, expansion}, "glass_expansion");
  }
  for (const double kgm3 : {1010.0, 700.0, nan}) {
    EXPECT_THROW(static_cast<void>(
                     true_mass_fraction({kgm3, Scale::density}, Temperature::celsius(20.0))),
                 base::InputError);
  }
  EXPECT_THROW(static_cast<void>(shown(MassFraction::fraction(nan), Temperature::celsius(20.0),
                                       Scale::percent_vol)),
               base::InputError);
}

// Computed elsewhere from the same formula (an independent computation, not a printed table):
// what a soda-lime alcoholmeter shows in spirit of 40, 60 and 80 %vol.
TEST(Hydrometer, agrees_with_an_independent_computation) {
  struct Row {
    double percent_vol, t_C, shows;
  };
  // clang-format off
  constexpr Row rows[] = {
      {40, 10, 35.91}, {40, 15, 37.98}, {40, 25, 41.98}, {40, 30, 43.94},
      {60, 10, 56.50}, {60, 15, 58.25}, {60, 25, 61.74}, {60, 30, 63.48},
      {80, 10, 76.99}, {80, 15, 78.50}, {80, 25, 81.49}, {80, 30, 82.97}};
  // clang-format on
  for (const Row& row : rows) {
    EXPECT_NEAR(shown(mass_fraction(VolumeStrength::percent(row.percent_vol)),
                      Temperature::celsius(row.t_C), Scale::percent_vol)
                    .figure,
                row.shows, 0.00501);
  }
}

}  // namespace
}  // namespace lynearm::spirit
