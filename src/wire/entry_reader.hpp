// Reads the described members of a body from a JSON object, gathering what is wrong: missing
// members, wrong types, figures out of bounds, keys that nobody asked for. For the sources of
// this room only.
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <optional>
#include <set>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/error.hpp"
#include "base/unknown_key.hpp"
#include "wire/entry_fields.hpp"
#include "wire/figure.hpp"

namespace lynearm::wire {

/// A value as it stood, short enough to be told.
[[nodiscard]] std::string as_written(const Json& value);
/// Whether a text holds nothing that no page should echo: no control characters other than line
/// end and tab, and only UTF-8.
[[nodiscard]] bool is_plain(const std::string& text);

/// What an instrument of a scale can show; wide on purpose, common practice, no source.
struct Range {
  double low, high;
};
[[nodiscard]] inline Range figure_range(const spirit::Reading& reading) {
  switch (reading.scale) {
    case spirit::Scale::us_proof:
      return {0.0, 200.0};
    case spirit::Scale::density:
      return {700.0, 1100.0};
    case spirit::Scale::specific_gravity:
    case spirit::Scale::specific_gravity_60F:
      return {0.7, 1.1};
    default:
      return {0.0, 100.0};
  }
}
[[nodiscard]] inline Range figure_range(const journal::StrengthRead& read) {
  return figure_range(read.reading);
}
[[nodiscard]] inline Range figure_range(const journal::GravityRead& read) {
  switch (read.scale) {
    case journal::GravityScale::plato:
      return {-10.0, 50.0};
    case journal::GravityScale::brix:
      return {0.0, 50.0};
    case journal::GravityScale::specific_gravity:
      break;
  }
  return {0.9, 1.2};
}
[[nodiscard]] inline double figure_of(const spirit::Reading& reading) { return reading.figure; }
[[nodiscard]] inline double figure_of(const journal::StrengthRead& r) {
  return r.reading.figure;
}
[[nodiscard]] inline double figure_of(const journal::GravityRead& read) { return read.figure; }

class EntryReader {
 public:
  /// object, faults   outlive the reader
  EntryReader(const Json& object, std::string path, std::vector<base::Fault>& faults)
      : object_(object), path_(std::move(path)), faults_(faults) {}

  /// What remained unasked: call once, last.
  void finish() {
    for (const auto& [name, value] : object_.items()) {
      if (asked_.contains(name)) continue;
      const std::vector<std::string> known(asked_.begin(), asked_.end());
      fault(name.empty() ? "\"\"" : as_written(Json(name)), std::string(base::unknown_key),
            base::accepted_keys(name, known));
    }
  }

