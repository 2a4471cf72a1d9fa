#include "cli/gauge_columns.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <system_error>
#include <vector>

#include "base/error.hpp"

namespace lynearm::cli {
namespace {

// The scales as --json names them, and the short forms.
struct ScaleWord {
  std::string_view word;
  spirit::Scale scale;
  double figure_per_number = 1.0;
};
constexpr std::array<ScaleWord, 13> scale_words{{
    {"percent_vol", spirit::Scale::percent_vol},
    {"percent_vol_20C", spirit::Scale::percent_vol},
    {"percent_vol_15C", spirit::Scale::percent_vol_15C},
    {"percent_vol_60F", spirit::Scale::percent_vol_60F},
    {"percent_mass", spirit::Scale::percent_mass},
    {"proof", spirit::Scale::us_proof},
    {"us_proof", spirit::Scale::us_proof},
    {"density_kg_m3", spirit::Scale::density},
    {"density_g_mL", spirit::Scale::density, 1000.0},
    {"specific_gravity", spirit::Scale::specific_gravity},
    {"specific_gravity_20C_20C", spirit::Scale::specific_gravity},
    {"specific_gravity_60F", spirit::Scale::specific_gravity_60F},
    {"specific_gravity_60F_60F", spirit::Scale::specific_gravity_60F},
}};

constexpr std::string_view reading_heads =
    R"(a column "reading", or one such as "reading_percent_vol" or "reading_us_proof")";
constexpr std::string_view temperature_heads =
    R"(a column "temperature", "temperature_C" or "temperature_F")";

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return text;
}

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool same_word(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](char x, char y) { return lower(x) == lower(y); });
}

// The unit of a head "temperature_C"; empty for "temperature" alone; nothing for another head.
std::optional<std::string_view> unit_behind(std::string_view name, std::string_view head) {
  if (!same_word(head.substr(0, name.size()), name)) return std::nullopt;
  head.remove_prefix(name.size());
  if (head.empty()) return head;
  if (head.front() != '_' || head.size() == 1) return std::nullopt;
  return head.substr(1);
}

const ScaleWord* find_scale(std::string_view word) {
  const auto found = std::find_if(scale_words.begin(), scale_words.end(),
                                  [&](const ScaleWord& s) { return same_word(s.word, word); });
  return found == scale_words.end() ? nullptr : found;
}

const units::Unit* find_unit(std::string_view word, const units::Kind& kind) {
  for (const units::Unit& unit : kind.units) {
    for (std::string_view names = unit.names; !names.empty();) {
      const std::size_t bar = std::min(names.find('|'), names.size());
      if (same_word(names.substr(0, bar), word)) return &unit;
      names.remove_prefix(std::min(bar + 1, names.size()));
    }
  }
  return nullptr;
}

std::optional<ReadingColumn> as_reading(std::string_view head, std::size_t place) {
  const auto word = unit_behind("reading", head);
  if (!word) return std::nullopt;
  if (word->empty()) return ReadingColumn{place, std::string(head), std::nullopt};
  const ScaleWord* const found = find_scale(*word);
  if (found == nullptr) return std::nullopt;
  return ReadingColumn{place, std::string(head), found->scale, found->figure_per_number};
}

template <class Q>
std::optional<QuantityColumn<Q>> as_quantity(std::string_view head, std::size_t place) {
  const units::Kind& kind = units::kind<Q>();
  const auto word = unit_behind(kind.noun, head);
  if (!word) return std::nullopt;
  if (word->empty()) return QuantityColumn<Q>{place, std::string(head)};
  const units::Unit* const unit = find_unit(*word, kind);
  if (unit == nullptr) return std::nullopt;
  return QuantityColumn<Q>{place, std::string(head), unit};
}

}  // namespace

