// JSON written as text, member by member. As a tree a run's thousands of readings take several
// times the room of their text, and several pages may ask at once. For the sources of this room
// only.
#pragma once

#include <string>
#include <string_view>

#include "wire/figure.hpp"

namespace lynearm::wire {

/// As all of this room is printed.
[[nodiscard]] inline std::string printed(const Json& value) {
  return value.dump(-1, ' ', false, Json::error_handler_t::replace);
}

/// Writes one object at the end of a text, which outlives it. Until its end nothing else is
/// written there but the values of what it named.
class ObjectText {
 public:
  explicit ObjectText(std::string& text) : text_(text) { text_ += '{'; }

  /// A name, of which no letter needs escaping; its value is for the caller to write.
  void name(std::string_view plain) {
    text_ += between_;
    between_ = ",";
    quote(plain);
    text_ += ':';
  }
  void add(std::string_view plain_name, const Json& value) {
    name(plain_name);
    text_ += printed(value);
  }
  /// Words of ours, of which no letter needs escaping: an id, a time.
  void add_plain(std::string_view plain_name, std::string_view plain) {
    name(plain_name);
    quote(plain);
  }
  /// Each member of an object.
  void add(const Json& object) {
    for (const auto& [name, value] : object.items()) add(name, value);
  }
  void end() { text_ += '}'; }

 private:
  void quote(std::string_view plain) {
    text_ += '"';
    text_ += plain;
    text_ += '"';
  }

  std::string& text_;
  std::string_view between_;
};

/// Writes a list whose rows `write` writes at the end of the text, one by one.
template <class Rows, class Write>
void write_list(std::string& text, const Rows& rows, const Write& write) {
  text += '[';
  std::string_view between;
  for (const auto& row : rows) {
    text += between;
    between = ",";
    write(row);
  }
  text += ']';
}

}  // namespace lynearm::wire
