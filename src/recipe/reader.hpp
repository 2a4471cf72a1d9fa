// Reading a TOML text into values, as a function that is the list of its keys:
//
//   Rest rest(Section& in) {
//     return {.at = in.required("temperature", "rest temperature", between(40_C, 80_C)),
//             .length = in.optional("time", "length of the rest", at_least(0_min), 90_min)};
//   }
//   Rest r = read(text, "recipe.toml", rest);
//
// A mistake is noted with its place and reading goes on with a stand-in, so that all mistakes
// are told together, in the order of the text. A key that nobody asked for is a mistake. The
// same function describes itself: describe("recipe.toml", "...", rest).
//
// So a reading function asks for every key it knows, always (not only under a condition), and
// judges values across keys with Section::refuse().
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <type_traits>
#include <utility>
#include <vector>

#include "recipe/description.hpp"
#include "recipe/document.hpp"
#include "recipe/field.hpp"

namespace lynearm::recipe {

/// What one reading gathers.
struct Reading {
  std::string file;
  std::vector<base::Fault> faults;
  bool describing = false;
};

/// The names of an enumeration in the text.
template <class E>
using Names = std::vector<std::pair<std::string, E>>;

/// A table of the text, or the lack of one. Made by read(), describe(), inside() and each().
class Section {
 public:
  /// node   nullptr when the text has no such table
  /// path   of the table, empty for the root
  Section(Reading& reading, const Node* node, std::string path, std::string key = {},
          std::string about = {});

  /// The value of a key that must be there.
  /// about    one line for the reference page, without full stop
  /// returns  the value, or a stand-in within the range after a mistake
  template <class T>
  T required(std::string_view key, std::string_view about, const Range<T>& range = {}) {
    const std::optional<T> found = value<T>(key, about, range, true, std::nullopt);
    return found ? *found : range.low ? *range.low : range.high ? *range.high : T{};
  }

  /// The value of a key, or `otherwise` when it is left out.
  template <class T>
  T optional(std::string_view key, std::string_view about, const Range<T>& range,
             std::type_identity_t<T> otherwise) {
    return value<T>(key, about, range, false, Field<T>::show(otherwise)).value_or(otherwise);
  }
  template <class T>
  T optional(std::string_view key, std::string_view about, T otherwise) {
    return optional<T>(key, about, Range<T>{}, otherwise);
  }

  /// The value of a key, or nothing.
  template <class T>
  std::optional<T> maybe(std::string_view key, std::string_view about,
                         const Range<T>& range = {}) {
    return value<T>(key, about, range, false, std::nullopt);
  }

  /// A quantity with its spread: "75 % +/- 4 %". A plain "75 %" keeps the half width of
  /// `otherwise`. The range is that of the median.
  template <class Q>
  units::Spread<Q> spread(std::string_view key, std::string_view about, const Range<Q>& range,
                          const std::type_identity_t<units::Spread<Q>>& otherwise) {
    Description note = note_for(key, about, false, range.words());
    if (describing()) {
      describe_spread(note, units::kind<Q>(), units::kind<units::Change<Q>>());
      note.otherwise =
          units::concise(otherwise.median) + " +/- " + units::concise(otherwise.half_width_80);
    }
    const Node* node = ask(std::move(note));
    if (node == nullptr) return otherwise;
    if (node->type != Node::Type::text) {
      const units::Parsed<Q> bare = Field<Q>::read(*node);
      if (bare && range.holds(*bare.value)) return {*bare.value, otherwise.half_width_80};
      refuse_node(key, *node,
                  with_range(bare ? units::kind<Q>().phrase() : bare.accepted, range.words()));
      return otherwise;
    }
    const auto parsed = units::try_parse_spread<Q>(node->entered, otherwise.half_width_80);
    if (parsed && range.holds(parsed.value->median)) return *parsed.value;
    refuse_node(
        key, *node,
        with_range(parsed ? units::kind<Q>().phrase() : parsed.accepted, range.words()));
    return otherwise;
  }

