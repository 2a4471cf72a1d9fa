#include "still/todays_air.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>

#include "base/error.hpp"
#include "vapour/atmosphere.hpp"
#include "vapour/boiling_curve.hpp"

namespace lynearm::still {
namespace {

using units::MoleFraction;
using units::Pressure;
using units::Temperature;
using units::TemperatureChange;

constexpr Temperature shown_today = Temperature::celsius(99.2);

TEST(TodaysAir, AKnownPressureGivesTheThermometersOffset) {
  AirBefore before = air_at_pressure(Pressure::hectopascals(1013.25));
  before.pressure_sd = {};
  const TodaysAir air = todays_air(before, shown_today);
  // Water boils at 100.02 °C by the model: 0.82 K more than shown, drawn a little towards
  // nought because thermometers are usually within half a kelvin.
  const double off = (shown_today - vapour::water_boiling_point(before.pressure)).kelvins();
  EXPECT_NEAR(air.thermometer_offset.kelvins(), off * 0.25 / 0.26, 1e-12);
  EXPECT_NEAR(air.offset_sd.kelvins(), std::sqrt(0.25 * 0.01 / 0.26), 1e-12);
  EXPECT_EQ(air.pressure, before.pressure);
  EXPECT_EQ(air.pressure_sd, Pressure{});
  EXPECT_EQ(air.correlation, 0.0);
}

TEST(TodaysAir, ATrustedThermometerGivesThePressure) {
  AirBefore before = air_at_altitude(units::Length::metres(0.0));
  before.thermometer_sd = {};
  before.pressure_sd = Pressure::hectopascals(1000.0);
  const TodaysAir air =
      todays_air(before, Temperature::celsius(98.0), TemperatureChange::kelvins(0.01));
  EXPECT_NEAR(air.pressure.hectopascals(),
              vapour::pressure_from_boiling_water(Temperature::celsius(98.0)).hectopascals(),
              0.01);
  // At 943 hPa water's boiling point moves by 0.0294 K a hectopascal.
  EXPECT_NEAR(air.pressure_sd.hectopascals(), 0.01 / 0.0294, 0.001);
  EXPECT_EQ(air.thermometer_offset, TemperatureChange{});
}

TEST(TodaysAir, AnUnknownPressureSharesTheDifferenceAndSaysSo) {
  const AirBefore before = air_at_altitude(units::Length::metres(0.0));
  const TodaysAir air = todays_air(before, shown_today);
  const double off = (shown_today - vapour::water_boiling_point(before.pressure)).kelvins();
  // Most goes to what strays more: 0.5 K of thermometer against 10 hPa, or 0.28 K.
  EXPECT_LT(air.pressure, before.pressure);
  EXPECT_LT(air.thermometer_offset, TemperatureChange{});
  const double by_pressure =
      (vapour::water_boiling_point(air.pressure) - vapour::water_boiling_point(before.pressure))
          .kelvins();
  EXPECT_NEAR(air.thermometer_offset.kelvins() / by_pressure, 0.25 / (0.277 * 0.277), 0.15);
  EXPECT_NEAR(by_pressure + air.thermometer_offset.kelvins(), off, 0.03);
  // Neither is known much better than before, but they hang together.
  EXPECT_GT(air.pressure_sd.hectopascals(), 8.0);
  EXPECT_GT(air.offset_sd.kelvins(), 0.2);
  EXPECT_LT(air.correlation, -0.9);
  EXPECT_THAT(account(air), testing::HasSubstr("cannot tell the two apart"));
  EXPECT_THAT(account(todays_air(air_at_pressure(before.pressure), shown_today)),
              testing::Not(testing::HasSubstr("apart")));
}

TEST(TodaysAir, CuesAreKnownBetterThanEitherPart) {
  const TodaysAir air =
      todays_air(air_at_altitude(units::Length::metres(400.0)), Temperature::celsius(98.4));
  const Cue water = boiling_cue(air, MoleFraction{});
  EXPECT_NEAR(water.as_shown.celsius(), 98.4, 0.05);
  EXPECT_NEAR(water.sd.kelvins(), 0.1, 0.01);
  for (const double x : {0.02, 0.1, 0.3, 0.6}) {
    EXPECT_LT(boiling_cue(air, MoleFraction::fraction(x)).sd.kelvins(), 0.12) << x;
    EXPECT_LT(dew_cue(air, MoleFraction::fraction(x)).sd.kelvins(), 0.12) << x;
  }
  // Without a look both strays add up.
  const TodaysAir unseen = todays_air(air_at_altitude(units::Length::metres(400.0)));
  EXPECT_GT(boiling_cue(unseen, MoleFraction::fraction(0.1)).sd.kelvins(), 0.5);
}

TEST(TodaysAir, TwentyHectopascalsMoveTheCuesByAboutHalfAKelvin) {
  const Pressure mean = Pressure::hectopascals(1013.25);
  const Pressure twenty = Pressure::hectopascals(20.0);
  const vapour::BoilingCurve low(mean - twenty), middle(mean), high(mean + twenty);
  for (const double x : {0.0, 0.01, 0.05, 0.1, 0.2, 0.4, 0.6, 0.85}) {
    const MoleFraction mixture = MoleFraction::fraction(x);
    EXPECT_NEAR((high.temperature(mixture) - middle.temperature(mixture)).kelvins(), 0.5, 0.07);
    EXPECT_NEAR((middle.temperature(mixture) - low.temperature(mixture)).kelvins(), 0.5, 0.07);
    EXPECT_NEAR((high.dew_temperature(mixture) - middle.dew_temperature(mixture)).kelvins(),
                0.5, 0.07);
    const auto shown = [&](Pressure p) {
      AirBefore before = air_at_pressure(p);
      return boiling_cue(todays_air(before), mixture).as_shown;
    };
    EXPECT_NEAR((shown(mean + twenty) - shown(mean)).kelvins(),
                (high.temperature(mixture) - middle.temperature(mixture)).kelvins(), 1e-5);
  }
}

TEST(TodaysAir, AgreesWithBayesOnAFineGrid) {
  const AirBefore before = air_at_altitude(units::Length::metres(800.0));
  const Temperature shown = Temperature::celsius(96.4);
  const TodaysAir air = todays_air(before, shown);
  double total = 0.0, p1 = 0.0, p2 = 0.0, o1 = 0.0, o2 = 0.0, po = 0.0;
  for (int i = -300; i <= 300; ++i) {
    const double z = i * 0.02;
    const Pressure p = before.pressure + before.pressure_sd * z;
    const double boils = vapour::water_boiling_point(p).celsius();
    for (int j = -300; j <= 300; ++j) {
      const double y = j * 0.02;
      const double offset = before.thermometer_sd.kelvins() * y;
      const double miss = (shown.celsius() - boils - offset) / look_sd.kelvins();
      const double weight = std::exp(-0.5 * (z * z + y * y + miss * miss));
      const double hPa = p.hectopascals() - air.pressure.hectopascals();
      const double K = offset - air.thermometer_offset.kelvins();
      total += weight, p1 += weight * hPa, p2 += weight * hPa * hPa;
      o1 += weight * K, o2 += weight * K * K, po += weight * hPa * K;
    }
  }
  const double p_mean = p1 / total, o_mean = o1 / total;
  const double p_sd = std::sqrt(p2 / total - p_mean * p_mean);
  const double o_sd = std::sqrt(o2 / total - o_mean * o_mean);
  EXPECT_LT(std::abs(p_mean), 0.01 * p_sd);
  EXPECT_LT(std::abs(o_mean), 0.01 * o_sd);
  EXPECT_NEAR(air.pressure_sd.hectopascals() / p_sd, 1.0, 0.01);
  EXPECT_NEAR(air.offset_sd.kelvins() / o_sd, 1.0, 0.01);
  EXPECT_NEAR(air.correlation, (po / total - p_mean * o_mean) / (p_sd * o_sd), 0.005);
}

TEST(TodaysAir, ShownAndTrueAreInverse) {
  const TodaysAir air = todays_air(air_at_pressure(Pressure::hectopascals(990.0)), shown_today);
  const Temperature truly = Temperature::celsius(91.0);
  EXPECT_NEAR(air.true_of(air.as_shown(truly)).celsius(), 91.0, 1e-12);
  EXPECT_LT(air.as_shown(truly), truly);
}

TEST(TodaysAir, AReportReducedToTheSeaIsBroughtUp) {
  const units::Length altitude = units::Length::metres(600.0);
  EXPECT_NEAR(pressure_at_altitude(Pressure::atmospheres(1.0), altitude) /
                  vapour::standard_pressure(altitude),
              1.0, 1e-14);
  EXPECT_NEAR(pressure_at_altitude(Pressure::hectopascals(1000.0), altitude).hectopascals(),
              943.22 / 1.01325, 0.01);  // U.S. Standard Atmosphere 1976, Table I, 600 m
}

TEST(TodaysAir, ImpossibleInputIsRefusedByName) {
  const AirBefore before = air_at_altitude(units::Length::metres(0.0));
  const auto field = [](const auto& call) -> std::string {
    try {
      (void)call();
    } catch (const base::InputError& error) {
      return base::sentence(error.faults().front());
    }
    return "accepted";
  };
  EXPECT_EQ(
      field([&] { return todays_air(before, Temperature::celsius(90.0)); }),
      "boiling_water is \"90 °C\"; accepted: 95.0 °C to 105.0 °C: at 1013 hPa water boils "
      "at 100.0 °C; let it boil hard, with the tip in the water.");
  EXPECT_THAT(field([&] { return todays_air(before, shown_today, TemperatureChange{}); }),
              testing::StartsWith("look_sd is"));
  EXPECT_THAT(field([&] { return air_at_pressure(Pressure::hectopascals(100.0)); }),
              testing::StartsWith("pressure is"));
  EXPECT_THAT(field([&] { return air_at_altitude(units::Length::metres(20000.0)); }),
              testing::StartsWith("altitude is"));
  EXPECT_THAT(field([&] { return todays_air(before, Temperature::celsius(std::nan(""))); }),
              testing::StartsWith("boiling_water is"));
}

TEST(TodaysAir, ALookFarOffIsToldToBeDoubted) {
  const TodaysAir air =
      todays_air(air_at_altitude(units::Length::metres(0.0)), Temperature::celsius(96.5));
  EXPECT_LT(air.surprise, -3.0);
  EXPECT_THAT(account(air), testing::HasSubstr("look again"));
}

RC_GTEST_PROP(TodaysAirProperty, ALookNeverMakesAnythingLessKnown, ()) {
  const AirBefore before{Pressure::hectopascals(*rc::gen::inRange(700, 1080)),
                         Pressure::hectopascals(*rc::gen::inRange(0, 200) * 0.1),
                         TemperatureChange::kelvins(*rc::gen::inRange(0, 200) * 0.01)};
  const Temperature shown = vapour::water_boiling_point(before.pressure) +
                            TemperatureChange::kelvins(*rc::gen::inRange(-400, 401) * 0.01);
  const TodaysAir air = todays_air(before, shown);
  RC_ASSERT(air.pressure_sd <= before.pressure_sd * (1.0 + 1e-12));
  RC_ASSERT(air.offset_sd <= before.thermometer_sd * (1.0 + 1e-12));
  RC_ASSERT(air.correlation <= 0.0 && air.correlation >= -1.0);
  const Cue water = boiling_cue(air, MoleFraction{});
  RC_ASSERT(water.sd <= look_sd * (1.0 + 1e-3));
}

}  // namespace
}  // namespace lynearm::still
