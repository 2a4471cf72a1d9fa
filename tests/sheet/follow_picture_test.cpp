// The page of a followed run: figures rounded to what is known of them, words instead of the
// names of fields, and a run that never runs.
#include "sheet/follow_picture.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <regex>

#include "numeric/ensemble.hpp"
#include "sheet/drawings.hpp"
#include "sheet/well_formed.hpp"
#include "still/runs.hpp"

namespace lynearm::sheet {
namespace {

using testing::HasSubstr;
using testing::Not;

const numeric::Executor alone = numeric::one_after_another();

still::Follower made_follower() {
  still::StillPrior prior;
  prior.charge = still::charge_of(20.0, 27.0);
  prior.setting.head.loss = units::HeatLoss::watts_per_kelvin(3.5);
  prior.setting.heating.power = units::Power::watts(1500.0);
  prior.setting.heating.loss = units::HeatLoss::watts_per_kelvin(3.0);
  still::CutRules rules;
  rules.heads_end = units::Volume::millilitres(300.0);
  rules.hearts_end = units::VolumeStrength::percent(60.0);
  return still::Follower(prior, rules, still::at_one_atmosphere(), 1, 100, alone);
}

still::Reading reading_at(double minutes, double head_C) {
  still::Reading reading;
  reading.at = units::Duration::minutes(minutes);
  reading.head_temperature = units::Temperature::celsius(head_C);
  return reading;
}

TEST(FollowPage, RoundsWhatItSaysAndNamesInstrumentsInWords) {
  still::Follower followed = made_follower();
  followed.take(reading_at(120.0, 83.0), alone);
  still::Reading off = reading_at(130.0, 83.4);
  off.pot_temperature = units::Temperature::celsius(33.123);
  followed.take(off, alone);
  const std::string text =
      follow_page(followed, followed.forecast(alone), "A run", units::System::metric);
  EXPECT_THAT(text, HasSubstr("pot thermometer: 33.1 °C does not fit"));
  EXPECT_THAT(text, Not(HasSubstr("pot_temperature")));
  // No constant with more digits than its spread has.
  const std::regex too_fine(R"(\d\.\d{4}|\d{2}\.\d{3})");
  const std::string words = text.substr(text.find("What the run taught"));
  EXPECT_FALSE(std::regex_search(words, too_fine)) << words;
  EXPECT_THAT(words, HasSubstr(" ± "));
  EXPECT_EQ(fault_of_xml(text), "");
}

// Heads end near the left edge once struck the plots' names through.
TEST(FollowPicture, KeepsItsLabelsApart) {
  still::Follower followed = made_follower();
  followed.take(reading_at(120.0, 83.0), alone);
  const Drawing drawing =
      follow_picture(followed, followed.forecast(alone), units::System::metric);
  expect_clear(drawing);
  // White plates under the names of both plots.
  const std::regex plate("<rect[^>]*fill=\"#fff\"");
  const auto& svg = drawing.svg.text;
  EXPECT_EQ(std::distance(std::sregex_iterator(svg.begin(), svg.end(), plate), {}), 2);
}

TEST(FollowPage, OfAFireThatDrivesNothingSaysSoAndDrawsNoCurve) {
  still::Follower followed = made_follower();
  still::Reading low;
  low.power = units::Power::watts(150.0);
  followed.take(low, alone);
  followed.take(reading_at(200.0, 20.0), alone);
  const std::string text =
      follow_page(followed, followed.forecast(alone), "A run", units::System::metric);
  EXPECT_THAT(text, HasSubstr("Nothing is expected to run"));
  EXPECT_THAT(text, HasSubstr("nothing runs at this power (100 % of the possible stills)"));
  EXPECT_THAT(text, HasSubstr("not reached at this power"));
  EXPECT_THAT(text, Not(HasSubstr("<svg")));
}

}  // namespace
}  // namespace lynearm::sheet
