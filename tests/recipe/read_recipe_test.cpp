#include "recipe/read_recipe.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "recipe/read_texts.hpp"
#include "recipe/read_whole.hpp"

namespace lynearm::recipe {
namespace {

using namespace units;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::StartsWith;

// The least a recipe with grain must say, a key a line.
constexpr const char* least = R"(name = "least"
[[mash_bill]]
ingredient = "barley-malt-pale"
mass = "10 kg"
[mash]
vessel = "tub"
water = "30 L"
rest_temperature = "65 °C"
rest_time = "60 min"
[ferment]
vessel = "tub"
pitch_temperature = "24 °C"
yeast = "ale"
[strip]
stop = "10 %vol"
[reduce]
maturing_strength = "55 %vol"
[bottle]
strength = "43 %vol"
)";

plan::Recipe reading(const std::string& text) { return read_recipe(text, "r.toml"); }
std::vector<std::string> faults(const std::string& text) {
  return sentences([&] { return reading(text); });
}
std::string fault(const std::string& from, const std::string& to) {
  return only(faults(changed(least, from, to)));
}

TEST(ReadRecipe, ReadsTheBillMashAndFerment) {
  const plan::Recipe r = reading(whole_recipe);
  EXPECT_EQ(r.name, "Whole");
  EXPECT_EQ(r.remark, "every key");
  ASSERT_EQ(r.bill.size(), 3U);
  EXPECT_EQ(r.bill[0].ingredient, "maize-cracked");
  EXPECT_EQ(r.bill[0].mass, Mass::kilograms(9));
  EXPECT_EQ(r.bill[0].use, plan::Use::cook);
  EXPECT_EQ(r.bill[0].price_per_kg, 0.95);
  EXPECT_EQ(r.bill[1].use, plan::Use::dough_in);
  const plan::LotAnalysis& lot = r.bill[1].analysis;
  EXPECT_EQ(lot.extract, Share::percent(81));
  EXPECT_EQ(lot.moisture, Share::percent(4));
  EXPECT_EQ(lot.diastatic_power, DiastaticPower::lintner(200));
  EXPECT_EQ(lot.fermentable, Share::percent(79));
  EXPECT_EQ(r.bill[2].use, plan::Use::boil);
  EXPECT_EQ(r.mash.vessel, "mash tub");
  EXPECT_EQ(r.mash.water, Volume::litres(12));
  EXPECT_EQ(r.mash.water_temperature, Temperature::celsius(30));
  EXPECT_EQ(r.mash.rest_temperature, Temperature::celsius(65.5));
  EXPECT_EQ(r.mash.rest_time, Duration::minutes(95));
  EXPECT_FALSE(r.mash.squeeze);
  EXPECT_EQ(r.mash.cool_by, plan::CoolBy::coil);
  EXPECT_FALSE(r.mash.on_the_grain);
  ASSERT_TRUE(r.mash.cook);
  EXPECT_EQ(r.mash.cook->vessel, "boiling pot");
  EXPECT_EQ(r.mash.cook->water, Volume::litres(40));
  EXPECT_EQ(r.mash.cook->time, Duration::minutes(60));
  EXPECT_EQ(r.mash.cook->boil_off, VolumeFlow::litres_per_hour(1.5));
  ASSERT_EQ(r.mash.sparges.size(), 2U);
  EXPECT_EQ(r.mash.sparges[1].water, Volume::litres(15));
  EXPECT_EQ(r.mash.sparges[1].temperature, Temperature::celsius(77));
  ASSERT_TRUE(r.sugar_boil);
  EXPECT_EQ(r.sugar_boil->vessel, "boiling pot");
  EXPECT_EQ(r.sugar_boil->water, Volume::litres(8));
  EXPECT_EQ(r.sugar_boil->time, Duration::minutes(20));
  EXPECT_EQ(r.sugar_boil->boil_off, VolumeFlow::litres_per_hour(3));
  EXPECT_EQ(r.ferment.vessel, "fermenter");
  EXPECT_EQ(r.ferment.fill_to, Volume::litres(110));
  EXPECT_EQ(r.ferment.pitch_temperature, Temperature::celsius(25));
  EXPECT_EQ(r.ferment.yeast, "ale");
  EXPECT_EQ(r.ferment.pitch, MassConcentration::grams_per_litre(0.6));
  EXPECT_TRUE(r.ferment.held);
  EXPECT_EQ(r.ferment.rest_after_dry, Duration::days(4));
  EXPECT_EQ(r.ferment.nutrient_nitrogen, MassConcentration::milligrams_per_litre(50));
  EXPECT_EQ(r.ferment.gravity_by, plan::GravityBy::water);
  EXPECT_EQ(r.ferment.yeast_price_per_kg, 18.0);
}

TEST(ReadRecipe, ReadsTheStillAndWhatFollows) {
  const plan::Recipe r = reading(whole_recipe);
  EXPECT_EQ(r.strip.stop, VolumeStrength::percent(11));
  EXPECT_EQ(r.strip.charges, 5);
  EXPECT_FALSE(r.strip.charge);
  EXPECT_EQ(r.strip.spout_temperature, Temperature::celsius(22));
  EXPECT_EQ(reading(changed(whole_recipe, "charges = 5", "charge = \"25 L\"")).strip.charge,
            Volume::litres(25));
  ASSERT_TRUE(r.spirit_run.feints);
  EXPECT_EQ(r.spirit_run.feints->volume, Volume::litres(2.5));
  EXPECT_EQ(r.spirit_run.feints->strength, VolumeStrength::percent(32));
  EXPECT_EQ(r.spirit_run.charge_at_most, VolumeStrength::percent(28));
  EXPECT_EQ(r.spirit_run.surplus, plan::Surplus::second_run);
  EXPECT_EQ(r.spirit_run.foreshots_end, plan::Border(Volume::millilitres(150)));
  EXPECT_EQ(r.spirit_run.heads_end, plan::Border(Volume::millilitres(800)));
  EXPECT_EQ(r.spirit_run.hearts_end, plan::Border(VolumeStrength::percent(56)));
  EXPECT_EQ(r.spirit_run.tails_end, plan::Border(Temperature::celsius(98)));
  EXPECT_FALSE(r.spirit_run.keep_heads);
  EXPECT_EQ(r.spirit_run.spout_temperature, Temperature::celsius(23));
  EXPECT_EQ(r.reduce.maturing, VolumeStrength::percent(54));
  EXPECT_EQ(r.reduce.water_temperature, Temperature::celsius(13));
  ASSERT_TRUE(r.wood);
  ASSERT_TRUE(std::holds_alternative<plan::Staves>(r.wood->in));
  EXPECT_FALSE(std::get<plan::Staves>(r.wood->in).count);
  EXPECT_EQ(r.wood->species, "cherry");
  EXPECT_EQ(r.wood->toast, "light");
  EXPECT_EQ(r.wood->time, Duration::months(6));
  EXPECT_EQ(r.wood->temperature, Temperature::celsius(14));
  EXPECT_EQ(r.bottle.strength, VolumeStrength::percent(46));
  EXPECT_EQ(r.bottle.size, Volume::millilitres(500));
  EXPECT_EQ(r.bottle.filter_loss, Share::percent(0.5));
  EXPECT_EQ(r.prices.currency, "crowns");
  EXPECT_EQ(r.prices.energy_per_kWh, 0.28);
  EXPECT_DOUBLE_EQ(*r.prices.water_per_m3, 4.0);
  EXPECT_EQ(r.prices.bottle_each, 1.1);
  EXPECT_EQ(r.prices.wood, 12.0);
}

TEST(ReadRecipe, WhatIsLeftOutHasTheDefaultsOfThePlan) {
  const plan::Recipe r = reading(least);
  const plan::Recipe plain;
  EXPECT_EQ(r.remark, "");
  EXPECT_EQ(r.bill[0].use, plan::Use::dough_in);
  EXPECT_FALSE(r.bill[0].analysis.extract);
  EXPECT_FALSE(r.bill[0].price_per_kg);
  EXPECT_FALSE(r.mash.cook);
  EXPECT_FALSE(r.mash.water_temperature);
  EXPECT_TRUE(r.mash.squeeze);
  EXPECT_EQ(r.mash.cool_by, plan::CoolBy::lid_on);
  EXPECT_FALSE(r.mash.on_the_grain);
  EXPECT_FALSE(r.sugar_boil);
  EXPECT_FALSE(r.ferment.fill_to);
  EXPECT_EQ(r.ferment.pitch, plain.ferment.pitch);
  EXPECT_EQ(r.ferment.rest_after_dry, plain.ferment.rest_after_dry);
  EXPECT_EQ(r.ferment.gravity_by, plan::GravityBy::sugar);
  EXPECT_FALSE(r.strip.charges);
  EXPECT_EQ(r.spirit_run.charge_at_most, plain.spirit_run.charge_at_most);
  EXPECT_EQ(r.spirit_run.foreshots_end, plain.spirit_run.foreshots_end);
  EXPECT_EQ(r.spirit_run.tails_end, plain.spirit_run.tails_end);
  EXPECT_TRUE(r.spirit_run.keep_heads);
  EXPECT_FALSE(r.wood);
  EXPECT_EQ(r.bottle.size, plain.bottle.size);
  EXPECT_EQ(r.prices.currency, "");
  EXPECT_FALSE(r.prices.energy_per_kWh);
}

TEST(ReadRecipe, SugarGoesToTheBoilWhereThereIsOneAndElseToTheFermenter) {
  const std::string with_sugar = changed(
      least, "[mash]", "[[mash_bill]]\ningredient = \"sugar\"\nmass = \"2 kg\"\n[mash]");
  EXPECT_EQ(reading(with_sugar).bill[1].use, plan::Use::ferment);
  const std::string boil =
      "[sugar_boil]\nvessel = \"pot\"\nwater = \"5 L\"\ntime = \"20 min\"\n";
  EXPECT_EQ(reading(with_sugar + boil).bill[1].use, plan::Use::boil);
}

TEST(ReadRecipe, ABillOfSugarsNeedsNoMash) {
  const std::string sugars =
      changed(changed(least, "barley-malt-pale", "molasses"),
              "[mash]\nvessel = \"tub\"\nwater = \"30 L\"\nrest_temperature = \"65 °C\"\n"
              "rest_time = \"60 min\"\n",
              "");
  EXPECT_EQ(reading(sugars).bill[0].use, plan::Use::ferment);
  EXPECT_EQ(only(faults(changed(sugars, "molasses", "barley-malt-pale"))),
            "r.toml: mash is missing; accepted: a mash (vessel, rest_temperature, rest_time), "
            "because the bill has grain.");
  // A mistyped ingredient may be a sugar: no second fault comes of it.
  EXPECT_THAT(only(faults(changed(sugars, "molasses", "molases"))),
              AllOf(StartsWith("r.toml:3:14: mash_bill[1].ingredient is \"molases\"; accepted: "
                               "one of \"maize-cracked\", "),
                    HasSubstr("(\"molasses\" is the nearest)")));
}

TEST(ReadRecipe, AStrengthMayBeStatedInAnyScale) {
  const auto maturing = [](const char* stated) {
    return reading(changed(least, "\"55 %vol\"", stated)).reduce.maturing.percent();
  };
  // European Pharmacopoeia 5.5 (from memory): 50 %vol has 930.14 kg/m³ at 20 °C, so that it is
  // 50 x 789.24 / 930.14 = 42.426 % by mass.
  EXPECT_NEAR(maturing("\"42.426 %mass\""), 50.0, 0.002);
  // 27 CFR 30.11: proof is twice the strength by volume, at 60 °F. At 20 °C the same mixture is
  // a little stronger by volume, for spirit swells more than water.
  EXPECT_GT(maturing("\"100 proof\""), 50.0);
  EXPECT_LT(maturing("\"100 proof\""), 50.1);
}

TEST(ReadRecipe, ABorderIsAVolumeAStrengthOrATemperature) {
  const plan::Recipe r = reading(std::string(least) +
                                 "[spirit_run]\nforeshots_end = \"100 mL\"\n"
                                 "heads_end = \"144 proof\"\nhearts_end = \"90 °C\"\n");
  EXPECT_EQ(r.spirit_run.foreshots_end, plan::Border(Volume::millilitres(100)));
  EXPECT_NEAR(std::get<VolumeStrength>(*r.spirit_run.heads_end).percent(), 72.0, 0.1);
  EXPECT_EQ(r.spirit_run.hearts_end, plan::Border(Temperature::celsius(90)));
  for (const char* wrong :
       {"\"3 kg\"", "\"58 %\"", "\"20 °C\"", "\"0 %vol\"", "\"-1 L\"", "58"}) {
    EXPECT_THAT(
        only(faults(std::string(least) + "[spirit_run]\nhearts_end = " + wrong)),
        AllOf(StartsWith("r.toml:21:14: spirit_run.hearts_end is "),
              HasSubstr("accepted: a volume collected such as \"150 mL\" (1 mL to 500 L), "
                        "a strength at the spout such as \"58 %vol\" (0.5 to 96 %vol) or "
                        "a head temperature such as \"94 °C\" (60 to 105 °C).")))
        << wrong;
  }
}

TEST(ReadRecipe, WoodIsStavesOrACaskAndNotBoth) {
  const std::string wood = std::string(least) + "[wood]\ntime = \"6 months\"\n";
  EXPECT_EQ(std::get<plan::Staves>(reading(wood + "staves = 12").wood->in).count, 12);
  EXPECT_EQ(std::get<std::string>(reading(wood + "cask = \"little\"").wood->in), "little");
  EXPECT_EQ(
      only(faults(wood)),
      "r.toml:20:1: wood.staves is missing; accepted: either staves (\"for the time\" or a "
      "number) or cask = \"its name\".");
  EXPECT_EQ(
      only(faults(wood + "staves = 12\ncask = \"little\"")),
      "r.toml:23:8: wood.cask is \"little\"; accepted: either staves or a cask, not both.");
  EXPECT_EQ(only(faults(wood + "staves = 0")),
            "r.toml:22:10: wood.staves is \"0\"; accepted: \"for the time\", or a whole number "
            "of staves from 1 to 1000, written without quotes.");
}

TEST(ReadRecipe, SpiritForWoodMustNotBeTooStrong) {
  const std::string strong = changed(least, "\"55 %vol\"", "\"85 %vol\"");
  EXPECT_EQ(reading(strong).reduce.maturing, VolumeStrength::percent(85));
  EXPECT_EQ(only(faults(strong + "[wood]\ntime = \"6 months\"\nstaves = 3")),
            "r.toml:17:21: reduce.maturing_strength is \"85 %vol\"; accepted: at most 80 %vol "
            "for a spirit that goes into wood.");
}

TEST(ReadRecipe, AnUnknownKeyIsToldWithTheNearest) {
  EXPECT_THAT(
      fault("rest_time", "rest_tyme = \"1 h\"\nrest_time"),
      StartsWith("r.toml:9:1: mash.rest_tyme is not known here; did you mean \"rest_time\"? "
                 "Accepted are the keys vessel, cook, water"));
  EXPECT_THAT(only(faults(std::string(least) + "[bottels]\nsize = \"1 L\"")),
              HasSubstr("did you mean \"bottle\"?"));
}

TEST(ReadRecipe, AMissingKeyIsToldAtItsSection) {
  EXPECT_EQ(fault("yeast = \"ale\"\n", ""),
            "r.toml:10:1: ferment.yeast is missing; accepted: one of \"distillers-dry\", "
            "\"bread\", \"ale\", \"wine\".");
  EXPECT_EQ(fault("[strip]\nstop = \"10 %vol\"\n", ""),
            "r.toml: strip.stop is missing; accepted: a strength such as \"55 %vol\", \"47.2 "
            "%mass\" or \"110 proof\", from 0.5 %vol to 60 %vol.");
}

TEST(ReadRecipe, AUnitOfTheWrongKindIsNamed) {
  EXPECT_EQ(fault("\"10 kg\"", "\"10 L\""),
            "r.toml:4:8: mash_bill[1].mass is \"10 L\"; accepted: a mass such as \"4.5 kg\" or "
            "\"12 lb\" (\"L\" is a unit of volume), from 1 g to 1000 kg.");
  EXPECT_THAT(fault("\"10 kg\"", "\"10 kg\"\nprice = \"1.20 / L\""),
              HasSubstr("mash_bill[1].price is \"1.20 / L\"; accepted: a price by mass such as "
                        "\"1.20 / kg\" or \"0.55 / lb\", without currency."));
  EXPECT_THAT(fault("\"10 %vol\"", "\"10 %\""),
              HasSubstr("strip.stop is \"10 %\"; accepted: a strength such as \"55 %vol\", "
                        "\"47.2 %mass\" or \"110 proof\" (\"%\" does not say whether by volume "
                        "or by mass)"));
}

TEST(ReadRecipe, AValueOutOfItsRangeIsToldWithTheRange) {
  struct Row {
    const char *from, *to, *told;
  };
  for (const Row& row : std::initializer_list<Row>{
           {"\"65 °C\"", "\"85 °C\"",
            "mash.rest_temperature is \"85 °C\"; accepted: a "
            "temperature such as \"66 °C\" or \"150 °F\", from 40 °C to 80 °C."},
           {"\"24 °C\"", "\"50 °C\"", "from 5 °C to 42 °C."},
           {"\"10 %vol\"", "\"70 %vol\"", "from 0.5 %vol to 60 %vol."},
           {"\"30 L\"", "\"-3 L\"",
            "mash.water is \"-3 L\"; accepted: a volume such as "
            "\"20 L\" or \"5 gal\", from 0 L to 2000 L."},
           {"\"10 %vol\"", "\"10 %vol\"\ncharges = 0",
            "strip.charges is \"0\"; accepted: a "
            "whole number, written without quotes, from 1 to 50."},
           {"\"43 %vol\"", "\"43 %vol\"\nfilter_loss = \"120 %\"",
            "bottle.filter_loss is "
            "\"120 %\"; accepted: a share such as \"75 %\", from 0 % to 20 %."},
           {"[reduce]", "[spirit_run]\ncharge_at_most = \"45 %vol\"\n[reduce]",
            "spirit_run.charge_at_most is \"45 %vol\"; accepted: a strength such as \"55 "
            "%vol\", "
            "\"47.2 %mass\" or \"110 proof\", from 10 %vol to 40 %vol."},
           {"[reduce]", "[spirit_run]\nfeints = \"0 L @ 30 %vol\"\n[reduce]",
            "spirit_run.feints is \"0 L @ 30 %vol\"; accepted: a volume and its strength such "
            "as "
            "\"5 L @ 55 %vol\", the volume above 0 L and at most 500 L."}}) {
    EXPECT_THAT(fault(row.from, row.to), HasSubstr(row.told));
  }
}

TEST(ReadRecipe, SharesThatCannotBeAreRefused) {
  for (const char* share : {"extract = \"112 %\"", "moisture = \"45 %\"",
                            "fermentable = \"101 %\"", "extract = \"-1 %\""}) {
    EXPECT_THAT(
        fault("\"10 kg\"", std::string("\"10 kg\"\n") + share),
        AllOf(StartsWith("r.toml:5:"), HasSubstr("accepted: a share such as \"75 %\", ")))
        << share;
  }
}

TEST(ReadRecipe, AllMistakesAreToldTogetherInTheOrderOfTheText) {
  std::string text = changed(least, "\"10 kg\"", "10");
  text = changed(text, "\"ale\"", "\"aile\"");
  text = changed(text, "strength = \"43 %vol\"", "strenght = \"43 %vol\"");
  const std::vector<std::string> all = faults(text);
  ASSERT_EQ(all.size(), 4U) << ::testing::PrintToString(all);
  EXPECT_THAT(all[0], StartsWith("r.toml:4:8: mash_bill[1].mass is \"10\""));
  EXPECT_THAT(all[1], StartsWith("r.toml:13:9: ferment.yeast is \"aile\""));
  EXPECT_THAT(all[2], StartsWith("r.toml:18:1: bottle.strength is missing"));
  EXPECT_THAT(all[3], StartsWith("r.toml:19:1: bottle.strenght is not known here"));
}

TEST(ReadRecipe, ABillWithoutALineIsRefused) {
  EXPECT_THAT(faults("name = \"empty\"").front(),
              HasSubstr("mash_bill is missing; accepted: at least 1 [[mash_bill]]"));
}

}  // namespace
}  // namespace lynearm::recipe
