// Bodies out of a seed: every member that wire/ describes gets a value, at its bounds as often
// as between them; optional ones are there or not. What no member alone can tell (a reading
// that fits its scale, one jar poured once) is put right afterwards, so that all of it is
// accepted.
#pragma once

#include <algorithm>
#include <random>
#include <set>
#include <string>
#include <utility>
#include <vector>

#include "journal/entry.hpp"
#include "wire/entry_fields.hpp"
#include "wire/entry_reader.hpp"

namespace lynearm::journal {

class Inventor {
 public:
  /// known   the ids that members may name; empty: any
  explicit Inventor(std::uint64_t seed, std::vector<Id> known = {})
      : random_(seed), known_(std::move(known)) {}

  std::uint64_t below(std::uint64_t end) { return random_() % end; }
  bool chance(std::uint64_t in) { return below(in) == 0; }

  Id any_id() {
    std::array<std::uint8_t, 16> bytes{};
    for (auto& byte : bytes) byte = static_cast<std::uint8_t>(below(256));
    return Id(bytes);
  }

  template <class B>
  B body() {
    B b;
    wire::describe(*this, b);
    put_right(b);
    return b;
  }
  /// A body of any kind but Foreign.
  Body any_body() {
    constexpr std::size_t kinds = std::variant_size_v<Body> - 1;
    return of_kind(below(kinds), std::make_index_sequence<kinds>{});
  }

  // What describe() asks of an io.
  void text(const char*, std::string& value, std::size_t most, bool required) {
    static const std::vector<std::string> pieces = {"a",     " ",  "é",    "\"", "\\", "\n",
                                                    "80 °C", "酒", "</p>", "{}", "\t", "jar"};
    value.clear();
    if (!required && chance(2)) return;
    value = "x";
    for (std::uint64_t i = below(6); i > 0; --i) value += pieces[below(pieces.size())];
    if (chance(60)) value.append(most - value.size(), 'y');
  }
  void flag(const char*, bool& value) { value = chance(2); }
  void whole(const char*, int& value, int low, int high) {
    const std::uint64_t pick = below(4);
    value = pick == 0   ? low
            : pick == 1 ? high
                        : low + static_cast<int>(below(
                                    static_cast<std::uint64_t>(std::min(high - low, 20)) + 1));
  }
  void whole(const char* name, std::optional<int>& value, int low, int high) {
    perhaps(value, [&](int& v) { whole(name, v, low, high); });
  }
  void number(const char*, double& value, double low, double high) {
    value = figure(low, high);
  }
  void number(const char* name, std::optional<double>& value, double low, double high) {
    perhaps(value, [&](double& v) { number(name, v, low, high); });
  }
  template <class Q>
  void amount(const char*, Q& value, const wire::Unit<Q>& unit) {
    value = unit.of(figure(unit.low, unit.high));
  }
  template <class Q>
  void amount(const char* name, std::optional<Q>& value, const wire::Unit<Q>& unit) {
    perhaps(value, [&](Q& v) { amount(name, v, unit); });
  }
  template <class E>
  void choice(const char*, E& value, std::span<const std::string_view> words) {
    value = static_cast<E>(below(words.size()));
  }
  template <class E>
  void choice(const char* name, std::optional<E>& value,
              std::span<const std::string_view> words) {
    perhaps(value, [&](E& v) { choice(name, v, words); });
  }
  void id(const char*, Id& value) {
    value = known_.empty() || chance(20) ? any_id() : known_[below(known_.size())];
  }
  template <class B>
  void part(const char*, B& value) {
    wire::describe(*this, value);
    put_right(value);
  }
  template <class B>
  void part(const char* name, std::optional<B>& value) {
    perhaps(value, [&](B& v) { part(name, v); });
  }
  template <class B>
  void parts(const char* name, std::vector<B>& values, std::size_t most) {
    values.clear();
    for (std::uint64_t i = below(std::min<std::size_t>(most, 4)); i > 0; --i) {
      part(name, values.emplace_back());
    }
  }
  template <class B>
  void parts_if_any(const char* name, std::vector<B>& values, std::size_t most) {
    parts(name, values, most);
  }
  void words(const char* name, std::vector<std::string>& values, std::size_t most,
             std::size_t most_bytes) {
    values.clear();
    for (std::uint64_t i = below(std::min<std::size_t>(most, 4)); i > 0; --i) {
      values.emplace_back();
      if (most_bytes == 64) {
        while (values.back().size() < 64) values.back() += "0123456789abcdef"[below(16)];
      } else {
        text(name, values.back(), most_bytes, true);
      }
    }
  }

 private:
  double figure(double low, double high) {
    const std::uint64_t pick = below(8);
    if (pick == 0) return low;
    if (pick == 1) return high;
    // Near nought as often as anywhere: that is where a scale with an offset is hard to keep.
    const double from = std::max(low, 0.0);
    const double to = pick == 2 ? from + 1e-3 : pick < 6 ? std::max(from + 1.0, 60.0) : high;
    const double share = static_cast<double>(random_() >> 11U) * 0x1.0p-53;
    return wire::kept(from + share * (std::min(to, high) - from));
  }
  template <class V, class F>
  void perhaps(std::optional<V>& value, const F& fill) {
    value.reset();
    if (chance(2)) fill(value.emplace());
  }
  template <std::size_t... I>
  Body of_kind(std::size_t kind, std::index_sequence<I...>) {
    Body made;
    static_cast<void>(
        ((kind == I ? (made = body<std::variant_alternative_t<I, Body>>(), true) : false) ||
         ...));
    return made;
  }

  template <class B>
  void put_right(B&) {}
  void put_right(spirit::Reading& b) { into(b.figure, wire::figure_range(b)); }
  void put_right(StrengthRead& b) { into(b.reading.figure, wire::figure_range(b)); }
  void put_right(GravityRead& b) { into(b.figure, wire::figure_range(b)); }
  void into(double& value, wire::Range range) { value = figure(range.low, range.high); }
  void put_right(Note& b) {
    if (b.text.empty() && b.attachments.empty()) b.text = "something";
  }
  void put_right(FermentRead& b) {
    if (!b.gravity && !b.temperature) b.temperature = at_20C;
  }
  void put_right(Added& b) {
    if (!b.mass && !b.volume) b.mass = units::Mass::kilograms(0.5);
  }
  void put_right(AirRead& b) {
    if (!b.pressure && !b.boiling_water) b.pressure = units::Pressure::hectopascals(1000);
  }
  void put_right(MashChecked& b) {
    if (!b.iodine && !b.gravity) b.iodine = IodineColour::blue;
  }
  void put_right(RunRead& b) {
    if (b.reading.event == still::Event::stopped) b.reading.power.reset();
  }
  void put_right(JarsAllotted& b) {
    if (b.pours.empty()) b.pours.emplace_back();
    std::set<int> named;
    for (JarPoured& pour : b.pours) {
      while (!named.insert(pour.jar).second) pour.jar = 1 + static_cast<int>(below(900));
    }
  }

  std::mt19937_64 random_;
  std::vector<Id> known_;
};

}  // namespace lynearm::journal
