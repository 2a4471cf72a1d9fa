// A reduction as the page asks it: backward against forward, a finding mended, what goes in
// besides the water.
#include "station/reducing.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include "spirit/strength.hpp"

namespace lynearm::station {
namespace {

wire::ReductionMade asked(const std::string& more) {
  return reduced(wire::read_reduce_asked(
      R"({"strength_percent_vol":70,"at_C":27,"to_percent_vol":55,"water_at_C":12,)" + more +
      "}"));
}
wire::ReductionCheck found(const std::string& what) {
  return asked(R"("volume_L":4,"found":{)" + what + "}").check.value();
}

TEST(AReductionAsked, BackwardIsTheForwardOneTurnedAround) {
  const wire::ReductionMade back = asked(R"("make_L":5)");
  EXPECT_NEAR(back.measured.by_mass.volume_at_20C.litres(), 5.0, 1e-9);
  const wire::ReductionMade forward =
      asked(fmt::format(R"("volume_L":{})", back.measured.spirit.litres()));
  EXPECT_NEAR(forward.measured.by_mass.volume_at_20C.litres(), 5.0, 1e-8);
  EXPECT_NEAR(forward.measured.water.litres(), back.measured.water.litres(), 1e-8);
}

TEST(AReductionAsked, IsMendedWithWaterWhereItWasFoundTooStrong) {
  const wire::ReductionCheck check = found(R"("strength_percent_vol":56)");
  EXPECT_EQ(check.correction.remedy, spirit::Remedy::add_water);
  EXPECT_NEAR((check.found.mass() + check.correction.water).kilograms(),
              check.correction.result.mass().kilograms(), 1e-12);
  EXPECT_NEAR(spirit::strength(check.correction.result).percent(), 55.0, 1e-9);
  EXPECT_LT(check.mistake.water.kilograms(), 0.0);
}

TEST(AReductionAsked, IsMendedWithItsOwnSpiritWhereItWasFoundTooWeak) {
  const wire::ReductionCheck check = found(R"("strength_percent_vol":54.2,"mass_kg":4.6)");
  EXPECT_EQ(check.correction.remedy, spirit::Remedy::add_spirit);
  EXPECT_NEAR(check.found.mass().kilograms(), 4.6, 1e-12);
  EXPECT_NEAR(spirit::strength(check.correction.spirit).percent(), 70.0, 1e-9);
  EXPECT_NEAR(spirit::strength(check.correction.result).percent(), 55.0, 1e-9);
}

TEST(AReductionAsked, IsLeftAloneWhereNoGlassWouldTellTheDifference) {
  EXPECT_EQ(found(R"("strength_percent_vol":55.04)").correction.remedy, spirit::Remedy::none);
  EXPECT_EQ(found(R"("strength_percent_vol":55.06)").correction.remedy,
            spirit::Remedy::add_water);
}

TEST(AReductionAsked, KeepsTheMassOfWhatGoesInBesides) {
  const wire::ReductionMade weaker =
      asked(R"("volume_L":4,"weaker":{"volume_L_20C":0.5,"strength_percent_vol":20})");
  const spirit::Lot low =
      spirit::lot(units::Volume::litres(0.5), units::VolumeStrength::percent(20.0));
  EXPECT_NEAR(weaker.measured.by_mass.result.ethanol.kilograms(),
              (weaker.spirit + low).ethanol.kilograms(), 1e-12);
  EXPECT_LT(weaker.measured.by_mass.water, asked(R"("volume_L":4)").measured.by_mass.water);
  const wire::ReductionMade tea = asked(
      R"("volume_L":4,"residue_g_L":1.5,
         "tea":{"volume_L_20C":0.3,"strength_percent_vol":0,"residue_g_L":8})");
  ASSERT_TRUE(tea.obscured.has_value());
  EXPECT_NEAR(tea.obscured->true_strength.percent(), 55.0, 1e-9);
  EXPECT_LT(tea.obscured->apparent_strength, tea.obscured->true_strength);
}

}  // namespace
}  // namespace lynearm::station
