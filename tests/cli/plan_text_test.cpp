// The plan as people read it: the real program on the invented batches of examples/.
#include <gtest/gtest.h>

#include <algorithm>
#include <sstream>

#include "cli/plan_ran.hpp"
#include "cli/table.hpp"

namespace lynearm::cli {
namespace {

std::vector<std::string> lines_of(const std::string& text) {
  std::vector<std::string> lines;
  std::istringstream stream(text);
  for (std::string line; std::getline(stream, line);) lines.push_back(line);
  return lines;
}

const std::vector<std::string> stages{"Findings, worst first",
                                      "Mash bill",
                                      "Mash",
                                      "Ferment",
                                      "Strip",
                                      "Spirit run",
                                      "Reduce",
                                      "Wood",
                                      "Bottle",
                                      "Ledger",
                                      "Timeline"};

class EachExample : public testing::TestWithParam<std::string> {};
INSTANTIATE_TEST_SUITE_P(PlanText, EachExample,
                         testing::Values("tern-7", "tern-8", "ill-fitting"),
                         [](const auto& example) {
                           std::string name = example.param;
                           std::replace(name.begin(), name.end(), '-', '_');
                           return name;
                         });

TEST_P(EachExample, hasEveryStageInTheOrderOfTheWork) {
  const Ran ran = planned(GetParam(), {});
  EXPECT_EQ(ran.status, 0) << ran.err;
  EXPECT_EQ(ran.err, "");
  const std::vector<std::string> lines = lines_of(ran.out);
  auto from = lines.begin();
  for (const std::string& stage : stages) {
    from = std::find(from, lines.end(), stage);
    ASSERT_NE(from, lines.end()) << stage << "\n" << ran.out;
  }
}

TEST(PlanLedger, countsInProofGallonsToo) {
  const std::string metric = planned("tern-8", {}).out;
  EXPECT_EQ(metric.find("proof gallon"), std::string::npos);
  for (const char* units : {"us", "both"}) {
    const std::string text = planned("tern-8", {"--units", units}).out;
    EXPECT_NE(text.find("in US proof gallons"), std::string::npos) << units;
    EXPECT_NE(text.find("27 CFR"), std::string::npos) << units;
  }
}

TEST_P(EachExample, fitsThePageAndHoldsNoBrokenFigure) {
  for (const char* units : {"metric", "us", "both"}) {
    const Ran ran = planned(GetParam(), {"--units", units, "--why"});
    EXPECT_EQ(ran.status, 0) << ran.err;
    for (const std::string& line : lines_of(ran.out)) {
      EXPECT_LE(columns(line), 100U) << units << ": " << line;
      EXPECT_TRUE(line.empty() || line.back() != ' ') << line;
    }
    for (const char* broken : {" nan", " inf", "-0.0 ", "-nan"}) {
      EXPECT_EQ(ran.out.find(broken), std::string::npos) << broken << "\n" << ran.out;
    }
  }
}

TEST_P(EachExample, saysWhatCanHurtWhereItCan) {
  const std::string text = planned(GetParam(), {"--members", "0"}).out;
  // Lines are broken anywhere: read it as one.
  std::string one;
  for (const std::string& line : lines_of(text)) {
    one += line.substr(std::min(line.size(), line.find_first_not_of(' '))) + ' ';
  }
  const auto part = [&](const std::string& stage, const std::string& next) {
    const std::size_t begin = one.find(" " + stage + " Caution");
    return one.substr(begin, one.find(" " + next + " ", begin + stage.size()) - begin);
  };
  EXPECT_NE(one.find("The law: distilling without a licence is unlawful in many countries"),
            std::string::npos);
  const std::string strip = part("Strip", "Spirit run");
  for (const char* words : {"Never leave a heated still", "heat off first",
                            "Never close the outlet", "vapour may be escaping"}) {
    EXPECT_NE(strip.find(words), std::string::npos) << words << "\n" << strip;
  }
  for (const char* words : {"Cooked grain clings", "heavier than air",
                            "does not make a spirit safe, and nothing in this "
                            "plan says that one is",
                            "extraction is not age"}) {
    EXPECT_NE(one.find(words), std::string::npos) << words;
  }
}

TEST(PlanText, findingsComeWorstFirstWithTheirRemedy) {
  const std::string text = planned("ill-fitting", {"--members", "0"}).out;
  std::size_t last = text.find("Findings, worst first");
  for (const char* word : {"  does not fit  Strip: ", "  danger        Ferment: ",
                           "  caution       Mash bill: ", "  remark        Mash: "}) {
    const std::size_t at = text.find(word);
    ASSERT_NE(at, std::string::npos) << word;
    EXPECT_GT(at, last) << word;
    last = at;
  }
  EXPECT_NE(text.find("-> Run 5 charges, or make less wash."), std::string::npos);
}

TEST(PlanText, bandsStandInBracketsUnlessTheyAreNotAskedFor) {
  const std::string with = planned("tern-8", {}).out;
  const std::string without = planned("tern-8", {"--members", "0"}).out;
  const auto hearts = [](const std::string& text) {
    const std::size_t at = text.find("\n  Hearts ");
    return text.substr(at + 1, text.find('\n', at + 1) - at - 1);
  };
  EXPECT_NE(hearts(with).find(" to "), std::string::npos) << hearts(with);
  EXPECT_EQ(hearts(without).find(" to "), std::string::npos) << hearts(without);
  EXPECT_NE(with.find("In brackets: of 500 batches"), std::string::npos);
  EXPECT_EQ(without.find("In brackets"), std::string::npos);
}

TEST(PlanText, whyNamesModelsSourcesAndTheConstantsOfTheHouse) {
  const std::string text = planned("tern-8", {"--members", "0", "--why"}).out;
  for (const char* words : {"\nWhy\n", "Rayleigh", "OIML R 22 (1973)", "Brandam", "Coleman",
                            "Alcohol made, of the theory", "10.0 % ± 4.0 %"}) {
    EXPECT_NE(text.find(words), std::string::npos) << words;
  }
  EXPECT_EQ(planned("tern-8", {"--members", "0"}).out.find("\nWhy\n"), std::string::npos);
}

TEST(PlanText, colourAddsNoWords) {
  std::string coloured = planned("ill-fitting", {"--members", "0"}, Out::terminal).out;
  EXPECT_NE(coloured.find('\033'), std::string::npos);
  for (const char* mark : {"\033[0m", "\033[1m", "\033[31m", "\033[33m", "\r"}) {
    for (std::size_t at = coloured.find(mark); at != std::string::npos;
         at = coloured.find(mark)) {
      coloured.erase(at, std::string(mark).size());
    }
  }
  EXPECT_EQ(coloured, planned("ill-fitting", {"--members", "0"}).out);
}

}  // namespace
}  // namespace lynearm::cli
