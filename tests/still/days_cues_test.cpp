#include "still/days_cues.hpp"

#include <gtest/gtest.h>

#include "spirit/strength.hpp"

namespace lynearm::still {
namespace {

using units::Pressure;
using units::Temperature;
using units::VolumeStrength;

const DaysCue& head(const std::vector<DaysCue>& cues, double percent) {
  for (const DaysCue& cue : cues) {
    if (cue.of == CueOf::head && cue.strength == VolumeStrength::percent(percent)) return cue;
  }
  throw std::runtime_error("no such cue");
}

TEST(DaysCues, ShowWhatIsTrueAndTheOffset) {
  const TodaysAir air =
      todays_air(air_at_pressure(Pressure::hectopascals(1000.0)), Temperature::celsius(99.2));
  for (const DaysCue& cue : days_cues(air)) {
    EXPECT_NEAR((cue.cue.as_shown - cue.truly).kelvins(), air.thermometer_offset.kelvins(),
                1e-12);
  }
}

TEST(DaysCues, AreWhereTheTradeLooks) {
  // "65 %vol at the spout near 90 °C in the head; 56 %vol at some 92 to 93 °C": common
  // practice, no source.
  const std::vector<DaysCue> cues =
      days_cues(todays_air(air_at_pressure(Pressure::atmospheres(1.0))));
  EXPECT_NEAR(head(cues, 65.0).truly.celsius(), 90.0, 0.5);
  EXPECT_NEAR(head(cues, 56.0).truly.celsius(), 92.5, 0.5);
}

TEST(DaysCues, RiseAsTheSpiritWeakens) {
  const std::vector<DaysCue> cues =
      days_cues(todays_air(air_at_pressure(Pressure::atmospheres(1.0))));
  for (std::size_t i = 1; i < cues.size(); ++i) {
    if (cues[i].of != cues[i - 1].of) continue;
    EXPECT_GT(cues[i].truly, cues[i - 1].truly);
    EXPECT_LT(cues[i].strength, cues[i - 1].strength);
  }
}

TEST(DaysCues, AreOfTheLiquidsThatAreAskedFor) {
  const TodaysAir air = todays_air(air_at_pressure(Pressure::atmospheres(1.0)));
  const auto cues = days_cues(air, {VolumeStrength::percent(10.0)});
  EXPECT_EQ(cues.front().of, CueOf::boiling);
  EXPECT_EQ(cues.front().strength, VolumeStrength::percent(10.0));
  EXPECT_EQ(cues[1].of, CueOf::head);
  EXPECT_EQ(days_cues(air)[2].strength, VolumeStrength{});  // water, last of the liquids
}

}  // namespace
}  // namespace lynearm::still
