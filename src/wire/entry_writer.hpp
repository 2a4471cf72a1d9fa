// Writes the described members of a body as a JSON object; absent ones are left out. For the
// sources of this room only.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "wire/entry_fields.hpp"
#include "wire/entry_units.hpp"
#include "wire/figure.hpp"

namespace lynearm::wire {

class EntryWriter {
 public:
  Json object = Json::object();

  void text(const char* name, const std::string& value, std::size_t, bool required) {
    if (required || !value.empty()) object[name] = value;
  }
  void flag(const char* name, bool value) { object[name] = value; }
  void whole(const char* name, int value, int, int) { object[name] = value; }
  void whole(const char* name, const std::optional<int>& value, int, int) {
    if (value) object[name] = *value;
  }
  void number(const char* name, double value, double, double) { object[name] = kept(value); }
  void number(const char* name, const std::optional<double>& value, double, double) {
    if (value) object[name] = kept(*value);
  }
  template <class Q>
  void amount(const char* name, const Q& value, const Unit<Q>& unit) {
    object[name] = kept(unit.in(value));
  }
  template <class Q>
  void amount(const char* name, const std::optional<Q>& value, const Unit<Q>& unit) {
    if (value) object[name] = kept(unit.in(*value));
  }
  template <class E>
  void choice(const char* name, const E& value, std::span<const std::string_view> words) {
    object[name] = std::string(words[static_cast<std::size_t>(value)]);
  }
  template <class E>
  void choice(const char* name, const std::optional<E>& value,
              std::span<const std::string_view> words) {
    if (value) choice(name, *value, words);
  }
  void id(const char* name, const journal::Id& value) { object[name] = journal::print(value); }
  template <class B>
  void part(const char* name, const B& value) {
    object[name] = written(value);
  }
  template <class B>
  void part(const char* name, const std::optional<B>& value) {
    if (value) object[name] = written(*value);
  }
  template <class B>
  void parts(const char* name, const std::vector<B>& values, std::size_t) {
    Json list = Json::array();
    for (const B& value : values) list.push_back(written(value));
    object[name] = std::move(list);
  }
  template <class B>
  void parts_if_any(const char* name, const std::vector<B>& values, std::size_t most) {
    if (!values.empty()) parts(name, values, most);
  }
  void words(const char* name, const std::vector<std::string>& values, std::size_t,
             std::size_t) {
    if (!values.empty()) object[name] = values;
  }

 private:
  template <class B>
  static Json written(const B& value) {
    EntryWriter inner;
    B copy = value;  // describe() serves readers too, so it takes what may change
    describe(inner, copy);
    return std::move(inner.object);
  }
};

}  // namespace lynearm::wire
