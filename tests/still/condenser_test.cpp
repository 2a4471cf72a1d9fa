#include "still/condenser.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"
#include "spirit/density.hpp"
#include "spirit/strength.hpp"
#include "still/runs.hpp"

namespace lynearm::still {
namespace {

using units::Temperature;
using units::VolumeFlow;
using units::VolumeStrength;

SpiritFlow flow_of(double litres_per_hour, double percent) {
  return {VolumeFlow::litres_per_hour(litres_per_hour), VolumeStrength::percent(percent)};
}

Condenser condenser_of(double litres_per_minute) {
  Condenser condenser;
  condenser.coolant_inlet = Temperature::celsius(12.0);
  condenser.greatest_flow = VolumeFlow::litres_per_minute(litres_per_minute);
  return condenser;
}

TEST(Cooling, OfAKilogramOfHalfStrongSpiritTakesElevenOfWaterAtFortyKelvin) {
  // Computed elsewhere: about 11 kg of water per kg of spirit of 50 %vol.
  const double kg_per_h = spirit::density(spirit::mass_fraction(VolumeStrength::percent(50.0)),
                                          spirit::reference_20C)
                              .grams_per_millilitre();
  const units::Power heat = heat_to_remove(flow_of(1.0 / kg_per_h, 50.0),
                                           Temperature::celsius(20.0), at_one_atmosphere());
  const VolumeFlow water =
      coolant_flow(heat, Temperature::celsius(12.0), Temperature::celsius(52.0));
  EXPECT_NEAR(water.litres_per_hour(), 11.0, 0.75);
}

TEST(Cooling, TakesNearlyTheHeatThatThePotGets) {
  // Latent heat of 5.5 L/h of 20 % spirit is 3 kW (computed elsewhere); cooling the liquid to
  // 20 °C adds 4.2 kJ/(kg K) over 75 K: another 0.5 kW.
  const units::Power heat =
      heat_to_remove(flow_of(5.5, 20.0), Temperature::celsius(20.0), at_one_atmosphere());
  EXPECT_NEAR(heat.kilowatts(), 3.0 + 0.5, 0.1);
}

TEST(Cooling, SaysWhenTheCoolantIsNotEnough) {
  const Cooling enough = cooling(flow_of(5.0, 60.0), Temperature::celsius(20.0),
                                 condenser_of(2.0), at_one_atmosphere());
  EXPECT_TRUE(enough.flow_enough);
  EXPECT_TRUE(enough.spout_reachable);
  EXPECT_LT(enough.leaving_at_greatest_flow, enough.warmest_leaving);

  const Cooling little = cooling(flow_of(5.0, 60.0), Temperature::celsius(20.0),
                                 condenser_of(0.3), at_one_atmosphere());
  EXPECT_FALSE(little.flow_enough);
  // Run at the rate it can do, it is just enough.
  const Cooling slower =
      cooling({little.greatest_spirit * 0.999, VolumeStrength::percent(60.0)},
              Temperature::celsius(20.0), condenser_of(0.3), at_one_atmosphere());
  EXPECT_TRUE(slower.flow_enough);
  EXPECT_NEAR(slower.least_flow.litres_per_minute(), 0.3, 0.001);
}

TEST(Cooling, SaysWhenTheSpoutCannotBeThatCold) {
  const Cooling cold = cooling(flow_of(5.0, 60.0), Temperature::celsius(15.0),
                               condenser_of(2.0), at_one_atmosphere());
  EXPECT_FALSE(cold.spout_reachable);
  EXPECT_NEAR(cold.coldest_spout.celsius(), 17.0, 1e-9);
}

TEST(Coolant, LeavesAsItsFlowSays) {
  const auto inlet = Temperature::celsius(12.0);
  const auto heat = units::Power::kilowatts(3.0);
  const VolumeFlow flow = coolant_flow(heat, inlet, Temperature::celsius(55.0));
  EXPECT_NEAR(coolant_leaving(heat, inlet, flow).celsius(), 55.0, 1e-9);
}

TEST(Coolant, RefusesWhatCannotCool) {
  const auto heat = units::Power::kilowatts(3.0);
  EXPECT_THROW((void)coolant_flow(heat, Temperature::celsius(20.0), Temperature::celsius(20.0)),
               base::InputError);
  EXPECT_THROW((void)coolant_leaving(heat, Temperature::celsius(20.0), VolumeFlow{}),
               base::InputError);
  EXPECT_THROW((void)cooling(flow_of(5.0, 60.0), Temperature::celsius(20.0), condenser_of(0.0),
                             at_one_atmosphere()),
               base::InputError);
  EXPECT_THROW(
      (void)heat_to_remove(flow_of(5.0, 60.0), Temperature::celsius(70.0), at_one_atmosphere()),
      base::InputError);
}

}  // namespace
}  // namespace lynearm::still
