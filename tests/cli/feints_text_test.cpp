#include "cli/feints_text.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <sstream>

#include "cli/table.hpp"
#include "vapour/congener_curve.hpp"

namespace lynearm::cli {
namespace {

using ::testing::HasSubstr;
using ::testing::Not;

std::string text_of(const still::FeintsLimit& limit) {
  const vapour::BoilingCurve curve(units::Pressure::atmospheres(1.0));
  const vapour::CongenerCurve volatility(curve);
  still::Recycling recycling;
  recycling.low_wines.lot =
      spirit::lot(units::Volume::litres(20.0), units::VolumeStrength::percent(27.0));
  recycling.low_wines.congeners =
      still::usual_amounts(spirit::pure_alcohol(recycling.low_wines.lot));
  recycling.charge_at_most = units::VolumeStrength::percent(30.0);
  recycling.setting.head.fixed_reflux = units::Share::percent(8.0);
  recycling.setting.heating.power = units::Power::kilowatts(2.0);
  recycling.stop.spout_strength = units::VolumeStrength::percent(10.0);
  recycling.borders = {units::Volume::millilitres(100.0), units::Volume::millilitres(500.0),
                       units::VolumeStrength::percent(62.0)};
  return feints_text(still::tell_feints(recycling, 4, limit, curve, volatility), true, {});
}

// As it would stand on one line.
std::string unbroken(const std::string& text) {
  std::istringstream words(text);
  std::string all;
  for (std::string word; words >> word;) all += word + " ";
  return all;
}

TEST(FeintsText, TellsWhereTheFeintsComeToRest) {
  const std::string text = unbroken(text_of({1.5, std::nullopt}));
  EXPECT_THAT(text, HasSubstr("The feints come to rest at 5."));
  EXPECT_THAT(text, HasSubstr("nothing need be bled off"));
  EXPECT_THAT(text, HasSubstr("1.50 times is the limit."));
  EXPECT_THAT(text, Not(HasSubstr("run's feints bled off")));
  EXPECT_THAT(text, HasSubstr("never leave a heated still"));
}

TEST(FeintsText, TellsWhenTheChargeOutgrowsTheBoiler) {
  const std::string text = unbroken(text_of({1.5, units::Volume::litres(24.0)}));
  EXPECT_THAT(text, HasSubstr("From generation 2 on bleed off "));
  EXPECT_THAT(text, HasSubstr("over the 24.0 L that this boiler is filled to"));
  EXPECT_THAT(text, HasSubstr("goes into a strip, or away"));
}

TEST(FeintsText, TellsWhenTheOilsPassTheirLimit) {
  const std::string text = unbroken(text_of({1.05, std::nullopt}));
  EXPECT_THAT(text, HasSubstr("1.05 times is the limit, passed in generation "));
}

TEST(FeintsText, FitsThePage) {
  std::istringstream lines(text_of({1.05, std::nullopt}));
  for (std::string line; std::getline(lines, line);) {
    if (line.starts_with("Caution")) continue;  // of every command: one line each
    EXPECT_LE(columns(line), page_width) << line;
  }
}

}  // namespace
}  // namespace lynearm::cli
