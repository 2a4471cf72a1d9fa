#include "wire/strict_json.hpp"

#include <fmt/format.h>

#include <set>

#include "wire/entry_reader.hpp"

namespace lynearm::wire {
namespace {

constexpr int deepest = 16;  // keeps a parser's stack small; nothing of ours is nested deeper
// Of one object: the JSON library looks each name up among all before it.
constexpr std::size_t most_names = 200;

}  // namespace

std::optional<Json> parsed(std::string_view text, const std::string& path,
                           std::vector<base::Fault>& faults) {
  std::vector<std::set<std::string>> names;
  std::string twice;
  bool too_deep = false;
  bool too_wide = false;
  const Json::parser_callback_t watch = [&](int depth, Json::parse_event_t event, Json& value) {
    if (depth > deepest) {
      too_deep = true;
      return false;
    }
    if (event == Json::parse_event_t::object_start) names.emplace_back();
    if (event == Json::parse_event_t::object_end) names.pop_back();
    if (event == Json::parse_event_t::key && names.back().size() >= most_names) {
      too_wide = true;
      return false;
    }
    if (event == Json::parse_event_t::key &&
        !names.back().insert(value.get_ref<const std::string&>()).second) {
      twice = value.get_ref<const std::string&>();
    }
    return true;
  };
  try {
    Json found = Json::parse(text.begin(), text.end(), watch);
    if (too_deep) {
      faults.push_back(
          {path, "nested too deep", fmt::format("at most {} levels", deepest), "", 0, 0});
      return std::nullopt;
    }
    if (too_wide) {
      faults.push_back({path, "an object of too many names",
                        fmt::format("at most {}", most_names), "", 0, 0});
      return std::nullopt;
    }
    if (!twice.empty()) {
      faults.push_back({path, fmt::format("\"{}\" twice", as_written(Json(twice))),
                        "each name once", "", 0, 0});
      return std::nullopt;
    }
    return found;
  } catch (const Json::parse_error& error) {
    faults.push_back(
        {path, fmt::format("no JSON from byte {} on", error.byte), "JSON", "", 0, 0});
  } catch (const Json::out_of_range&) {
    faults.push_back(
        {path, "a figure too large", "figures of a size that can be held", "", 0, 0});
  }
  return std::nullopt;
}

}  // namespace lynearm::wire
