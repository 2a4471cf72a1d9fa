// `cut --charge`: the jars of a computed run in place of a file of jars.
#include <gtest/gtest.h>

#include "cli/json.hpp"
#include "cli/program.hpp"

namespace lynearm::cli {
namespace {

std::vector<std::string> computed(const std::vector<std::string>& more = {}) {
  std::vector<std::string> words{"cut",     "--charge", "15 L @ 28 %vol", "--stop",
                                 "10 %vol", "--jar",    "250 mL"};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

TEST(CutOfARun, allotsTheJarsThatSpiritShows) {
  const Json cut = answer(computed());
  const Json run =
      answer({"spirit", "--charge", "15 L @ 28 %vol", "--stop", "10 %vol", "--jar", "250 mL"});
  ASSERT_FALSE(cut.empty());
  EXPECT_EQ(cut["estimated"]["early"], false);
  EXPECT_EQ(cut["estimated"]["late"], false);
  const Ran text = lynearm(computed());
  EXPECT_EQ(text.status, 0) << text.err;
  EXPECT_NE(text.out.find(" of " + std::to_string(run["jars"].size()) + " jars"),
            std::string::npos)
      << text.out;
  EXPECT_NE(text.out.find("computed run"), std::string::npos);
  EXPECT_NE(text.out.find("nothing here says that one is"), std::string::npos) << text.out;
}

TEST(CutOfARun, fullerGivesMoreHeartsThanClean) {
  const auto litres = [](const char* purpose) {
    const Ran ran = lynearm(computed({"--purpose", purpose}));
    EXPECT_EQ(ran.status, 0) << ran.err;
    return std::stod(ran.out);
  };
  EXPECT_GT(litres("fuller"), litres("clean"));
  EXPECT_GT(litres("clean"), 0.5);
  EXPECT_LT(litres("fuller"), 6.0);
}

TEST(CutOfARun, takesTheStillsOptions) {
  EXPECT_NE(lynearm(computed()).out, lynearm(computed({"--head-reflux", "0.3"})).out);
}

void expect_refused(const std::vector<std::string>& words, const std::string& said) {
  const Ran ran = lynearm(words);
  EXPECT_EQ(ran.status, 2) << said << "\n" << ran.out;
  EXPECT_EQ(ran.out, "") << said;
  EXPECT_NE(ran.err.find(said), std::string::npos)
      << "wanted: " << said << "\ngot: " << ran.err;
}

TEST(CutOfARun, refusesWhatDoesNotGoTogether) {
  expect_refused(computed({"--jars", "examples/tern-7/jars.csv"}),
                 "--jars is \"examples/tern-7/jars.csv\"; accepted: either --jars or --charge, "
                 "not both");
  expect_refused({"cut", "--jars", "examples/tern-7/jars.csv", "--jar", "250 mL"},
                 "--jar is \"250 mL\"; accepted: only beside --charge");
  expect_refused({"cut", "--charge", "15 L @ 28 %vol", "--stop", "10 %vol"}, "--jar");
  expect_refused({"cut", "--charge", "15 L @ 28 %vol", "--jar", "250 mL"}, "--stop");
  expect_refused({"cut", "--charge", "15 L @ 28 %vol", "--stop", "10 %vol", "--jar", "5 mL"},
                 "--jar is \"5 mL\"; accepted: a volume that fills at most 200 jars");
}

}  // namespace
}  // namespace lynearm::cli
