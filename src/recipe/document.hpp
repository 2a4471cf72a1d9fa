// A TOML text as a tree of nodes that know their place in it. The only door to the TOML
// library: everything above sees Nodes. Leaves out dates and times, which no recipe needs; they
// are kept as entered, so that a field can refuse them.
#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/error.hpp"

namespace lynearm::recipe {

/// A place in a text, both from 1; 0 when it has none.
struct Place {
  int line = 0;
  int column = 0;

  friend bool operator==(const Place&, const Place&) = default;
};

/// A value in the text.
struct Node {
  enum class Type { table, list, text, integer, real, boolean, other };
  struct Entry;

  Type type = Type::table;
  Place place;
  std::string entered;         ///< as it stands in the text, without quotes; tables: "{...}"
  std::int64_t integer = 0;    ///< of an integer
  double real = 0.0;           ///< of an integer or a real
  bool boolean = false;        ///< of a boolean
  std::vector<Entry> entries;  ///< of a table, in the order of the text
  std::vector<Node> items;     ///< of a list

  /// The entry of that key, or nullptr.
  [[nodiscard]] const Entry* find(std::string_view key) const;
};

/// A key, where it stands, and its value.
struct Node::Entry {
  std::string key;
  Place place;
  Node value;
};

/// A text that was read as TOML.
struct Document {
  std::string file;  ///< named in faults
  Node root;
};

/// Reads `text` as TOML 1.0.
/// file       named in faults; not opened
/// throws     InputError with one fault at the place where the text stops being TOML
[[nodiscard]] Document parse_document(std::string_view text, std::string file);

/// `fault` with the file and the place of its field, found by its path ("mash_bill[2].mass",
/// items from 1), or of the nearest enclosing table. A fault that has a place is left as it is.
/// For faults the engine finds in values that came from a text.
[[nodiscard]] base::Fault located(base::Fault fault, const Document& document);

/// Orders faults as they stand in the text.
void order_by_place(std::vector<base::Fault>& faults);

}  // namespace lynearm::recipe
