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

// Whatever goes in besides water, and whatever is dissolved: what is asked back gives what was
// asked for, and a finding as planned needs nothing.
TEST(AReductionAsked, BackwardHoldsWithWhatGoesInBesides) {
  for (
      const std::string besides :
      {R"("weaker":{"volume_L_20C":0.5,"strength_percent_vol":20})", R"("residue_g_L":12)",
       R"("residue_g_L":2,"tea":{"volume_L_20C":0.4,"strength_percent_vol":30,"residue_g_L":9})",
       R"("residue_g_L":3,"weaker":{"volume_L_20C":0.5,"strength_percent_vol":20})"}) {
    const wire::ReductionMade back = asked(R"("make_L":5,)" + besides);
    EXPECT_NEAR(back.measured.by_mass.volume_at_20C.litres(), 5.0, 1e-9) << besides;
    const wire::ReductionMade forward =
        asked(fmt::format(R"("volume_L":{:.12f},)", back.measured.spirit.litres()) + besides);
    EXPECT_NEAR(forward.measured.by_mass.volume_at_20C.litres(), 5.0, 1e-8) << besides;
    EXPECT_NEAR(forward.measured.water.litres(), back.measured.water.litres(), 1e-8) << besides;
    const auto check =
        asked(R"("make_L":5,"found":{"strength_percent_vol":55},)" + besides).check.value();
    EXPECT_EQ(check.correction.remedy, spirit::Remedy::none) << besides;
    EXPECT_NEAR(check.mistake.water.kilograms(), 0.0, 1e-9) << besides;
    EXPECT_NEAR(check.mistake.spirit_strength.value().percent(), 70.0, 1e-7) << besides;
    EXPECT_NEAR(check.mistake.spirit_mass.value().kilograms(), 0.0, 1e-9) << besides;
  }
}

TEST(AReductionAsked, WhereSomethingIsDissolvedIsMendedAtItsTrueStrength) {
  const auto check = [](const std::string& strength) {
    return asked(R"("volume_L":4,"residue_g_L":12,"found":{"strength_percent_vol":)" +
                 strength + "}")
        .check.value();
  };
  const wire::ReductionCheck strong = check("56");
  EXPECT_EQ(strong.correction.remedy, spirit::Remedy::add_water);
  EXPECT_NEAR(spirit::true_strength(strong.obscured->result).percent(), 55.0, 1e-9);
  const wire::ReductionCheck weak = check("54");
  EXPECT_EQ(weak.correction.remedy, spirit::Remedy::add_spirit);
  EXPECT_NEAR(spirit::true_strength(weak.obscured->spirit).percent(), 70.0, 1e-9);
  EXPECT_NEAR(spirit::true_strength(weak.obscured->result).percent(), 55.0, 1e-9);
  EXPECT_NEAR((weak.obscured->found.mass() + weak.obscured->spirit.mass()).kilograms(),
              weak.obscured->result.mass().kilograms(), 1e-12);
}

}  // namespace
}  // namespace lynearm::station
