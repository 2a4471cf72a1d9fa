// What is made from the reading functions and kept in the repository: the JSON Schemas for
// editors, the tables of docs/recipe-and-kit.md. Renew them with LYNEARM_RENEW=1.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <regex>

#include "recipe/read_kit.hpp"
#include "recipe/read_pair.hpp"
#include "recipe/read_recipe.hpp"
#include "recipe/read_texts.hpp"
#include "recipe/read_value.hpp"

namespace lynearm::recipe {
namespace {

using ::testing::ElementsAre;

constexpr const char* page_path = "docs/recipe-and-kit.md";

bool renew() {
  const char* wanted = std::getenv("LYNEARM_RENEW");
  return wanted != nullptr && std::string(wanted) == "1";
}

// The committed file is `made`, byte for byte; when asked to, it is written first.
void hold(const std::string& path, const std::string& made) {
  if (renew()) std::ofstream(std::string(LYNEARM_SOURCE_DIR) + "/" + path) << made;
  EXPECT_TRUE(file_text(path) == made)
      << path << " is not what the reader reads any more. Renew it: LYNEARM_RENEW=1 "
      << "<build folder>/recipe_tests, and commit it.";
}

// The headings of a page one level deeper, for a place inside another page.
std::string deeper(const std::string& page) {
  std::string out;
  std::istringstream lines(page);
  for (std::string line; std::getline(lines, line);) {
    out += (line.starts_with('#') ? "#" : "") + line + "\n";
  }
  return out;
}

// `page` with what stands between the markers of `name` replaced.
std::string between_markers(const std::string& page, const std::string& name,
                            const std::string& made) {
  const std::string begin =
      "<!-- " + name + ": begin, made by tests/recipe/read_schema_test.cpp -->\n";
  const std::string end = "<!-- " + name + ": end -->\n";
  const std::size_t from = page.find(begin);
  const std::size_t to = page.find(end);
  if (from == std::string::npos || to == std::string::npos || to < from) {
    ADD_FAILURE() << page_path << " lacks the markers of " << name;
    return page;
  }
  return page.substr(0, from + begin.size()) + "\n" + made + "\n" + page.substr(to);
}

// The texts fenced as TOML in a page, in their order.
std::vector<std::string> fenced(const std::string& page) {
  std::vector<std::string> all;
  const std::string fence = "```toml\n";
  for (std::size_t at = page.find(fence); at != std::string::npos; at = page.find(fence, at)) {
    at += fence.size();
    all.push_back(page.substr(at, page.find("```", at) - at));
  }
  return all;
}

TEST(Schema, TheCommittedFilesAreWhatTheReaderReads) {
  hold("docs/schema/recipe.schema.json", json_schema(describe_recipe()));
  hold("docs/schema/kit.schema.json", json_schema(describe_kit()));
}

TEST(Page, ItsTablesAreWhatTheReaderReads) {
  std::string page = file_text(page_path);
  page = between_markers(page, "recipe.toml", deeper(markdown(describe_recipe())));
  page = between_markers(page, "kit.toml", deeper(markdown(describe_kit())));
  hold(page_path, page);
}

TEST(Page, ItsExamplesReadWithoutFault) {
  const std::vector<std::string> examples = fenced(file_text(page_path));
  ASSERT_EQ(examples.size(), 5U);
  const auto faults = [](const std::string& recipe, const std::string& kit) {
    return sentences([&] { return read_pair({recipe, "recipe.toml"}, {kit, "kit.toml"}); });
  };
  EXPECT_THAT(faults(examples[0], examples[1]), ElementsAre());
  // The third is one more line of the bill, the other two are sections of a kit.
  EXPECT_THAT(faults(examples[0] + examples[2], examples[1] + examples[3] + examples[4]),
              ElementsAre());
}

// A pattern of the schema accepts what the reader accepts, and refuses what it refuses.
template <class T>
void hold_pattern(const std::vector<const char*>& good, const std::vector<const char*>& bad) {
  Description note;
  Field<T>::describe(note);
  const std::regex pattern(note.pattern);
  for (const auto* list : {&good, &bad}) {
    for (const char* text : *list) {
      Node node;
      node.type = Node::Type::text;
      node.entered = text;
      EXPECT_EQ(std::regex_search(text, pattern), list == &good) << text;
      EXPECT_EQ(Field<T>::read(node).value.has_value(), list == &good) << text;
    }
  }
}

TEST(Schema, ItsPatternsAgreeWithTheReader) {
  hold_pattern<Strength>(
      {"55 %vol", "55%vol", " 47.2 % mass", "110 proof", "110 °proof", "5e1 %ABV"},
      {"55 %", "55", "55 kg", "proof", "55,5 %vol"});
  hold_pattern<plan::SpiritLot>({"2.5 L @ 32 %vol", "2 gal at 60 proof", "2L@32%vol"},
                                {"2.5 L", "32 %vol", "2.5 kg @ 32 %vol", "2.5 L @ 32 %"});
  hold_pattern<plan::Border>({"150 mL", "58 %vol", "116 proof", "94 °C", "1 L 50 mL", "201 °F"},
                             {"58 %", "150", "5 kg", "94 °C head"});
  hold_pattern<plan::Staves>({"for the time"}, {"12", "for the times", ""});
  hold_pattern<PriceBy<units::PricedBy::kilogram>>({"0.95 / kg", "2 per lb", "1/kg"},
                                                   {"0.95", "0.95 / L", "0.9 each", "/ kg"});
  hold_pattern<PriceBy<units::PricedBy::litre>>({"0.004 / L", "4 / m3", "1 per gal"},
                                                {"0.004", "1 / kg", "1 / kWh"});
  hold_pattern<PriceBy<units::PricedBy::kilowatt_hour>>({"0.28 / kWh", "0.08 / MJ"},
                                                        {"0.28 / kW", "0.28"});
  hold_pattern<PriceBy<units::PricedBy::piece>>({"0.90 each", "1 / piece"}, {"0.90", "1 / kg"});
}

}  // namespace
}  // namespace lynearm::recipe
