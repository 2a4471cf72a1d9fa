#include "recipe/read_pair.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "plan/plan.hpp"
#include "recipe/read_texts.hpp"
#include "recipe/read_whole.hpp"

namespace lynearm::recipe {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::IsSupersetOf;
using ::testing::StartsWith;

struct Texts {
  std::string recipe, kit;
};
Texts texts_of(const std::string& example) {
  return {file_text("examples/" + example + "/recipe.toml"),
          file_text("examples/" + example + "/kit.toml")};
}
Texts whole() { return {whole_recipe, whole_kit}; }
Pair reading(const Texts& texts) {
  return read_pair({texts.recipe, "recipe.toml"}, {texts.kit, "kit.toml"});
}
std::vector<std::string> faults(const Texts& texts) {
  return sentences([&] { return reading(texts); });
}
// The line of `part`, which stands in the text once.
int line_of(const std::string& text, const std::string& part) {
  EXPECT_NE(text.find(part), std::string::npos) << "not there: " << part;
  const auto at = static_cast<std::ptrdiff_t>(std::min(text.find(part), text.size()));
  return 1 + static_cast<int>(std::count(text.begin(), text.begin() + at, '\n'));
}

TEST(ReadPair, EveryExampleReadsWithoutFault) {
  for (const char* example : {"tern-7", "tern-8", "ill-fitting"}) {
    EXPECT_THAT(faults(texts_of(example)), ElementsAre()) << example;
  }
}

TEST(ReadPair, AVesselTheKitLacksIsToldAtItsPlaceInTheRecipe) {
  Texts texts = whole();
  texts.recipe = changed(texts.recipe, "vessel = \"mash tub\"", "vessel = \"mash tun\"");
  EXPECT_EQ(only(faults(texts)),
            "recipe.toml:" + std::to_string(line_of(texts.recipe, "mash tun")) +
                ":10: mash.vessel is \"mash tun\"; accepted: a vessel of the kit (\"boiling "
                "pot\", \"mash tub\", \"fermenter\"); did you mean \"mash tub\".");
}

TEST(ReadPair, ContradictionsAreToldTogetherInTheOrderOfTheRecipe) {
  Texts texts = whole();
  texts.recipe = changed(texts.recipe, "use = \"boil\"", "use = \"cook\"");
  texts.recipe = changed(texts.recipe, "staves = \"for the time\"", "cask = \"no such cask\"");
  texts.recipe = changed(texts.recipe, "charges = 5", "charges = 5\ncharge = \"25 L\"");
  const std::vector<std::string> all = faults(texts);
  const std::string sugar = std::to_string(line_of(texts.recipe, "mass = \"6.5 kg\"") + 1);
  const auto starts = [&](const std::string& part, const std::string& rest) {
    return StartsWith("recipe.toml:" + std::to_string(line_of(texts.recipe, part)) + rest);
  };
  EXPECT_THAT(all, ElementsAre(StartsWith("recipe.toml:" + sugar +
                                          ":7: mash_bill[3].use is \"cook\"; "
                                          "accepted: \"boil\" or \"ferment\" for sugar"),
                               starts("cool_by", ":11: mash.cool_by is \"coil\""),
                               starts("[sugar_boil]",
                                      ":1: sugar_boil is \"given\"; accepted: no sugar boil"),
                               starts("charges = 5", ":11: strip.charges is \"5\""),
                               starts("no such cask",
                                      ":8: wood.cask is \"no such cask\"; accepted: a cask "
                                      "of the kit (\"little cask\")")));
}

TEST(ReadPair, AContradictionOfAnAbsentKeyIsToldAtTheNearestTable) {
  Texts texts = whole();
  const std::size_t cook = texts.recipe.find("[mash.cook]");
  texts.recipe.erase(cook, texts.recipe.find("[[mash.sparge]]") - cook);
  texts.recipe = changed(texts.recipe, "water = \"12 L\"\n", "");
  const std::string mash = std::to_string(line_of(texts.recipe, "[mash]"));
  EXPECT_THAT(faults(texts),
              ElementsAre(StartsWith("recipe.toml:" + mash + ":1: mash.cook is missing"),
                          StartsWith("recipe.toml:" + mash + ":1: mash.water is missing")));
}

TEST(ReadPair, MistakesOfBothTextsComeFirstAndTogether) {
  Texts texts = whole();
  // A contradiction, which is not told while a text is at fault.
  texts.recipe = changed(texts.recipe, "staves = \"for the time\"", "cask = \"no such cask\"");
  texts.recipe = changed(texts.recipe, "pitch = \"0.6 g/L\"", "pitch = \"0.6 g\"");
  texts.kit = changed(texts.kit, "altitude = \"120 m\"", "altitude = 120");
  texts.kit = changed(texts.kit, "spirit_power = \"55 %\"", "spirit_power = \"155 %\"");
  EXPECT_THAT(faults(texts),
              ElementsAre(StartsWith("recipe.toml:59:9: ferment.pitch is \"0.6 g\""),
                          StartsWith("kit.toml:4:12: place.altitude is \"120\""),
                          HasSubstr("head.spirit_power is \"155 %\"")));
}

TEST(ReadPair, ATextThatIsNotTomlDoesNotHideTheOther) {
  Texts texts = whole();
  texts.recipe = "name = ";
  texts.kit = changed(texts.kit, "altitude = \"120 m\"", "altitude = 120");
  EXPECT_THAT(faults(texts),
              ElementsAre(StartsWith("recipe.toml:1:"), StartsWith("kit.toml:4:12: ")));
}

TEST(Placed, FindsAFaultOfTheEngineInItsText) {
  const Texts texts = whole();
  const std::vector<base::Fault> found =
      placed({{"pot.efficiency", "0 %", "more", "", 0, 0},
              {"kit.boiler.power", "1 W", "more", "", 0, 0},
              {"strip.stop", "99 %vol", "less", "", 0, 0},
              {"mash_bill[2].mass", "1 g", "more", "", 0, 0}},
             {texts.recipe, "recipe.toml"}, {texts.kit, "kit.toml"});
  ASSERT_EQ(found.size(), 4U);
  EXPECT_EQ(found[0].field, "mash_bill[2].mass");
  EXPECT_EQ(found[0].file, "recipe.toml");
  EXPECT_EQ(found[0].line, line_of(texts.recipe, "mass = \"5.5 kg\""));
  EXPECT_EQ(found[1].line, line_of(texts.recipe, "stop = \"11 %vol\""));
  EXPECT_EQ(found[1].column, 8);
  EXPECT_EQ(found[2].field, "boiler.power");
  EXPECT_EQ(found[2].file, "kit.toml");
  EXPECT_EQ(found[2].line, line_of(texts.kit, "power = \"4 kW\""));
  EXPECT_EQ(found[3], (base::Fault{"pot.efficiency", "0 %", "more", "", 0, 0}));
}

TEST(IllFitting, IsPlannedAndFoundFaultWithAtEveryStage) {
  const Pair pair = reading(texts_of("ill-fitting"));
  const plan::Plan planned = plan::make(pair.recipe, pair.kit);
  std::set<std::string> codes;
  for (const plan::Finding& finding : planned.findings) codes.insert(finding.code);
  EXPECT_THAT(codes, IsSupersetOf({"wash-left-over", "coolant-short", "element-exposed",
                                   "little-enzyme-power", "vessel-too-full", "cools-slowly",
                                   "no-room-for-foam", "nitrogen-short", "carbon-dioxide",
                                   "low-wines-over-a-charge", "cask-too-large"}));
  // The boiler takes 22 L of a clear wash of some 110 L, and the recipe runs four charges.
  EXPECT_NEAR(planned.strip.fill_limit.litres(), 22.0, 0.05);
  EXPECT_NEAR(planned.ferment.racked_volume.litres(), 110.0, 3.0);
  EXPECT_EQ(planned.strip.runs, 4);
  EXPECT_EQ(planned.findings.front().weight, plan::Weight::stop);
}

}  // namespace
}  // namespace lynearm::recipe
