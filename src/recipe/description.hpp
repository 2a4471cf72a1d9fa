// What a text may hold, noted by the very code that reads it: keys, kinds, ranges, defaults and
// a line about each. From it come the JSON Schema for editors and the reference page, so that
// neither can fall behind the reader.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace lynearm::recipe {

/// How a key's value looks in the text.
enum class Shape {
  section,   ///< a table
  sections,  ///< a list of tables
  quantity,  ///< a string with a unit, or a bare number where `bare`
  list,      ///< a list of quantities
  number,    ///< a bare number
  count,     ///< a whole number
  yes_no,    ///< true or false
  text,      ///< any string
  choice,    ///< one of `choices`
};

/// One key and what lies under it.
struct Description {
  std::string key;
  std::string about;  ///< one line, without full stop
  Shape shape = Shape::section;
  Shape item = Shape::quantity;  ///< of a list
  bool required = false;
  std::string accepted;  ///< the phrase of a fault: `a mass such as "4.5 kg", ...`
  std::string kind;      ///< "mass", "number"; the short word for a table
  std::string range;     ///< "from 0 °C to 100 °C"; empty without limits
  std::optional<std::string> otherwise;  ///< what holds when the key is left out
  std::string pattern;  ///< of a quantity's string: an ECMA-262 regular expression
  bool bare = false;    ///< a quantity that may be a number
  std::optional<double> least, most;  ///< of numbers and counts
  std::size_t least_items = 0;        ///< of lists
  std::vector<std::string> choices;
  std::vector<Description> keys;  ///< of sections

  /// The key of that name, or nullptr.
  [[nodiscard]] Description* find(std::string_view name);
};

/// The JSON Schema (draft 2020-12) of a text so described. Text ends with a newline.
[[nodiscard]] std::string json_schema(const Description& root);

/// A reference page in Markdown: one heading and one table a section.
[[nodiscard]] std::string markdown(const Description& root);

}  // namespace lynearm::recipe
