#include "cli/gauge_columns.hpp"

#include <gtest/gtest.h>

#include <array>
#include <sstream>

#include "base/error.hpp"
#include "cli/json.hpp"
#include "spirit/gauging.hpp"
#include "wire/spirit.hpp"

namespace lynearm::cli {
namespace {

using spirit::Reading;
using spirit::Scale;
using units::Temperature;

GaugeColumns columns(const std::vector<std::string>& heads) {
  return gauge_columns({1, heads}, "jars.csv");
}

std::string refusal(const std::vector<std::string>& heads) {
  try {
    (void)columns(heads);
  } catch (const base::InputError& error) {
    return error.what();
  }
  ADD_FAILURE() << "not refused: " << ::testing::PrintToString(heads);
  return "";
}

TEST(GaugeColumns, underTheWordAloneEachCellHasItsUnit) {
  const GaugeColumns found = columns({"jar", "temperature", "reading"});
  EXPECT_EQ(found.reading.place, 2U);
  EXPECT_EQ(found.temperature.place, 1U);
  EXPECT_FALSE(found.volume);
  EXPECT_FALSE(found.mass);
  EXPECT_EQ(found.reading.read("125 proof").value, (Reading{125.0, Scale::us_proof}));
  EXPECT_EQ(found.temperature.read("77 F").value, Temperature::fahrenheit(77.0));
  EXPECT_FALSE(found.reading.read("62.4"));
  EXPECT_FALSE(found.temperature.read("27.5"));
}

TEST(GaugeColumns, behindAnUnderscoreStandsTheUnitOfBareNumbers) {
  const GaugeColumns found =
      columns({"reading_us_proof", "temperature_F", "volume_gal", "mass_lb"});
  EXPECT_EQ(found.reading.read("125").value, (Reading{125.0, Scale::us_proof}));
  EXPECT_EQ(found.temperature.read("77").value, Temperature::fahrenheit(77.0));
  EXPECT_EQ(found.volume->read("1.5").value, units::Volume::us_gallons(1.5));
  EXPECT_EQ(found.mass->read("12").value, units::Mass::pounds(12.0));
  EXPECT_FALSE(found.reading.read("125 proof"));
  EXPECT_FALSE(found.temperature.read("77 F"));
}

// A table made from --json reads back under the names it has there.
TEST(GaugeColumns, everyScaleIsKnownByItsNameInJson) {
  constexpr std::array<Scale, 8> scales{Scale::percent_vol,      Scale::percent_vol_15C,
                                        Scale::percent_vol_60F,  Scale::percent_mass,
                                        Scale::us_proof,         Scale::density,
                                        Scale::specific_gravity, Scale::specific_gravity_60F};
  for (const Scale scale : scales) {
    const Reading reading = spirit::reading_of(units::MassFraction::fraction(0.5), scale);
    const spirit::GaugingInput input{.observation = spirit::ByHydrometer{reading}};
    const Json json = Json::parse(wire::json(input, spirit::gauge(input)));
    const std::string head = "reading_" + json["reading_scale"].get<std::string>();
    const GaugeColumns found = columns({head, "temperature_C"});
    EXPECT_EQ(found.reading.scale, scale) << head;
  }
}

TEST(GaugeColumns, theShortFormsAreKnownToo) {
  const auto scale = [](const std::string& word) {
    return columns({"reading_" + word, "temperature"}).reading.read("0.9").value;
  };
  EXPECT_EQ(scale("percent_vol"), (Reading{0.9, Scale::percent_vol}));
  EXPECT_EQ(scale("proof"), (Reading{0.9, Scale::us_proof}));
  EXPECT_EQ(scale("density_g_mL"), (Reading{900.0, Scale::density}));
  EXPECT_EQ(scale("specific_gravity"), (Reading{0.9, Scale::specific_gravity}));
  EXPECT_EQ(scale("specific_gravity_60F"), (Reading{0.9, Scale::specific_gravity_60F}));
}

TEST(GaugeColumns, everySpellingOfAUnitIsKnown) {
  EXPECT_EQ(columns({"reading", "temperature_°C"}).temperature.read("20").value,
            Temperature::celsius(20.0));
  EXPECT_EQ(columns({"reading", "temperature_celsius"}).temperature.read("20").value,
            Temperature::celsius(20.0));
  EXPECT_EQ(columns({"reading", "temperature", "volume_litres"}).volume->read("2").value,
            units::Volume::litres(2.0));
}

TEST(GaugeColumns, caseAndSpacesDoNotCount) {
  const GaugeColumns found = columns({" Reading_Percent_Vol ", "TEMPERATURE_c", "Volume_ML"});
  EXPECT_EQ(found.reading.head, "Reading_Percent_Vol");
  EXPECT_EQ(found.temperature.read("20").value, Temperature::celsius(20.0));
  EXPECT_EQ(found.volume->read("700").value, units::Volume::millilitres(700.0));
}

TEST(GaugeColumns, everyOtherHeadBelongsToTheMaker) {
  const GaugeColumns found = columns(
      {"reading", "temperature", "reading_", "reading time", "volumes", "mass_of_jar", "", ""});
  EXPECT_EQ(found.reading.place, 0U);
  EXPECT_FALSE(found.volume);
  EXPECT_FALSE(found.mass);
}

TEST(GaugeColumns, whatIsMissingIsToldTogether) {
  EXPECT_EQ(
      refusal({"jar", "note"}),
      "jars.csv:1: column reading is missing; accepted: a column \"reading\", or one such "
      "as \"reading_percent_vol\" or \"reading_us_proof\".\n"
      "jars.csv:1: column temperature is missing; accepted: a column \"temperature\", "
      "\"temperature_C\" or \"temperature_F\".");
  EXPECT_EQ(refusal({"reading", "temperature_kg"}),
            "jars.csv:1: column temperature is missing; accepted: a column \"temperature\", "
            "\"temperature_C\" or \"temperature_F\".");
}

TEST(GaugeColumns, twoOfAKindAreRefused) {
  EXPECT_EQ(refusal({"reading", "temperature_C", "Temperature"}),
            "jars.csv:1: head is \"Temperature\"; accepted: one column of that kind; there is "
            "temperature_C too.");
}

TEST(GaugeColumns, anotherSeparatorIsToldAsSuch) {
  EXPECT_EQ(refusal({"reading;temperature"}),
            "jars.csv:1: head line is \"reading;temperature\"; accepted: columns parted by "
            "commas.");
  EXPECT_EQ(refusal({"reading\ttemperature"}),
            "jars.csv:1: head line is \"reading\ttemperature\"; accepted: columns parted by "
            "commas.");
}

// The help page names heads as "reading_percent_vol (at 20 °C), _us_proof, ...".
TEST(GaugeColumns, everyHeadOfTheHelpPageIsKnown) {
  std::istringstream help(gauge_columns_help());
  std::string name;
  std::size_t heads = 0;
  for (std::string word; help >> word;) {
    while (!word.empty() && (word.back() == ',' || word.back() == '.')) word.pop_back();
    const std::size_t mark = word.find('_');
    if (mark == std::string::npos) continue;
    if (mark > 0) name = word.substr(0, mark);
    const std::string head = name + word.substr(mark);
    const GaugeColumns found = name == "reading" ? columns({head, "temperature"})
                               : name == "temperature"
                                   ? columns({"reading", head})
                                   : columns({"reading", "temperature", head});
    EXPECT_TRUE(found.reading.scale || found.temperature.unit != nullptr || found.volume ||
                found.mass)
        << head;
    ++heads;
  }
  EXPECT_EQ(heads, 17U);
}

}  // namespace
}  // namespace lynearm::cli
