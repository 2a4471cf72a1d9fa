// The condenser as a heat exchanger: textbook figures, limits, and its own definition put back.
#include "still/exchange.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/error.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/strength.hpp"
#include "still/condenser.hpp"
#include "still/runs.hpp"
#include "vapour/enthalpy.hpp"

namespace lynearm::still {
namespace {

using units::HeatLoss;
using units::MoleFraction;
using units::Temperature;
using units::VolumeFlow;

CoolantFlow coolant_of(double inlet_C, double litres_per_minute) {
  return {Temperature::celsius(inlet_C), VolumeFlow::litres_per_minute(litres_per_minute)};
}
VapourFlow vapour_of(double mol_per_s, double y) {
  return {mol_per_s, MoleFraction::fraction(y)};
}

TEST(Effectiveness, IsThatOfThePrintedTable) {
  // Counter-current exchanger, effectiveness by transfer units and ratio of capacity rates, to
  // the three digits such tables are printed with (Kays and London; from memory).
  struct Row {
    double units, ratio, effectiveness;
  };
  constexpr Row rows[] = {{1.0, 0.0, 0.632}, {1.0, 0.5, 0.565}, {1.0, 1.0, 0.500},
                          {2.0, 0.5, 0.775}, {2.0, 1.0, 0.667}, {3.0, 0.25, 0.919},
                          {3.0, 1.0, 0.750}};
  for (const Row& row : rows) {
    EXPECT_NEAR(counter_current_effectiveness(row.units, row.ratio), row.effectiveness, 0.0006)
        << row.units << " " << row.ratio;
  }
}

TEST(Effectiveness, OfAnOilCoolerIsThatOfTheTextbook) {
  // Incropera and DeWitt, Example 11.1, from memory: counter-flow, oil 0.1 kg/s of 2131 J/(kg
  // K) from 100 to 60 °C, water 0.2 kg/s of 4178 J/(kg K) from 30 °C. Printed: 8524 W, water
  // out at 40.2 °C, logarithmic mean 43.2 K.
  const double oil_W_per_K = 0.1 * 2131.0;
  const double water_W_per_K = 0.2 * 4178.0;
  const double heat_W = oil_W_per_K * 40.0;
  const double water_out_C = 30.0 + heat_W / water_W_per_K;
  EXPECT_NEAR(heat_W, 8524.0, 0.5);
  EXPECT_NEAR(water_out_C, 40.2, 0.05);
  const double mean_K = log_mean_K(100.0 - water_out_C, 30.0);
  EXPECT_NEAR(mean_K, 43.2, 0.05);
  // The two ways to a heat exchanger agree: the conductance by the mean, then the
  // effectiveness.
  const double effectiveness =
      counter_current_effectiveness(heat_W / mean_K / oil_W_per_K, oil_W_per_K / water_W_per_K);
  EXPECT_NEAR(effectiveness * oil_W_per_K * 70.0, heat_W, 1e-9 * heat_W);
}

TEST(Effectiveness, IsSmoothWhereBothStreamsAreAlike) {
  for (const double n : {0.1, 1.0, 10.0}) {
    EXPECT_NEAR(counter_current_effectiveness(n, 1.0 - 1e-7),
                counter_current_effectiveness(n, 1.0), 2e-6);
  }
  EXPECT_NEAR(log_mean_K(10.0, 10.0 * (1.0 + 1e-9)), 10.0, 1e-7);
  EXPECT_EQ(log_mean_K(10.0, 10.0), 10.0);
  EXPECT_EQ(log_mean_K(10.0, 0.0), 0.0);
}

TEST(Effectiveness, RefusesWhatIsNone) {
  EXPECT_THROW((void)counter_current_effectiveness(-1.0, 0.5), base::InputError);
  EXPECT_THROW((void)counter_current_effectiveness(std::nan(""), 0.5), base::InputError);
  EXPECT_THROW((void)counter_current_effectiveness(1.0, 1.1), base::InputError);
}

// Heat, conductance and the formula by transfer units, put back for any coil.
RC_GTEST_PROP(Exchange, keepsHeatAndConductance, ()) {
  const auto within = [](int low, int high, double unit) {
    return *rc::gen::inRange(low, high) * unit;
  };
  const VapourFlow vapour = vapour_of(within(1, 400, 1e-3), within(0, 900, 1e-3));
  const double coil = within(1, 2000, 0.5);
  const CoolantFlow coolant = coolant_of(within(0, 400, 0.1), within(1, 800, 0.01));
  const auto& curve = at_one_atmosphere();
  const Exchange x = exchange(vapour, HeatLoss::watts_per_kelvin(coil), coolant, curve);

  const Temperature dew = curve.dew_temperature(vapour.ethanol);
  const double rate = coolant_J_per_L_K * coolant.flow.litres_per_second();
  const double latent_J = vapour::vapour_enthalpy(vapour.ethanol, dew).joules_per_mole() -
                          vapour::liquid_enthalpy(vapour.ethanol, dew).joules_per_mole();
  const double liquid_J = vapour::liquid_enthalpy(vapour.ethanol, dew).joules_per_mole() -
                          vapour::liquid_enthalpy(vapour.ethanol, x.spirit).joules_per_mole();
  const double condensed = vapour.mol_per_s * (1.0 - x.escapes.fraction());
  // Given, taken.
  const double given_W = condensed * (latent_J + liquid_J);
  RC_ASSERT(std::abs(given_W - x.heat().watts()) <= 1e-9 * (1.0 + given_W));
  RC_ASSERT(std::abs((x.coolant - coolant.inlet).kelvins() * rate - given_W) <=
            1e-9 * (1.0 + given_W));
  RC_ASSERT(x.spirit >= coolant.inlet);
  RC_ASSERT(x.spirit.kelvins() <= dew.kelvins() + 1e-9);
  RC_ASSERT(x.coolant.kelvins() <= dew.kelvins() + 1e-9);
  // The zones by transfer units: condensing against a stream of endless capacity, then the
  // liquid with its mean capacity.
  const double between_K = coolant.inlet.kelvins() + x.cooling.watts() / rate;
  const double share = x.condensing.watts() / (rate * (dew.kelvins() - between_K));
  if (share > 0.999999) return;  // a coil so long that its length is not told by its heat
  const double condensing_zone = -std::log1p(-share) * rate;
  double liquid_zone = 0.0;
  const double cooled_K = (dew - x.spirit).kelvins();
  if (x.escapes == units::Share{} && cooled_K > 1e-3) {
    const double liquid_rate = x.cooling.watts() / cooled_K;
    liquid_zone = coil - condensing_zone;
    const double smaller = std::min(rate, liquid_rate);
    const double effectiveness = counter_current_effectiveness(
        std::max(0.0, liquid_zone) / smaller, smaller / std::max(rate, liquid_rate));
    RC_ASSERT(std::abs(effectiveness * smaller * (dew - coolant.inlet).kelvins() -
                       x.cooling.watts()) <= 1e-6 * (1.0 + x.cooling.watts()));
  } else {
    RC_ASSERT(std::abs(condensing_zone - coil) <= 1e-6 * coil + 1e-3);
  }
}

TEST(Exchange, OfALongCoilComesToTheColdWater) {
  const Exchange x = exchange(vapour_of(0.05, 0.5), HeatLoss::watts_per_kelvin(1e6),
                              coolant_of(15.0, 3.0), at_one_atmosphere());
  EXPECT_NEAR(x.spirit.celsius(), 15.0, 1e-6);
  EXPECT_EQ(x.escapes, units::Share{});
}

TEST(Exchange, OfALongCoilWithScantWaterLeavesTheLiquidWarm) {
  // Water that can just take the heat of the vapour is as warm as it where the vapour enters,
  // however long the coil: the liquid cannot give its own away.
  const VapourFlow vapour = vapour_of(0.05, 0.5);
  const auto& curve = at_one_atmosphere();
  const Temperature dew = curve.dew_temperature(vapour.ethanol);
  const double latent_W =
      0.05 * (vapour::vapour_enthalpy(vapour.ethanol, dew).joules_per_mole() -
              vapour::liquid_enthalpy(vapour.ethanol, dew).joules_per_mole());
  const double just_L_per_min =
      60.0 * latent_W / coolant_J_per_L_K / (dew - Temperature::celsius(15.0)).kelvins();
  const Exchange just = exchange(vapour, HeatLoss::watts_per_kelvin(1e6),
                                 coolant_of(15.0, just_L_per_min * 1.02), curve);
  EXPECT_EQ(just.escapes, units::Share{});
  EXPECT_NEAR((dew - just.coolant).kelvins(), 0.0, 1e-6);
  EXPECT_GT(just.spirit.celsius(), 40.0);
  const Exchange scant = exchange(vapour, HeatLoss::watts_per_kelvin(1e6),
                                  coolant_of(15.0, just_L_per_min * 0.5), curve);
  EXPECT_NEAR(scant.escapes.fraction(), 0.5, 1e-9);
  EXPECT_EQ(scant.spirit, dew);
}

TEST(Exchange, WithoutFlowOrCoilDoesNothing) {
  const auto& curve = at_one_atmosphere();
  const auto coil = HeatLoss::watts_per_kelvin(50.0);
  const Exchange dry = exchange(vapour_of(0.0, 0.5), coil, coolant_of(15.0, 2.0), curve);
  EXPECT_EQ(dry.heat(), units::Power{});
  EXPECT_EQ(dry.coolant, Temperature::celsius(15.0));
  for (const Exchange& x :
       {exchange(vapour_of(0.05, 0.5), coil, coolant_of(15.0, 0.0), curve),
        exchange(vapour_of(0.05, 0.5), HeatLoss{}, coolant_of(15.0, 2.0), curve)}) {
    EXPECT_EQ(x.escapes.fraction(), 1.0);
    EXPECT_EQ(x.heat(), units::Power{});
  }
}

TEST(Exchange, IsWithoutAJumpWhereVapourBeginsToEscape) {
  const auto& curve = at_one_atmosphere();
  double before_C = 0.0;
  double greatest_step_K = 0.0;
  for (int i = 0; i <= 4000; ++i) {
    const Exchange x = exchange(vapour_of(0.05, 0.5), HeatLoss::watts_per_kelvin(60.0),
                                coolant_of(15.0, 0.3 + 0.0005 * i), curve);
    if (i > 0) greatest_step_K = std::max(greatest_step_K, before_C - x.spirit.celsius());
    before_C = x.spirit.celsius();
  }
  EXPECT_LT(greatest_step_K, 0.5);
  EXPECT_LT(before_C, 40.0);
}

TEST(Conductance, GivesTheApproachesBack) {
  const auto& curve = at_one_atmosphere();
  Condenser condenser;
  condenser.coolant_inlet = Temperature::celsius(12.0);
  for (const double y : {0.05, 0.4, 0.8}) {
    const VapourFlow vapour = vapour_of(0.04, y);
    const CoolantFlow coolant = coolant_at_approaches(vapour, condenser, curve);
    const Exchange x = exchange(vapour, conductance(vapour, condenser, curve), coolant, curve);
    EXPECT_NEAR(x.spirit.celsius(), 17.0, 1e-8) << y;
    EXPECT_NEAR((curve.dew_temperature(vapour.ethanol) - x.coolant).kelvins(), 10.0, 1e-9) << y;
  }
}

TEST(Conductance, OfAGentlerRunCoolsFurther) {
  const auto& curve = at_one_atmosphere();
  const HeatLoss coil = conductance(vapour_of(0.08, 0.5), Condenser{}, curve);
  const CoolantFlow coolant = coolant_at_approaches(vapour_of(0.08, 0.5), Condenser{}, curve);
  EXPECT_LT(exchange(vapour_of(0.04, 0.5), coil, coolant, curve).spirit,
            exchange(vapour_of(0.08, 0.5), coil, coolant, curve).spirit);
}

TEST(Exchange, RefusesWhatCannotBe) {
  const auto& curve = at_one_atmosphere();
  const auto coil = HeatLoss::watts_per_kelvin(50.0);
  const auto field = [&](auto work) {
    try {
      work();
    } catch (const base::InputError& error) {
      return error.faults().front().field;
    }
    return std::string("nothing refused");
  };
  EXPECT_EQ(
      field([&] { (void)exchange(vapour_of(-0.1, 0.5), coil, coolant_of(15.0, 2.0), curve); }),
      "vapour");
  EXPECT_EQ(
      field([&] { (void)exchange(vapour_of(0.1, 0.5), coil, coolant_of(90.0, 2.0), curve); }),
      "coolant.inlet");
  EXPECT_EQ(
      field([&] { (void)exchange(vapour_of(0.1, 0.5), coil, coolant_of(15.0, -2.0), curve); }),
      "coolant.flow");
  EXPECT_EQ(field([&] {
              (void)exchange(vapour_of(0.1, 0.5), HeatLoss::watts_per_kelvin(-1.0),
                             coolant_of(15.0, 2.0), curve);
            }),
            "conductance");
  Condenser warm;
  warm.coolant_inlet = Temperature::celsius(75.0);
  EXPECT_EQ(field([&] { (void)conductance(vapour_of(0.1, 0.8), warm, curve); }),
            "condenser.coolant_inlet");
  EXPECT_EQ(field([&] { (void)conductance(vapour_of(0.0, 0.8), Condenser{}, curve); }),
            "vapour");
}

TEST(AtTheSpout, TheGlassShowsWarmSpiritTooStrong) {
  const still::Run run = run_of(20.0, 28.0, 5.0, 40.0);
  const Point& point = run.first();
  const auto& curve = at_one_atmosphere();
  const HeatLoss coil =
      conductance({point.over_mol_per_s, point.leaving_ethanol}, Condenser{}, curve);
  const CoolantFlow coolant =
      coolant_at_approaches({point.over_mol_per_s, point.leaving_ethanol}, Condenser{}, curve);
  const AtTheSpout warm = at_the_spout(point, coil * 0.9, coolant, curve);
  ASSERT_TRUE(warm.shown.has_value());
  EXPECT_GT(warm.exchange.spirit.celsius(), 20.0);
  EXPECT_GT(warm.shown->figure, point.spout.percent());
  // The maker's way back: reading and temperature give the strength.
  EXPECT_NEAR(
      spirit::volume_strength(spirit::true_mass_fraction(*warm.shown, warm.exchange.spirit))
          .percent(),
      point.spout.percent(), 1e-6);
  const AtTheSpout hot = at_the_spout(point, coil * 0.6, coolant, curve);
  EXPECT_GT(hot.exchange.spirit.celsius(), 40.0);
  EXPECT_FALSE(hot.shown.has_value());
}

}  // namespace
}  // namespace lynearm::still
