#include "recipe/read_kit.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "mash/cooling.hpp"
#include "mash/heat.hpp"
#include "plan/process.hpp"
#include "plan/still_setting.hpp"
#include "recipe/read_texts.hpp"
#include "recipe/read_whole.hpp"
#include "vapour/atmosphere.hpp"

namespace lynearm::recipe {
namespace {

using namespace units;
using ::testing::AllOf;
using ::testing::HasSubstr;
using ::testing::StartsWith;

// The least a kit must say, a key a line.
constexpr const char* least = R"(name = "least"
[place]
ambient = "20 °C"
[liquor]
cold = "12 °C"
hot = "85 °C"
[[vessel]]
name = "tub"
total = "50 L"
wall_mass = "5 kg"
[boiler]
total = "20 L"
wall_mass = "6 kg"
power = "2 kW"
[condenser]
greatest_flow = "3 L/min"
)";

plan::Kit reading(const std::string& text) { return read_kit(text, "k.toml"); }
std::vector<std::string> faults(const std::string& text) {
  return sentences([&] { return reading(text); });
}
std::string fault(const std::string& from, const std::string& to) {
  return only(faults(changed(least, from, to)));
}
plan::Kit with(const std::string& from, const std::string& to) {
  return reading(changed(least, from, to));
}

TEST(ReadKit, ReadsEveryKey) {
  const plan::Kit kit = reading(whole_kit);
  EXPECT_EQ(kit.name, "Whole house");
  EXPECT_EQ(kit.place.pressure, vapour::standard_pressure(Length::metres(120)));
  EXPECT_EQ(kit.place.ambient, Temperature::celsius(17));
  EXPECT_EQ(kit.place.ferment_room, Volume::cubic_metres(60));
  EXPECT_EQ(kit.place.air_changes_per_hour, 0.7);
  EXPECT_EQ(kit.place.humidity, Share::percent(72));
  EXPECT_EQ(kit.liquor.cold, Temperature::celsius(11));
  EXPECT_EQ(kit.liquor.hot, Temperature::celsius(88));
  ASSERT_EQ(kit.vessels.size(), 3U);
  const plan::Vessel& pot = kit.vessels[0];
  EXPECT_EQ(pot.name, "boiling pot");
  EXPECT_EQ(pot.total, Volume::litres(60));
  EXPECT_EQ(pot.working, Volume::litres(53));
  EXPECT_EQ(pot.wall, plan::Material::copper);
  EXPECT_EQ(pot.wall_mass, Mass::kilograms(8));
  EXPECT_EQ(pot.loss_lid_on, HeatLoss::watts_per_kelvin(8));
  EXPECT_EQ(pot.loss_open, HeatLoss::watts_per_kelvin(17));
  EXPECT_EQ(pot.dead_volume, Volume::litres(0.4));
  EXPECT_EQ(pot.heat, Power::kilowatts(6));
  EXPECT_EQ(pot.heat_efficiency, Share::percent(55));
  EXPECT_TRUE(pot.heated_from_below);
  EXPECT_EQ(pot.cooling_coil, HeatLoss::watts_per_kelvin(70));
  const plan::Boiler& boiler = kit.still.boiler;
  EXPECT_EQ(boiler.total, Volume::litres(45));
  EXPECT_EQ(boiler.wash_fill, Share::percent(66));
  EXPECT_EQ(boiler.grain_fill, Share::percent(55));
  EXPECT_EQ(boiler.spirit_fill, Share::percent(71));
  EXPECT_EQ(boiler.wall, plan::Material::stainless_steel);
  EXPECT_EQ(boiler.wall_mass, Mass::kilograms(14));
  EXPECT_EQ(boiler.loss, HeatLoss::watts_per_kelvin(7));
  EXPECT_EQ(boiler.power, Power::kilowatts(4));
  EXPECT_EQ(boiler.heat_efficiency, Share::percent(97));
  EXPECT_EQ(boiler.heat, plan::BoilerHeat::element);
  EXPECT_TRUE(boiler.power_adjustable);
  EXPECT_EQ(boiler.element_covered_above, Volume::litres(6));
  EXPECT_EQ(kit.still.head_reflux_strip.median, Share::percent(3.5));
  EXPECT_EQ(kit.still.head_reflux_strip.half_width_80, Share::percent(1));
  EXPECT_EQ(kit.still.head_reflux_spirit.median, Share::percent(11));
  EXPECT_FALSE(kit.still.head_loss);
  EXPECT_EQ(kit.still.head_mass, Mass::kilograms(2.5));
  EXPECT_EQ(kit.still.plates, 2);
  EXPECT_EQ(kit.still.plate_efficiency, Share::percent(55));
  EXPECT_EQ(kit.still.coil_holds, Volume::millilitres(60));
  EXPECT_EQ(kit.still.parrot_holds, Volume::millilitres(150));
  EXPECT_EQ(kit.still.spirit_power, Share::percent(55));
  EXPECT_EQ(kit.still.coolant_inlet, Temperature::celsius(10));
  EXPECT_EQ(kit.still.greatest_coolant_flow, VolumeFlow::litres_per_minute(4));
  ASSERT_EQ(kit.casks.size(), 1U);
  EXPECT_EQ(kit.casks[0].name, "little cask");
  EXPECT_EQ(kit.casks[0].volume, Volume::litres(10));
  EXPECT_EQ(kit.casks[0].stave_thickness, Length::millimetres(18));
  EXPECT_TRUE(kit.casks[0].used);
  ASSERT_TRUE(kit.staves);
  EXPECT_EQ(kit.staves->length, Length::millimetres(300));
  EXPECT_EQ(kit.staves->width, Length::millimetres(25));
  EXPECT_EQ(kit.staves->thickness, Length::millimetres(10));
  EXPECT_EQ(kit.staves->count, 40);
  EXPECT_EQ(kit.instruments.thermometer, TemperatureChange::kelvins(0.4));
  EXPECT_EQ(kit.instruments.alcoholmeter, VolumeStrength::percent(0.3));
}

TEST(ReadKit, ReadsEveryConstantWithItsSpread) {
  struct Row {
    const Spread<Share>* read;
    double percent, half_width_percent;
  };
  const plan::Constants c = reading(whole_kit).constants;
  for (const Row& row : std::initializer_list<Row>{{&c.conversion, 96, 2},
                                                   {&c.drained_moisture, 79, 3},
                                                   {&c.squeezed_moisture, 71, 4},
                                                   {&c.sparge_mixing, 88, 5},
                                                   {&c.fermentable_factor, 99, 6},
                                                   {&c.alcohol_yield, 91, 1.5},
                                                   {&c.ferment_vigour, 110, 25},
                                                   {&c.lees, 2.5, 0.5},
                                                   {&c.still_loss, 1.2, 0.4},
                                                   {&c.transfer_loss, 0.4, 0.1},
                                                   {&c.heat_loss_factor, 105, 7},
                                                   {&c.evaporation_factor, 110, 8}}) {
    EXPECT_EQ(row.read->median, Share::percent(row.percent)) << row.percent;
    EXPECT_EQ(row.read->half_width_80, Share::percent(row.half_width_percent)) << row.percent;
  }
}

TEST(ReadKit, WhatIsLeftOutIsEstimatedOrTheUsual) {
  const plan::Kit kit = reading(least);
  const plan::ProcessDefaults& usual = plan::process_defaults();
  EXPECT_EQ(kit.place.pressure, vapour::standard_pressure(Length{}));
  EXPECT_FALSE(kit.place.ferment_room);
  const plan::Vessel& tub = kit.vessels[0];
  EXPECT_EQ(tub.working, Volume::litres(45));
  EXPECT_EQ(tub.loss_lid_on, mash::bare_heat_loss(Volume::litres(50)));
  EXPECT_DOUBLE_EQ(tub.loss_open / tub.loss_lid_on, 2.5);
  EXPECT_EQ(tub.heat, Power{});
  EXPECT_EQ(tub.heat_efficiency, Share::percent(85));
  EXPECT_EQ(kit.still.boiler.wall, plan::Material::copper);
  EXPECT_EQ(kit.still.boiler.wash_fill, Share::percent(67.5));
  EXPECT_EQ(kit.still.boiler.loss, mash::bare_heat_loss(Volume::litres(20)));
  EXPECT_EQ(kit.still.coolant_inlet, kit.liquor.cold);
  ASSERT_TRUE(kit.still.head_loss);
  EXPECT_EQ(kit.still.head_loss->median, plan::estimated_head_loss(Volume::litres(20)).median);
  EXPECT_EQ(kit.still.head_cooling, Power{});
  EXPECT_EQ(kit.still.head_mass, Mass{});
  EXPECT_EQ(kit.still.plates, 0);
  EXPECT_EQ(kit.still.coil_holds, Volume{});
  EXPECT_EQ(kit.still.parrot_holds, Volume{});
  EXPECT_EQ(kit.constants.conversion.median, usual.constants.conversion.median);
  EXPECT_EQ(kit.constants.lees.half_width_80, usual.constants.lees.half_width_80);
  EXPECT_TRUE(kit.casks.empty());
  EXPECT_FALSE(kit.staves);
  EXPECT_EQ(kit.instruments.thermometer, TemperatureChange::kelvins(0.5));
}

TEST(ReadKit, ThePressureIsStatedOrThatOfTheAltitude) {
  EXPECT_EQ(with("[place]", "[place]\npressure = \"985 hPa\"").place.pressure,
            Pressure::hectopascals(985));
  EXPECT_EQ(with("[place]", "[place]\naltitude = \"500 m\"").place.pressure,
            vapour::standard_pressure(Length::metres(500)));
  EXPECT_EQ(
      fault("[place]", "[place]\naltitude = \"500 m\"\npressure = \"985 hPa\""),
      "k.toml:4:12: place.pressure is \"985 hPa\"; accepted: either altitude or pressure, "
      "not both; neither is sea level.");
}

plan::Still with_head(const std::string& lines) {
  return reading(std::string(least) + "[head]\n" + lines).still;
}

TEST(ReadKit, AHeadWorksByItsLossOrByTwoShares) {
  const plan::Still by_loss = with_head("loss = \"2.2 W/K +/- 0.3 W/K\"\ncooling = \"80 W\"");
  ASSERT_TRUE(by_loss.head_loss);
  EXPECT_EQ(by_loss.head_loss->median, HeatLoss::watts_per_kelvin(2.2));
  EXPECT_EQ(by_loss.head_loss->half_width_80, HeatLoss::watts_per_kelvin(0.3));
  EXPECT_EQ(by_loss.head_cooling, Power::watts(80));
  // Stated without a spread: to a fifth.
  EXPECT_NEAR(with_head("loss = \"2.2 W/K\"").head_loss->half_width_80.watts_per_kelvin(), 0.44,
              1e-12);
  // One share is enough to say that they are fixed; the other is then the usual one.
  const plan::Still by_share = with_head("reflux_spirit = \"12 %\"");
  EXPECT_FALSE(by_share.head_loss);
  EXPECT_EQ(by_share.head_reflux_spirit.median, Share::percent(12));
  EXPECT_EQ(by_share.head_reflux_strip.median,
            plan::process_defaults().head_reflux_strip.median);
  // A cooled head whose loss is not known keeps the estimate.
  EXPECT_TRUE(with_head("cooling = \"80 W\"").head_loss);
}

TEST(ReadKit, ALossAndSharesTogetherAreRefused) {
  const auto told = [](const std::string& lines) {
    return faults(std::string(least) + "[head]\n" + lines);
  };
  EXPECT_EQ(only(told("loss = \"2 W/K\"\nreflux_strip = \"3 %\"")),
            "k.toml:19:16: head.reflux_strip is \"3 %\"; accepted: either loss, by which a "
            "gentler fire sends more back, or fixed shares, not both.");
  EXPECT_EQ(told("loss = \"2 W/K\"\nreflux_strip = \"3 %\"\nreflux_spirit = \"9 %\"").size(),
            2U);
  EXPECT_EQ(
      only(told("reflux_strip = \"3 %\"\ncooling = \"80 W\"")),
      "k.toml:19:11: head.cooling is \"80 W\"; accepted: cooling beside loss, or neither: "
      "fixed shares already say what runs back.");
  EXPECT_THAT(only(told("loss = \"2 kW\"")), HasSubstr("(\"kW\" is a unit of power)"));
  EXPECT_THAT(only(told("loss = 2")),
              HasSubstr("head.loss is \"2\"; accepted: a heat loss in quotes with its unit"));
  EXPECT_THAT(only(told("wall_mass = \"7 kg\"")),
              HasSubstr("head.wall_mass is \"7 kg\"; accepted: at most boiler.wall_mass, 6 kg, "
                        "which counts the head in."));
  EXPECT_THAT(only(told("plates = 13")), HasSubstr("from 0 to 12."));
  EXPECT_THAT(only(told("plate_efficiency = \"60 %\"")),
              HasSubstr("accepted: plates of 1 or more beside it."));
}

TEST(ReadKit, ACoolingTestGivesTheHeatLoss) {
  const plan::Kit kit = with("wall_mass = \"5 kg\"",
                             "wall_mass = \"5 kg\"\ncooling_test = {start = \"80 °C\", end = "
                             "\"70 °C\", time = \"2 h\", contents = \"40 L\"}");
  const plan::Vessel& tub = kit.vessels[0];
  const HeatCapacity body =
      mash::heat_capacity(mash::water(Volume::litres(40), Temperature::celsius(80))) +
      tub.wall_heat_capacity();
  // Held against the forward law: so tested, it cools as it did in the test.
  const mash::Cooling cooling{tub.loss_lid_on, kit.place.ambient, {}, {}};
  EXPECT_NEAR(
      mash::temperature_after(Temperature::celsius(80), Duration::hours(2), body, cooling)
          .celsius(),
      70.0, 1e-9);
}

TEST(ReadKit, ACoolingTestMustCoolTowardsTheRoom) {
  const auto tested = [](const std::string& test) {
    return fault("wall_mass = \"5 kg\"", "wall_mass = \"5 kg\"\ncooling_test = {" + test + "}");
  };
  EXPECT_EQ(tested("start = \"80 °C\", end = \"85 °C\", time = \"2 h\", contents = \"40 L\""),
            "k.toml:11:40: vessel[1].cooling_test.end is \"85 °C\"; accepted: between "
            "place.ambient, 20 °C, and start, 80 °C.");
  EXPECT_THAT(tested("start = \"80 °C\", end = \"15 °C\", time = \"2 h\", contents = \"40 L\""),
              HasSubstr("between place.ambient, 20 °C, and start, 80 °C"));
  EXPECT_THAT(
      tested("start = \"80 °C\", end = \"70 °C\", time = \"2 h\", contents = \"60 L\""),
      HasSubstr("cooling_test.contents is \"60 L\"; accepted: at most the vessel's total, "
                "50 L."));
  EXPECT_THAT(tested("start = \"80 °C\", end = \"70 °C\", contents = \"40 L\""),
              HasSubstr("vessel[1].cooling_test.time is missing; accepted: a duration"));
  EXPECT_THAT(
      fault("wall_mass = \"5 kg\"",
            "wall_mass = \"5 kg\"\nloss_lid_on = \"4 W/K\"\ncooling_test = {start = \"80 "
            "°C\", end = \"70 °C\", time = \"2 h\", contents = \"40 L\"}"),
      HasSubstr("vessel[1].loss_lid_on is \"4 W/K\"; accepted: either loss_lid_on or a "
                "cooling_test, not both."));
}

TEST(ReadKit, TheHouseStatesItsOwnConstantsWithOrWithoutASpread) {
  const plan::Kit kit = reading(std::string(least) +
                                "[constants]\nconversion = \"94 % +/- 2 %\"\nlees = \"4 %\"\n");
  EXPECT_EQ(kit.constants.conversion.median, Share::percent(94));
  EXPECT_EQ(kit.constants.conversion.half_width_80, Share::percent(2));
  EXPECT_EQ(kit.constants.lees.median, Share::percent(4));
  EXPECT_EQ(kit.constants.lees.half_width_80,
            plan::process_defaults().constants.lees.half_width_80);
  EXPECT_EQ(
      only(faults(std::string(least) + "[constants]\nalcohol_yield = \"107 %\"")),
      "k.toml:18:17: constants.alcohol_yield is \"107 %\"; accepted: a share such as \"75 "
      "%\", from 50 % to 100 %.");
}

TEST(ReadKit, NamesOfVesselsAndCasksAreTheirOwn) {
  EXPECT_EQ(
      fault("[boiler]",
            "[[vessel]]\nname = \"tub\"\ntotal = \"9 L\"\nwall_mass = \"1 kg\"\n[boiler]"),
      "k.toml:12:8: vessel[2].name is \"tub\"; accepted: a name that no other in the list "
      "has.");
  EXPECT_THAT(only(faults(std::string(least) + "[[cask]]\nname = \"a\"\nvolume = \"5 L\"\n"
                                               "[[cask]]\nname = \"a\"\nvolume = \"9 L\"\n")),
              StartsWith("k.toml:21:8: cask[2].name is \"a\""));
}

TEST(ReadKit, WhatCannotBeTogetherIsRefused) {
  struct Row {
    const char *from, *to, *told;
  };
  for (const Row& row : std::initializer_list<Row>{
           {"\"50 L\"", "\"50 L\"\nworking = \"55 L\"",
            "k.toml:10:11: vessel[1].working is \"55 L\"; accepted: at most its total, 50 L."},
           {"\"50 L\"", "\"50 L\"\ndead_volume = \"46 L\"",
            "vessel[1].dead_volume is \"46 L\"; accepted: less than it works with, 45 L."},
           {"\"50 L\"", "\"50 L\"\nloss_lid_on = \"5 W/K\"\nloss_open = \"4 W/K\"",
            "vessel[1].loss_open is \"4 W/K\"; accepted: at least the loss with the lid on, 5 "
            "W/K."},
           {"\"85 °C\"", "\"10 °C\"",
            "liquor.hot is \"10 °C\"; accepted: warmer than liquor.cold, 12 °C."},
           {"\"2 kW\"", "\"2 kW\"\nheat = \"flame\"\nelement_covered_above = \"3 L\"",
            "boiler.element_covered_above is \"3 L\"; accepted: 0 L, or heat = \"element\"."},
           {"\"2 kW\"", "\"2 kW\"\nelement_covered_above = \"30 L\"",
            "boiler.element_covered_above is \"30 L\"; accepted: less than the boiler's total, "
            "20 "
            "L."}}) {
    EXPECT_THAT(fault(row.from, row.to), HasSubstr(row.told));
  }
}

TEST(ReadKit, AMistakeInATotalBringsNoFurtherOnesWithIt) {
  EXPECT_EQ(
      fault("\"50 L\"", "\"50 kg\"\nworking = \"45 L\"\ndead_volume = \"1 L\""),
      "k.toml:9:9: vessel[1].total is \"50 kg\"; accepted: a volume such as \"20 L\" or \"5 "
      "gal\" (\"kg\" is a unit of mass), from 500 mL to 5000 L.");
  EXPECT_EQ(
      fault("ambient = \"20 °C\"", "ambient = \"200 °C\""),
      "k.toml:3:11: place.ambient is \"200 °C\"; accepted: a temperature such as \"66 °C\" "
      "or \"150 °F\", from -10 °C to 45 °C.");
}

TEST(ReadKit, MistakesOfOneKeyAreToldWithWhatIsAccepted) {
  struct Row {
    const char *from, *to, *told;
  };
  for (const Row& row : std::initializer_list<Row>{
           {"wall_mass = \"6 kg\"", "wall_mas = \"6 kg\"\nwall_mass = \"6 kg\"",
            "did you mean \"wall_mass\"?"},
           {"power = \"2 kW\"\n", "",
            "k.toml:11:1: boiler.power is missing; accepted: a power such as \"3 kW\" or \"750 "
            "W\", from 100 W to 100 kW."},
           {"\"2 kW\"", "\"2 kg\"", "(\"kg\" is a unit of mass)"},
           {"\"2 kW\"", "\"2 kW\"\nwash_fill = \"140 %\"",
            "boiler.wash_fill is \"140 %\"; accepted: a share such as \"75 %\", from 20 % to "
            "90 "
            "%."},
           {"\"2 kW\"", "\"2 kW\"\nwall = \"coper\"", "(\"copper\" is the nearest)"},
           {"\"2 kW\"", "\"2 kW\"\nheat_efficiency = \"104 %\"", "from 5 % to 100 %."},
           {"[place]", "[place]\nair_changes_per_hour = \"1\"",
            "accepted: a number, written without quotes, from 0 to 100."}}) {
    EXPECT_THAT(fault(row.from, row.to), HasSubstr(row.told));
  }
}

}  // namespace
}  // namespace lynearm::recipe