  void text(const char* name, std::string& value, std::size_t most, bool required) {
    const Json* const found = find(name);
    if (found == nullptr) {
      if (required) fault(name, "", "a text");
      return;
    }
    if (!found->is_string()) return fault(name, as_written(*found), "a text in quote marks");
    const auto& said = found->get_ref<const std::string&>();
    if (said.size() > most) {
      return fault(name, fmt::format("{} bytes", said.size()),
                   fmt::format("at most {} bytes", most));
    }
    if (!is_plain(said)) {
      return fault(name, as_written(*found), "a text without control characters");
    }
    if (required && said.find_first_not_of(" \t\r\n") == std::string::npos) {
      return fault(name, as_written(*found), "a text that says something");
    }
    value = said;
  }
  void flag(const char* name, bool& value) {
    const Json* const found = find(name);
    if (found == nullptr) return;
    if (!found->is_boolean()) return fault(name, as_written(*found), "true or false");
    value = found->get<bool>();
  }
  void whole(const char* name, int& value, int low, int high) {
    const Json* const found = find(name);
    const std::string accepted = fmt::format("a whole number from {} to {}", low, high);
    if (found == nullptr) return fault(name, "", accepted);
    if (!found->is_number_integer() || found->get<double>() < low ||
        found->get<double>() > high) {
      return fault(name, as_written(*found), accepted);
    }
    value = found->get<int>();
  }
  void whole(const char* name, std::optional<int>& value, int low, int high) {
    if (find(name) == nullptr) return;
    int read = low;
    whole(name, read, low, high);
    value = read;
  }
  void number(const char* name, double& value, double low, double high,
              std::string_view unit = "") {
    const Json* const found = find(name);
    const std::string accepted =
        fmt::format("a number from {} to {}{}{}", low, high, unit.empty() ? "" : " ", unit);
    if (found == nullptr) return fault(name, "", accepted);
    const bool inside = found->is_number() && std::isfinite(found->get<double>()) &&
                        found->get<double>() >= low && found->get<double>() <= high;
    if (!inside) return fault(name, as_written(*found), accepted);
    value = kept(found->get<double>());
  }
  void number(const char* name, std::optional<double>& value, double low, double high) {
    if (find(name) == nullptr) return;
    double read = low;
    number(name, read, low, high);
    value = read;
  }
  template <class Q>
  void amount(const char* name, Q& value, const Unit<Q>& unit) {
    double read = unit.in(value);
    number(name, read, unit.low, unit.high, unit.about);
    value = unit.of(read);
  }
  template <class Q>
  void amount(const char* name, std::optional<Q>& value, const Unit<Q>& unit) {
    if (find(name) == nullptr) return;
    double read = unit.low;
    number(name, read, unit.low, unit.high, unit.about);
    value = unit.of(read);
  }
  template <class E>
  void choice(const char* name, E& value, std::span<const std::string_view> words) {
    const Json* const found = find(name);
    const std::string accepted = fmt::format("\"{}\"", fmt::join(words, "\", \""));
    if (found == nullptr) return fault(name, "", accepted);
    const auto place = found->is_string() ? std::find(words.begin(), words.end(),
                                                      found->get_ref<const std::string&>())
                                          : words.end();
    if (place == words.end()) return fault(name, as_written(*found), accepted);
    value = static_cast<E>(place - words.begin());
  }
  template <class E>
  void choice(const char* name, std::optional<E>& value,
              std::span<const std::string_view> words) {
    if (find(name) == nullptr) return;
    E read{};
    choice(name, read, words);
    value = read;
  }
  void id(const char* name, journal::Id& value) {
    const Json* const found = find(name);
    if (found == nullptr) return fault(name, "", "a UUID");
    const auto read = found->is_string()
                          ? journal::read_id(found->get_ref<const std::string&>())
                          : std::nullopt;
    if (!read) return fault(name, as_written(*found), "a UUID");
    value = *read;
  }
  template <class B>
  void part(const char* name, B& value) {
    const Json* const found = find(name);
    if (found == nullptr) return fault(name, "", "an object");
    inner(*found, within(name), value);
  }
  template <class B>
  void part(const char* name, std::optional<B>& value) {
    const Json* const found = find(name);
    if (found == nullptr) return;
    value.emplace();
    inner(*found, within(name), *value);
  }
  template <class B>
  void parts(const char* name, std::vector<B>& values, std::size_t most) {
    const Json* const found = find(name);
    if (found == nullptr) return;
    if (!found->is_array()) return fault(name, as_written(*found), "a list");
    if (found->size() > most) {
      return fault(name, fmt::format("{} of them", found->size()),
                   fmt::format("at most {}", most));
    }
    values.clear();
    for (std::size_t i = 0; i < found->size(); ++i) {
      inner((*found)[i], fmt::format("{}[{}]", within(name), i), values.emplace_back());
    }
  }
  template <class B>
  void parts_if_any(const char* name, std::vector<B>& values, std::size_t most) {
    parts(name, values, most);
  }
  void words(const char* name, std::vector<std::string>& values, std::size_t most,
             std::size_t most_bytes) {
    const Json* const found = find(name);
    if (found == nullptr) return;
    const bool texts = found->is_array() && found->size() <= most &&
                       std::all_of(found->begin(), found->end(), [&](const Json& word) {
                         return word.is_string() &&
                                word.get_ref<const std::string&>().size() <= most_bytes &&
                                is_plain(word.get_ref<const std::string&>());
                       });
    if (!texts) {
      return fault(
          name, as_written(*found),
          fmt::format("a list of at most {} texts of at most {} bytes", most, most_bytes));
    }
    values = found->get<std::vector<std::string>>();
  }

  void fault(const std::string& name, std::string value, std::string accepted) {
    faults_.push_back({within(name), std::move(value), std::move(accepted), "", 0, 0});
  }
  /// The member, or null when it is absent or null.
  const Json* find(const char* name) {
    asked_.insert(name);
    const auto found = object_.find(name);
    return found == object_.end() || found->is_null() ? nullptr : &*found;
  }

 private:
  [[nodiscard]] std::string within(const std::string& name) const {
    return path_.empty() ? name : path_ + "." + name;
  }
  template <class B>
  void inner(const Json& value, std::string path, B& into) {
    if (!value.is_object()) {
      faults_.push_back({std::move(path), as_written(value), "an object", "", 0, 0});
      return;
    }
    EntryReader reader(value, std::move(path), faults_);
    const auto before = faults_.size();
    describe(reader, into);
    reader.finish();
    if constexpr (requires { figure_range(into); }) {
      const Range range = figure_range(into);
      const double figure = figure_of(into);
      if (faults_.size() == before && !(figure >= range.low && figure <= range.high)) {
        reader.fault("reading", fmt::format("{}", figure),
                     fmt::format("{} to {} on that scale", range.low, range.high));
      }
    }
  }

  const Json& object_;
  std::string path_;
  std::vector<base::Fault>& faults_;
  std::set<std::string> asked_;
};

}  // namespace lynearm::wire
