// How surely the kit's glass tells a strength, against the gauge's own propagation and by hand.
#include "journal/glass.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <string>

#include "spirit/gauging.hpp"

namespace lynearm::journal {
namespace {

using plan::AlcoholmeterClass;
using units::VolumeStrength;

constexpr double half_width_80 = 1.2815515655446004;

plan::Instruments of_class(AlcoholmeterClass of) {
  plan::Instruments kit;
  kit.alcoholmeter_class = of;
  return kit;
}

TEST(Glass, WithoutAKitOneFigureStandsForAll) {
  const Glass unknown;
  EXPECT_FALSE(unknown.known());
  for (const double percent : {0.0, 8.0, 40.0, 96.0}) {
    EXPECT_EQ(reading_sd(unknown, VolumeStrength::percent(percent)).percent(), 0.3);
  }
  EXPECT_NE(words(unknown).find("our estimate"), std::string::npos);
}

TEST(Glass, AnUncertifiedOneIsAsSureAsItsKitSays) {
  plan::Instruments kit;
  kit.alcoholmeter = VolumeStrength::percent(0.8);
  kit.thermometer = {};
  const Glass glass = glass_of(kit);
  EXPECT_TRUE(glass.known());
  EXPECT_NEAR(reading_sd(glass, VolumeStrength::percent(60)).percent(), 0.8 / half_width_80,
              1e-12);
  EXPECT_NE(words(glass).find("within 0.8 %vol four times in five"), std::string::npos);
}

// The gauge carries a hydrometer's greatest error, half a division, the thermometer and the
// density formula through by its own slopes (GUM, JCGM 100:2008); a thermometer's limits of
// sqrt(3) standard deviations are the same doubt here.
TEST(Glass, OneOfAClassIsAsSureAsTheGaugeSays) {
  double worst = 0.0;
  for (const auto of :
       {AlcoholmeterClass::one, AlcoholmeterClass::two, AlcoholmeterClass::three}) {
    const Glass glass = glass_of(of_class(of));
    const spirit::HydrometerClass& limits =
        spirit::hydrometer_classes()[static_cast<std::size_t>(of)];
    for (double percent = 5.0; percent <= 95.0; percent += 5.0) {
      spirit::GaugingInput input;
      input.observation = spirit::ByHydrometer{{percent, spirit::Scale::percent_vol},
                                               {},
                                               limits.most_error_percent,
                                               limits.division_percent};
      input.thermometer_error =
          units::TemperatureChange::kelvins(glass.temperature_sd.kelvins() * std::sqrt(3.0));
      const double gauge = spirit::gauge(input).standard.percent();
      const double here = reading_sd(glass, VolumeStrength::percent(percent)).percent();
      worst = std::max(worst, std::abs(here / gauge - 1.0));
    }
  }
  RecordProperty("worst", std::to_string(worst));
  EXPECT_LT(worst, 0.05);
}

// By hand: OIML R 22's true strength of a glass that shows 40 % falls by some 0.4 points a
// kelvin, so 0.39 K of the thermometer is worth about 0.15 %vol.
TEST(Glass, TheThermometerCountsByTheSlopeOfTheStrength) {
  plan::Instruments kit;
  kit.alcoholmeter = {};
  kit.thermometer = units::TemperatureChange::kelvins(0.5);
  const double sd = reading_sd(glass_of(kit), VolumeStrength::percent(40)).percent();
  EXPECT_NEAR(sd, 0.4 * 0.5 / half_width_80, 0.02);
}

TEST(Glass, WaterAndTheStrongestSpiritHaveABandToo) {
  const Glass glass = glass_of(of_class(AlcoholmeterClass::two));
  for (const double percent : {0.0, 0.3, 97.0, 100.0}) {
    const double sd = reading_sd(glass, VolumeStrength::percent(percent)).percent();
    EXPECT_GT(sd, 0.0) << percent;
    EXPECT_LT(sd, 1.0) << percent;
  }
}

}  // namespace
}  // namespace lynearm::journal
