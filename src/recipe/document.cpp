#include "recipe/document.hpp"

#include <fmt/format.h>
#include <toml++/toml.h>

#include <algorithm>
#include <charconv>

namespace lynearm::recipe {
namespace {

Place place_of(const toml::source_position& position) {
  return {static_cast<int>(position.line), static_cast<int>(position.column)};
}

// The text from one position to another on the same line. Columns count characters, not bytes.
std::string slice(std::string_view text, const toml::source_region& region) {
  if (!region.begin || region.begin.line != region.end.line) return {};
  std::size_t at = 0;
  for (toml::source_index line = 1; line < region.begin.line; ++line) {
    at = text.find('\n', at);
    if (at == std::string_view::npos) return {};
    ++at;
  }
  std::string out;
  toml::source_index column = 0;
  for (; at < text.size() && text[at] != '\n'; ++at) {
    const bool continues = (static_cast<unsigned char>(text[at]) & 0xC0U) == 0x80U;
    if (!continues) ++column;
    if (column >= region.end.column) break;
    if (column >= region.begin.column) out += text[at];
  }
  while (!out.empty() && (out.back() == ' ' || out.back() == '\t' || out.back() == '\r')) {
    out.pop_back();
  }
  return out;
}

Node node_of(const toml::node& source, std::string_view text) {
  Node node;
  node.place = place_of(source.source().begin);
  if (const toml::table* table = source.as_table()) {
    node.entered = "{...}";
    for (const auto& [key, value] : *table) {
      node.entries.push_back(
          {std::string(key.str()), place_of(key.source().begin), node_of(value, text)});
    }
    // The library sorts by name; the text has an order of its own.
    std::stable_sort(node.entries.begin(), node.entries.end(),
                     [](const Node::Entry& a, const Node::Entry& b) {
                       return std::pair(a.place.line, a.place.column) <
                              std::pair(b.place.line, b.place.column);
                     });
    return node;
  }
  if (const toml::array* array = source.as_array()) {
    node.type = Node::Type::list;
    node.entered = "[...]";
    for (const toml::node& item : *array) node.items.push_back(node_of(item, text));
    return node;
  }
  if (const auto* string = source.as_string()) {
    node.type = Node::Type::text;
    node.entered = string->get();
    return node;
  }
  node.entered = slice(text, source.source());
  if (const auto* integer = source.as_integer()) {
    node.type = Node::Type::integer;
    node.integer = integer->get();
    node.real = static_cast<double>(integer->get());
    if (node.entered.empty()) node.entered = fmt::format("{}", node.integer);
  } else if (const auto* real = source.as_floating_point()) {
    node.type = Node::Type::real;
    node.real = real->get();
    if (node.entered.empty()) node.entered = fmt::format("{}", node.real);
  } else if (const auto* boolean = source.as_boolean()) {
    node.type = Node::Type::boolean;
    node.boolean = boolean->get();
    if (node.entered.empty()) node.entered = node.boolean ? "true" : "false";
  } else {
    node.type = Node::Type::other;
    if (node.entered.empty()) node.entered = "a date or time";
  }
  return node;
}

}  // namespace

const Node::Entry* Node::find(std::string_view key) const {
  for (const Entry& entry : entries) {
    if (entry.key == key) return &entry;
  }
  return nullptr;
}

Document parse_document(std::string_view text, std::string file) {
  try {
    const toml::table table = toml::parse(text);
    return {std::move(file), node_of(table, text)};
  } catch (const toml::parse_error& error) {
    const Place place = place_of(error.source().begin);
    std::string reason(error.description());
    if (!reason.empty() && reason[0] >= 'A' && reason[0] <= 'Z') {
      reason[0] = static_cast<char>(reason[0] - 'A' + 'a');
    }
    throw base::InputError(std::vector<base::Fault>{
        {"the text", "not TOML",
         fmt::format(R"(TOML, one key = value a line, such as volume = "25 L" ({}))", reason),
         std::move(file), place.line, place.column}});
  }
}

base::Fault located(base::Fault fault, const Document& document) {
  if (!fault.file.empty()) return fault;
  fault.file = document.file;
  const Node* node = &document.root;
  Place place;
  std::string_view path = fault.field;
  while (node != nullptr && !path.empty()) {
    const std::string_view key = path.substr(0, path.find_first_of(".["));
    path.remove_prefix(key.size());
    const Node::Entry* entry = node->find(key);
    if (entry == nullptr) break;
    node = &entry->value;
    place = node->place.line > 0 ? node->place : entry->place;
    while (path.starts_with('[')) {
      std::size_t number = 0;
      const char* begin = path.data() + 1;
      const auto [end, error] = std::from_chars(begin, path.data() + path.size(), number);
      const std::size_t close = path.find(']');
      if (error != std::errc{} || close == std::string_view::npos || number < 1 ||
          number > node->items.size()) {
        path = {};
        break;
      }
      path.remove_prefix(close + 1);
      node = &node->items[number - 1];
      if (node->place.line > 0) place = node->place;
    }
    if (path.starts_with('.')) path.remove_prefix(1);
  }
  fault.line = place.line;
  fault.column = place.column;
  return fault;
}

void order_by_place(std::vector<base::Fault>& faults) {
  std::stable_sort(faults.begin(), faults.end(),
                   [](const base::Fault& a, const base::Fault& b) {
                     return std::pair(a.line, a.column) < std::pair(b.line, b.column);
                   });
}

}  // namespace lynearm::recipe