units::Parsed<double> bare_number(std::string_view text, const units::Unit& unit) {
  constexpr std::string_view too_large = ", of a size that can be held";
  const auto refuse = [](std::string_view why) {
    return units::Parsed<double>{
        std::nullopt, fmt::format("a number without unit, which the head states{}", why)};
  };
  text = trimmed(text);
  const bool negative = text.starts_with('-');
  if (negative || text.starts_with('+')) text.remove_prefix(1);
  // Keeps the words for infinity and not-a-number from from_chars.
  if (text.empty() || !((text[0] >= '0' && text[0] <= '9') || text[0] == '.'))
    return refuse("");
  double value = 0.0;
  const char* const last = text.data() + text.size();
  const auto [end, error] = std::from_chars(text.data(), last, value);
  if (error == std::errc::result_out_of_range) return refuse(too_large);
  if (error != std::errc{}) return refuse("");
  if (end != last) {
    return refuse(*end == ',' ? ", with a point as decimal mark and no separator of thousands"
                              : "");
  }
  const double base = unit.to_base(negative ? -value : value);
  if (!std::isfinite(base)) return refuse(too_large);
  return {base, {}};
}

units::Parsed<spirit::Reading> ReadingColumn::read(std::string_view cell) const {
  if (!scale) return units::try_parse<spirit::Reading>(cell);
  const units::Unit unit{"", figure_per_number};
  auto figure = bare_number(cell, unit);
  if (!figure) return {std::nullopt, std::move(figure.accepted)};
  return {spirit::Reading{*figure.value, *scale}, {}};
}

GaugeColumns gauge_columns(const delimited::Head& head, const std::string& file) {
  std::vector<base::Fault> faults;
  const auto tell = [&](std::string field, std::string value, std::string accepted) {
    faults.push_back(
        {std::move(field), std::move(value), std::move(accepted), file, head.line});
  };
  std::optional<ReadingColumn> reading;
  std::optional<QuantityColumn<units::Temperature>> temperature;
  std::optional<QuantityColumn<units::Volume>> volume;
  std::optional<QuantityColumn<units::Mass>> mass;
  const auto keep = [&](auto& kept, auto found) {
    if (!found) return;
    if (kept) {
      tell("head", found->head,
           fmt::format("one column of that kind; there is {} too", kept->head));
    } else {
      kept = std::move(found);
    }
  };
  for (std::size_t i = 0; i < head.columns.size(); ++i) {
    const std::string_view name = trimmed(head.columns[i]);
    keep(reading, as_reading(name, i));
    keep(temperature, as_quantity<units::Temperature>(name, i));
    keep(volume, as_quantity<units::Volume>(name, i));
    keep(mass, as_quantity<units::Mass>(name, i));
  }
  const bool one = head.columns.size() == 1;
  const std::string& first = head.columns.front();
  if (one && first.find_first_of(";\t") != std::string::npos) {
    tell("head line", first, "columns parted by commas");
  } else {
    if (!reading) tell("column reading", "", std::string(reading_heads));
    if (!temperature) tell("column temperature", "", std::string(temperature_heads));
  }
  if (!faults.empty()) throw base::InputError(std::move(faults));
  return {*std::move(reading), *std::move(temperature), std::move(volume), std::move(mass)};
}

std::string gauge_columns_help() {
  return R"(The file is comma-separated text (UTF-8) with a head line. The columns reading and
temperature must be there; volume or mass, as measured at that temperature, may be. Under
these words alone each cell states its unit ("62.4 %vol", "27.5 C", "5.2 L"). Where the
word goes on with an underscore and a unit, the cells are bare numbers in that unit:
  reading_percent_vol (at 20 °C), _percent_vol_15C, _percent_vol_60F, _percent_mass,
    _us_proof, _density_kg_m3, _density_g_mL, _specific_gravity (20/20 °C),
    _specific_gravity_60F (60/60 °F)
  temperature_C, _F    volume_L, _mL, _gal    mass_kg, _g, _lb
Every other column is carried through unchanged.
)";
}

}  // namespace lynearm::cli
