// A maker's gauging tables, as figures: rows and columns with their heads, and in each cell a
// figure or the reason why there is none. Each figure is the one that the function named beside
// its kind gives for the heads of its row and column.
//
// Holds no layout and no sentences: paper and CSV are made from this in sheet/ and wire/.
// Leaves out interpolation: a table is computed cell by cell.
#pragma once

#include <cstddef>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "spirit/hydrometer.hpp"
#include "units/kind.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// What a table tells.
enum class TableKind {
  correction,  ///< true strength, from a reading and a temperature
  showing,     ///< what the glass shows at a temperature in spirit of a true strength
  reduction,   ///< water that brings a spirit from one strength to another
  volume,      ///< what a volume is multiplied by to have it at the reference temperature
  density,     ///< what a litre or a gallon weighs at a temperature
  mass,        ///< from weight to volume and pure alcohol, all by strength
};

/// The scale on which temperatures stand in a head.
enum class Degree { celsius, fahrenheit };

[[nodiscard]] units::Temperature temperature(double figure, Degree degree);

/// The heads of the rows, or of the columns.
struct Heads {
  std::string quantity;         ///< "reading", "true strength", "temperature"
  std::string unit;             ///< "%vol", "°C"
  int decimals = 0;             ///< as many as every head needs
  std::vector<double> figures;  ///< rising; empty when each column is a measure of its own
};

/// What a column tells: one for all of them, or one each.
struct Measure {
  std::string quantity;  ///< "true strength", "water for 1 L of spirit"
  std::string unit;      ///< "%vol", "g"; empty for a factor
  int decimals = 1;      ///< as printed
};

/// Why a cell holds no figure.
enum class Cell : std::uint8_t {
  filled,
  no_spirit,     ///< no mixture of ethanol and water makes the glass read so there
  off_scale,     ///< the glass would show less or more than is marked on it
  frozen,        ///< ice may be in it (freezing.hpp)
  not_stronger,  ///< water cannot strengthen a spirit
};

/// A table with what it was made from.
struct GaugingTable {
  TableKind kind = TableKind::correction;
  Heads rows;
  Heads columns;
  std::vector<Measure> measures;  ///< one, or as many as the table is wide
  std::vector<double> figures;    ///< row after row; 0 where a cell is not filled
  std::vector<Cell> cells;

  Scale row_scale = Scale::percent_vol;          ///< of the reading, or of the true strength
  Scale figure_scale = Scale::percent_vol;       ///< of what is shown, told, or reduced to
  Hydrometer glass;                              ///< of correction and showing
  Degree degree = Degree::celsius;               ///< of a head that is a temperature
  units::Temperature reference = reference_20C;  ///< at which a volume is wanted
  bool in_air = false;                           ///< weights are those of a scale in air

  [[nodiscard]] std::size_t height() const { return rows.figures.size(); }
  [[nodiscard]] std::size_t width() const {
    return columns.figures.empty() ? measures.size() : columns.figures.size();
  }
  [[nodiscard]] std::size_t index(std::size_t row, std::size_t column) const {
    return row * width() + column;
  }
  [[nodiscard]] const Measure& measure(std::size_t column) const {
    return measures[measures.size() == 1 ? 0 : column];
  }
  /// The figure, or nothing in a cell that holds none.
  [[nodiscard]] std::optional<double> at(std::size_t row, std::size_t column) const {
    const std::size_t i = index(row, column);
    return cells[i] == Cell::filled ? std::optional(figures[i]) : std::nullopt;
  }
  /// Whether any cell is empty for that reason.
  [[nodiscard]] bool has(Cell reason) const;
};

/// The most cells a table may have: some 30 MB of figures.
inline constexpr std::size_t most_cells = 2'000'000;

/// What a scale's figures stand in: "%vol", "proof", "kg/m³", "SG 60/60".
[[nodiscard]] std::string unit_of(Scale scale);
/// Decimals a glass of that scale is read to by eye: 1, and 4 for a specific gravity.
[[nodiscard]] int decimals_of(Scale scale);
/// Decimals that every one of the figures needs to be written in full, six at most.
[[nodiscard]] int decimals_of(const std::vector<double>& figures);

/// Figures from `from` to `to` by `step`; the last one is not past `to`. Each is rounded to the
/// decimals that `from` and `step` are written with, six at most, so that 40.3 is 40.3.
///
/// step       above zero
/// throws     InputError ("to", "step") when the range runs backward, the step is not above
///            zero, or there would be more than most_cells figures
[[nodiscard]] std::vector<double> heads(double from, double to, double step);

/// The temperatures of a table's columns.
struct Temperatures {
  std::vector<double> figures;  ///< -20 to 40 °C
  Degree degree = Degree::celsius;
};

/// Strengths on a scale: the heads of a table's rows.
struct Strengths {
  std::vector<double> figures;
  Scale scale = Scale::percent_vol;
};

// Every table below: throws InputError ("rows", "columns", "table", and what the function named
// beside it throws) when a side is empty, a head lies outside its range, or there are more than
// most_cells cells.

/// True strength on the scale `result`, from what the glass shows.
/// cells      true_mass_fraction(), then reading_of(): to 1e-9 in the figure
[[nodiscard]] GaugingTable correction_table(const Strengths& readings,
                                            const Temperatures& temperatures, Scale result,
                                            const Hydrometer& glass = {});

/// What a glass marked on `scale` shows in spirit of a true strength: inverse of the above.
/// cells      shown(); off_scale where it would be past the marks of a scale of strength
[[nodiscard]] GaugingTable showing_table(const Strengths& strengths,
                                         const Temperatures& temperatures, Scale scale,
                                         const Hydrometer& glass = {});

/// Water by mass or by volume at 20 °C, in a unit of units/kind.hpp.
struct WaterUnit {
  std::string name = "g";  ///< "g", "kg", "lb", "oz", "mL", "L", "gal", "fl oz"
  int decimals = 0;
};

/// An amount of spirit: a volume at 20 °C, or a mass.
using Portion = std::variant<units::Volume, units::Mass>;

/// Water for a portion of spirit, from a strength (rows) down to a strength (columns).
///
/// to         above 0
/// portion    above zero, of the stronger spirit
/// called     the portion in words: "1 L", "1 gal"
/// throws     InputError ("portion", "water") besides
/// cells      reduce(), to rounding
[[nodiscard]] GaugingTable reduction_table(const Strengths& from, const Strengths& to,
                                           const Portion& portion, std::string_view called,
                                           const WaterUnit& water);

/// What a volume of spirit is multiplied by, to have its volume at `reference`.
/// cells      density() at the temperature over density() at the reference
/// leaves out the growth of the vessel it is measured in: see vessel.hpp
[[nodiscard]] GaugingTable volume_table(const Strengths& strengths,
                                        const Temperatures& temperatures,
                                        units::Temperature reference);

/// Kilograms in a litre; in US units what a gallon weighs in air, in pounds.
/// cells      density(), or weight_in_air() with brass_weights
[[nodiscard]] GaugingTable density_table(const Strengths& strengths,
                                         const Temperatures& temperatures,
                                         units::System system);

/// By strength: % by mass, kilograms in a litre, litres and litres of pure alcohol in a
/// kilogram (at 20 °C); in US units pounds in a gallon, gallons and proof gallons in a pound,
/// weighed in air with brass_weights (at 60 °F).
/// accuracy   27 CFR 30.64, Table 4 at 190 proof: within 1e-5 gal/lb
///            (tests/published/cfr_27_30_test.cpp)
[[nodiscard]] GaugingTable mass_table(const Strengths& strengths, units::System system);

}  // namespace lynearm::spirit
