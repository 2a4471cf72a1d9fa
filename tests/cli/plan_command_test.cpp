// What "lynearm plan" promises: JSON, wishes that are met, and sentences for every mistake.
#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>

#include "cli/json.hpp"
#include "cli/plan_ran.hpp"

namespace lynearm::cli {
namespace {

namespace fs = std::filesystem;

Json plan_of(const std::string& example, std::vector<std::string> more) {
  more.insert(more.end(), {"--members", "0"});
  return answer(plan_words(example, more));
}

double planned_figure(const Json& plan, const char* key) {
  return plan["figures"][key]["planned"].get<double>();
}

void expect_refused(const std::vector<std::string>& words, const std::string& said,
                    int status = 2) {
  const Ran ran = lynearm(words);
  EXPECT_EQ(ran.status, status) << said << "\n" << ran.err;
  EXPECT_EQ(ran.out, "") << said;
  EXPECT_NE(ran.err.find(said), std::string::npos)
      << "wanted: " << said << "\ngot: " << ran.err;
}

// A folder of its own for one test, gone with it.
class Folder {
 public:
  Folder() : path_(fs::temp_directory_path() / "lynearm-plan-XXXXXX") {
    std::string name = path_.string();
    if (mkdtemp(name.data()) == nullptr) throw std::runtime_error("no folder");
    path_ = name;
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() { fs::remove_all(path_); }
  [[nodiscard]] std::string file(const std::string& name) const {
    return (path_ / name).string();
  }
  [[nodiscard]] std::ptrdiff_t count() const {
    return std::distance(fs::directory_iterator(path_), fs::directory_iterator{});
  }

 private:
  fs::path path_;
};

std::string text_of(const std::string& path) {
  std::ifstream stream(path);
  return {std::istreambuf_iterator<char>(stream), {}};
}

TEST(Plan, jsonHasTheFiguresOfTheTextWithTheirBands) {
  const Json plan = answer(plan_words("tern-8", {}));
  ASSERT_TRUE(plan.is_object());
  const Json& hearts = plan["figures"]["hearts_volume_L_20C"];
  EXPECT_LT(hearts["low"].get<double>(), hearts["planned"].get<double>());
  EXPECT_GT(hearts["high"].get<double>(), hearts["planned"].get<double>());
  EXPECT_GT(plan["timeline"].size(), 0U);
  EXPECT_FALSE(plan_of("tern-8", {})["figures"]["hearts_volume_L_20C"].contains("low"));
}

TEST(Plan, isTheSameForAnyNumberOfThreads) {
  for (const char* form : {"--why", "--json"}) {
    const std::string one = planned("tern-8", {form, "--members", "60", "--threads", "1"}).out;
    EXPECT_GT(one.size(), 1000U);
    for (const char* threads : {"2", "7"}) {
      EXPECT_EQ(planned("tern-8", {form, "--members", "60", "--threads", threads}).out, one);
    }
  }
}

TEST(Plan, anotherSeedDrawsOtherMembers) {
  const auto with = [](const char* seed) {
    return planned("tern-8", {"--members", "40", "--seed", seed}).out;
  };
  EXPECT_EQ(with("1"), planned("tern-8", {"--members", "40"}).out);
  EXPECT_NE(with("1"), with("2"));
}

TEST(Plan, forALotGivesThatLot) {
  const Json plan = plan_of("tern-8", {"--for", "5 L @ 55 %vol"});
  // Sized to 0.01 %, see plan/backward.hpp.
  EXPECT_NEAR(planned_figure(plan, "maturing_volume_L_20C"), 5.0, 0.001);
  EXPECT_NEAR(plan["reduce"]["result"]["strength_percent_vol"].get<double>(), 55.0, 1e-6);
  EXPECT_NE(plan["batch"]["remark"].get<std::string>().find("for 5.00 L at 55.0 %vol"),
            std::string::npos);
}

TEST(Plan, forALotStrongerThanItsHeartsIsRefused) {
  expect_refused(plan_words("tern-8", {"--for", "5 L @ 85 %vol"}),
                 "--for is \"5 L @ 85 %vol\"; accepted: a strength up to ");
}

TEST(Plan, forMoreThanOneChargeGivesIsRefusedWithWhatItGives) {
  expect_refused(plan_words("tern-8", {"--for", "5000 L @ 55 %vol"}),
                 "--for is \"5000 L @ 55 %vol\"; accepted: at most about ");
}

TEST(Plan, aGravityIsMetBySugarOrByWater) {
  for (const char* example : {"tern-8", "tern-7"}) {
    const char* gravity = std::string(example) == "tern-8" ? "1.062" : "1.055";
    const Json plan = plan_of(example, {"--gravity", gravity});
    EXPECT_NEAR(planned_figure(plan, "original_gravity"), std::stod(gravity), 2e-6) << example;
  }
}

TEST(Plan, aGravityIsMetBeforeTheBatchIsSized) {
  const Json plan = plan_of("tern-8", {"--gravity", "1.062", "--for", "5 L @ 55 %vol"});
  EXPECT_NEAR(planned_figure(plan, "maturing_volume_L_20C"), 5.0, 0.001);
  // A smaller mash leaves the same dead volume behind, so the gravity is met less exactly.
  EXPECT_NEAR(planned_figure(plan, "original_gravity"), 1.062, 1e-3);
}

TEST(Plan, aGravityOutOfReachIsToldOfTheGravity) {
  expect_refused(plan_words("tern-8", {"--gravity", "1.010"}),
                 "--gravity is \"1.010\"; accepted: at least ");
  expect_refused(plan_words("tern-7", {"--gravity", "1.140"}),
                 "--gravity is \"1.140\"; accepted: ");
}

TEST(Plan, scaledToTheKitNothingRunsOver) {
  const Json before = plan_of("tern-7", {});
  const Json plan = plan_of("tern-7", {"--scale-to-kit"});
  const auto found = [](const Json& of, const std::string& code) {
    return std::any_of(of["findings"].begin(), of["findings"].end(),
                       [&](const Json& finding) { return finding["code"] == code; });
  };
  for (const char* code : {"more-wort-than-wanted", "vessel-overfilled", "vessel-too-full",
                           "wash-left-over", "boiler-overfilled"}) {
    EXPECT_FALSE(found(plan, code)) << code;
  }
  EXPECT_GT(planned_figure(plan, "wort_volume_L_20C"),
            planned_figure(before, "wort_volume_L_20C"));
}

TEST(Plan, aKitThatNoSizeFitsIsToldWithTheRecipe) {
  const Folder folder;
  const std::string dry = folder.file("dry.toml");
  std::string text = text_of(kit_of("tern-8"));
  const std::size_t at = text.find("greatest_flow");
  text.replace(at, text.find('\n', at) - at, "greatest_flow = \"0.05 L/min\"");
  std::ofstream(dry) << text;
  expect_refused(
      {"plan", recipe_of("tern-8"), "--kit", dry, "--members", "0", "--scale-to-kit"},
      "--scale-to-kit is \"given for Tern 8\"; accepted: a recipe that fits the kit");
  expect_refused(plan_words("tern-8", {"--for", ""}),
                 "--for is \"left empty\"; accepted: a volume and its strength such as");
}

TEST(Plan, aSheetIsNotWrittenOverTheRecipe) {
  const Folder folder;
  const std::string mine = folder.file("mine.toml");
  std::filesystem::copy_file(recipe_of("tern-8"), mine);
  const auto size = std::filesystem::file_size(mine);
  const Ran ran =
      lynearm({"plan", mine, "--kit", kit_of("tern-8"), "--members", "0", "--sheet", mine});
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_EQ(std::filesystem::file_size(mine), size);
}

TEST(Plan, theIllFittingBatchIsScaledOrRefusedButNeverBreaks) {
  const Ran ran = lynearm({"plan", recipe_of("ill-fitting"), "--kit", kit_of("ill-fitting"),
                           "--members", "0", "--scale-to-kit"});
  EXPECT_TRUE(ran.status == 0 || ran.status == 2) << ran.status << ran.err;
}

TEST(Plan, filesThatCannotBeReadAreToldTogether) {
  const Folder folder;
  const std::string missing = folder.file("none.toml");
  const Ran ran = lynearm({"plan", missing, "--kit", folder.file("")});
  EXPECT_EQ(ran.status, 2);
  EXPECT_EQ(ran.out, "");
  EXPECT_NE(
      ran.err.find("RECIPE is \"" + missing + "\"; accepted: a recipe file that can be read"),
      std::string::npos)
      << ran.err;
  EXPECT_NE(ran.err.find("--kit is \"" + folder.file("") + "\"; accepted: a kit file"),
            std::string::npos)
      << ran.err;
  expect_refused({"plan", "--kit", kit_of("tern-8")}, "RECIPE is missing");
  expect_refused({"plan", recipe_of("tern-8")}, "--kit is missing");
}

TEST(Plan, mistakesInTheFilesAreToldWithTheirPlace) {
  const Folder folder;
  const std::string junk = folder.file("junk.toml");
  std::ofstream(junk) << "this is [ no TOML\n";
  expect_refused({"plan", junk, "--kit", kit_of("tern-8")}, junk + ":1:");
  const std::string warm = folder.file("warm.toml");
  std::string text = text_of(recipe_of("tern-8"));
  const std::string cold = "rest_temperature = \"65.5 degC\"";
  text.replace(text.find(cold), cold.size(), "rest_temperature = \"65.5 kg\"");
  std::ofstream(warm) << text;
  expect_refused({"plan", warm, "--kit", kit_of("tern-8")},
                 "mash.rest_temperature is \"65.5 kg\"");
}

TEST(Plan, theSheetIsWrittenWholeAndOverAnOldOne) {
  const Folder folder;
  const std::string sheet = folder.file("sheet.html");
  std::ofstream(sheet) << "what stood here before";
  for (const char* paper : {"A4", "Letter"}) {
    const Ran ran = planned("tern-8", {"--members", "0", "--sheet", sheet, "--paper", paper});
    EXPECT_EQ(ran.status, 0) << ran.err;
    EXPECT_NE(ran.out.find("is in " + sheet), std::string::npos);
    EXPECT_EQ(text_of(sheet).find("what stood here before"), std::string::npos);
    EXPECT_NE(text_of(sheet).find("</html>"), std::string::npos);
    const char* size = paper == std::string("A4") ? "size:A4 " : "size:letter ";
    EXPECT_NE(text_of(sheet).find(size), std::string::npos);
    EXPECT_EQ(folder.count(), 1);
  }
}

TEST(Plan, aSheetThatCannotBeWrittenIsTold) {
  const Folder folder;
  for (const std::string& path : {folder.file("none/sheet.html"), folder.file("")}) {
    expect_refused(plan_words("tern-8", {"--members", "0", "--sheet", path}),
                   path + " could not be written: ", 1);
  }
  expect_refused(plan_words("tern-8", {"--members", "0", "--sheet", "/dev/full"}),
                 "/dev/full could not be written: ", 1);
  EXPECT_EQ(folder.count(), 0);
}

TEST(Plan, optionsThatSpeakAgainstEachOtherAreRefused) {
  expect_refused(plan_words("tern-8", {"--for", "5 L @ 55 %vol", "--scale-to-kit"}),
                 "not both");
  expect_refused(plan_words("tern-8", {"--paper", "A4"}), "give --sheet as well");
  expect_refused(plan_words("tern-8", {"--why", "--json"}), "--why with the text only");
}

TEST(Plan, refusesNonsenseInEachOption) {
  const std::vector<std::pair<const char*, std::vector<const char*>>> nonsense = {
      {"--members", {"-1", "100001", "x", "1.5", "5 "}},
      {"--seed", {"-1", "x", "99999999999999999999"}},
      {"--threads", {"0", "-2", "1025", "x"}},
      {"--gravity", {"1", "1.5", "x", "12 kg"}},
      {"--for", {"x", "5 L", "0 L @ 55 %vol", "5 L @ 0 %vol", "5 kg @ 55 %vol"}},
      {"--units", {"imperial"}},
  };
  for (const auto& option : nonsense) {
    for (const char* value : option.second) {
      expect_refused(plan_words("tern-8", {option.first, value}),
                     std::string(option.first) + " is \"" + value + "\"; accepted: ");
    }
  }
  expect_refused(plan_words("tern-8", {"--sheet", "x", "--paper", "A5"}),
                 "--paper is \"A5\"; accepted: A4 or Letter.");
}

}  // namespace
}  // namespace lynearm::cli
