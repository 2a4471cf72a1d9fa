#include "wood/surface.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "base/error.hpp"

namespace lynearm::wood {
namespace {

using units::Length;
using units::Volume;

Length mm(double v) { return Length::millimetres(v); }

TEST(Surface, a_five_litre_cask_has_3_4_times_the_wood_of_a_200_litre_one) {
  // Exact scaling: 40^(1/3) = 3.42.
  EXPECT_NEAR(times_a_200L_cask(cask_surface(Volume::litres(5.0))), std::cbrt(40.0), 1e-12);
  EXPECT_NEAR(times_a_200L_cask(cask_surface(Volume::litres(5.0))), 3.4, 0.05);
  EXPECT_NEAR(cask_surface(Volume::litres(50.0)).square_centimetres_per_litre(), 152.0, 0.5);
}

TEST(Surface, a_measured_220_litre_cask_comes_out_as_worked_by_hand) {
  // By hand: head 0.53 m, bilge 0.62 m, length 0.80 m inside: 220 L, 1.94 m², 88 cm²/L.
  const Cask cask{mm(800), mm(620), mm(530)};
  EXPECT_NEAR(volume(cask).litres(), 220.0, 1.0);
  EXPECT_NEAR(inner_area(cask).square_metres(), 1.94, 0.02);
  EXPECT_NEAR(surface(cask).square_centimetres_per_litre(), 88.0, 1.0);
  EXPECT_NEAR(surface(cask) / cask_surface(volume(cask)), 1.0, 0.10);
}

TEST(Surface, a_cask_without_bilge_is_a_cylinder) {
  const Cask cask{mm(800), mm(500), mm(500)};
  EXPECT_NEAR(volume(cask).litres(), std::acos(-1.0) * 2.5 * 2.5 * 8.0, 1e-9);
  EXPECT_NEAR(inner_area(cask).square_metres(), std::acos(-1.0) * (0.5 * 0.8 + 0.125), 1e-12);
}

TEST(Surface, a_stave_shows_all_its_faces) {
  EXPECT_NEAR(area(Stave{}).square_centimetres(), 215.0, 1e-9);
  EXPECT_NEAR(end_grain(Stave{}).square_centimetres(), 5.0, 1e-9);
  EXPECT_NEAR(wood_volume(Stave{}).millilitres(), 75.0, 1e-9);
  EXPECT_NEAR(surface(Stave{}, 4.0, Volume::litres(10.0)).square_centimetres_per_litre(), 86.0,
              1e-9);
}

TEST(Surface, impossible_measures_are_refused) {
  EXPECT_THROW((void)volume(Cask{mm(800), mm(500), mm(600)}), base::InputError);
  EXPECT_THROW((void)area(Stave{mm(0), mm(1), mm(1)}), base::InputError);
  EXPECT_THROW((void)surface(Stave{}, -1.0, Volume::litres(1.0)), base::InputError);
  EXPECT_THROW((void)surface(Stave{}, 1.0, Volume{}), base::InputError);
  EXPECT_THROW((void)cask_surface(Volume::litres(5000.0)), base::InputError);
}

}  // namespace
}  // namespace lynearm::wood
