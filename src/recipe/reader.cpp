#include "recipe/reader.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>

#include "base/unknown_key.hpp"

namespace lynearm::recipe {
namespace {

std::string one_of(const std::vector<std::string>& names) {
  return fmt::format("one of \"{}\"", fmt::join(names, "\", \""));
}

// Keys that one item of a list asked for and another did not are both keys of the list.
void merge(Description& into, Description&& part) {
  for (Description& key : part.keys) {
    if (Description* known = into.find(key.key)) {
      merge(*known, std::move(key));
    } else {
      into.keys.push_back(std::move(key));
    }
  }
}

}  // namespace

Section::Section(Reading& reading, const Node* node, std::string path, std::string key,
                 std::string about)
    : reading_(&reading), node_(node), path_(std::move(path)) {
  described_.key = std::move(key);
  described_.about = std::move(about);
}

std::string Section::path_of(std::string_view key) const {
  if (key.empty()) return path_of("\"\"");
  return path_.empty() ? std::string(key) : fmt::format("{}.{}", path_, key);
}

bool Section::has(std::string_view key) const {
  return node_ != nullptr && node_->find(key) != nullptr;
}

Place Section::place() const {
  return node_ == nullptr || path_.empty() ? Place{} : node_->place;
}

bool Section::any_required() const {
  return std::any_of(described_.keys.begin(), described_.keys.end(),
                     [](const Description& key) { return key.required; });
}

Description Section::note_for(std::string_view key, std::string_view about, bool required,
                              std::string range) {
  Description note;
  note.key = key;
  note.about = about;
  note.required = required;
  note.range = std::move(range);
  return note;
}

std::string Section::with_range(const std::string& accepted, const std::string& range) {
  return range.empty() ? accepted : accepted + ", " + range;
}

std::string Section::item_name(std::string_view key, std::size_t index) {
  return fmt::format("{}[{}]", key, index + 1);
}

const Node* Section::look_up(std::string_view key) {
  asked_.emplace_back(key);
  const Node::Entry* entry = node_ == nullptr ? nullptr : node_->find(key);
  return entry == nullptr ? nullptr : &entry->value;
}

const Node* Section::ask(Description note) {
  const Node* node = look_up(note.key);
  if (node == nullptr && note.required) missing(note.key, note.accepted);
  if (describing()) keep(std::move(note), false);
  return node;
}

const Node* Section::ask_list(Description note, std::size_t least) {
  const std::string key = note.key;
  const std::string accepted = least > 0
                                   ? fmt::format("a list in brackets, at least {} long", least)
                                   : std::string("a list in brackets");
  const Node* node = look_up(key);
  if (describing()) keep(std::move(note), false);
  if (node == nullptr) {
    if (least > 0) missing(key, accepted);
    return nullptr;
  }
  if (node->type != Node::Type::list || node->items.size() < least) {
    refuse_node(key, *node, accepted);
    return nullptr;
  }
  return node;
}

const Node* Section::ask_table(std::string_view key) {
  const Node* node = look_up(key);
  if (node == nullptr || node->type == Node::Type::table) return node;
  refuse_node(key, *node, fmt::format("a section [{}] with its keys", path_of(key)));
  return nullptr;
}

std::vector<const Node*> Section::ask_tables(std::string_view key, std::size_t least) {
  const Node* node = look_up(key);
  // A description needs one item, which the text does not have.
  if (describing()) return {nullptr};
  const std::string accepted =
      least > 0 ? fmt::format("at least {} [[{}]] with its keys", least, path_of(key))
                : fmt::format("[[{}]] with its keys, as often as there are any", path_of(key));
  if (node == nullptr) {
    if (least > 0) missing(key, accepted);
    return {};
  }
  if (node->type != Node::Type::list || node->items.size() < least) {
    refuse_node(key, *node, accepted);
    return {};
  }
  std::vector<const Node*> tables;
  for (std::size_t i = 0; i < node->items.size(); ++i) {
    const Node& item = node->items[i];
    if (item.type == Node::Type::table) {
      tables.push_back(&item);
    } else {
      refuse_node(item_name(key, i), item, accepted);
    }
  }
  return tables;
}

std::size_t Section::chosen(std::string_view key, std::string_view about,
                            std::vector<std::string> names,
                            std::optional<std::size_t> otherwise) {
  base::ensure(!names.empty(), "a choice has names");
  Description note = note_for(key, about, !otherwise.has_value(), "");
  note.shape = Shape::choice;
  note.kind = "one of";
  note.accepted = one_of(names);
  if (otherwise) note.otherwise = names[*otherwise];
  note.choices = names;
  const Node* node = ask(std::move(note));
  const std::size_t stand_in = otherwise.value_or(0);
  if (node == nullptr) return stand_in;
  if (node->type == Node::Type::text) {
    const auto found = std::find(names.begin(), names.end(), node->entered);
    if (found != names.end()) return static_cast<std::size_t>(found - names.begin());
  }
  std::string accepted = one_of(names);
  const std::string nearest = base::nearest_name(node->entered, names);
  if (!nearest.empty()) accepted += fmt::format(" (\"{}\" is the nearest)", nearest);
  refuse_node(key, *node, accepted);
  return stand_in;
}

void Section::missing(std::string_view key, std::string accepted) {
  const Place where = place();
  reading_->faults.push_back(
      {path_of(key), "", std::move(accepted), reading_->file, where.line, where.column});
}

void Section::refuse_node(std::string_view key, const Node& node, std::string accepted) {
  reading_->faults.push_back({path_of(key), node.entered, std::move(accepted), reading_->file,
                              node.place.line, node.place.column});
}

void Section::refuse(std::string_view key, std::string accepted) {
  if (describing()) return;
  const Node::Entry* entry = node_ == nullptr ? nullptr : node_->find(key);
  if (entry == nullptr) {
    missing(key, std::move(accepted));
  } else {
    refuse_node(key, entry->value, std::move(accepted));
  }
}

void Section::keep(Description part, bool required) {
  if (!describing()) return;
  part.required = part.required || required;
  if (Description* known = described_.find(part.key)) {
    merge(*known, std::move(part));
  } else {
    described_.keys.push_back(std::move(part));
  }
}

void Section::finish() {
  if (node_ == nullptr) return;
  for (const Node::Entry& entry : node_->entries) {
    if (std::find(asked_.begin(), asked_.end(), entry.key) != asked_.end()) continue;
    reading_->faults.push_back({path_of(entry.key), std::string(base::unknown_key),
                                base::accepted_keys(entry.key, asked_), reading_->file,
                                entry.place.line, entry.place.column});
  }
}

}  // namespace lynearm::recipe
