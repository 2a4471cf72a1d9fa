// The columns of a batch of gaugings: which head means what, and each cell as a quantity.
//
// A column is known by its head: reading, temperature, volume or mass, alone or with its unit
// (temperature_C, reading_us_proof) by the one rule of units/unit_in_name.hpp. Under a unit the
// cells are bare numbers; a unit in the cell is then refused. Spaces around do not count.
// Every other head belongs to the maker and means nothing here.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>

#include "delimited/reader.hpp"
#include "spirit/reading.hpp"
#include "units/kind.hpp"
#include "units/parse.hpp"
#include "units/quantity.hpp"
#include "units/unit_in_name.hpp"

namespace lynearm::cli {

/// A column of quantities of one kind.
template <class Q>
struct QuantityColumn {
  using Value = Q;

  std::size_t place = 0;              ///< among the cells of a row
  std::string head;                   ///< as written, without spaces around
  const units::Unit* unit = nullptr;  ///< the head's; nullptr: each cell has its own

  [[nodiscard]] units::Parsed<Q> read(std::string_view cell) const {
    if (unit == nullptr) return units::try_parse<Q>(cell);
    auto base = units::bare_number(cell, *unit);
    if (!base) return {std::nullopt, std::move(base.accepted)};
    return {units::from_base_value<Q>(*base.value), {}};
  }
};

/// The column of a head that is `name`, with or without a unit behind it; nothing otherwise.
template <class Q>
[[nodiscard]] std::optional<QuantityColumn<Q>> quantity_column(std::string_view name,
                                                               std::string_view head,
                                                               std::size_t place) {
  const auto word = units::unit_behind(name, head);
  if (!word) return std::nullopt;
  if (word->empty()) return QuantityColumn<Q>{place, std::string(head)};
  const units::Unit* const unit = units::unit_in_name(*word, units::kind<Q>());
  if (unit == nullptr) return std::nullopt;
  return QuantityColumn<Q>{place, std::string(head), unit};
}

/// The column of what the instrument showed.
struct ReadingColumn {
  using Value = spirit::Reading;

  std::size_t place = 0;
  std::string head;
  std::optional<spirit::Scale> scale;  ///< the head's; empty: each cell has its own
  double figure_per_number = 1.0;  ///< 1000 where the head says g/mL and the scale is kg/m³

  [[nodiscard]] units::Parsed<spirit::Reading> read(std::string_view cell) const;
};

struct GaugeColumns {
  ReadingColumn reading;
  QuantityColumn<units::Temperature> temperature;
  std::optional<QuantityColumn<units::Volume>> volume;
  std::optional<QuantityColumn<units::Mass>> mass;
};

/// Finds the columns.
///
/// file       what the faults call the text
/// throws     InputError where reading or temperature is missing, or one of the four is there
///            twice
[[nodiscard]] GaugeColumns gauge_columns(const delimited::Head& head, const std::string& file);

/// The rule above for people: whole lines for a help page.
[[nodiscard]] std::string gauge_columns_help();

}  // namespace lynearm::cli