  /// One of several names; must be there.
  template <class E>
  E choice(std::string_view key, std::string_view about, const Names<E>& names) {
    return names[chosen(key, about, only_names(names), std::nullopt)].second;
  }
  /// One of several names, or `otherwise` (which is among them) when it is left out.
  template <class E>
  E choice(std::string_view key, std::string_view about, const Names<E>& names,
           std::type_identity_t<E> otherwise) {
    std::size_t standard = 0;
    while (standard + 1 < names.size() && names[standard].second != otherwise) ++standard;
    return names[chosen(key, about, only_names(names), standard)].second;
  }

  /// A list of values: ["66 °C", "72 °C"]. Left out it is empty, refused if `least` > 0.
  template <class T>
  std::vector<T> list(std::string_view key, std::string_view about, const Range<T>& range = {},
                      std::size_t least = 0) {
    Description note = note_for(key, about, least > 0, range.words());
    if (describing()) {
      Field<T>::describe(note);
      note.item = note.shape;
      note.shape = Shape::list;
      note.least_items = least;
    }
    std::vector<T> values;
    const Node* node = ask_list(std::move(note), least);
    for (std::size_t i = 0; node != nullptr && i < node->items.size(); ++i) {
      const std::string item = item_name(key, i);
      const std::optional<T> found = judged<T>(item, node->items[i], range);
      values.push_back(found ? *found : range.low.value_or(T{}));
    }
    return values;
  }

  /// What `read` makes of the table under `key`. A table that is left out is read as an empty
  /// one: its defaults hold and its required keys are missing.
  template <class F>
  auto inside(std::string_view key, std::string_view about, F read) {
    const Node* node = ask_table(key);
    Section section(*reading_, node, path_of(key), std::string(key), std::string(about));
    auto result = read(section);
    section.finish();
    const bool needed = section.any_required();
    keep(std::move(section.described_), needed);
    return result;
  }

  /// The same for a table that may be left out altogether.
  template <class F>
  auto maybe_inside(std::string_view key, std::string_view about, F read)
      -> std::optional<std::invoke_result_t<F, Section&>> {
    const Node* node = ask_table(key);
    if (node == nullptr && !describing()) return std::nullopt;
    Section section(*reading_, node, path_of(key), std::string(key), std::string(about));
    auto result = read(section);
    section.finish();
    keep(std::move(section.described_), false);
    return result;
  }

  /// What `read` makes of each table of a list, [[key]]. Left out it is empty, refused if
  /// `least` > 0. Paths count from 1: "mash_bill[2].mass".
  template <class F>
  auto each(std::string_view key, std::string_view about, F read, std::size_t least = 0)
      -> std::vector<std::invoke_result_t<F, Section&>> {
    std::vector<std::invoke_result_t<F, Section&>> results;
    for (const Node* item : ask_tables(key, least)) {
      const std::string name =
          item == nullptr ? std::string(key) : item_name(key, results.size());
      Section section(*reading_, item, path_of(name), std::string(key), std::string(about));
      results.push_back(read(section));
      section.finish();
      section.described_.shape = Shape::sections;
      section.described_.least_items = least;
      keep(std::move(section.described_), least > 0);
    }
    return results;
  }

  /// Notes a mistake across keys: the value of `key` as entered, and what would be accepted.
  void refuse(std::string_view key, std::string accepted);

  /// Whether the text has that key (false while describing). For refuse(); does not ask for it.
  [[nodiscard]] bool has(std::string_view key) const;
  /// Where the table stands; 0 for the root and for a table left out.
  [[nodiscard]] Place place() const;
  /// Path of a key of this table, as in faults.
  [[nodiscard]] std::string path_of(std::string_view key) const;

  /// Notes each key that was not asked for. Called by the functions that make Sections.
  void finish();
  [[nodiscard]] Description& description() { return described_; }

