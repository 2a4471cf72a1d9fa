#include "wire/faults_json.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "base/unknown_key.hpp"

namespace lynearm::wire {
namespace {

using Json = nlohmann::ordered_json;

TEST(FaultsJson, eachFaultIsAnEntryWithWhatIsKnownOfIt) {
  const base::InputError error({{"boiler.power", "3 kg", "a power", "kit.toml", 12, 9},
                                {"name", "", "a name", "", 0, 0}});
  const Json document = Json::parse(faults_json(error));
  EXPECT_EQ(document["status"], faults_status);
  const Json expected = Json::parse(R"([
    {"field": "boiler.power", "value": "3 kg", "accepted": "a power", "file": "kit.toml",
     "line": 12, "column": 9},
    {"field": "name", "accepted": "a name"}])");
  EXPECT_EQ(document["errors"], expected);
}

// Once it read: "an unknown key" was given; accepted: did you mean …
TEST(FaultsJson, aKeyThatIsNotKnownHasASentenceAndNoValue) {
  const base::InputError error({{"mash.tiem", std::string(base::unknown_key),
                                 base::accepted_keys("tiem", {"time"}), "r.toml", 4, 1}});
  const Json one = Json::parse(faults_json(error))["errors"][0];
  EXPECT_FALSE(one.contains("value"));
  EXPECT_EQ(one["sentence"],
            "This key is not known here; did you mean \"time\"? Accepted are the keys time.");
  EXPECT_EQ(one["line"], 4);
}

// RFC 9457 (2023), section 3.1: type, title and detail are strings, status a number; further
// members, here errors, may stand beside them.
TEST(FaultsJson, itHasTheMembersOfAProblemDocument) {
  const Json document =
      Json::parse(faults_json(base::InputError("t", "500 °C", "0 to 100 °C")));
  EXPECT_TRUE(document["type"].is_string());
  EXPECT_TRUE(document["title"].is_string());
  EXPECT_TRUE(document["status"].is_number_integer());
  EXPECT_EQ(document["detail"], base::sentence({"t", "500 °C", "0 to 100 °C", "", 0, 0}));
  EXPECT_EQ(document.size(), 5U);
}

TEST(FaultsJson, whatWasEnteredIsEscapedAndMendedToUtf8) {
  const base::InputError error("name", "\"a\"\n\xFF", "one line");
  const Json document = Json::parse(faults_json(error));
  EXPECT_EQ(document["errors"][0]["value"], "\"a\"\n\xEF\xBF\xBD");
}

}  // namespace
}  // namespace lynearm::wire
