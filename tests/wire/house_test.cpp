#include "wire/house.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>

#include "journal/book.hpp"
#include "journal/fold.hpp"
#include "wire/entry.hpp"

namespace lynearm::wire {
namespace {

using namespace journal;
using nlohmann::json;

class HouseJson : public testing::Test {
 protected:
  Book book;
  json batch() {
    house = fold(book.entries);
    return json::parse(batch_json(house, house.batches.at(*book.batch)));
  }
  HouseState house;
};

TEST_F(HouseJson, AnEmptyHouseIsEmptyLists) {
  EXPECT_EQ(house_json({}),
            R"({"batches":[],"airs":[],"cleanings":[],"notes":[],"puzzles":[]})");
  EXPECT_EQ(lots_json({}), R"({"lots":[]})");
}

TEST_F(HouseJson, RowsNameTheirEntryAndWhatIsNotKnownIsLeftOut) {
  const Id begun = book.tell(0, BatchBegun{"Tern 8", "", true});
  const Id read = book.tell(9, FermentRead{{}, units::Temperature::celsius(27.5)});
  const json state = batch();
  EXPECT_EQ(state["name"], "Tern 8");
  EXPECT_EQ(state["invented"], true);
  EXPECT_FALSE(state.contains("remark"));
  EXPECT_FALSE(state.contains("plan"));
  EXPECT_EQ(state["begun"]["entry"], print(begun));
  const json row = state["ferment"]["readings"][0];
  EXPECT_EQ(row["entry"], print(read));
  EXPECT_EQ(row["at"], "2026-11-26T06:09:00.000Z");
  EXPECT_EQ(row["temperature_C"], 27.5);
  EXPECT_FALSE(row.contains("specific_gravity"));
  EXPECT_EQ(json::parse(house_json(house))["batches"][0]["pitched"], false);
}

TEST_F(HouseJson, AnAmountThatCannotBeIsAskedOfItsBatchAndCountedInTheHouse) {
  book.tell(0, BatchBegun{"Tern 8", "", true});
  book.tell(1, Pitched{litres_at_20C(52), gravity_at_20C(1.06), "", {}});
  const Id read = book.tell(9, FermentRead{gravity_at_20C(1.005), {}});
  const Id racked = book.tell(10, Racked{litres_at_20C(62), {}});
  const json state = batch();
  ASSERT_EQ(state["puzzles"].size(), 1U);
  EXPECT_EQ(state["puzzles"][0]["entry"], print(racked));
  EXPECT_EQ(state["puzzles"][0]["why"],
            "The racking tells 62.0 L of clear wash; 52.0 L were pitched.");
  EXPECT_EQ(state["ferment"]["wash"]["entry"], print(read))
      << "by which gravity it is reckoned";
  EXPECT_EQ(json::parse(house_json(house))["batches"][0]["puzzles"], 1);
}

TEST_F(HouseJson, WhatTheKitAsksIsAskedBesidesOnceOfAnEntryAndCountedInTheHouse) {
  book.tell(0, BatchBegun{"Tern 8", "", true});
  const Id pitched = book.tell(1, Pitched{litres_at_20C(52), gravity_at_20C(1.06), "", {}});
  const Id racked = book.tell(10, Racked{litres_at_20C(62), {}});
  house = fold(book.entries);
  ByKit by_kit;
  by_kit.asked = {{pitched, "52.0 L were pitched; the fermenter holds 5.0 L to its brim."},
                  {racked, "Asked already."}};
  const json of_batch =
      json::parse(batch_json(house, house.batches.at(*book.batch), nullptr, Glass{}, by_kit));
  ASSERT_EQ(of_batch["puzzles"].size(), 2U);
  EXPECT_EQ(of_batch["puzzles"][0]["entry"], print(racked));
  EXPECT_NE(of_batch["puzzles"][0]["why"], "Asked already.");
  EXPECT_EQ(of_batch["puzzles"][1]["entry"], print(pitched));
  EXPECT_EQ(of_batch["puzzles"][1]["why"], by_kit.asked[0].why);
  const json of_house =
      json::parse(house_json(house, {}, no_glass, {{*book.batch, by_kit.asked}}));
  EXPECT_EQ(of_house["batches"][0]["puzzles"], 2);
}

TEST_F(HouseJson, TheGasIsToldAsFarAsItIsKnown) {
  book.tell(0, BatchBegun{"Tern 8", "", true});
  book.tell(1, Pitched{litres_at_20C(52), gravity_at_20C(1.06), "", {}});
  EXPECT_FALSE(batch()["ferment"].contains("carbon_dioxide"));
  const auto told = [&](const plan::GasPitched& gas) {
    ByKit by_kit;
    by_kit.gas = gas;
    return json::parse(batch_json(house, house.batches.at(*book.batch), nullptr, Glass{},
                                  by_kit))["ferment"]["carbon_dioxide"];
  };
  plan::GasPitched gas;
  gas.gas.mass = units::Mass::kilograms(4);
  gas.gas.volume = units::Volume::litres(2186);
  gas.no_pace = "its pace does not come out";
  EXPECT_EQ(told(gas), json::parse(R"({"standing":"gives","mass_kg":4,"volume_L":2186,)"
                                   R"("no_pace":"its pace does not come out"})"));
  gas.no_pace = "";
  gas.gas.peak =
      plan::GasPeak{units::VolumeFlow::litres_per_hour(50), units::Duration::hours(30),
                    units::VolumeFlow::litres_per_hour(10'000), units::Share::fraction(0.25)};
  gas.fed = units::Mass::kilograms(3);
  gas.room = units::Volume::cubic_metres(30);
  gas.standing = plan::GasStanding::racked;
  const json all = told(gas);
  EXPECT_EQ(all["standing"], "racked");
  EXPECT_EQ(all["peak_L_per_h"], 50);
  EXPECT_EQ(all["peak_at_h"], 30);
  EXPECT_EQ(all["fresh_air_m3_per_h"], 10);
  EXPECT_EQ(all["room_at_peak_fraction"], 0.25);
  EXPECT_EQ(all["fed_kg"], 3);
  EXPECT_EQ(all["room_m3"], 30);
  EXPECT_FALSE(all.contains("no_pace"));
  gas.standing = plan::GasStanding::stands;
  EXPECT_EQ(told(gas)["standing"], "stands");
}

TEST_F(HouseJson, WashThatWaitsIsToldWithIt) {
  book.tell(0, BatchBegun{"Tern 8", "", true});
  book.tell(1, Pitched{litres_at_20C(52), gravity_at_20C(1.06), "", {}});
  book.tell(9, FermentRead{gravity_at_20C(0.996), {}});
  book.tell(10, Racked{litres_at_20C(50), {}});
  RunBegun begun;
  begun.kind = RunKind::strip;
  begun.charge = litres_at_20C(20);
  begun.wash = units::Volume::litres(20);
  book.tell(20, begun);
  const json wash = batch()["ferment"]["wash"];
  EXPECT_NEAR(wash["waiting"]["volume_L_20C"].get<double>(), 30.0, 1e-9);
  EXPECT_NEAR(wash["in_stills"]["volume_L_20C"].get<double>(), 20.0, 1e-9);
  EXPECT_NEAR(wash["waiting"]["pure_alcohol_L_20C"].get<double>() +
                  wash["in_stills"]["pure_alcohol_L_20C"].get<double>(),
              wash["pure_alcohol_L_20C"].get<double>(), 1e-6);
}

TEST_F(HouseJson, WhatIsAskedGoesByTheGlassOfTheBatch) {
  const Id brought = book.tell(
      0, LotBrought{"hearts", LotKind::spirit, litres_at_20C(4), percent_at_20C(54.6)});
  book.tell(1, Bottled{{{brought, LotKind::spirit}, units::Volume::litres(4)},
                       7,
                       units::Volume::litres(0.5),
                       units::VolumeStrength::percent(52.0)});
  house = fold(book.entries);
  const auto asked_on = [&](double sd) {
    Glass glass;
    glass.strength_sd = units::VolumeStrength::percent(sd);
    const json of_house =
        json::parse(house_json(house, {}, [&](const auto&) { return glass; }));
    const json of_batch =
        json::parse(batch_json(house, house.batches.at(*book.batch), nullptr, glass));
    EXPECT_EQ(of_house["batches"][0]["puzzles"], of_batch["puzzles"].size());
    return of_batch["puzzles"].size();
  };
  EXPECT_EQ(asked_on(0.3), 1U);
  EXPECT_EQ(asked_on(0.8), 0U);
}

TEST_F(HouseJson, WhatIsOnlyKeptIsShownAsItWasTold) {
  book.tell(1, Added{"malt", units::Mass::grams(250), {}}, Stage::mash);
  book.tell(2, MashChecked{IodineColour::reddish, gravity_at_20C(1.06)});
  book.tell(3, AirRead{{}, units::Temperature::celsius(99.2)});
  book.tell(4, CopperCleaned{"spirit still", "citric acid", ""});
  const json state = batch();
  EXPECT_EQ(state["additions"][0]["what"], "malt");
  EXPECT_EQ(state["additions"][0]["mass_kg"], 0.25);
  EXPECT_EQ(state["additions"][0]["stage"], "mash");
  EXPECT_EQ(state["mash"]["checks"][0]["iodine"], "reddish");
  EXPECT_NEAR(state["mash"]["checks"][0]["specific_gravity"].get<double>(), 1.06, 1e-9);
  EXPECT_EQ(state["airs"][0]["boiling_water_C"], 99.2);
  EXPECT_EQ(json::parse(house_json(house))["cleanings"][0]["with"], "citric acid");
}

TEST_F(HouseJson, AReadingBesideTheStillKeepsItsKeysAndCountsItsMinutes) {
  RunBegun begun;
  begun.charge = litres_at_20C(20);
  begun.strength = percent_at_20C(27);
  const Id run = book.tell(10, begun);
  RunRead read;
  read.run = run;
  read.reading.spout = {73.1, spirit::Scale::percent_vol};
  read.reading.head_temperature = units::Temperature::celsius(88.1);
  book.tell(40, read);
  const json row = batch()["runs"][0];
  EXPECT_EQ(row["run"], "spirit run");
  EXPECT_EQ(row["standing"], "running");
  EXPECT_NEAR(row["charge"]["pure_alcohol_L_20C"].get<double>(), 5.4, 1e-9);
  const json reading = row["readings"][0];
  EXPECT_EQ(reading["minutes"], 30.0);
  EXPECT_EQ(reading["head_temperature_C"], 88.1);
  EXPECT_EQ(reading["spout"], json::parse(R"({"reading":73.1,"scale":"percent_vol"})"));
  EXPECT_FALSE(reading.contains("run"));
}

TEST_F(HouseJson, AReadingIsWrittenAsItsEntryTellsIt) {
  using nlohmann::ordered_json;
  RunBegun begun;
  begun.charge = litres_at_20C(20);
  RunRead read;
  read.run = book.tell(10, begun);
  still::Reading& all = read.reading;
  all.power = units::Power::watts(2000);
  all.pot_temperature = units::Temperature::celsius(1.0 / 3.0);
  all.head_temperature = units::Temperature::celsius(-5);
  all.spout = {73.1, spirit::Scale::percent_vol};
  all.spout_temperature = units::Temperature::celsius(18.5);
  all.collected = units::Volume::millilitres(1e6);
  all.coolant_in = units::Temperature::celsius(11);
  all.coolant_out = units::Temperature::celsius(42.25);
  all.coolant_flow = units::VolumeFlow::litres_per_minute(1e-7);
  all.event = still::Event::stopped;
  all.note = "\"hält\"\\";
  const Id told = book.tell(40, read);
  book.last().who = "the \"still\" hand";
  // The entry's own words, after whose they are and without the run that they stand in.
  ordered_json expected{{"entry", print(told)},
                        {"at", print(book.last().at)},
                        {"who", book.last().who},
                        {"minutes", 30.0}};
  const ordered_json entry = ordered_json::parse(entry_json(book.last()));
  for (const auto& [name, value] : entry["body"].items()) {
    if (name != "run") expected[name] = value;
  }
  EXPECT_EQ(expected.size(), 15U);
  house = fold(book.entries);
  const std::string text = batch_json(house, house.batches.at(*book.batch));
  EXPECT_NE(text.find("\"readings\":[" + expected.dump() + "],\"jars\":[]"), std::string::npos)
      << text;
}

TEST_F(HouseJson, AJarTellsWhatWasPouredAndWhatIsLeft) {
  RunBegun begun;
  begun.charge = litres_at_20C(20);
  const Id run = book.tell(10, begun);
  book.tell(20, JarGauged{run, 4, litres_at_20C(0.5), percent_at_20C(70)});
  JarPoured poured;
  poured.jar = 4;
  poured.hearts = units::Volume::millilitres(400);
  const Id cut = book.tell(30, JarsAllotted{run, {poured}});
  const json state = batch();
  const json jar = state["runs"][0]["jars"][0];
  EXPECT_EQ(jar["jar"], 4);
  EXPECT_EQ(jar["poured"]["hearts_mL_20C"], 400.0);
  EXPECT_NEAR(jar["left"]["volume_L_20C"].get<double>(), 0.1, 1e-9);
  EXPECT_EQ(state["lots"][0]["lot"]["entry"], print(cut));
  EXPECT_EQ(state["lots"][0]["lot"]["kind"], "hearts");
  EXPECT_NEAR(state["lots"][0]["left"]["strength_percent_vol"].get<double>(), 70.0, 1e-9);
}

TEST_F(HouseJson, ALotCarriesItsReasonsAndIsToldInProofGallonsAsWell) {
  book.tell(
      5, LotBrought{"feints of before", LotKind::feints, litres_at_20C(2), percent_at_20C(60)});
  house = fold(book.entries);
  const json lot = json::parse(lots_json(house))["lots"][0];
  // 27 CFR 30.11: a litre of pure alcohol at 20 °C is 0.525817 proof gallons (account.hpp).
  EXPECT_NEAR(lot["left"]["proof_gallons"].get<double>(), 1.2 * 0.525817, 2e-6);
  EXPECT_EQ(lot["why"]["inputs"][0]["name"], "Made, as gauged");
  EXPECT_EQ(lot["why"]["inputs"][0]["value"], "2.000 L at 60.0 %vol, 1.200 L of pure alcohol");
  for (const char* part : {"what", "model", "source", "band"}) {
    EXPECT_FALSE(lot["why"][part].get<std::string>().empty()) << part;
  }
}

// Staves give extract, so an alcoholmeter reads low: what seems lost is then no mixture.
TEST_F(HouseJson, ALotOffItsWoodIsToldThoughWhatTheWoodTookIsNoMixture) {
  const Id brought = book.tell(
      5, LotBrought{"spirit of before", LotKind::spirit, litres_at_20C(2), percent_at_20C(62)});
  WoodFilled filled;
  filled.part = {{brought, LotKind::spirit}, units::Volume::litres(2)};
  filled.in = "staves";
  filled.species = "american-oak";
  filled.toast = "medium";
  filled.staves = 1;
  const Id laid = book.tell(6, filled);
  book.tell(7, WoodEmptied{{laid, LotKind::spirit}, litres_at_20C(1.98), percent_at_20C(61.5)});
  house = fold(book.entries);
  const journal::LotState* const lot = lot_named(house, {laid, LotKind::spirit});
  ASSERT_NE(lot, nullptr);
  EXPECT_TRUE(std::any_of(lot->uses.begin(), lot->uses.end(), [](const journal::LotUse& use) {
    return use.lot.water < units::Mass{} && use.lot.mass() > units::Mass{};
  }));
  EXPECT_FALSE(json::parse(lots_json(house))["lots"].empty());
}

TEST_F(HouseJson, ALotSaysWhetherItsMakingWasReckonedOrGauged) {
  const Id brought = book.tell(
      5, LotBrought{"spirit of before", LotKind::spirit, litres_at_20C(2), percent_at_20C(62)});
  WoodFilled filled;
  filled.part = {{brought, LotKind::spirit}, units::Volume::litres(2)};
  filled.in = "staves";
  const Id laid = book.tell(6, filled);
  const Id off = book.tell(
      7, WoodEmptied{{laid, LotKind::spirit}, litres_at_20C(1.98), percent_at_20C(61.5)});
  journal::LotMade reduced;
  reduced.name = "reduced";
  reduced.parts = {{{off, LotKind::spirit}, units::Volume::litres(1.98)}};
  reduced.water = units::Mass::kilograms(0.7);
  reduced.volume = litres_at_20C(2.64);
  reduced.strength = percent_at_20C(45.9);
  reduced.residue = units::MassConcentration::grams_per_litre(1.5);
  book.tell(8, reduced);
  house = fold(book.entries);
  const json lots = json::parse(lots_json(house))["lots"];
  ASSERT_EQ(lots.size(), 4U);
  EXPECT_EQ(lots[1]["why"]["inputs"][0]["name"], "Made, reckoned from its parts");
  EXPECT_FALSE(lots[1].contains("gauged"));
  EXPECT_EQ(lots[2]["why"]["inputs"][0]["name"], "Made, as gauged");
  EXPECT_FALSE(lots[2].contains("reckoned"));
  EXPECT_FALSE(lots[2].contains("residue_g_L"));
  EXPECT_EQ(lots[3]["reckoned"], true);
  EXPECT_EQ(lots[3]["why"]["inputs"][1]["name"], "Gauged when it was made");
  EXPECT_NEAR(lots[3]["gauged"]["volume_L_20C"].get<double>(), 2.64, 0.005);
  EXPECT_EQ(lots[3]["gauged"], lots[3]["left"]);
  EXPECT_NEAR(lots[3]["residue_g_L"].get<double>(), 1.5, 1e-9);
}

// Two samples were both named "sample", and a page that lists inputs by their names broke.
TEST_F(HouseJson, InputsOfAReasonAreToldApartByTheirNames) {
  const Id brought = book.tell(
      5, LotBrought{"spirit of before", LotKind::spirit, litres_at_20C(2), percent_at_20C(60)});
  for (const double at : {6.0, 7.0}) {
    book.tell(
        at, LotTaken{{brought, LotKind::spirit}, units::Volume::litres(0.1), Gone::sample, ""});
  }
  house = fold(book.entries);
  const json inputs = json::parse(lots_json(house))["lots"][0]["why"]["inputs"];
  ASSERT_EQ(inputs.size(), 3U);
  EXPECT_EQ(inputs[1]["name"], "sample");
  EXPECT_EQ(inputs[2]["name"], "sample (2)");
}

TEST_F(HouseJson, AStepOfTheAccountCarriesItsReasons) {
  RunBegun begun;
  begun.kind = RunKind::strip;
  begun.charge = litres_at_20C(20);
  begun.strength = percent_at_20C(9);
  const Id run = book.tell(10, begun);
  book.tell(300, RunEnded{run, litres_at_20C(5), percent_at_20C(33), {}, {}});
  const json step = batch()["account"][0];
  EXPECT_NEAR(step["in"]["proof_gallons"].get<double>(), 1.8 * 0.525817, 2e-6);
  EXPECT_NEAR(step["unaccounted"]["proof_gallons"].get<double>(), 0.15 * 0.525817, 2e-5);
  const auto same = [](const json& pure) {
    return pure["standard_proof_gallons"].get<double>() / pure["standard_L_20C"].get<double>();
  };
  EXPECT_NEAR(same(step["in"]), 0.525817, 1e-6);
  EXPECT_NEAR(same(step["unaccounted"]), 0.525817, 1e-6);
  EXPECT_EQ(step["why"]["inputs"][0]["value"], "1.800 L");
  EXPECT_EQ(step["why"]["inputs"][1]["value"], "1.650 L");
}

// Bands rested on 0.3 %vol whatever glass the house has, and the reason named none.
TEST_F(HouseJson, BandsOfTheAccountRestOnTheGlassOfTheKitAndSayWhich) {
  RunBegun begun;
  begun.kind = RunKind::strip;
  begun.charge = litres_at_20C(20);
  begun.strength = percent_at_20C(9);
  const Id run = book.tell(10, begun);
  book.tell(300, RunEnded{run, litres_at_20C(5), percent_at_20C(33), {}, {}});
  house = fold(book.entries);
  const auto step_on = [&](const journal::Glass& glass) {
    return json::parse(batch_json(house, house.batches.at(*book.batch), nullptr, glass));
  };
  plan::Instruments kit;
  kit.alcoholmeter_class = plan::AlcoholmeterClass::two;
  kit.certificate = "no. 12";
  const json fine = step_on(glass_of(kit));
  const json unknown = step_on({});
  const auto sd = [](const json& batch) {
    return batch["account"][0]["in"]["standard_L_20C"].get<double>();
  };
  EXPECT_NEAR(sd(unknown), std::hypot(0.01 * 1.8, 20 * 0.003), 1e-9);
  EXPECT_LT(sd(fine), sd(unknown));
  const auto band = [](const json& batch) {
    return batch["account"][0]["why"]["band"].get<std::string>();
  };
  EXPECT_NE(band(fine).find("class II of OIML R 44, division 0.2 %, no. 12: to 0.08 %vol"),
            std::string::npos)
      << band(fine);
  EXPECT_NE(band(unknown).find("no kit says which it was"), std::string::npos);
  // A lot that was gauged says the same.
  const json lot = fine["lots"][0];
  EXPECT_NE(lot["why"]["band"].get<std::string>().find("no. 12"), std::string::npos);
}

TEST_F(HouseJson, WhatIsNextIsToldWithItsTimeWhereThereIsOne) {
  book.tell(0, BatchBegun{"Tern 9", "", true});
  house = fold(book.entries);
  NextStep next{.what = "Rack the wash", .stage = Stage::ferment, .since = minute(3)};
  EXPECT_EQ(json::parse(batch_json(house, house.batches.at(*book.batch), &next))["next"],
            json::parse(R"({"what":"Rack the wash","stage":"ferment",)"
                        R"("since":"2026-11-26T06:03:00.000Z","standing":"waits"})"));
  next.due = minute(60);
  next.late_after = minute(120);
  next.due_by = "the plan";
  const json told = json::parse(house_json(house, {{*book.batch, next}}))["batches"][0]["next"];
  EXPECT_EQ(told["due"], "2026-11-26T07:00:00.000Z");
  EXPECT_EQ(told["late_after"], "2026-11-26T08:00:00.000Z");
  EXPECT_EQ(told["due_by"], "the plan");
}

}  // namespace
}  // namespace lynearm::wire
