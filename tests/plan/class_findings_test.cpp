// Legal classes: the demonstration's batches, each threshold at its edge, and that the tables
// hang together. The rules themselves are from memory; no text could be opened to hold them
// against.
#include "plan/class_findings.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <set>

#include "mash/ingredient.hpp"
#include "plan/tern.hpp"
#include "spirit/strength.hpp"

namespace lynearm::plan {
namespace {

using units::Duration;
using units::Mass;
using units::Volume;
using units::VolumeStrength;

const ClassFinding& of(const std::vector<ClassFinding>& all, std::string_view id) {
  return *std::find_if(all.begin(), all.end(),
                       [id](const ClassFinding& one) { return one.of->id == id; });
}

const RuleFinding* rule(const ClassFinding& found, std::string_view id) {
  const auto one = std::find_if(found.rules.begin(), found.rules.end(),
                                [id](const RuleFinding& rule) { return rule.id == id; });
  return one == found.rules.end() ? nullptr : &*one;
}

Ruling ruling(const SpiritFacts& facts, std::string_view of_class, std::string_view id) {
  const std::vector<ClassFinding> all = class_findings(facts);
  const RuleFinding* found = rule(of(all, of_class), id);
  EXPECT_NE(found, nullptr) << id << " is not asked";
  return found == nullptr ? Ruling::condition : found->ruling;
}

VolumeStrength proof(double degrees) {
  return spirit::volume_strength(spirit::mass_fraction(spirit::Proof::degrees(degrees)));
}

GrainFact grain(Cereal cereal, bool malted, double kg) {
  return {cereal, malted, Mass::kilograms(kg), Mass::kilograms(0.9 * kg), "grain"};
}

// Keeps every rule of bourbon; the tests below bend one fact at a time.
SpiritFacts bourbon() {
  SpiritFacts facts;
  facts.grain = {grain(Cereal::maize, false, 5.1), grain(Cereal::barley, true, 4.9)};
  facts.distilled = VolumeStrength::percent(70.0);
  facts.doubt = VolumeStrength::percent(0.5);
  facts.wood =
      WoodFact{true, true, true, false, Volume::litres(50.0), Duration::years(2.0), "c"};
  facts.entry = proof(125.0);
  facts.bottled = proof(80.0);
  return facts;
}

TEST(LegalClasses, tablesNameEachOtherAndEachGrainHasItsCereal) {
  std::set<std::string_view> ids, ruled;
  for (const LegalClass& one : legal_classes()) ids.insert(one.id);
  for (const ClassRule& one : class_rules()) {
    for (const std::string_view id : one.of) {
      EXPECT_TRUE(ids.contains(id)) << one.id << " is of " << id;
      ruled.insert(id);
    }
    EXPECT_FALSE(demand(one).empty()) << one.id;
    EXPECT_FALSE(one.at.empty()) << one.id;
  }
  EXPECT_EQ(ruled, ids);
  for (const mash::Ingredient& one : mash::ingredients()) {
    EXPECT_EQ(cereal_of(one.id) != Cereal::any, mash::is_grain(one)) << one.id;
  }
}

TEST(LegalClasses, aSpiritThatKeepsEveryRuleCouldCarryTheName) {
  const std::vector<ClassFinding> all = class_findings(bourbon());
  for (const char* id : {"us-bourbon", "us-straight-bourbon", "us-whisky"}) {
    EXPECT_EQ(of(all, id).ruling, Ruling::kept) << id;
  }
  EXPECT_EQ(of(all, "us-rye").ruling, Ruling::breaks);
  EXPECT_EQ(of(all, "eu-whisky").ruling, Ruling::breaks);  // two years are not three
}

TEST(LegalClasses, placeIsAConditionAndNeverJudged) {
  const std::vector<ClassFinding> all = class_findings(bourbon());
  const RuleFinding* place = rule(of(all, "us-bourbon"), "us-bourbon-place");
  ASSERT_NE(place, nullptr);
  EXPECT_EQ(place->ruling, Ruling::condition);
}

// ---- each kind of limit at its edge ---------------------------------------------------------

TEST(LegalClasses, aShareIsEnoughAtItsLimitAndNotUnderIt) {
  SpiritFacts facts = bourbon();  // 51 % maize to the gram
  EXPECT_EQ(ruling(facts, "us-bourbon", "us-maize"), Ruling::kept);
  facts.grain[0] = grain(Cereal::maize, false, 5.099);
  facts.grain[1] = grain(Cereal::barley, true, 4.901);
  EXPECT_EQ(ruling(facts, "us-bourbon", "us-maize"), Ruling::breaks);
  facts.grain = {grain(Cereal::maize, false, 8.0), grain(Cereal::rye, true, 2.0)};
  EXPECT_EQ(ruling(facts, "us-corn", "us-corn-share"), Ruling::kept);
  facts.grain[1].mass = Mass::kilograms(2.001);
  facts.grain[1].dry = Mass::kilograms(1.801);
  EXPECT_EQ(ruling(facts, "us-corn", "us-corn-share"), Ruling::breaks);
}

TEST(LegalClasses, aShareThatHangsOnTheGrainsMoistureIsNotTold) {
  SpiritFacts facts = bourbon();
  facts.grain[0].dry = Mass::kilograms(4.0);  // 51 % as it comes, 47.6 % dry
  EXPECT_EQ(ruling(facts, "us-bourbon", "us-maize"), Ruling::cannot_tell);
}

TEST(LegalClasses, aMaltOfUnknownGrainLeavesAShareOpenOnlyWhereItDecides) {
  SpiritFacts facts = bourbon();
  facts.grain = {grain(Cereal::barley, true, 9.0), grain(Cereal::not_known, true, 1.0)};
  EXPECT_EQ(ruling(facts, "us-malt", "us-malt-share"), Ruling::kept);
  EXPECT_EQ(ruling(facts, "us-single-malt", "us-single-malt-share"), Ruling::cannot_tell);
  EXPECT_EQ(ruling(facts, "us-bourbon", "us-maize"), Ruling::breaks);
}

TEST(LegalClasses, atMostAShareAllowsItsLimit) {
  SpiritFacts facts = bourbon();
  facts.grain = {grain(Cereal::barley, true, 3.0), grain(Cereal::maize, false, 7.0)};
  EXPECT_EQ(ruling(facts, "irish-grain", "irish-grain-malted"), Ruling::kept);
  facts.grain[0] = grain(Cereal::barley, true, 3.01);
  EXPECT_EQ(ruling(facts, "irish-grain", "irish-grain-malted"), Ruling::breaks);
}

TEST(LegalClasses, aGramOfSugarIsNotGrainAlone) {
  SpiritFacts facts = bourbon();
  facts.sugars = Mass::grams(1.0);
  EXPECT_EQ(ruling(facts, "us-bourbon", "us-whisky-grain"), Ruling::breaks);
}

TEST(LegalClasses, strengthOfDistillationIsInDoubtByTheAlcoholmeterAboutItsLimit) {
  SpiritFacts facts = bourbon();
  facts.doubt = VolumeStrength{};
  facts.distilled = proof(160.0) - VolumeStrength::percent(1e-6);
  EXPECT_EQ(ruling(facts, "us-bourbon", "us-type-strength"), Ruling::kept);
  facts.distilled = proof(160.0) + VolumeStrength::percent(1e-6);
  EXPECT_EQ(ruling(facts, "us-bourbon", "us-type-strength"), Ruling::breaks);
  EXPECT_EQ(ruling(facts, "us-light", "us-light-strength"), Ruling::kept);
  // "Less than 94.8 % vol": the limit itself is not allowed.
  facts.distilled = VolumeStrength::percent(94.8);
  EXPECT_EQ(ruling(facts, "eu-whisky", "eu-whisky-strength"), Ruling::breaks);
  facts.distilled = VolumeStrength::percent(94.7999);
  EXPECT_EQ(ruling(facts, "eu-whisky", "eu-whisky-strength"), Ruling::kept);
  facts.distilled = VolumeStrength::percent(96.0);
  EXPECT_EQ(ruling(facts, "eu-vodka", "eu-vodka-strength"), Ruling::kept);
  facts.doubt = VolumeStrength::percent(0.5);
  for (const double percent : {94.4, 95.2}) {
    facts.distilled = VolumeStrength::percent(percent);
    EXPECT_EQ(ruling(facts, "eu-whisky", "eu-whisky-strength"), Ruling::cannot_tell);
  }
  facts.distilled.reset();
  EXPECT_EQ(ruling(facts, "eu-whisky", "eu-whisky-strength"), Ruling::cannot_tell);
}

TEST(LegalClasses, aSetStrengthIsComparedAsItIsPrinted) {
  SpiritFacts facts = bourbon();  // into the cask at 125 proof, bottled at 80
  EXPECT_EQ(ruling(facts, "us-bourbon", "us-entry"), Ruling::kept);
  EXPECT_EQ(ruling(facts, "us-bourbon", "us-whisky-bottle"), Ruling::kept);
  // 40 % by volume at 20 °C is a little under 80 proof at 60 °F: neither kept nor broken.
  facts.entry = VolumeStrength::percent(62.5);
  facts.bottled = VolumeStrength::percent(40.0);
  EXPECT_EQ(ruling(facts, "us-bourbon", "us-entry"), Ruling::kept);
  EXPECT_EQ(ruling(facts, "us-bourbon", "us-whisky-bottle"), Ruling::cannot_tell);
  EXPECT_EQ(ruling(facts, "eu-whisky", "eu-whisky-bottle"), Ruling::kept);
  facts.entry = proof(125.3);
  facts.bottled = VolumeStrength::percent(39.8);
  EXPECT_EQ(ruling(facts, "us-bourbon", "us-entry"), Ruling::breaks);
  EXPECT_EQ(ruling(facts, "us-bourbon", "us-whisky-bottle"), Ruling::breaks);
  EXPECT_EQ(ruling(facts, "eu-whisky", "eu-whisky-bottle"), Ruling::breaks);
}

TEST(LegalClasses, aCaskIsWhatItsRuleAsksFor) {
  SpiritFacts facts = bourbon();
  EXPECT_EQ(ruling(facts, "us-corn", "us-corn-cask"), Ruling::breaks);  // new and charred
  facts.wood->used = true;
  EXPECT_EQ(ruling(facts, "us-bourbon", "us-new-charred"), Ruling::breaks);
  EXPECT_EQ(ruling(facts, "us-bourbon-mash", "us-used-oak"), Ruling::kept);
  EXPECT_EQ(ruling(facts, "us-corn", "us-corn-cask"), Ruling::kept);
  facts.wood->oak = false;
  EXPECT_EQ(ruling(facts, "scotch-single-malt", "scotch-cask"), Ruling::breaks);
  EXPECT_EQ(ruling(facts, "eu-whisky", "eu-whisky-cask"), Ruling::kept);
  facts.wood->holds = Volume::litres(700.0);
  EXPECT_EQ(ruling(facts, "eu-whisky", "eu-whisky-cask-size"), Ruling::kept);
  facts.wood->holds = Volume::litres(700.1);
  EXPECT_EQ(ruling(facts, "eu-whisky", "eu-whisky-cask-size"), Ruling::breaks);
}

TEST(LegalClasses, stavesInGlassAreNotStorageInACaskAndTheirTimeIsNone) {
  SpiritFacts facts = bourbon();
  facts.wood->cask = false;
  facts.wood->time = Duration::years(10.0);
  EXPECT_EQ(ruling(facts, "eu-whisky", "eu-whisky-cask"), Ruling::breaks);
  EXPECT_EQ(ruling(facts, "eu-whisky", "eu-whisky-time"), Ruling::breaks);
  EXPECT_EQ(ruling(facts, "us-corn", "us-corn-cask"), Ruling::breaks);  // treated with char
  facts.wood->charred = false;
  EXPECT_EQ(ruling(facts, "us-corn", "us-corn-cask"), Ruling::cannot_tell);
  facts.wood.reset();
  EXPECT_EQ(ruling(facts, "us-corn", "us-corn-cask"), Ruling::kept);  // it need not be stored
  EXPECT_EQ(rule(of(class_findings(facts), "us-bourbon"), "us-entry"), nullptr);
}

TEST(LegalClasses, yearsAreThoseOfTheCalendar) {
  SpiritFacts facts = bourbon();
  const std::pair<double, Ruling> days[] = {
      {1094.0, Ruling::breaks}, {1095.0, Ruling::cannot_tell}, {1096.0, Ruling::kept}};
  for (const auto& [count, expected] : days) {
    facts.wood->time = Duration::days(count);
    EXPECT_EQ(ruling(facts, "eu-whisky", "eu-whisky-time"), expected) << count;
  }
  facts.wood->time = Duration::months(36.0);
  EXPECT_EQ(ruling(facts, "eu-whisky", "eu-whisky-time"), Ruling::kept);
}

TEST(LegalClasses, aPotWithPlatesMayOrMayNotBeAPotStill) {
  SpiritFacts facts = bourbon();
  EXPECT_EQ(ruling(facts, "irish-malt", "irish-pot"), Ruling::kept);
  EXPECT_EQ(ruling(facts, "irish-grain", "irish-column"), Ruling::breaks);
  facts.plates = 4;
  EXPECT_EQ(ruling(facts, "irish-malt", "irish-pot"), Ruling::cannot_tell);
}

// ---- whole batches --------------------------------------------------------------------------

TEST(LegalClasses, ternEightBreaksGrainAloneByItsSugarAndStorageByItsStaves) {
  const Kit kit = tern::kit_8();
  const Recipe recipe = tern::recipe_8();
  const std::vector<ClassFinding> all = class_findings(recipe, kit, make(recipe, kit));
  for (const ClassFinding& found : all) {
    const bool open = found.of->id == "eu-spirit-drink" || found.of->id == "us-specialty";
    EXPECT_EQ(found.ruling == Ruling::kept, open) << found.of->id;
  }
  const ClassFinding& whisky = of(all, "eu-whisky");
  EXPECT_EQ(rule(whisky, "eu-whisky-grain")->says, "5.5 kg of sugar beside 16.5 kg of grain");
  EXPECT_EQ(rule(whisky, "eu-whisky-cask")->ruling, Ruling::breaks);
  EXPECT_EQ(rule(of(all, "us-bourbon"), "us-maize")->says, "it is 48.5 %");  // 8.0 of 16.5 kg
}

TEST(LegalClasses, oatsAndRyeWithoutSugarInACaskAreGrainSpiritAndNotYetWhisky) {
  Kit kit = tern::kit_8();
  Recipe recipe = tern::recipe_8();
  recipe.bill = {{"oats-flaked", Mass::kilograms(7.0), Use::dough_in, {}, {}},
                 {"rye-malt", Mass::kilograms(8.0), Use::dough_in, {}, {}},
                 {"barley-malt-distillers", Mass::kilograms(6.0), Use::dough_in, {}, {}}};
  recipe.mash.cook.reset();
  recipe.mash.water = Volume::litres(56.0);
  recipe.sugar_boil.reset();
  recipe.wood->in = std::string("little cask");
  const std::vector<ClassFinding> all = class_findings(recipe, kit, make(recipe, kit));
  EXPECT_EQ(of(all, "eu-grain-spirit").ruling, Ruling::kept);
  EXPECT_EQ(of(all, "us-whisky").ruling, Ruling::kept);
  EXPECT_NE(rule(of(all, "us-whisky"), "feints"), nullptr);  // of an earlier batch, a condition
  std::vector<std::string_view> broken;
  for (const RuleFinding& one : of(all, "eu-whisky").rules) {
    if (one.ruling == Ruling::breaks) broken.push_back(one.id);
  }
  EXPECT_EQ(broken, std::vector<std::string_view>{"eu-whisky-time"});
}

}  // namespace
}  // namespace lynearm::plan
