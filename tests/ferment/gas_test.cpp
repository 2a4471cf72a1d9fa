#include "ferment/gas.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/error.hpp"
#include "ferment/yield.hpp"

namespace lynearm::ferment {
namespace {

using units::Duration;
using units::Mass;
using units::Share;
using units::Volume;
using units::VolumeFlow;

TEST(Gas, a_kilogram_of_hexose_gives_some_267_litres) {
  // 0.4886 g/g over 44.01 g/mol times 24.055 L/mol.
  EXPECT_NEAR(carbon_dioxide_volume(Mass::kilograms(carbon_dioxide_per_hexose)).litres(), 267.0,
              0.5);
}

TEST(Gas, the_worked_example_of_a_hundred_litre_wash_is_met) {
  // By hand: 140 L/h at the peak need 30 m3/h to stay under 5000 ppm; 56 L/h bring a closed
  // 20 m3 room there in 1.6 h.
  EXPECT_NEAR(fresh_air_needed(VolumeFlow::litres_per_hour(140.0)).litres_per_hour() / 1e3,
              30.3, 0.5);
  const Room closed{Volume::cubic_metres(20.0), 0.0};
  const auto t =
      time_to_reach(carbon_dioxide_limit_8h, closed, VolumeFlow::litres_per_hour(56.0));
  ASSERT_TRUE(t.has_value());
  EXPECT_NEAR(t->hours(), 1.6, 0.06);
}

TEST(Gas, the_fresh_air_asked_for_holds_the_room_at_the_limit) {
  const auto rate = VolumeFlow::litres_per_hour(140.0);
  const double air_L_per_h = fresh_air_needed(rate).litres_per_hour();
  const Room room{Volume::cubic_metres(30.0), air_L_per_h / 30e3};
  EXPECT_NEAR(steady_concentration(room, rate).fraction(), 0.005, 1e-12);
  EXPECT_FALSE(time_to_reach(Share::fraction(0.00501), room, rate).has_value());
}

RC_GTEST_PROP(GasProperty, the_air_worsens_towards_its_steady_state_and_never_past_it, ()) {
  const Room room{Volume::cubic_metres(*rc::gen::inRange(2, 100)),
                  *rc::gen::inRange(0, 50) / 10.0};
  const auto rate = VolumeFlow::litres_per_hour(*rc::gen::inRange(1, 2000));
  const double hours = *rc::gen::inRange(0, 100) / 4.0;
  const Share now = concentration(room, rate, Duration::hours(hours));
  const Share later = concentration(room, rate, Duration::hours(hours + 1.0));
  RC_ASSERT(later >= now);
  RC_ASSERT(later.fraction() <= steady_concentration(room, rate).fraction() + 1e-12);
  RC_ASSERT(later.fraction() < 1.0);
}

RC_GTEST_PROP(GasProperty, the_time_to_a_limit_is_when_the_air_is_there, ()) {
  const Room room{Volume::cubic_metres(20.0), *rc::gen::inRange(0, 20) / 10.0};
  const auto rate = VolumeFlow::litres_per_hour(*rc::gen::inRange(10, 500));
  const auto t = time_to_reach(carbon_dioxide_limit_8h, room, rate);
  if (t)
    RC_ASSERT(std::abs(concentration(room, rate, *t).fraction() - 0.005) < 1e-9);
  else
    RC_ASSERT(steady_concentration(room, rate) <= carbon_dioxide_limit_8h);
}

TEST(Gas, no_gas_leaves_the_air_as_outdoors) {
  const Room closed{Volume::cubic_metres(20.0), 0.0};
  EXPECT_EQ(concentration(closed, {}, Duration::days(9.0)), carbon_dioxide_outdoors);
}

TEST(Gas, a_limit_below_outdoor_air_or_a_room_without_volume_is_refused) {
  EXPECT_THROW((void)fresh_air_needed(VolumeFlow::litres_per_hour(1.0), Share::fraction(1e-5)),
               base::InputError);
  EXPECT_THROW((void)concentration({}, VolumeFlow::litres_per_hour(1.0), Duration::hours(1.0)),
               base::InputError);
}

}  // namespace
}  // namespace lynearm::ferment
