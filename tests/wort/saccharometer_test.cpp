#include "wort/saccharometer.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/error.hpp"

namespace lynearm::wort {
namespace {

using units::SpecificGravity;
using units::Temperature;

TEST(Saccharometer, at_its_reference_in_wort_at_20C_it_shows_the_truth) {
  const auto g = true_gravity(SpecificGravity::ratio(1.060), Temperature::celsius(20.0));
  EXPECT_NEAR(g.ratio(), 1.060, 1e-13);
}

TEST(Saccharometer, warm_wort_shows_too_little) {
  // Correction table of brewing handbooks, from memory: a glass true at 60 °F reads 0.006 low
  // in wort at 100 °F (printed to 0.001).
  const Saccharometer glass{Temperature::fahrenheit(60.0)};
  const auto g =
      true_gravity(SpecificGravity::ratio(1.050), Temperature::fahrenheit(100.0), glass);
  EXPECT_NEAR(g.ratio() - 1.050, 0.006, 0.001);
}

RC_GTEST_PROP(SaccharometerProperty, shown_undoes_true_gravity, ()) {
  const double reading = *rc::gen::inRange(980, 1140) / 1000.0;
  const auto t = Temperature::celsius(*rc::gen::inRange(0, 60));
  const auto truth = true_gravity(SpecificGravity::ratio(reading), t);
  RC_ASSERT(std::abs(shown(truth, t).ratio() - reading) < 1e-12);
}

TEST(Saccharometer, boiling_wort_is_refused) {
  EXPECT_THROW((void)true_gravity(SpecificGravity::ratio(1.05), Temperature::celsius(95.0)),
               base::InputError);
}

}  // namespace
}  // namespace lynearm::wort
