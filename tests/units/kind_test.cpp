#include "units/kind.hpp"

#include <gtest/gtest.h>

#include <set>
#include <string>

#include "units/parse.hpp"

namespace lynearm::units {
namespace {

struct Definition {
  const char* source;
  const Kind& kind;
  const char* unit;
  double in_base;
};

// Exact definitions: 1 lb = 0.45359237 kg and 1 in = 25.4 mm (yard and pound agreement of
// 1959), 1 gal = 231 in3, 1 atm = 101325 Pa, conventional mmHg = 13.5951 g/cm3 * 9.80665 m/s2
// * 1 mm. The names "NIST SP 811" mark rows of its appendix B.8, quoted from memory.
const Definition definitions[] = {
    {"NIST SP 811 B.8, pound (avoirdupois)", kind<Mass>(), "lb", 0.45359237},
    {"NIST SP 811 B.8, ounce (avoirdupois)", kind<Mass>(), "oz", 0.028349523125},
    {"NIST SP 811 B.8, gallon (US)", kind<Volume>(), "gal", 3.785411784},
    {"NIST SP 811 B.8, gallon [Canadian and UK (Imperial)]", kind<Volume>(), "imp gal",
     4.54609},
    {"231 cubic inches", kind<Volume>(), "gal", 231.0 * 0.254 * 0.254 * 0.254},
    {"NIST SP 811 B.8, quart (US liq)", kind<Volume>(), "qt", 0.946352946},
    {"NIST SP 811 B.8, pint (US liq)", kind<Volume>(), "pt", 0.473176473},
    {"NIST SP 811 B.8, cup (US)", kind<Volume>(), "cup", 0.2365882365},
    {"NIST SP 811 B.8, fluid ounce (US)", kind<Volume>(), "fl oz", 0.0295735295625},
    {"NIST SP 811 B.8, inch", kind<Length>(), "in", 0.0254},
    {"NIST SP 811 B.8, foot", kind<Length>(), "ft", 0.3048},
    {"NIST SP 811 B.8, square inch", kind<Area>(), "in2", 6.4516e-4},
    {"NIST SP 811 B.8, square foot", kind<Area>(), "ft2", 9.290304e-2},
    {"NIST SP 811 B.8, atmosphere, standard", kind<Pressure>(), "atm", 101325.0},
    {"density of mercury 13595.1 kg/m3 times standard gravity", kind<Pressure>(), "mmHg",
     13.5951 * 9.80665},
    {"25.4 mmHg", kind<Pressure>(), "inHg", 25.4 * 13.5951 * 9.80665},
    {"0.45359237 kg times 9.80665 m/s2 on a square inch", kind<Pressure>(), "psi",
     0.45359237 * 9.80665 / (0.0254 * 0.0254)},
    {"NIST SP 811 B.8, BTU (IT)", kind<Energy>(), "BTU", 1055.05585262},
    {"NIST SP 811 B.8, BTU (IT) per hour", kind<Power>(), "BTU/h", 1055.05585262 / 3600.0},
    {"NIST SP 811 B.8, kilowatt hour", kind<Energy>(), "kWh", 3.6e6},
    {"24 hours", kind<Duration>(), "d", 86400.0},
    {"mean Gregorian year of 365.2425 days", kind<Duration>(), "year", 31556952.0},
    {"NIST SP 811 B.8, gallon (US) per minute", kind<VolumeFlow>(), "gal/min", 6.30901964e-2},
};

TEST(UnitTables, EachFactorIsItsDefinition) {
  for (const Definition& row : definitions) {
    const Unit* unit = row.kind.find(row.unit);
    ASSERT_NE(unit, nullptr) << row.source;
    EXPECT_NEAR(unit->factor / row.in_base, 1.0, 1e-11) << row.source;
  }
}

TEST(UnitTables, AgreeWithTheFactoriesOfTheTypes) {
  EXPECT_EQ(parse<Mass>("3 lb"), Mass::pounds(3.0));
  EXPECT_EQ(parse<Mass>("3 oz"), Mass::ounces(3.0));
  EXPECT_EQ(parse<Volume>("3 gal"), Volume::us_gallons(3.0));
  EXPECT_EQ(parse<Volume>("3 US gal"), Volume::us_gallons(3.0));
  EXPECT_EQ(parse<Volume>("2 imperial gallons"), Volume::litres(9.09218));
  EXPECT_EQ(parse<Volume>("3 fl oz"), Volume::us_fluid_ounces(3.0));
  EXPECT_EQ(parse<Duration>("3 months"), Duration::months(3.0));
  EXPECT_EQ(parse<Temperature>("158 F"), Temperature::fahrenheit(158.0));
  EXPECT_EQ(parse<Temperature>("66 C"), Temperature::celsius(66.0));
  EXPECT_EQ(parse<TemperatureChange>("9 °F"), TemperatureChange::fahrenheit_degrees(9.0));
  EXPECT_EQ(parse<Pressure>("29.9 inHg"), Pressure::inches_of_mercury(29.9));
  EXPECT_EQ(parse<Pressure>("14.7 psi"), Pressure::pounds_per_square_inch(14.7));
  EXPECT_EQ(parse<Power>("9000 BTU/h"), Power::btu_per_hour(9000.0));
  EXPECT_EQ(parse<Energy>("4 kWh"), Energy::kilowatt_hours(4.0));
  EXPECT_EQ(parse<Length>("10 in"), Length::inches(10.0));
  EXPECT_EQ(parse<Area>("46 in2"), Area::square_inches(46.0));
  EXPECT_EQ(parse<AreaPerVolume>("120 cm2/L"),
            AreaPerVolume::square_centimetres_per_litre(120.0));
  EXPECT_EQ(parse<VolumeFlow>("1 gal/min"), VolumeFlow::us_gallons_per_minute(1.0));
  EXPECT_EQ(parse<Plato>("15 P"), Plato::degrees(15.0));
  EXPECT_EQ(parse<DiastaticPower>("50 Lintner"), DiastaticPower::lintner(50.0));
}

TEST(UnitTables, NoWordMeansTwoUnitsOfOneKind) {
  for (const Kind* each : kinds()) {
    std::set<std::string_view> seen;
    for (const Unit& unit : each->units) {
      std::string_view rest = unit.names;
      while (true) {
        const std::size_t bar = rest.find('|');
        EXPECT_TRUE(seen.insert(rest.substr(0, bar)).second) << each->noun << ": " << rest;
        if (bar == std::string_view::npos) break;
        rest.remove_prefix(bar + 1);
      }
    }
  }
}

TEST(UnitTables, EveryExampleIsAccepted) {
  for (const Kind* each : kinds()) {
    std::string_view rest = each->examples;
    int examples = 0;
    for (std::size_t open = rest.find('"'); open != std::string_view::npos;
         open = rest.find('"')) {
      rest.remove_prefix(open + 1);
      const std::size_t close = rest.find('"');
      const std::string_view example = rest.substr(0, close);
      const Parsed<double> parsed = parse_base_value(example, *each);
      EXPECT_TRUE(parsed) << example << ": " << parsed.accepted;
      rest.remove_prefix(close + 1);
      ++examples;
    }
    EXPECT_GE(examples, 1) << each->noun;
  }
}

}  // namespace
}  // namespace lynearm::units
