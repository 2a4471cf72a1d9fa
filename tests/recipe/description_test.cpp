#include "recipe/description.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <nlohmann/json.hpp>
#include <regex>

#include "recipe/made_up.hpp"

namespace lynearm::recipe {
namespace {

using ::testing::HasSubstr;

Description described() { return describe("batch.toml", "A made-up batch", made_up::batch); }

TEST(Description, NotesEveryKeyTheReaderAsksFor) {
  Description root = described();
  std::vector<std::string> keys;
  for (const Description& key : root.keys) keys.push_back(key.key);
  EXPECT_EQ(keys,
            (std::vector<std::string>{"name", "head", "gravity", "strength", "jars", "reflux",
                                      "peated", "steps", "mash_bill", "mash", "second_rest"}));
  EXPECT_TRUE(root.find("name")->required);
  EXPECT_FALSE(root.find("jars")->required);
  EXPECT_EQ(root.find("jars")->otherwise, "12");
  EXPECT_EQ(root.find("head")->choices, (std::vector<std::string>{"pot", "plates"}));
  EXPECT_EQ(root.find("gravity")->range, "from 1 to 1.15");
}

TEST(Description, ReachesIntoSectionsThatTheTextMayLeaveOut) {
  Description root = described();
  ASSERT_NE(root.find("mash_bill")->find("mass"), nullptr);
  EXPECT_EQ(root.find("mash_bill")->find("mass")->kind, "mass");
  EXPECT_TRUE(root.find("mash_bill")->required);
  ASSERT_NE(root.find("second_rest")->find("time"), nullptr);
  EXPECT_FALSE(root.find("second_rest")->required);
  // A section with a required key is required itself, however deep the key.
  EXPECT_TRUE(root.find("mash")->required);
  EXPECT_TRUE(root.find("mash")->find("rest")->required);
}

TEST(JsonSchema, IsJsonAndMirrorsTheReader) {
  const auto schema = nlohmann::json::parse(json_schema(described()));
  EXPECT_EQ(schema["$schema"], "https://json-schema.org/draft/2020-12/schema");
  EXPECT_EQ(schema["additionalProperties"], false);
  EXPECT_EQ(schema["required"], (nlohmann::json{"name", "mash_bill", "mash"}));
  const auto& properties = schema["properties"];
  EXPECT_EQ(properties["jars"]["type"], "integer");
  EXPECT_EQ(properties["jars"]["minimum"], 1);
  EXPECT_EQ(properties["jars"]["maximum"], 40);
  EXPECT_EQ(properties["gravity"]["type"], (nlohmann::json{"string", "number"}));
  EXPECT_EQ(properties["head"]["enum"], (nlohmann::json{"pot", "plates"}));
  EXPECT_EQ(properties["peated"]["type"], "boolean");
  EXPECT_EQ(properties["steps"]["items"]["type"], "string");
  EXPECT_EQ(properties["mash_bill"]["minItems"], 1);
  EXPECT_EQ(properties["mash_bill"]["items"]["required"], (nlohmann::json{"grain", "mass"}));
  EXPECT_EQ(properties["mash"]["properties"]["rest"]["properties"]["temperature"]["type"],
            "string");
}

TEST(JsonSchema, ItsPatternsAcceptWhatTheParserAccepts) {
  Description root = described();
  const std::regex mass(root.find("mash_bill")->find("mass")->pattern);
  for (const char* text : {"4.5 kg", "4.5kg", " 2 lb 4 oz ", ".5 kg", "1e3 g"}) {
    EXPECT_TRUE(std::regex_search(text, mass)) << text;
    EXPECT_TRUE(units::try_parse<units::Mass>(text)) << text;
  }
  for (const char* text : {"4.5", "4,5 kg", "4.5 L", "kg", "", "4.5 kg x"}) {
    EXPECT_FALSE(std::regex_search(text, mass)) << text;
    EXPECT_FALSE(units::try_parse<units::Mass>(text)) << text;
  }
  const std::regex spread(root.find("mash")->find("efficiency")->pattern);
  for (const char* text : {"75 %", "75 % +/- 4 %", "75 ± 4 %", "75% +- 4%"}) {
    EXPECT_TRUE(std::regex_search(text, spread)) << text;
  }
  for (const char* text : {"75", "75 ± 4", "75 % +/-"}) {
    EXPECT_FALSE(std::regex_search(text, spread)) << text;
  }
}

TEST(JsonSchema, AcceptsEveryExampleOfEveryKind) {
  for (const units::Kind* kind : units::kinds()) {
    Description note;
    describe_kind(note, *kind);
    const std::regex pattern(note.pattern);
    for (const units::Unit& unit : kind->units) {
      const std::string text = "4.5 " + std::string(unit.name());
      EXPECT_TRUE(std::regex_search(text, pattern)) << text << " against " << note.pattern;
    }
  }
}

TEST(Markdown, HasATableASection) {
  const std::string page = markdown(described());
  EXPECT_THAT(page, HasSubstr("# `batch.toml`\n\nA made-up batch.\n"));
  EXPECT_THAT(page, HasSubstr("| `name` | name of the batch | text | required |\n"));
  EXPECT_THAT(page, HasSubstr("| `head` | head of the still | one of `\"pot\"`, `\"plates\"` | "
                              "pot |\n"));
  EXPECT_THAT(page,
              HasSubstr("| `jars` | number of jars | whole number, from 1 to 40 | 12 |\n"));
  EXPECT_THAT(page, HasSubstr("\n## `[[mash_bill]]`\n\na grain of the bill.\n"));
  EXPECT_THAT(page, HasSubstr("\n## `[mash.rest]`\n"));
  EXPECT_THAT(page, HasSubstr("a second rest. May be left out.\n"));
  EXPECT_THAT(page,
              HasSubstr("| `efficiency` | extract won, of what is there | share, may have a "
                        "spread, from 20 % to 100 % | 75 % +/- 4 % |\n"));
}

}  // namespace
}  // namespace lynearm::recipe
