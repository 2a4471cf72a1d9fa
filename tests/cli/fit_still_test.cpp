// The command `fit-still` as a maker meets it: a kit and a logged run in, constants out, the
// kit renewed, a report, and a sentence for what cannot be.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstddef>
#include <cstdio>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "cli/json.hpp"
#include "cli/program.hpp"

namespace lynearm::cli {
namespace {

using testing::HasSubstr;

const std::string kit = "examples/tern-8/kit.toml";
const std::string log_of_run = "examples/tern-8/calibration_run.csv";
const std::string charge = "28 L @ 27 %vol";

std::vector<std::string> asked(const std::vector<std::string>& more = {}) {
  std::vector<std::string> words{"fit-still", "--kit",    kit,   "--run",
                                 log_of_run,  "--charge", charge};
  words.insert(words.end(), more.begin(), more.end());
  return words;
}

std::string text_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  std::ostringstream text;
  text << file.rdbuf();
  return text.str();
}

// A file that is gone when the test is over.
class TextFile {
 public:
  explicit TextFile(const std::string& name, const std::string& text = "")
      : path_(testing::TempDir() + "fit-still-" + name) {
    std::ofstream(path_, std::ios::binary) << text;
  }
  TextFile(const TextFile&) = delete;
  TextFile& operator=(const TextFile&) = delete;
  ~TextFile() { static_cast<void>(std::remove(path_.c_str())); }
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

TEST(FitStillCommand, FindsTheHiddenConstantsOfTheExample) {
  // The log is invented; its still has a head of 4.0 W/K, a pot of 11.9 W/K (the kit states 7)
  // and an efficiency of 95.7 %. One draw: within three standard uncertainties.
  const Json object = answer(asked());
  const auto expect = [&](const char* name, double really) {
    for (const Json& c : object["constants"]) {
      if (c["constant"] != name) continue;
      EXPECT_NEAR(c["value"].get<double>(), really,
                  3.0 * c["standard_uncertainty"].get<double>())
          << name;
      return;
    }
    ADD_FAILURE() << name;
  };
  expect("head_loss", 4.00);
  expect("pot_loss", 11.94);
  expect("heating_efficiency", 0.957);
}

TEST(FitStillCommand, ListsTheMistypedReadings) {
  const Json object = answer(asked());
  std::vector<int> lines;
  for (const Json& r : object["outlying"]) lines.push_back(r["line"].get<int>());
  // 68.5 °C in the pot, 7.0 %, 80.4 °C in the head, 85.2 and 90.6 %vol.
  for (const int line : {5, 19, 24, 27, 37}) EXPECT_THAT(lines, testing::Contains(line));
  EXPECT_LE(lines.size(), 8u);
}

TEST(FitStillCommand, WritesTheKitWithItsStillRenewedAndAllElseAsItWas) {
  const TextFile out("kit.toml");
  const Ran ran = lynearm(asked({"--write", out.path()}));
  ASSERT_EQ(ran.status, 0) << ran.err;
  const std::string before = text_of(kit);
  const std::string after = text_of(out.path());
  EXPECT_NE(before, after);
  EXPECT_EQ(before.substr(0, before.find("[boiler]")), after.substr(0, after.find("[boiler]")));
  EXPECT_EQ(before.substr(before.find("[[cask]]")), after.substr(after.find("[[cask]]")));
  EXPECT_THAT(after, HasSubstr(" W/K +/- "));
  // What is written is what is fitted from, next time.
  const Json again =
      answer({"fit-still", "--kit", out.path(), "--run", log_of_run, "--charge", charge});
  EXPECT_EQ(again["constants"].size(), answer(asked())["constants"].size());
}

TEST(FitStillCommand, WritesAReportThatNeedsNothingElse) {
  const TextFile out("report.html");
  const Ran ran = lynearm(asked({"--report", out.path()}));
  ASSERT_EQ(ran.status, 0) << ran.err;
  const std::string page = text_of(out.path());
  EXPECT_THAT(page, HasSubstr("<!DOCTYPE html>"));
  EXPECT_THAT(page, HasSubstr("head thermometer"));
  EXPECT_THAT(page, testing::Not(HasSubstr("<script")));
}

TEST(FitStillCommand, TellsWhatIsMissing) {
  const Ran ran = lynearm({"fit-still"});
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_THAT(ran.err, HasSubstr("--kit is missing"));
  EXPECT_THAT(ran.err, HasSubstr("--run is missing"));
  EXPECT_THAT(ran.err, HasSubstr("--charge is missing"));
}

TEST(FitStillCommand, AsksForTheChargeOfEachRun) {
  const Ran ran = lynearm(asked({"--run", log_of_run}));
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(
      ran.err,
      "--charge is missing; accepted: one --charge for each --run, in their order: 2 runs "
      "and 1 charge are given.\n");
}

TEST(FitStillCommand, RefusesALogWithoutTime) {
  const TextFile log("no-time.csv", "head_temperature_C\n90.1\n");
  const Ran ran = lynearm({"fit-still", "--kit", kit, "--run", log.path(), "--charge", charge});
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_THAT(ran.err, HasSubstr("fit-still-no-time.csv:1: "));
}

TEST(FitStillCommand, RefusesALogWithoutReadings) {
  const TextFile log("empty.csv", "minutes,power_W\n0,2000\n");
  const Ran ran = lynearm({"fit-still", "--kit", kit, "--run", log.path(), "--charge", charge});
  EXPECT_EQ(ran.status, 2);
  EXPECT_THAT(ran.err, HasSubstr("--run is \"" + log.path() + "\""));
  EXPECT_THAT(ran.err, HasSubstr("temperatures, strengths or volumes, each with its time"));
}

TEST(FitStillCommand, DoesNotWriteOverWhatItReads) {
  const std::string before = text_of(log_of_run);
  const Ran report = lynearm(asked({"--report", log_of_run}));
  EXPECT_EQ(report.status, 2);
  EXPECT_THAT(report.err, HasSubstr("a file that is neither a kit nor a log"));
  EXPECT_EQ(lynearm(asked({"--report", kit})).status, 2);
  EXPECT_EQ(lynearm(asked({"--write", log_of_run})).status, 2);
  EXPECT_EQ(text_of(log_of_run), before);
}

TEST(FitStillCommand, SaysWhyOnlyInText) {
  EXPECT_THAT(lynearm(asked({"--why"})).out, HasSubstr("Student's t"));
  EXPECT_EQ(lynearm(asked({"--why", "--json"})).status, 2);
}

TEST(FitStillCommand, DoesNotBelieveAnAbsurdCharge) {
  // 28 L at 97 %vol once made a kit without a word.
  const std::vector<std::string> absurd{"fit-still", "--kit",         kit, "--run", log_of_run,
                                        "--charge",  "28 L @ 97 %vol"};
  const Ran told = lynearm(absurd);
  EXPECT_EQ(told.status, 0) << told.err;
  EXPECT_THAT(told.out, HasSubstr("\nCaution: a figure is not to be believed"));
  EXPECT_THAT(told.out, HasSubstr("Charge strength comes out"));
  const TextFile out("absurd.toml");
  std::vector<std::string> writing = absurd;
  writing.insert(writing.end(), {"--write", out.path()});
  const Ran refused = lynearm(writing);
  EXPECT_EQ(refused.status, 2);
  EXPECT_EQ(refused.out, "");
  EXPECT_THAT(refused.err, HasSubstr("--charge is \"28 L @ 97 %vol\""));
  EXPECT_EQ(text_of(out.path()), "");
  EXPECT_THAT(lynearm(asked()).out, testing::Not(HasSubstr("not to be believed")));
}

TEST(FitStillCommand, AChargeThatFillsNotEvenCoilAndParrotIsRefused) {
  const Ran ran =
      lynearm({"fit-still", "--kit", kit, "--run", log_of_run, "--charge", "0.1 L @ 27 %vol"});
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_THAT(ran.err, HasSubstr("less than the charge gives before the pot is dry"));
}

TEST(FitStillCommand, AJarThatStayedEmptyIsListedAndHardlyCounts) {
  // Possible stills that such a log asks for begin to run and go out at once.
  std::istringstream whole(text_of(log_of_run));
  std::string emptied, line;
  std::getline(whole, line);
  const std::string before = line.substr(0, line.find("collected_mL"));
  const auto column = std::count(before.begin(), before.end(), ',');
  emptied.append(line).append(1, '\n');
  while (std::getline(whole, line)) {
    std::size_t begin = 0;
    for (std::ptrdiff_t i = 0; i < column; ++i) begin = line.find(',', begin) + 1;
    const std::size_t end = std::min(line.find(',', begin), line.size());
    emptied.append(line, 0, begin).append(1, '0').append(line, end).append(1, '\n');
  }
  const TextFile log("emptied.csv", emptied);
  const Ran ran = lynearm({"fit-still", "--kit", kit, "--run", log.path(), "--charge", charge});
  EXPECT_EQ(ran.status, 0) << ran.err;
  EXPECT_THAT(ran.out, HasSubstr("more than 4 spreads off and hardly count"));
  EXPECT_THAT(ran.out, HasSubstr("The receiver's deviations lean the same way for long"));
}

TEST(FitStillCommand, OneReadingTellsNothing) {
  // It once told an efficiency above the whole.
  const TextFile log("one.csv", "minutes,power_W,collected_mL\n0,2000,\n60,,6000\n");
  const std::vector<std::string> words{"fit-still", "--kit",    kit,   "--run",
                                       log.path(),  "--charge", charge};
  const Ran ran = lynearm(words);
  EXPECT_EQ(ran.status, 0) << ran.err;
  EXPECT_TRUE(ran.out.starts_with("1 reading of 1 run tells 0 of 11 constants; ")) << ran.out;
  EXPECT_THAT(ran.out, HasSubstr("1 reading is too few"));
  EXPECT_EQ(answer(words)["kit_section"], "");
}

TEST(FitStillCommand, ALogGivenTwiceIsRefused) {
  const Ran ran = lynearm(asked({"--run", log_of_run, "--charge", charge}));
  EXPECT_EQ(ran.status, 2);
  EXPECT_THAT(ran.err, HasSubstr("--run is \"" + log_of_run + "\""));
  EXPECT_THAT(ran.err, HasSubstr("the readings of run 1, and each run counts once"));
}

TEST(FitStillCommand, ALogPastedTwiceIntoAFileCountsOnce) {
  const std::string once = text_of(log_of_run);
  const TextFile log("twice.csv", once + once.substr(once.find('\n') + 1));
  const Json object =
      answer({"fit-still", "--kit", kit, "--run", log.path(), "--charge", charge});
  EXPECT_EQ(object["readings"].size(), answer(asked())["readings"].size());
  EXPECT_GE(object["passed_over"].size(), object["readings"].size());
}

}  // namespace
}  // namespace lynearm::cli
