// Bad command lines: exit status 2, a sentence that names the option, nothing on standard
// output.
#include <gtest/gtest.h>

#include <algorithm>

#include "cli/program.hpp"

namespace lynearm::cli {
namespace {

struct Bad {
  std::vector<std::string> words;
  std::string said;  ///< a part of standard error
};

void expect_refused(const Bad& bad) {
  const Ran ran = lynearm(bad.words);
  EXPECT_EQ(ran.status, 2) << bad.said;
  EXPECT_EQ(ran.out, "") << bad.said;
  EXPECT_NE(ran.err.find(bad.said), std::string::npos)
      << "wanted: " << bad.said << "\ngot: " << ran.err;
  EXPECT_TRUE(ran.err.ends_with(".\n") || ran.err.ends_with("?\n")) << ran.err;
}

TEST(Faults, valuesThatAreNoStrength) {
  for (const char* text :
       {"abc", "62.4", "62.4 %", "62,4 %vol", "nan %vol", "inf %vol", "1e999 %vol", "-5 %vol",
        "101 %vol", "201 proof", "62.4 kg", "%vol", "--at"}) {
    expect_refused({{"gauge", "--at", "20 C", "--reading", text},
                    std::string("--reading is \"") + text + "\"; accepted: "});
  }
}

TEST(Faults, bytesThatAreNoTextAreShownAsSuch) {
  expect_refused({{"gauge", "--at", "20 C", "--reading", "\xff\xfe"},
                  "--reading is \"\uFFFD\uFFFD\"; accepted: "});
}

TEST(Faults, valuesThatAreNoTemperature) {
  for (const char* text : {"abc", "20", "20 kg", "NaN C", "1e308 C", "-1e308 C", "20 C C"}) {
    expect_refused({{"gauge", "--reading", "62 %vol", "--at", text},
                    std::string("--at is \"") + text + "\"; accepted: "});
  }
}

TEST(Faults, valuesThatAreNoVolume) {
  for (const char* text : {"abc", "4", "4 kg", "-4 L", "0 L", "NaN L", "1e300 L", "1e-300 L"}) {
    expect_refused({{"reduce", "--strength", "70 %vol", "--to", "55 %vol", "--volume", text},
                    std::string("--volume is \"") + text + "\"; accepted: "});
  }
}

TEST(Faults, aReductionToNothing) {
  for (const char* text : {"0 %vol", "1e-300 %vol", "0 proof"}) {
    expect_refused({{"reduce", "--strength", "70 %vol", "--volume", "4 L", "--to", text},
                    std::string("--to is \"") + text + "\"; accepted: "});
  }
}

TEST(Faults, theUnitOfAnotherKindIsNamed) {
  expect_refused({{"reduce", "--volume", "4 kg", "--strength", "70 %vol", "--to", "55 %vol"},
                  "\"kg\" is a unit of mass"});
}

TEST(Faults, whatIsMissingIsNamedAllTogether) {
  const Ran ran = lynearm({"reduce", "--strength", "abc", "--units", "imperial"});
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  for (const char* said :
       {"--volume is missing; accepted: a volume such as", "--strength is \"abc\"",
        "--to is missing", "--units is \"imperial\""}) {
    EXPECT_NE(ran.err.find(said), std::string::npos) << said << "\n" << ran.err;
  }
  EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), 4);
}

TEST(Faults, anEmptyValueIsAMissingOne) {
  expect_refused({{"gauge", "--reading", "", "--at", "20 C"}, "--reading is \"left empty\""});
}

TEST(Faults, anOptionWithoutItsValue) {
  expect_refused({{"gauge", "--at", "20 C", "--reading"}, "--reading has no value after it."});
}

TEST(Faults, anOptionGivenTwice) {
  expect_refused({{"gauge", "--at", "20 C", "--at", "21 C", "--reading", "62 %vol"},
                  "--at is given 2 times; accepted: once."});
}

TEST(Faults, aSwitchWithAValue) {
  expect_refused({{"gauge", "--at", "20 C", "--reading", "62 %vol", "--json=no"},
                  "--json takes no value."});
}

TEST(Faults, anUnknownOptionComesWithTheNearestRightOne) {
  expect_refused(
      {{"gauge", "--readng", "62 %vol"},
       "\"--readng\" is no option of \"lynearm gauge\"; did you mean \"--reading\"?"});
  expect_refused({{"gauge", "--readng=62 %vol"}, "did you mean \"--reading\"?"});
  expect_refused({{"gauge", "--jsn"}, "did you mean \"--json\"?"});
  expect_refused({{"gauge", "--flux-capacitor"}, "\"lynearm gauge --help\" lists them."});
  expect_refused({{"--versoin"}, "did you mean \"--version\"?"});
}

TEST(Faults, anUnknownCommandComesWithTheNearestRightOne) {
  expect_refused({{"guage"}, "\"guage\" is no command of lynearm; did you mean \"gauge\"?"});
  expect_refused({{"levitate"}, "\"lynearm --help\" lists them."});
  expect_refused({{}, "No command is given"});
  expect_refused({{""}, "No command is given"});
}

TEST(Faults, aValueWithoutQuotesIsExplained) {
  expect_refused({{"gauge", "--reading", "62.4", "%vol", "--at", "20", "C"},
                  "\"%vol\" stands alone; a value of several words is put in quotes"});
}

TEST(Faults, withJsonTheyAreStillWordsOnStandardError) {
  expect_refused(
      {{"gauge", "--json", "--reading", "abc", "--at", "20 C"}, "--reading is \"abc\""});
}

TEST(Faults, aValueCannotWriteToTheTerminal) {
  const Ran ran = lynearm({"gauge", "--at", "20 C", "--reading", "6\033[31m\n2"});
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.err.find('\033'), std::string::npos);
  EXPECT_EQ(std::count(ran.err.begin(), ran.err.end(), '\n'), 1);
}

TEST(Faults, anEndlessValueIsCutShort) {
  const Ran ran = lynearm({"gauge", "--at", "20 C", "--reading", std::string(100000, '7')});
  EXPECT_EQ(ran.status, 2);
  EXPECT_LT(ran.err.size(), 500U);
}

}  // namespace
}  // namespace lynearm::cli
