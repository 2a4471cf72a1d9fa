#include "cli/gauge_columns.hpp"

#include <fmt/format.h>

#include <vector>

#include "base/error.hpp"
#include "spirit/scale_in_name.hpp"

namespace lynearm::cli {
namespace {

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

std::optional<ReadingColumn> as_reading(std::string_view head, std::size_t place) {
  const auto word = units::unit_behind("reading", head);
  if (!word) return std::nullopt;
  if (word->empty()) return ReadingColumn{place, std::string(head), std::nullopt};
  const spirit::ScaleInName* const found = spirit::scale_in_name(*word);
  if (found == nullptr) return std::nullopt;
  return ReadingColumn{place, std::string(head), found->scale, found->figure_per_number};
}

template <class Q>
std::optional<QuantityColumn<Q>> as_quantity(std::string_view head, std::size_t place) {
  return quantity_column<Q>(units::kind<Q>().noun, head, place);
}

}  // namespace

units::Parsed<spirit::Reading> ReadingColumn::read(std::string_view cell) const {
  if (!scale) return units::try_parse<spirit::Reading>(cell);
  const units::Unit unit{"", figure_per_number};
  auto figure = units::bare_number(cell, unit);
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