 private:
  template <class T>
  std::optional<T> value(std::string_view key, std::string_view about, const Range<T>& range,
                         bool required, std::optional<std::string> otherwise) {
    Description note = note_for(key, about, required, range.words());
    // Words are made only where someone will read them.
    if (describing() || (required && !has(key))) {
      Field<T>::describe(note);
      note.accepted = with_range(note.accepted, note.range);
    }
    note.otherwise = std::move(otherwise);
    if constexpr (std::is_arithmetic_v<T> && !std::is_same_v<T, bool>) {
      if (range.low) note.least = static_cast<double>(*range.low);
      if (range.high) note.most = static_cast<double>(*range.high);
    }
    const Node* node = ask(std::move(note));
    return node == nullptr ? std::nullopt : judged<T>(key, *node, range);
  }

  template <class T>
  std::optional<T> judged(std::string_view key, const Node& node, const Range<T>& range) {
    units::Parsed<T> parsed = Field<T>::read(node);
    if (parsed && range.holds(*parsed.value)) return parsed.value;
    if (parsed) {
      Description note;
      Field<T>::describe(note);
      parsed.accepted = std::move(note.accepted);
    }
    refuse_node(key, node, with_range(parsed.accepted, range.words()));
    return std::nullopt;
  }

  template <class E>
  static std::vector<std::string> only_names(const Names<E>& names) {
    std::vector<std::string> only;
    for (const auto& pair : names) only.push_back(pair.first);
    return only;
  }

  [[nodiscard]] bool describing() const { return reading_->describing; }
  [[nodiscard]] bool any_required() const;
  [[nodiscard]] static Description note_for(std::string_view key, std::string_view about,
                                            bool required, std::string range);
  [[nodiscard]] static std::string with_range(const std::string& accepted,
                                              const std::string& range);
  [[nodiscard]] static std::string item_name(std::string_view key, std::size_t index);

  // Each notes the key as asked for; the node, or nullptr when it is left out or refused.
  const Node* ask(Description note);
  const Node* ask_list(Description note, std::size_t least);
  const Node* ask_table(std::string_view key);
  std::vector<const Node*> ask_tables(std::string_view key, std::size_t least);
  // The place in `names` of the one that stands there.
  std::size_t chosen(std::string_view key, std::string_view about,
                     std::vector<std::string> names, std::optional<std::size_t> otherwise);
  const Node* look_up(std::string_view key);
  void missing(std::string_view key, std::string accepted);
  void refuse_node(std::string_view key, const Node& node, std::string accepted);
  void keep(Description part, bool required);

  Reading* reading_;
  const Node* node_;
  std::string path_;
  std::vector<std::string> asked_;
  Description described_;  // filled only while describing
};

/// Reads `text` with `function`, a callable of Section& that returns a value.
/// file       named in faults; not opened
/// throws     InputError with every fault, ordered by place. InputErrors thrown by `function`
///            are given their place in the text and told with the others.
template <class F>
auto read(std::string_view text, std::string file, F function) {
  const Document document = parse_document(text, std::move(file));
  Reading reading{document.file, {}, false};
  Section root(reading, &document.root, "");
  std::optional<std::invoke_result_t<F, Section&>> result;
  try {
    result = function(root);
    root.finish();
  } catch (const base::InputError& error) {
    for (const base::Fault& fault : error.faults()) {
      reading.faults.push_back(located(fault, document));
    }
  }
  if (!reading.faults.empty()) {
    order_by_place(reading.faults);
    throw base::InputError(std::move(reading.faults));
  }
  return *std::move(result);
}

/// What `function` reads, by running it over an empty text.
template <class F>
[[nodiscard]] Description describe(std::string name, std::string about, F function) {
  Reading reading{name, {}, true};
  Section root(reading, nullptr, "", std::move(name), std::move(about));
  (void)function(root);
  return std::move(root.description());
}

}  // namespace lynearm::recipe
