#include "units/parse.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <clocale>
#include <cmath>

#include "units/print.hpp"

namespace lynearm::units {
namespace {

template <class Q>
std::string refusal(std::string_view text) {
  const Parsed<Q> parsed = try_parse<Q>(text);
  EXPECT_FALSE(parsed) << text;
  return parsed.accepted;
}

constexpr const char* a_mass = R"(a mass such as "4.5 kg" or "12 lb")";

TEST(Parse, ReadsAFigureAndItsUnit) {
  EXPECT_EQ(parse<Mass>("4.5 kg"), Mass::kilograms(4.5));
  EXPECT_EQ(parse<Mass>("4.5kg"), Mass::kilograms(4.5));
  EXPECT_EQ(parse<Mass>("  4.5   kg  "), Mass::kilograms(4.5));
  EXPECT_EQ(parse<Mass>("12 lb"), Mass::pounds(12.0));
  EXPECT_EQ(parse<Temperature>("66 degC"), Temperature::celsius(66.0));
  EXPECT_EQ(parse<Temperature>("66 °C"), Temperature::celsius(66.0));
  EXPECT_EQ(parse<Temperature>("66 ºC"), Temperature::celsius(66.0));
  EXPECT_EQ(parse<Temperature>("158 degF"), Temperature::fahrenheit(158.0));
  EXPECT_EQ(parse<Temperature>("-5 °C"), Temperature::celsius(-5.0));
  EXPECT_EQ(parse<Temperature>("\u22125\u00A0°C"), Temperature::celsius(-5.0));
  EXPECT_EQ(parse<Duration>("90 min"), Duration::minutes(90.0));
  EXPECT_EQ(parse<Duration>("3 days"), Duration::days(3.0));
  EXPECT_EQ(parse<Duration>("6 months"), Duration::months(6.0));
  EXPECT_EQ(parse<Power>("3 kW"), Power::kilowatts(3.0));
  EXPECT_EQ(parse<Volume>("12 L"), Volume::litres(12.0));
  EXPECT_EQ(parse<Volume>("750 mL"), Volume::millilitres(750.0));
  EXPECT_EQ(parse<Volume>("0.2 m3"), Volume::cubic_metres(0.2));
  EXPECT_EQ(parse<Volume>("0.2 m³"), Volume::cubic_metres(0.2));
  // NIST SP 811 (2008), B.8: 1 ft3 = 0.028316846592 m3, exact.
  EXPECT_EQ(parse<Volume>("1000 ft3"), Volume::litres(28316.846592));
  EXPECT_EQ(parse<Volume>("1000 ft³"), Volume::litres(28316.846592));
  EXPECT_EQ(parse<Pressure>("101.325 kPa"), Pressure::kilopascals(101.325));
  EXPECT_EQ(parse<Pressure>("1009 hPa"), Pressure::hectopascals(1009.0));
  EXPECT_EQ(parse<Length>("12 m"), Length::metres(12.0));
  EXPECT_EQ(parse<Length>("250 mm"), Length::millimetres(250.0));
  EXPECT_EQ(parse<HeatLoss>("8 W/K"), HeatLoss::watts_per_kelvin(8.0));
  EXPECT_EQ(parse<VolumeFlow>("4 L/min"), VolumeFlow::litres_per_minute(4.0));
  EXPECT_EQ(parse<Share>("75 %"), Share::percent(75.0));
  EXPECT_EQ(parse<MassConcentration>("0.5 g/L"), MassConcentration::grams_per_litre(0.5));
  EXPECT_EQ(parse<Area>("300 cm2"), Area::square_centimetres(300.0));
  EXPECT_EQ(parse<Area>("300 cm²"), Area::square_centimetres(300.0));
  EXPECT_EQ(parse<Plato>("15 °P"), Plato::degrees(15.0));
  EXPECT_EQ(parse<VolumeStrength>("55 % vol"), VolumeStrength::percent(55.0));
}

TEST(Parse, ASpecificGravityStandsBare) {
  EXPECT_EQ(parse<SpecificGravity>("1.062"), SpecificGravity::ratio(1.062));
  EXPECT_EQ(parse<SpecificGravity>("1.062 SG"), SpecificGravity::ratio(1.062));
  EXPECT_EQ(refusal<SpecificGravity>("15 °P"),
            R"(a specific gravity such as "1.062" ("°P" is a unit of extract by mass))");
}

TEST(Parse, AddsFallingUnits) {
  EXPECT_DOUBLE_EQ(parse<Mass>("5 lb 4 oz").pounds(), 5.25);
  EXPECT_EQ(parse<Duration>("1 h 30 min"), Duration::minutes(90.0));
  EXPECT_EQ(parse<Duration>("1h30min"), Duration::minutes(90.0));
  EXPECT_EQ(parse<Duration>("-1 h 30 min"), Duration::minutes(-90.0));
  EXPECT_EQ(parse<Duration>("3 d 4 h 5 min 6 s"), Duration::seconds(3 * 86400.0 + 14706.0));
  EXPECT_DOUBLE_EQ(parse<Length>("2 ft 6 in").inches(), 30.0);
  EXPECT_NEAR(parse<Volume>("1 gal 1 qt 4 fl oz").us_fluid_ounces(), 164.0, 1e-12);
  EXPECT_EQ(refusal<Mass>("4 oz 5 lb"),
            std::string(a_mass) + ", in a sum each unit smaller than the one before");
  EXPECT_EQ(refusal<Mass>("5 lb 4"), R"(a mass with its unit, such as "4.5 kg" or "12 lb")");
  EXPECT_EQ(refusal<Mass>("5 lb 4 min"),
            std::string(a_mass) + R"( ("min" is a unit of duration))");
}

TEST(Parse, ABareFigureIsRefusedWhereThereIsAUnitToMistake) {
  EXPECT_EQ(refusal<Mass>("4.5"), R"(a mass with its unit, such as "4.5 kg" or "12 lb")");
  EXPECT_EQ(refusal<Share>("0.75"), R"(a share with its unit, such as "75 %")");
}

TEST(Parse, AUnitOfAnotherKindIsNamed) {
  EXPECT_EQ(refusal<Volume>("3 kg"),
            R"(a volume such as "20 L" or "5 gal" ("kg" is a unit of mass))");
  EXPECT_EQ(refusal<Length>("5 m3"),
            R"(a length such as "250 mm" or "10 in" ("m3" is a unit of volume))");
  EXPECT_EQ(refusal<Energy>("3 kW"),
            R"(an energy such as "4 kWh" or "15 MJ" ("kW" is a unit of power))");
  EXPECT_EQ(
      refusal<VolumeStrength>("55 %mass"),
      R"(a strength by volume such as "55 %vol" ("%mass" is a unit of strength by mass))");
}

TEST(Parse, AnUnknownUnitGetsTheListOfKnownOnes) {
  EXPECT_EQ(refusal<Mass>("3 stone"), std::string(a_mass) + " (units: kg, g, mg, lb, oz)");
  EXPECT_EQ(refusal<Mass>("3 KG"), std::string(a_mass) + " (units: kg, g, mg, lb, oz)");
  EXPECT_EQ(refusal<Mass>("3 kg please"), std::string(a_mass) + " (units: kg, g, mg, lb, oz)");
  EXPECT_EQ(refusal<Mass>("3 kg!"), std::string(a_mass) + " (units: kg, g, mg, lb, oz)");
}

TEST(Parse, ACommaOrASeparatorIsRefusedWithTheReason) {
  const std::string accepted =
      std::string(a_mass) + ", with a point as decimal mark and no separator of thousands";
  EXPECT_EQ(refusal<Mass>("4,5 kg"), accepted);
  EXPECT_EQ(refusal<Mass>("1,000 kg"), accepted);
  EXPECT_EQ(refusal<Mass>("1 000 kg"), accepted);
  EXPECT_EQ(refusal<Mass>("1'000 kg"), accepted);
  EXPECT_EQ(refusal<Mass>("1.000.000 kg"), accepted);
  EXPECT_EQ(refusal<Mass>("5 lb 4,5 oz"), accepted);
}

TEST(Parse, WhatIsNoFigureIsRefused) {
  for (const char* text : {"", "   ", "kg", "NaN kg", "nan", "inf kg", "-inf kg", "infinity",
                           "--4 kg", "+-4 kg", ". kg", "four kg", "~4 kg"}) {
    EXPECT_EQ(refusal<Mass>(text).substr(0, std::string(a_mass).size()), a_mass) << text;
  }
  EXPECT_EQ(refusal<Mass>("1e400 kg"), std::string(a_mass) + ", of a size that can be held");
  EXPECT_EQ(refusal<Volume>("1e308 m3"),
            R"(a volume such as "20 L" or "5 gal", of a size that can be held)");
  EXPECT_FALSE(try_parse<Mass>(std::string("4.5\0kg", 6)));
  EXPECT_FALSE(try_parse<Mass>("0x10 kg"));
}

TEST(Parse, ThrowsTheTextAndWhatIsAccepted) {
  try {
    (void)parse<Mass>("4.5 L");
    FAIL() << "not refused";
  } catch (const base::InputError& error) {
    ASSERT_EQ(error.faults().size(), 1U);
    EXPECT_EQ(error.faults()[0].value, "4.5 L");
    EXPECT_EQ(error.faults()[0].accepted,
              std::string(a_mass) + R"( ("L" is a unit of volume))");
  }
}

TEST(Parse, DoesNotAskTheLocale) {
  // A locale with a decimal comma, if the machine has one; the claim holds either way.
  const std::string before = std::setlocale(LC_ALL, nullptr);
  std::setlocale(LC_ALL, "de_DE.UTF-8");
  EXPECT_EQ(parse<Mass>("4.5 kg"), Mass::kilograms(4.5));
  EXPECT_EQ(print(Mass::kilograms(4.5)), "4.50 kg");
  std::setlocale(LC_ALL, before.c_str());
}

TEST(Parse, AStrengthKeepsItsScale) {
  using enum StrengthScale;
  EXPECT_EQ(parse<StatedStrength>("55 %vol"), (StatedStrength{55.0, percent_by_volume}));
  EXPECT_EQ(parse<StatedStrength>("62.4 % vol"), (StatedStrength{62.4, percent_by_volume}));
  EXPECT_EQ(parse<StatedStrength>("55 %ABV"), (StatedStrength{55.0, percent_by_volume}));
  EXPECT_EQ(parse<StatedStrength>("47.2 %mass"), (StatedStrength{47.2, percent_by_mass}));
  EXPECT_EQ(parse<StatedStrength>("110 proof"), (StatedStrength{110.0, us_proof}));
  const std::string phrase = R"(a strength such as "55 %vol", "47.2 %mass" or "110 proof")";
  EXPECT_EQ(refusal<StatedStrength>("55 %"),
            phrase + R"( ("%" does not say whether by volume or by mass))");
  EXPECT_EQ(refusal<StatedStrength>("55"), phrase + ", with its scale");
  EXPECT_EQ(refusal<StatedStrength>("101 %vol"), phrase + ", from 0 to 100 %");
  EXPECT_EQ(refusal<StatedStrength>("201 proof"), phrase + ", from 0 to 200 proof");
  EXPECT_EQ(refusal<StatedStrength>("-1 %vol"), phrase + ", from 0 to 100 %");
  EXPECT_EQ(refusal<StatedStrength>("5 L"), phrase);
}

TEST(Parse, AStrengthByVolumeMayNameItsReference) {
  using enum StrengthScale;
  EXPECT_EQ(parse<StatedStrength>("55 %vol at 60 °F"),
            (StatedStrength{55.0, percent_by_volume_60F}));
  EXPECT_EQ(parse<StatedStrength>("55 %vol 60F"),
            (StatedStrength{55.0, percent_by_volume_60F}));
  EXPECT_EQ(parse<StatedStrength>("55 %vol 15.56 C"),
            (StatedStrength{55.0, percent_by_volume_60F}));
  EXPECT_EQ(parse<StatedStrength>("55 % vol 15 °C"),
            (StatedStrength{55.0, percent_by_volume_15C}));
  EXPECT_EQ(parse<StatedStrength>("55 %vol at 20 C"),
            (StatedStrength{55.0, percent_by_volume}));
  for (const char* text : {"55 %vol at 25 C", "55 %mass at 60 F", "110 proof 60 F", "55 60 F",
                           "55 %vol 60", "55 at 60 F", "55 %vol at at 60 F"}) {
    EXPECT_FALSE(try_parse<StatedStrength>(text)) << text;
  }
  for (const StrengthScale scale : {percent_by_volume_15C, percent_by_volume_60F}) {
    const StatedStrength strength{55.0, scale};
    EXPECT_EQ(parse<StatedStrength>(print(strength)), strength);
  }
}

TEST(Parse, APartIsAnAmountItsStrengthAndItsTemperature) {
  const auto warm = parse<StatedPart>("1.2 L @ 74 %vol, 27 °C");
  EXPECT_EQ(std::get<Volume>(warm.amount), Volume::litres(1.2));
  EXPECT_EQ(warm.strength.value, 74.0);
  EXPECT_EQ(warm.at, Temperature::celsius(27.0));
  const auto weighed = parse<StatedPart>("940 g at 120 proof");
  EXPECT_EQ(std::get<Mass>(weighed.amount), Mass::grams(940.0));
  EXPECT_EQ(weighed.strength.scale, StrengthScale::us_proof);
  EXPECT_FALSE(weighed.at.has_value());
  EXPECT_EQ(parse<StatedPart>("1 L @ 55 %vol at 60 F").strength.scale,
            StrengthScale::percent_by_volume_60F);
  const std::string phrase =
      R"(an amount and its strength such as "1.2 L @ 74 %vol", "1.2 L @ 74 %vol, 27 °C" or )"
      R"("940 g @ 120 proof")";
  EXPECT_EQ(refusal<StatedPart>("5 L"), phrase);
  EXPECT_EQ(refusal<StatedPart>("-5 L @ 55 %vol"), phrase + ", the amount zero or more");
  EXPECT_EQ(refusal<StatedPart>("5 L @ 55 %vol, 20"),
            phrase + "; after the comma a temperature with its unit, such as " +
                std::string(kind<Temperature>().examples));
  EXPECT_FALSE(try_parse<StatedPart>("5 L @ 55,5 %vol"));
}

TEST(Parse, ALotIsAVolumeAtAStrength) {
  const auto lot = parse<StatedLot>("5 L @ 55 %vol");
  EXPECT_EQ(lot.volume, Volume::litres(5.0));
  EXPECT_EQ(lot.strength, (StatedStrength{55.0, StrengthScale::percent_by_volume}));
  EXPECT_EQ(parse<StatedLot>("1 gal at 110 proof").strength.scale, StrengthScale::us_proof);
  EXPECT_EQ(parse<StatedLot>("750mL@40%vol").volume, Volume::millilitres(750.0));
  EXPECT_EQ(refusal<StatedLot>("5 L"), R"(a volume and its strength such as "5 L @ 55 %vol")");
  EXPECT_EQ(refusal<StatedLot>("-5 L @ 55 %vol"),
            R"(a volume and its strength such as "5 L @ 55 %vol", the volume zero or more)");
  EXPECT_FALSE(try_parse<StatedLot>("5 L @ 55 %"));
  EXPECT_FALSE(try_parse<StatedLot>("5 kg @ 55 %vol"));
}

TEST(Parse, APriceIsByMassVolumeEnergyOrPiece) {
  EXPECT_EQ(parse<Price>("1.20 / kg"), (Price{1.2, PricedBy::kilogram}));
  EXPECT_EQ(parse<Price>("1.20/kg"), (Price{1.2, PricedBy::kilogram}));
  EXPECT_EQ(parse<Price>("0.28 / kWh"), (Price{0.28, PricedBy::kilowatt_hour}));
  EXPECT_EQ(parse<Price>("3 / L"), (Price{3.0, PricedBy::litre}));
  EXPECT_EQ(parse<Price>("0.9 each"), (Price{0.9, PricedBy::piece}));
  EXPECT_NEAR(parse<Price>("1 per lb").amount, 2.2046226218, 1e-10);
  EXPECT_NEAR(parse<Price>("10 / MJ").amount, 36.0, 1e-12);
  EXPECT_FALSE(try_parse<Price>("1.20"));
  EXPECT_FALSE(try_parse<Price>("€ 1.20 / kg"));
  EXPECT_FALSE(try_parse<Price>("-1 / kg"));
  EXPECT_FALSE(try_parse<Price>("1 / h"));
}

TEST(Parse, ASpreadHasAMedianAndAHalfWidth) {
  for (const char* text : {"75 % +/- 4 %", "75 % ± 4 %", "75 ± 4 %", "75% +- 4%"}) {
    const auto spread = try_parse_spread<Share>(text);
    ASSERT_TRUE(spread) << text << ": " << spread.accepted;
    EXPECT_EQ(spread.value->median, Share::percent(75.0)) << text;
    EXPECT_EQ(spread.value->half_width_80, Share::percent(4.0)) << text;
  }
  const auto plain = try_parse_spread<Share>("75 %", Share::percent(3.0));
  ASSERT_TRUE(plain);
  EXPECT_EQ(plain.value->half_width_80, Share::percent(3.0));
  const auto warm = try_parse_spread<Temperature>("158 °F +/- 2 K");
  ASSERT_TRUE(warm);
  EXPECT_EQ(warm.value->half_width_80, TemperatureChange::kelvins(2.0));
  const auto gravity = try_parse_spread<SpecificGravity>("1.062 +/- 0.002");
  ASSERT_TRUE(gravity);
  EXPECT_EQ(gravity.value->half_width_80, SpecificGravity::ratio(0.002));
  EXPECT_EQ(try_parse_spread<Share>("75 % +/- -4 %").accepted,
            "a spread of zero or more behind the \"+/-\"");
  EXPECT_EQ(try_parse_spread<Share>("75 % +/- 4 kg").accepted,
            R"(a share such as "75 %" ("kg" is a unit of mass) behind the "+/-")");
  EXPECT_FALSE(try_parse_spread<Share>("75 ± 4"));
  EXPECT_FALSE(try_parse_spread<Share>("± 4 %"));
}

RC_GTEST_PROP(ParseProperty, AnyTextIsReadOrRefusedWithAReason, (const std::string& text)) {
  for (const Kind* each : kinds()) {
    const Parsed<double> parsed = parse_base_value(text, *each);
    RC_ASSERT(parsed.value.has_value() == parsed.accepted.empty());
    if (parsed) RC_ASSERT(std::isfinite(*parsed.value));
  }
  RC_ASSERT(try_parse<StatedStrength>(text).value.has_value() ||
            !try_parse<StatedStrength>(text).accepted.empty());
}

// Pieces of real entries in disorder reach further into the parser than random bytes do.
RC_GTEST_PROP(ParseProperty, PiecesInDisorderAreReadOrRefused, ()) {
  const auto pieces =
      *rc::gen::container<std::vector<std::string>>(rc::gen::element<std::string>(
          "4", "4.5", " ", "kg", "lb", "oz", "m3", "fl oz", "°C", "%", "-", "+", ".", ",", "e",
          "1e", "min", "h", "\u00A0", "±", "@", "/"));
  std::string text;
  for (const std::string& piece : pieces) text += piece;
  for (const Kind* each : kinds()) {
    const Parsed<double> parsed = parse_base_value(text, *each);
    RC_ASSERT(parsed.value.has_value() == parsed.accepted.empty());
  }
  (void)try_parse<StatedLot>(text);
  (void)try_parse<Price>(text);
  (void)try_parse_spread<Share>(text);
}

}  // namespace
}  // namespace lynearm::units
