#include "spirit/marks.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/error.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

TEST(Marks, of_strength_stand_at_the_density_of_the_mixture) {
  const Marks marks(Scale::percent_vol, {});
  EXPECT_NEAR(marks.density_kgm3(0.0), 998.201, 0.0005);
  EXPECT_NEAR(marks.density_kgm3(40.0), 948.05, 0.005);  // Ph. Eur. 5.5 (from memory)
  EXPECT_NEAR(marks.density_kgm3(100.0), 789.239, 0.0005);
  // 100 proof is 50 % at 60 °F.
  EXPECT_NEAR(Marks(Scale::us_proof, {}).density_kgm3(100.0),
              Marks(Scale::percent_vol_60F, {}).density_kgm3(50.0), 1e-12);
}

TEST(Marks, of_density_stand_at_themselves_and_of_gravity_at_that_over_water) {
  EXPECT_EQ(Marks(Scale::density, {}).density_kgm3(912.3), 912.3);
  EXPECT_NEAR(Marks(Scale::specific_gravity, {}).density_kgm3(1.0), 998.20123, 1e-9);
  EXPECT_NEAR(
      Marks(Scale::specific_gravity_60F, {}).density_kgm3(1.0),
      density(units::MassFraction::fraction(0.0), reference_60F).kilograms_per_cubic_metre(),
      1e-9);
}

TEST(Marks, are_read_back_over_every_scale) {
  for (const Scale scale : {Scale::percent_vol, Scale::percent_vol_15C, Scale::percent_vol_60F,
                            Scale::percent_mass, Scale::us_proof, Scale::density,
                            Scale::specific_gravity, Scale::specific_gravity_60F}) {
    const Marks marks(scale, {});
    const ScaleEnds ends = ends_of(scale);
    double worst = 0.0;
    for (int i = 0; i <= 1000; ++i) {
      const double figure = ends.first + (ends.last - ends.first) * (i / 1000.0);
      worst = std::max(worst, std::abs(marks.figure(marks.density_kgm3(figure)) - figure));
    }
    EXPECT_LT(worst, 1e-12 * ends.last) << words(scale);
  }
}

TEST(Marks, go_on_past_the_ends_in_proportion_to_density) {
  const Marks marks(Scale::percent_vol, {});
  const double water = marks.density_kgm3(0.0);
  const double pure = marks.density_kgm3(100.0);
  const double below = marks.figure(water + 1.0);
  const double above = marks.figure(pure - 1.0);
  EXPECT_LT(below, -0.5);
  EXPECT_GT(above, 100.1);
  EXPECT_NEAR(marks.figure(water + 2.0), 2.0 * below, 1e-9);
  EXPECT_NEAR(marks.figure(pure - 2.0) - 100.0, 2.0 * (above - 100.0), 1e-9);
  // As steep outside as inside: 0.1 %vol on either side of the last mark.
  EXPECT_NEAR((marks.figure(water + 0.1) - 0.0) / (0.0 - marks.figure(water - 0.1)), 1.0, 0.01);
  EXPECT_NEAR((marks.figure(pure - 0.1) - 100.0) / (100.0 - marks.figure(pure + 0.1)), 1.0,
              0.01);
}

TEST(Marks, grow_with_the_glass) {
  const Marks marks(Scale::percent_vol, {});
  EXPECT_EQ(marks.glass(20.0), 1.0);
  EXPECT_NEAR(marks.glass(40.0), 1.0005, 1e-15);  // 20 K of 25e-6
  EXPECT_EQ(Marks(Scale::percent_vol, {units::Temperature::celsius(15.0), 0.0}).glass(40.0),
            1.0);
}

TEST(Marks, says_which_figures_a_scale_carries) {
  try {
    static_cast<void>(Marks(Scale::us_proof, {}).density_kgm3(250.0));
    FAIL() << "nothing is stronger than 200 proof";
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().at(0).field, "reading");
    EXPECT_EQ(error.faults().at(0).value, "250.0 proof");
    EXPECT_EQ(error.faults().at(0).accepted, "0 to 200 proof");
  }
}

}  // namespace
}  // namespace lynearm::spirit
