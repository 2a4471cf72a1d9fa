#include "cli/gauge_rows.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <array>

#include "spirit/density.hpp"
#include "spirit/lot.hpp"
#include "spirit/strength.hpp"

namespace lynearm::cli {
namespace {

using units::Temperature;

const std::string our_heads =
    ",strength_percent_vol_20C,strength_percent_mass,us_proof,density_kg_m3_20C";
const std::string amount_heads = ",volume_L_20C,pure_alcohol_L_20C";

GaugedRows gauged(const std::string& text, std::size_t piece = 1U << 20U) {
  GaugeRows rows("jars.csv");
  GaugedRows all;
  const auto add = [&](GaugedRows more) {
    all.csv += more.csv;
    std::move(more.faults.begin(), more.faults.end(), std::back_inserter(all.faults));
  };
  for (std::size_t at = 0; at < text.size(); at += piece)
    add(rows.feed(text.substr(at, piece)));
  add(rows.finish());
  return all;
}

// The sentences for one row under a head line; nothing may be written for it.
std::string refusal(const std::string& head, const std::string& row) {
  const GaugedRows all = gauged(head + "\n" + row + "\n");
  EXPECT_EQ(std::count(all.csv.begin(), all.csv.end(), '\n'), 1) << all.csv;
  std::string sentences;
  for (const base::Fault& fault : all.faults) {
    if (!sentences.empty()) sentences += '\n';
    sentences += base::sentence(fault);
  }
  return sentences;
}

// The figures behind a row, as the engine gives them.
std::string figures(const spirit::Reading& reading, Temperature at) {
  const units::MassFraction ethanol = spirit::true_mass_fraction(reading, at);
  return fmt::format(
      ",{:.10g},{:.10g},{:.10g},{:.10g}", spirit::volume_strength(ethanol).percent(),
      ethanol.percent(), spirit::proof(ethanol).degrees(),
      spirit::density(ethanol, spirit::reference_20C).kilograms_per_cubic_metre());
}

TEST(GaugeRows, writesEachRowWithItsFiguresBehindIt) {
  const GaugedRows all =
      gauged("jar,reading,temperature\n1,62.4 %vol,27.5 C\n2,125 proof,81 F\n");
  EXPECT_EQ(all.csv,
            "jar,reading,temperature" + our_heads + "\n1,62.4 %vol,27.5 C" +
                figures({62.4, spirit::Scale::percent_vol}, Temperature::celsius(27.5)) +
                "\n2,125 proof,81 F" +
                figures({125.0, spirit::Scale::us_proof}, Temperature::fahrenheit(81.0)) +
                "\n");
  EXPECT_TRUE(all.faults.empty());
}

TEST(GaugeRows, at20DegreesTheReadingIsTrue) {
  // OIML R 22 (1973), Table II: 50 % by volume is 42.43 % by mass; from memory.
  const GaugedRows all = gauged("reading_percent_vol,temperature_C\n50,20\n");
  EXPECT_EQ(all.csv.substr(0, all.csv.find("\n50,20,50,42.4")),
            "reading_percent_vol,temperature_C" + our_heads);
}

TEST(GaugeRows, bareNumbersAndStatedUnitsGiveTheSameFigures) {
  const auto behind = [](const std::string& csv) {
    const std::string row = csv.substr(csv.find('\n') + 1);
    return row.substr(row.find(',', row.find(',') + 1));
  };
  EXPECT_EQ(behind(gauged("reading,temperature\n125 proof,81 F\n").csv),
            behind(gauged("reading_proof,temperature_F\n125,81\n").csv));
  EXPECT_EQ(behind(gauged("reading,temperature\n912.6 kg/m3,12 C\n").csv),
            behind(gauged("reading_density_kg_m3,temperature_C\n912.6,12\n").csv));
}

TEST(GaugeRows, carriesEveryOtherColumnThroughUnchanged) {
  const GaugedRows all = gauged(
      "\"jar, number\",reading,note,temperature,\n"
      "7,50 %vol,\"say \"\"when\"\"\n twice\",20 C,=1+1\n"
      " 8 ,50 %vol,\"plain\",20 C,\xFF\n");
  const std::string figures_ =
      figures({50.0, spirit::Scale::percent_vol}, Temperature::celsius(20.0));
  EXPECT_EQ(all.csv, "\"jar, number\",reading,note,temperature," + our_heads +
                         "\n7,50 %vol,\"say \"\"when\"\"\n twice\",20 C,=1+1" + figures_ +
                         "\n 8 ,50 %vol,plain,20 C,\xFF" + figures_ + "\n");
}

TEST(GaugeRows, aVolumeIsTakenTo20DegreesAndToPureAlcohol) {
  const GaugedRows all =
      gauged("reading,temperature,volume\n62.4 %vol,27.5 C,5 L\n62.4 %vol,27.5 C,\n");
  const auto reading = spirit::Reading{62.4, spirit::Scale::percent_vol};
  const Temperature at = Temperature::celsius(27.5);
  const spirit::Lot lot =
      spirit::lot(units::Volume::litres(5.0),
                  spirit::volume_strength(spirit::true_mass_fraction(reading, at)), at);
  EXPECT_EQ(all.csv, "reading,temperature,volume" + our_heads + amount_heads +
                         "\n62.4 %vol,27.5 C,5 L" + figures(reading, at) +
                         fmt::format(",{:.10g},{:.10g}", spirit::volume(lot).litres(),
                                     spirit::pure_alcohol(lot).litres()) +
                         "\n62.4 %vol,27.5 C," + figures(reading, at) + ",,\n");
}

TEST(GaugeRows, aMassIsTakenToAVolumeToo) {
  // A kilogram of 50 %vol at 20 °C fills 1 / 0.930140 L (OIML R 22 (1973), Table I).
  const std::string csv = gauged("reading,temperature,mass\n50 %vol,20 C,930.14 g\n").csv;
  const std::string row = csv.substr(csv.find('\n') + 1);
  const std::string litres = row.substr(row.rfind(',', row.rfind(',') - 1) + 1);
  EXPECT_NEAR(std::stod(litres), 1.0, 2e-5) << csv;
  EXPECT_NEAR(std::stod(row.substr(row.rfind(',') + 1)), 0.5, 1e-5) << csv;
}

TEST(GaugeRows, theOtherGlassesOfTheEngineServeToo) {
  const spirit::Hydrometer glass{Temperature::celsius(15.0), 20e-6};
  GaugeRows rows("jars.csv", glass);
  const std::string csv = rows.feed("reading_percent_vol,temperature_C\n62.4,27.5\n").csv;
  const units::MassFraction ethanol = spirit::true_mass_fraction(
      {62.4, spirit::Scale::percent_vol}, Temperature::celsius(27.5), glass);
  EXPECT_NE(
      csv.find(fmt::format("\n62.4,27.5,{:.10g},", spirit::volume_strength(ethanol).percent())),
      std::string::npos)
      << csv;
}

constexpr const char* a_reading =
    R"(a reading such as "62.4 %vol", "125 proof", "54.5 %mass", )"
    R"("0.9126 g/mL" or "0.9126 SG")";
constexpr const char* a_temperature = R"(a temperature such as "66 °C" or "150 °F")";
constexpr const char* a_number = "a number without unit, which the head states";
constexpr const char* point = ", with a point as decimal mark and no separator of thousands";

struct Bad {
  const char* row;
  std::string told;  ///< behind "jars.csv:2: column "
};

TEST(GaugeRows, tellsWhatIsWrongWithACellThatStatesItsUnit) {
  const std::string reading = std::string("accepted: ") + a_reading;
  const std::string temperature = std::string("accepted: ") + a_temperature;
  const std::string volume = "accepted: a volume from 1 mL to 100000 L";
  const std::array<Bad, 24> bad{{
      {"abc,20 C,", "reading is \"abc\"; " + reading},
      {",20 C,", "reading is missing; " + reading},
      {"62.4,20 C,", "reading is \"62.4\"; " + reading + ", with its scale"},
      {"50 %,20 C,", "reading is \"50 %\"; " + reading +
                         " (\"%\" does not say whether by volume or by mass)"},
      {"\"62,4 %vol\",20 C,", "reading is \"62,4 %vol\"; " + reading + point},
      {"nan %vol,20 C,", "reading is \"nan %vol\"; " + reading},
      {"inf proof,20 C,", "reading is \"inf proof\"; " + reading},
      {"1e400 %vol,20 C,",
       "reading is \"1e400 %vol\"; " + reading + ", of a size that can be held"},
      {"-3 %vol,20 C,", "reading is \"-3 %vol\"; " + reading + ", from 0 to 100 %"},
      {"101 %vol,20 C,", "reading is \"101 %vol\"; " + reading + ", from 0 to 100 %"},
      {"250 proof,20 C,", "reading is \"250 proof\"; " + reading + ", from 0 to 200 proof"},
      {"0.5 g/mL,20 C,", "reading is \"0.5 g/mL\"; " + reading + ", from 700 to 1100 kg/m³"},
      {"50 %vol,20,",
       "temperature is \"20\"; accepted: a temperature with its unit, such as "
       "\"66 °C\" or \"150 °F\""},
      {"50 %vol,,", "temperature is missing; " + temperature},
      {"50 %vol,20 kg,",
       "temperature is \"20 kg\"; " + temperature + " (\"kg\" is a unit of mass)"},
      {"50 %vol,\"27,5 C\",", "temperature is \"27,5 C\"; " + temperature + point},
      {"50 %vol,nan C,", "temperature is \"nan C\"; " + temperature},
      {"50 %vol,1e400 C,",
       "temperature is \"1e400 C\"; " + temperature + ", of a size that can be held"},
      {"50 %vol,-21 C,",
       "temperature is \"-21 C\"; accepted: -20 to 40 °C, the range of the density formula "
       "(OIML R 22)"},
      {"50 %vol,45 C,",
       "temperature is \"45 C\"; accepted: -20 to 40 °C, the range of the density formula "
       "(OIML R 22); spirit above 40 °C at the spout means vapour may be escaping: heat off "
       "first, then let the sample cool in a closed jar"},
      {"50 %vol,20 C,-3 L", "volume is \"-3 L\"; " + volume},
      {"50 %vol,20 C,0 L", "volume is \"0 L\"; " + volume},
      {"50 %vol,20 C,1e9 L", "volume is \"1e9 L\"; " + volume},
      {"50 %vol,20 C,3 kg",
       "volume is \"3 kg\"; accepted: a volume such as \"20 L\" or \"5 gal\" (\"kg\" is a unit "
       "of mass)"},
  }};
  for (const Bad& each : bad) {
    EXPECT_EQ(refusal("reading,temperature,volume", each.row),
              "jars.csv:2: column " + each.told + ".");
  }
}

TEST(GaugeRows, tellsWhatIsWrongWithABareNumber) {
  const std::string number = std::string("accepted: ") + a_number;
  const std::array<Bad, 9> bad{{
      {"62.4 %vol,20", "reading_percent_vol is \"62.4 %vol\"; " + number},
      {",20", "reading_percent_vol is missing; " + number},
      {"\"62,4\",20", "reading_percent_vol is \"62,4\"; " + number + point},
      {"NaN,20", "reading_percent_vol is \"NaN\"; " + number},
      {"1e400,20",
       "reading_percent_vol is \"1e400\"; " + number + ", of a size that can be held"},
      {"50,20 C", "temperature_C is \"20 C\"; " + number},
      {"101,20", "reading_percent_vol is \"101\"; accepted: 0 to 100 %vol"},
      {"-3,20", "reading_percent_vol is \"-3\"; accepted: 0 to 100 %vol"},
      {"50,1e300",
       "temperature_C is \"1e300\"; accepted: -20 to 40 °C, the range of the "
       "density formula (OIML R 22)" +
           std::string(too_warm_caution)},
  }};
  for (const Bad& each : bad) {
    EXPECT_EQ(refusal("reading_percent_vol,temperature_C", each.row),
              "jars.csv:2: column " + each.told + ".");
  }
}

// Found by fuzzing: 1e306 g/mL is no double in kg/m³, and ended the whole stream.
TEST(GaugeRows, aNumberThatIsTooLargeInItsBaseUnitFailsItsRowOnly) {
  const std::string too_large = std::string(a_number) + ", of a size that can be held.";
  EXPECT_EQ(refusal("reading_density_g_mL,temperature_C", "1e306,20"),
            "jars.csv:2: column reading_density_g_mL is \"1e306\"; accepted: " + too_large);
  EXPECT_EQ(refusal("reading_percent_vol,temperature_C,volume_gal", "50,20,1e308"),
            "jars.csv:2: column volume_gal is \"1e308\"; accepted: " + too_large);
}

TEST(GaugeRows, aReadingNoSpiritGivesNamesWhatWaterAndEthanolShow) {
  EXPECT_EQ(refusal("reading,temperature", "100 %vol,-19 C"),
            "jars.csv:2: column reading is \"100 %vol\"; accepted: at -19.0 °C, 3.4 %vol "
            "(water) to 92.3 %vol (pure ethanol).");
}

TEST(GaugeRows, aRowHasOneAmount) {
  EXPECT_EQ(refusal("reading,temperature,volume,mass", "50 %vol,20 C,5 L,4 kg"),
            "jars.csv:2: column mass is \"4 kg\"; accepted: nothing where column volume is "
            "filled.");
}

TEST(GaugeRows, everyFaultOfARowIsToldAndTheRowCountedOnce) {
  GaugeRows rows("jars.csv");
  const GaugedRows all =
      rows.feed("reading,temperature,volume\nabc,hot,much\n50 %vol,20 C,\n1,2\n\"x\n");
  EXPECT_EQ(all.faults.size(), 4U);
  EXPECT_EQ(rows.rows(), 3U);
  EXPECT_EQ(rows.failed(), 2U);
  const GaugedRows last = rows.finish();
  ASSERT_EQ(last.faults.size(), 1U);
  EXPECT_EQ(
      base::sentence(last.faults.front()),
      "jars.csv:5: column reading is \"\"x\"; accepted: a closing quote mark within 65536 "
      "bytes.");
  EXPECT_EQ(rows.rows(), 4U);
  EXPECT_EQ(rows.failed(), 3U);
}

TEST(GaugeRows, aHeadOfOursIsRefusedBecauseItWouldBeThereTwice) {
  GaugeRows rows("jars.csv");
  try {
    (void)rows.feed("reading,temperature,us_proof\n50 %vol,20 C,1\n");
    FAIL();
  } catch (const base::InputError& error) {
    EXPECT_STREQ(error.what(),
                 "jars.csv:1: head is \"us_proof\"; accepted: a head that is not one of those "
                 "written behind the row.");
  }
}

TEST(GaugeRows, theCuttingOfTheTextDoesNotMatter) {
  const std::string text =
      "\xEF\xBB\xBFjar,reading,temperature,note\r\n1,62.4 %vol,27.5 C,\"a\r\nb\"\r\n2,x,20 "
      "C,\r\n"
      "\r\n3,50 %vol,20 C,\"\"\"\"\r\n4,50 %vol,20 C,\"open\r\n5,50 %vol,20 C,";
  const GaugedRows whole = gauged(text);
  EXPECT_EQ(whole.faults.size(), 2U);
  for (std::size_t piece = 1; piece < 40; ++piece) {
    const GaugedRows cut = gauged(text, piece);
    EXPECT_EQ(cut.csv, whole.csv) << piece;
    EXPECT_EQ(cut.faults, whole.faults) << piece;
  }
}

// A hundred thousand rows: each is answered at once and nothing of them is kept.
TEST(GaugeRows, aLongTextIsAnsweredInConstantMemory) {
  GaugeRows rows("jars.csv");
  (void)rows.feed("reading_percent_vol,temperature_C\n");
  std::size_t most = 0;
  for (int i = 0; i < 100000; ++i) {
    const GaugedRows answer = rows.feed(fmt::format("{}.{},{}\n", 20 + i % 60, i % 10, i % 35));
    ASSERT_EQ(std::count(answer.csv.begin(), answer.csv.end(), '\n'), 1);
    most = std::max(most, rows.held());
  }
  EXPECT_TRUE(rows.finish().csv.empty());
  EXPECT_EQ(rows.rows(), 100000U);
  EXPECT_EQ(rows.failed(), 0U);
  EXPECT_LE(most, 64U);
}

}  // namespace
}  // namespace lynearm::cli
