// The schema of an entry and the tables of its page are made from the description that reads
// and writes entries. Renew them with LYNEARM_RENEW=1.
#include <fmt/format.h>
#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <sstream>
#include <string>

#include "places.hpp"
#include "wire/entry.hpp"

namespace lynearm::wire {
namespace {

using Json = nlohmann::ordered_json;

std::string text_of(const std::string& path) {
  std::ostringstream text;
  text << std::ifstream(path, std::ios::binary).rdbuf();
  return text.str();
}

void hold_file(const std::string& name, const std::string& made) {
  const std::string path = std::string(LYNEARM_SOURCE_DIR) + name;
  const char* renew = std::getenv("LYNEARM_RENEW");
  if (renew != nullptr && std::string(renew) == "1") {
    std::ofstream(path, std::ios::binary) << made;
  }
  EXPECT_TRUE(text_of(path) == made) << path
                                     << " is not what the reader reads any more. Renew it: "
                                        "LYNEARM_RENEW=1 ctest -R wire_tests";
}

// "kg" of "water_kg", "L at 20 °C" of "volume_L_20C".
std::string unit_of(const std::string& key) {
  struct Ending {
    const char* end;
    const char* unit;
  };
  constexpr Ending endings[] = {{"_L_20C", "L at 20 °C"},
                                {"_mL_20C", "mL at 20 °C"},
                                {"_L_per_min", "L/min"},
                                {"_percent_vol", "%vol"},
                                {"_hPa", "hPa"},
                                {"_mL", "mL"},
                                {"_kg", "kg"},
                                {"_L", "L"},
                                {"_g", "g"},
                                {"_C", "°C"},
                                {"_W", "W"}};
  for (const Ending& ending : endings) {
    const std::string end = ending.end;
    if (key.size() > end.size() && key.compare(key.size() - end.size(), end.size(), end) == 0) {
      return ending.unit;
    }
  }
  return {};
}

std::string sort_of(const std::string& key, const Json& one) {
  if (one.contains("enum")) {
    std::string words;
    for (const Json& word : one["enum"]) {
      words += (words.empty() ? "`" : ", `") + word.get<std::string>() + "`";
    }
    return words;
  }
  const std::string type = one["type"];
  if (type == "number" || type == "integer") {
    const std::string unit = unit_of(key);
    return fmt::format("{} {:.10g} to {:.10g}{}", type == "number" ? "number" : "whole number",
                       one["minimum"].get<double>(), one["maximum"].get<double>(),
                       unit.empty() ? "" : " " + unit);
  }
  if (type == "boolean") return "true or false";
  if (type == "array") {
    const Json& items = one["items"];
    return items["type"] == "string"
               ? fmt::format("list of at most {} texts of at most {} bytes",
                             one["maxItems"].get<int>(), items["maxLength"].get<int>())
               : fmt::format("list of at most {} objects", one["maxItems"].get<int>());
  }
  if (type == "object") return "object";
  if (one.contains("format")) return one["format"] == "uuid" ? "UUID" : "date and time";
  return fmt::format("text of at most {} bytes", one["maxLength"].get<int>());
}

void rows(const Json& object, const std::string& path, std::string& page) {
  for (const auto& [key, one] : object["properties"].items()) {
    bool required = false;
    if (object.contains("required")) {
      for (const Json& name : object["required"]) required = required || name == key;
    }
    page += fmt::format("| `{}{}` | {} | {} |\n", path, key, sort_of(key, one),
                        required ? "yes" : "");
    if (one.contains("properties")) rows(one, path + key + ".", page);
    if (one.contains("items") && one["items"].contains("properties")) {
      rows(one["items"], path + key + "[].", page);
    }
  }
}

std::string tables(const Json& schema) {
  std::string page;
  for (const Json& kind : schema["oneOf"]) {
    const Json& body = kind["properties"]["body"];
    page += fmt::format("### {}\n\n", kind["title"].get<std::string>());
    if (body["properties"].empty()) {
      page += "No keys.\n\n";
      continue;
    }
    page += "| key | what stands there | required |\n|---|---|---|\n";
    rows(body, "", page);
    page += "\n";
  }
  return page;
}

TEST(EntryPage, TheSchemaIsWhatTheReaderReads) {
  hold_file("/docs/schema/entry.schema.json", entry_schema());
}

TEST(EntryPage, TheTablesAreWhatTheReaderReads) {
  const std::string begin = "<!-- kinds: begin, made by tests/wire/entry_page_test.cpp -->\n";
  const std::string end = "<!-- kinds: end -->\n";
  const std::string name = "/docs/journal.md";
  const std::string page = text_of(std::string(LYNEARM_SOURCE_DIR) + name);
  const auto from = page.find(begin);
  const auto to = page.find(end);
  ASSERT_TRUE(from != std::string::npos && to != std::string::npos && from < to);
  hold_file(name, page.substr(0, from + begin.size()) + "\n" +
                      tables(Json::parse(entry_schema())) + page.substr(to));
}

}  // namespace
}  // namespace lynearm::wire
