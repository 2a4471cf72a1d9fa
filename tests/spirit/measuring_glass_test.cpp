#include "spirit/measuring_glass.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/error.hpp"
#include "spirit/any_lot.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::Mass;
using units::Temperature;
using units::Volume;
using units::VolumeStrength;

GlassPart part(double mL, double percent_vol) {
  return {Volume::millilitres(mL), VolumeStrength::percent(percent_vol)};
}

TEST(MeasuringGlass, thirty_twenty_and_five_fill_a_vessel_in_the_same_proportions) {
  const ScaledBlend s =
      scale_glass({part(30.0, 62.0), part(20.0, 70.0), part(5.0, 0.0)}, Volume::litres(11.0));
  EXPECT_NEAR(s.blend.volume_at_20C.litres(), 11.0, 1e-11);
  EXPECT_NEAR(volume(s.parts[0]) / volume(s.parts[2]), 6.0, 1e-12);
  EXPECT_NEAR(volume(s.parts[1]) / volume(s.parts[2]), 4.0, 1e-12);
  EXPECT_NEAR(s.blend.strength.percent(), s.glass.strength.percent(), 1e-11);
  // 55 mL of parts stand a little lower once mixed, so the vessel takes a little more of each.
  EXPECT_LT(s.glass.volume_at_20C.millilitres(), 55.0);
  EXPECT_GT(s.factor, 200.0);
}

RC_GTEST_PROP(MeasuringGlassProperty, scaling_keeps_strength_and_meets_the_volume, ()) {
  std::vector<GlassPart> parts;
  const int n = *rc::gen::inRange(1, 8);
  for (int i = 0; i < n; ++i)
    parts.push_back(part(any_figure(0.5, 50.0), any_figure(0.0, 100.0)));
  const Temperature glass_t = any_temperature(-20.0, 40.0);
  const Temperature wanted_t = any_temperature(-20.0, 40.0);
  const Volume wanted = Volume::litres(any_figure(0.1, 300.0));
  const ScaledBlend s = scale_glass(parts, wanted, glass_t, wanted_t);
  RC_ASSERT(equal_to(volume(s.blend.result, wanted_t), wanted, 1e-12));
  RC_ASSERT(std::abs((s.blend.strength - s.glass.strength).fraction()) < 1e-12);
  Mass sum;
  for (std::size_t i = 0; i < parts.size(); ++i) {
    RC_ASSERT(equal_to(volume(s.parts[i], glass_t), parts[i].volume * s.factor, 1e-12));
    sum += s.parts[i].mass();
  }
  RC_ASSERT(equal_to(s.blend.result.mass(), sum, 1e-12));
}

TEST(MeasuringGlass, the_lot_that_runs_out_first_sets_the_most) {
  const std::vector<GlassPart> parts = {part(30.0, 62.0), part(20.0, 70.0), part(5.0, 0.0)};
  const std::vector<Mass> at_hand = {Mass::kilograms(10.0), Mass::kilograms(2.0),
                                     Mass::kilograms(50.0)};
  const Volume most = most_of_glass(parts, at_hand);
  const ScaledBlend s = scale_glass(parts, most);
  EXPECT_NEAR(s.parts[1].mass().kilograms(), 2.0, 1e-12);
  EXPECT_LT(s.parts[0].mass().kilograms(), 10.0);
}

TEST(MeasuringGlass, an_empty_glass_is_refused) {
  EXPECT_THROW(static_cast<void>(scale_glass({}, Volume::litres(1.0))), base::InputError);
  EXPECT_THROW(static_cast<void>(scale_glass({part(0.0, 40.0)}, Volume::litres(1.0))),
               base::InputError);
  EXPECT_THROW(static_cast<void>(scale_glass({part(-1.0, 40.0)}, Volume::litres(1.0))),
               base::InputError);
  EXPECT_THROW(static_cast<void>(scale_glass({part(1.0, 40.0)}, Volume::litres(0.0))),
               base::InputError);
  EXPECT_THROW(static_cast<void>(scale_glass({part(std::nan(""), 40.0)}, Volume::litres(1.0))),
               base::InputError);
  EXPECT_THROW(static_cast<void>(most_of_glass({part(1.0, 40.0)}, {})), base::InputError);
}

}  // namespace
}  // namespace lynearm::spirit
