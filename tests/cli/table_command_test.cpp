// The maker's own tables: each figure is the one that `gauge` and the engine give.
#include <gtest/gtest.h>

#include <sstream>

#include "cli/json.hpp"
#include "cli/program.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/strength.hpp"
#include "units/print.hpp"

namespace lynearm::cli {
namespace {

std::vector<std::vector<std::string>> cells(const std::string& csv) {
  std::vector<std::vector<std::string>> rows;
  std::stringstream lines(csv);
  for (std::string line; std::getline(lines, line);) {
    std::vector<std::string> row;
    std::stringstream fields(line);
    for (std::string field; std::getline(fields, field, ',');) row.push_back(field);
    rows.push_back(row);
  }
  return rows;
}

TEST(TableCommand, everyFigureOfACorrectionIsTheEngines) {
  const Ran ran = lynearm({"table", "--of", "correction", "--from", "40 %vol", "--to",
                           "70 %vol", "--step", "2.5 %vol", "--columns-from", "5 C",
                           "--columns-to", "35 C", "--columns-step", "7.5 K", "--csv", "-"});
  ASSERT_EQ(ran.status, 0) << ran.err;
  const auto rows = cells(ran.out);
  ASSERT_EQ(rows.size(), 14U);
  for (std::size_t r = 1; r < rows.size(); ++r) {
    ASSERT_EQ(rows[r].size(), 6U);
    for (std::size_t c = 1; c < 6; ++c) {
      const double reading = 40.0 + 2.5 * static_cast<double>(r - 1);
      const double t_C = 5.0 + 7.5 * static_cast<double>(c - 1);
      const double truth =
          spirit::volume_strength(spirit::true_mass_fraction(spirit::Reading{reading},
                                                             units::Temperature::celsius(t_C)))
              .percent();
      EXPECT_EQ(rows[r][c], units::fixed(truth, 1)) << reading << " at " << t_C;
    }
  }
}

// 27 CFR 30.23: the Gauging Manual's Table 1 has 190.2 true proof for 193 at 72 °F and 189.1
// for 192, 188.9 at 73 °F; made from the densities of 1913, hence within 0.1.
TEST(TableCommand, theProofTableHasThePrintedPoints) {
  const auto object =
      answer({"table", "--of", "correction", "--scale", "proof", "--from", "192 proof", "--to",
              "193 proof", "--step", "1 proof", "--columns-from", "72 F", "--columns-to",
              "73 F", "--columns-step", "1 F"});
  EXPECT_NEAR(object["figures"][1][0].get<double>(), 190.2, 0.1);
  EXPECT_NEAR(object["figures"][0][0].get<double>(), 189.1, 0.1);
  EXPECT_NEAR(object["figures"][0][1].get<double>(), 188.9, 0.1);
}

TEST(TableCommand, ofEachKindComesOnPaper) {
  for (const char* kind : {"correction", "showing", "reduction", "volume", "density", "mass"}) {
    const Ran ran = lynearm({"table", "--of", kind, "--html", "-"});
    EXPECT_EQ(ran.status, 0) << kind << ran.err;
    EXPECT_NE(ran.out.find("OIML R 22"), std::string::npos) << kind;
    EXPECT_NE(ran.out.find("</html>"), std::string::npos) << kind;
  }
}

TEST(TableCommand, whyTellsHowAFigureComesAbout) {
  for (const char* kind : {"correction", "showing", "reduction", "volume", "density", "mass"}) {
    const Ran ran = lynearm({"table", "--of", kind, "--why"});
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_NE(ran.out.find("\nWhy\n"), std::string::npos) << kind;
    EXPECT_NE(ran.out.find("OIML R 22 (1973), general formula"), std::string::npos) << kind;
  }
}

TEST(TableCommand, refusesWhatIsNoTable) {
  for (const std::vector<std::string>& words : std::vector<std::vector<std::string>>{
           {"table"},
           {"table", "--of", "tide"},
           {"table", "--of", "correction", "--from", "70 %vol", "--to", "60 %vol"},
           {"table", "--of", "correction", "--step", "0 %vol"},
           {"table", "--of", "correction", "--step", "-1 %vol"},
           {"table", "--of", "correction", "--step", "0.00001 %vol"},
           {"table", "--of", "correction", "--columns-from", "-40 C"},
           {"table", "--of", "correction", "--columns-to", "80 C"},
           {"table", "--of", "correction", "--paper", "A9"},
           {"table", "--of", "correction", "--decimals", "12"}}) {
    const Ran ran = lynearm(words);
    EXPECT_EQ(ran.status, 2) << words.back();
    EXPECT_EQ(ran.out, "") << words.back();
    EXPECT_NE(ran.err.find("accepted: "), std::string::npos) << ran.err;
  }
}

}  // namespace
}  // namespace lynearm::cli
