#include "wire/cut.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <string>

namespace lynearm::wire {
namespace {

using Json = nlohmann::ordered_json;

CutReport report() {
  std::vector<still::Jar> jars;
  for (const double percent : {76.0, 74.0, 70.0, 62.0, 45.0, 20.0}) {
    jars.push_back({std::to_string(jars.size() + 1), units::Volume::litres(0.5),
                    units::VolumeStrength::percent(percent)});
  }
  CutReport made;
  made.filled = still::fill_loads(jars);
  made.purpose = "clean";
  made.wishes.weights = still::purpose("clean").weights;
  made.proposal = still::propose(made.filled.jars, made.wishes);
  return made;
}

TEST(CutJson, beginsWithWhatIsFixed) {
  const Json object = Json::parse(json(report()));
  auto key = object.begin();
  EXPECT_EQ((key++).key(), "recommended");
  EXPECT_EQ((key++).key(), "alternatives");
  EXPECT_EQ((key++).key(), "jars");
  EXPECT_EQ((key++).key(), "estimate");
  EXPECT_EQ(object["estimate"], "an estimate: nose and palate decide.");
  EXPECT_NE(object["caution"].get<std::string>().find("no cut removes it"), std::string::npos);
}

TEST(CutJson, poursEachJarWhole) {
  const CutReport made = report();
  const Json object = Json::parse(json(made));
  ASSERT_EQ(object["alternatives"].size(), made.proposal.alternatives.size());
  for (const Json& alternative : object["alternatives"]) {
    ASSERT_EQ(alternative["allotment"].size(), 6U);
    for (const Json& jar : alternative["allotment"]) {
      EXPECT_NEAR(jar["foreshots_mL"].get<double>() + jar["hearts_mL"].get<double>() +
                      jar["feints_mL"].get<double>() + jar["apart_mL"].get<double>(),
                  500.0, 1e-6);
    }
    EXPECT_EQ(alternative["allotment"][0]["foreshots_mL"], 500.0);
  }
}

TEST(CutJson, countsLoadsByTheHectolitreOfPureAlcohol) {
  const CutReport made = report();
  const Json object = Json::parse(json(made));
  const std::size_t best = object["recommended"];
  const Json& hearts = object["alternatives"][best]["hearts"];
  const still::Vessel20C& vessel = made.proposal.alternatives[best].outcome.hearts;
  EXPECT_NEAR(hearts["late"]["g_hL"].get<double>(),
              100.0 * vessel.late.mass.grams() / vessel.pure_alcohol.litres(), 1e-7);
  EXPECT_LT(hearts["late"]["low"], hearts["late"]["g_hL"]);
  EXPECT_TRUE(object["estimated"]["late"].get<bool>());
}

}  // namespace
}  // namespace lynearm::wire
