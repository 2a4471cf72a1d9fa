#include "journal/says_the_same.hpp"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <optional>
#include <string>
#include <utility>
#include <vector>

namespace lynearm::journal {
namespace {

/// How far two figures of a unit may lie apart, and what they are counted in.
struct Unit {
  std::string_view name;
  std::string_view kind;  ///< in place of figure and unit: one for all units of time
  double size;
  double share;
  double room;
};

constexpr double time_share = 0.30;
constexpr double amount_share = 0.05;
constexpr std::array<Unit, 10> known_units{{{"s", "<time>", 1.0, time_share, 1.0},
                                            {"min", "<time>", 60.0, time_share, 60.0},
                                            {"h", "<time>", 3600.0, time_share, 360.0},
                                            {"days", "<time>", 86400.0, time_share, 8640.0},
                                            {"\u00b0C", "<temperature>", 1.0, 0.0, 2.0},
                                            {"L", "<L>", 1.0, amount_share, 0.0},
                                            {"mL", "<mL>", 1.0, amount_share, 0.0},
                                            {"kg", "<kg>", 1.0, amount_share, 0.0},
                                            {"%vol", "<%vol>", 1.0, amount_share, 0.0},
                                            {"kW", "<kW>", 1.0, amount_share, 0.0}}};
constexpr std::size_t decimals_of_gravity = 4;
constexpr double gravity_room = 0.003;

struct Figure {
  double value;
  double room;
};
struct Sentence {
  std::string words;  ///< with a sign of its kind for each figure
  std::vector<Figure> figures;
};

bool is_digit(char c) { return c >= '0' && c <= '9'; }
bool is_letter(char c) {
  return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') ||
         (static_cast<unsigned char>(c) & 0x80);
}

// The unit that follows a figure; null where it has none.
const Unit* unit_after(std::string_view text) {
  if (!text.starts_with(' ')) return nullptr;
  text.remove_prefix(1);
  const auto found =
      std::find_if(known_units.begin(), known_units.end(), [text](const Unit& unit) {
        return text.starts_with(unit.name) &&
               (text.size() == unit.name.size() || !is_letter(text[unit.name.size()]));
      });
  return found == known_units.end() ? nullptr : &*found;
}

Sentence read(std::string_view text) {
  Sentence said;
  while (!text.empty()) {
    const bool inside_a_word = !said.words.empty() && is_letter(said.words.back());
    double value = 0.0;
    const auto [end, fault] = std::from_chars(text.data(), text.data() + text.size(), value,
                                              std::chars_format::fixed);
    if (!is_digit(text.front()) || inside_a_word || fault != std::errc{}) {
      said.words += text.front();
      text.remove_prefix(1);
      continue;
    }
    auto length = static_cast<std::size_t>(end - text.data());
    if (text[length - 1] == '.') --length;  // the sentence's own
    const std::string_view figure = text.substr(0, length);
    text.remove_prefix(length);
    const std::size_t point = figure.find('.');
    const std::size_t decimals = point == std::string_view::npos ? 0 : length - point - 1;
    const double step = std::pow(10.0, -static_cast<double>(decimals)) * (1.0 + 1e-6);
    if (const Unit* const unit = unit_after(text)) {
      said.words += unit->kind;
      said.figures.push_back({value * unit->size, std::max({unit->share * value * unit->size,
                                                            unit->room, step * unit->size})});
      text.remove_prefix(1 + unit->name.size());
    } else if (decimals == decimals_of_gravity) {
      said.words += "<gravity>";
      said.figures.push_back({value, gravity_room});
    } else {
      said.words += figure;
    }
  }
  return said;
}

}  // namespace

bool says_the_same(std::string_view one, std::string_view other) {
  if (one == other) return true;
  const Sentence a = read(one);
  const Sentence b = read(other);
  return a.words == b.words && a.figures.size() == b.figures.size() &&
         std::equal(a.figures.begin(), a.figures.end(), b.figures.begin(),
                    [](const Figure& x, const Figure& y) {
                      return std::abs(x.value - y.value) <= std::max(x.room, y.room);
                    });
}

}  // namespace lynearm::journal
