// The JSON Schema of an entry, from the same description that reads and writes it.
#include <fmt/format.h>

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "journal/kinds.hpp"
#include "wire/entry.hpp"
#include "wire/entry_fields.hpp"
#include "wire/figure.hpp"

namespace lynearm::wire {
namespace {

class SchemaMaker {
 public:
  [[nodiscard]] Json schema() && {
    Json object;
    object["type"] = "object";
    object["properties"] = std::move(properties_);
    if (!required_.empty()) object["required"] = std::move(required_);
    object["additionalProperties"] = false;
    return object;
  }

  void text(const char* name, const std::string&, std::size_t most, bool required) {
    Json one{{"type", "string"}, {"maxLength", most}};
    if (required) one["minLength"] = 1;
    put(name, std::move(one), required);
  }
  void flag(const char* name, bool) { put(name, {{"type", "boolean"}}, false); }
  void whole(const char* name, int, int low, int high) { put(name, integer(low, high), true); }
  void whole(const char* name, const std::optional<int>&, int low, int high) {
    put(name, integer(low, high), false);
  }
  void number(const char* name, double, double low, double high) {
    put(name, number(low, high), true);
  }
  void number(const char* name, const std::optional<double>&, double low, double high) {
    put(name, number(low, high), false);
  }
  template <class Q>
  void amount(const char* name, const Q&, const Unit<Q>& unit) {
    put(name, number(unit.low, unit.high), true);
  }
  template <class Q>
  void amount(const char* name, const std::optional<Q>&, const Unit<Q>& unit) {
    put(name, number(unit.low, unit.high), false);
  }
  template <class E>
  void choice(const char* name, const E&, std::span<const std::string_view> words) {
    put(name, {{"enum", texts(words)}}, true);
  }
  template <class E>
  void choice(const char* name, const std::optional<E>&,
              std::span<const std::string_view> words) {
    put(name, {{"enum", texts(words)}}, false);
  }
  void id(const char* name, const journal::Id&) { put(name, uuid(), true); }
  template <class B>
  void part(const char* name, const B& value) {
    put(name, of(value), true);
  }
  template <class B>
  void part(const char* name, const std::optional<B>&) {
    put(name, of(B{}), false);
  }
  template <class B>
  void parts(const char* name, const std::vector<B>&, std::size_t most) {
    put(name, {{"type", "array"}, {"maxItems", most}, {"items", of(B{})}}, false);
  }
  template <class B>
  void parts_if_any(const char* name, const std::vector<B>& values, std::size_t most) {
    parts(name, values, most);
  }
  void words(const char* name, const std::vector<std::string>&, std::size_t most,
             std::size_t most_bytes) {
    put(name,
        {{"type", "array"},
         {"maxItems", most},
         {"items", {{"type", "string"}, {"maxLength", most_bytes}}}},
        false);
  }

  static Json uuid() { return {{"type", "string"}, {"format", "uuid"}}; }
  static Json integer(int low, int high) {
    return {{"type", "integer"}, {"minimum", low}, {"maximum", high}};
  }
  static Json number(double low, double high) {
    return {{"type", "number"}, {"minimum", low}, {"maximum", high}};
  }
  template <class B>
  static Json of(B value) {
    SchemaMaker inner;
    describe(inner, value);
    return std::move(inner).schema();
  }

 private:
  static std::vector<std::string> texts(std::span<const std::string_view> words) {
    return {words.begin(), words.end()};
  }
  void put(const char* name, Json schema, bool required) {
    properties_[name] = std::move(schema);
    if (required) required_.emplace_back(name);
  }
  Json properties_ = Json::object();
  std::vector<std::string> required_;
};

template <class B>
Json entry_of_kind(const Json& common) {
  Json one = common;
  one["title"] = std::string(journal::Kind<B>::name);
  Json& properties = one["properties"];
  properties["kind"]["const"] = std::string(journal::Kind<B>::name);
  properties["version"]["const"] = journal::Kind<B>::version;
  properties["body"] = SchemaMaker::of(B{});
  return one;
}

template <std::size_t... I>
Json every_kind(std::index_sequence<I...>, const Json& common) {
  Json list = Json::array();
  (list.push_back(entry_of_kind<std::variant_alternative_t<I, journal::Body>>(common)), ...);
  return list;
}

}  // namespace

std::string entry_schema() {
  const Json time = {{"type", "string"}, {"format", "date-time"}};
  Json common;
  common["type"] = "object";
  common["properties"] = {{"id", SchemaMaker::uuid()},
                          {"batch", SchemaMaker::uuid()},
                          {"stage",
                           {{"enum", std::vector<std::string>(journal::stage_words.begin(),
                                                              journal::stage_words.end())}}},
                          {"kind", Json::object()},
                          {"version", Json::object()},
                          {"at", time},
                          {"clock_ahead_ms",
                           {{"type", "integer"},
                            {"minimum", -journal::most_clock_ahead_ms},
                            {"maximum", journal::most_clock_ahead_ms}}},
                          {"received", time},
                          {"who", {{"type", "string"}, {"maxLength", journal::most_who}}},
                          {"corrects", SchemaMaker::uuid()},
                          {"typed", {{"type", "string"}, {"maxLength", 200}}},
                          {"body", Json::object()}};
  common["required"] = {"id", "stage", "kind", "version", "at", "body"};
  common["additionalProperties"] = false;

  Json schema;
  schema["$schema"] = "https://json-schema.org/draft/2020-12/schema";
  schema["title"] = "An entry of the journal";
  schema["oneOf"] =
      every_kind(std::make_index_sequence<std::variant_size_v<journal::Body> - 1>{}, common);
  return schema.dump(2) + "\n";
}

}  // namespace lynearm::wire
