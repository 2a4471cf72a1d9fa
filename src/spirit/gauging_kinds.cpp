// The six kinds of table. What depends on the row alone is computed once a row, what depends on
// the temperature once a column, so that a cell costs one inversion of the density formula.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "base/error.hpp"
#include "spirit/buoyancy.hpp"
#include "spirit/density_kernel.hpp"
#include "spirit/freezing.hpp"
#include "spirit/gauging_table.hpp"
#include "spirit/hydrometer_kernel.hpp"
#include "spirit/lot.hpp"
#include "spirit/marks.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::Density;
using units::MassFraction;
using units::Temperature;

constexpr Density kg_m3 = Density::kilograms_per_cubic_metre(1.0);

void check_size(std::size_t rows, std::size_t columns) {
  if (rows == 0) throw base::InputError("rows", "0", "at least one row");
  if (columns == 0) throw base::InputError("columns", "0", "at least one column");
  if (rows > most_cells / columns) {
    throw base::InputError("table", fmt::format("{} x {}", rows, columns),
                           fmt::format("at most {} cells", most_cells));
  }
}

void make_room(GaugingTable& table) {
  check_size(table.height(), table.width());
  table.figures.assign(table.height() * table.width(), 0.0);
  table.cells.assign(table.figures.size(), Cell::filled);
}

Heads heads_of(std::string quantity, const Strengths& strengths) {
  return {std::move(quantity), unit_of(strengths.scale), decimals_of(strengths.figures),
          strengths.figures};
}

Heads heads_of(const Temperatures& temperatures) {
  for (const double figure : temperatures.figures) {
    const Temperature t = temperature(figure, temperatures.degree);
    if (!(t >= coldest && t <= warmest)) {
      throw base::InputError("columns", fmt::format("{:.2f} °C", t.celsius()),
                             "-20 to 40 °C, the range of the density formula (OIML R 22)");
    }
  }
  return {"temperature", temperatures.degree == Degree::celsius ? "°C" : "°F",
          decimals_of(temperatures.figures), temperatures.figures};
}

// The mixture of each strength: at its scale's own reference a reading is true.
std::vector<MassFraction> mixtures(const Strengths& strengths) {
  std::vector<MassFraction> made;
  made.reserve(strengths.figures.size());
  for (const double figure : strengths.figures) {
    made.push_back(
        true_mass_fraction(Reading{figure, strengths.scale}, reference_of(strengths.scale)));
  }
  return made;
}

// Puts a figure or a reason into a cell.
void put(GaugingTable& table, std::size_t i, Cell cell, double figure) {
  table.cells[i] = cell;
  table.figures[i] = cell == Cell::filled ? figure : 0.0;
}

// Temperatures across, mixtures down; `column(t)` makes the function that fills a column's
// cells from a mixture and its density at t.
template <class Column>
void fill_by_temperature(GaugingTable& table, const std::vector<MassFraction>& rows,
                         const Column& column_at) {
  make_room(table);
  for (std::size_t column = 0; column < table.width(); ++column) {
    const Temperature t = temperature(table.columns.figures[column], table.degree);
    const MassFraction liquid = weakest_liquid(t);
    const DensityAt at(t.celsius());
    const auto figure = column_at(t);
    for (std::size_t row = 0; row < table.height(); ++row) {
      const std::size_t i = table.index(row, column);
      if (rows[row] < liquid) {
        put(table, i, Cell::frozen, 0.0);
        continue;
      }
      const std::pair<Cell, double> made =
          figure(rows[row], kg_m3 * at(rows[row].fraction()).density_kgm3);
      put(table, i, made.first, made.second);
    }
  }
}

double pounds_per_gallon_in_air(Density density) {
  return weight_in_air(units::Volume::us_gallons(1.0), density, {}, brass_weights).pounds();
}

double per_litre(Density density) { return density.grams_per_millilitre(); }

std::string quantity_of(Scale scale) {
  if (scale == Scale::density) return "true density";
  return of_density(scale) ? "true specific gravity" : "true strength";
}

}  // namespace

GaugingTable correction_table(const Strengths& readings, const Temperatures& temperatures,
                              Scale result, const Hydrometer& glass) {
  GaugingTable table;
  table.kind = TableKind::correction;
  table.row_scale = readings.scale;
  table.figure_scale = result;
  table.glass = glass;
  table.degree = temperatures.degree;
  table.rows = heads_of("reading", readings);
  table.columns = heads_of(temperatures);
  table.measures = {{quantity_of(result), unit_of(result), decimals_of(result)}};
  make_room(table);

  const HydrometerKernel kernel(readings.scale, glass);
  for (std::size_t column = 0; column < table.width(); ++column) {
    const Temperature t = temperature(temperatures.figures[column], temperatures.degree);
    const HydrometerKernel::Column at = kernel.column(t.celsius());
    const double liquid = weakest_liquid(t).fraction();
    for (std::size_t row = 0; row < table.height(); ++row) {
      const Found found = at.mass_fraction(readings.figures[row]);
      const std::size_t i = table.index(row, column);
      if (found.fit != Fit::mixture) {
        put(table, i, Cell::no_spirit, 0.0);
      } else if (found.mass_fraction < liquid) {
        put(table, i, Cell::frozen, 0.0);
      } else {
        put(table, i, Cell::filled,
            reading_of(MassFraction::fraction(found.mass_fraction), result).figure);
      }
    }
  }
  return table;
}

GaugingTable showing_table(const Strengths& strengths, const Temperatures& temperatures,
                           Scale scale, const Hydrometer& glass) {
  GaugingTable table;
  table.kind = TableKind::showing;
  table.row_scale = strengths.scale;
  table.figure_scale = scale;
  table.glass = glass;
  table.degree = temperatures.degree;
  table.rows = heads_of("true strength", strengths);
  table.columns = heads_of(temperatures);
  table.measures = {{"glass shows", unit_of(scale), decimals_of(scale)}};
  const HydrometerKernel kernel(scale, glass);
  const ScaleEnds ends = ends_of(scale);
  // At its reference a glass shows 100.0 in pure ethanol, give or take a rounding.
  constexpr double rounding = 1e-9;
  fill_by_temperature(table, mixtures(strengths), [&](Temperature t) {
    return [&, at = kernel.column(t.celsius())](MassFraction p, Density) {
      const double figure = at.shown_figure(p.fraction());
      const bool marked = figure >= ends.first - rounding && figure <= ends.last + rounding;
      return std::pair(marked ? Cell::filled : Cell::off_scale, figure);
    };
  });
  return table;
}

GaugingTable reduction_table(const Strengths& from, const Strengths& to, const Portion& portion,
                             std::string_view called, const WaterUnit& water) {
  GaugingTable table;
  table.kind = TableKind::reduction;
  table.row_scale = from.scale;
  table.figure_scale = to.scale;
  table.rows = heads_of("from", from);
  table.columns = heads_of("to", to);
  table.measures = {
      {fmt::format("water for {} of spirit", called), water.name, water.decimals}};
  make_room(table);

  const bool by_volume = std::holds_alternative<units::Volume>(portion);
  const double amount = by_volume ? std::get<units::Volume>(portion).litres()
                                  : std::get<units::Mass>(portion).kilograms();
  if (!(amount > 0.0 && std::isfinite(amount))) {
    throw base::InputError("portion", std::string(called), "an amount above zero");
  }
  const units::Unit* by_mass = units::kind<units::Mass>().find(water.name);
  const units::Unit* in_litres = units::kind<units::Volume>().find(water.name);
  if (by_mass == nullptr && in_litres == nullptr) {
    throw base::InputError("water", water.name, "a unit of mass or of volume");
  }
  const double water_kg_per_L = per_litre(density(MassFraction{}, reference_20C));
  const auto told = [&](double kilograms) {
    return by_mass != nullptr ? by_mass->from_base(kilograms)
                              : in_litres->from_base(kilograms / water_kg_per_L);
  };

  const std::vector<MassFraction> ends = mixtures(to);
  for (const MassFraction end : ends) {
    if (!(end > MassFraction{})) {
      throw base::InputError("columns", "0", "a strength above 0 to reduce to");
    }
  }
  const std::vector<MassFraction> begun = mixtures(from);
  for (std::size_t row = 0; row < table.height(); ++row) {
    const double kilograms =
        by_volume ? amount * per_litre(density(begun[row], reference_20C)) : amount;
    for (std::size_t column = 0; column < table.width(); ++column) {
      // The ethanol stays: mass times p is the same before and after.
      const double swells = begun[row] / ends[column] - 1.0;
      constexpr double rounding = 1e-12;  // of the same strength stated on two scales
      put(table, table.index(row, column),
          swells < -rounding ? Cell::not_stronger : Cell::filled,
          told(kilograms * std::max(swells, 0.0)));
    }
  }
  return table;
}

GaugingTable volume_table(const Strengths& strengths, const Temperatures& temperatures,
                          units::Temperature reference) {
  GaugingTable table;
  table.kind = TableKind::volume;
  table.row_scale = strengths.scale;
  table.degree = temperatures.degree;
  table.reference = reference;
  table.rows = heads_of("true strength", strengths);
  table.columns = heads_of(temperatures);
  table.measures = {{"factor", "", 4}};
  fill_by_temperature(table, mixtures(strengths), [&](Temperature) {
    return [&](MassFraction p, Density at) {
      return std::pair(Cell::filled, at / density(p, reference));
    };
  });
  return table;
}

GaugingTable density_table(const Strengths& strengths, const Temperatures& temperatures,
                           units::System system) {
  GaugingTable table;
  table.kind = TableKind::density;
  table.row_scale = strengths.scale;
  table.degree = temperatures.degree;
  table.in_air = system == units::System::us;
  table.rows = heads_of("true strength", strengths);
  table.columns = heads_of(temperatures);
  table.measures = {table.in_air ? Measure{"weight of a gallon", "lb/gal", 3}
                                 : Measure{"mass of a litre", "kg/L", 4}};
  fill_by_temperature(table, mixtures(strengths), [&](Temperature) {
    return [&](MassFraction, Density at) {
      return std::pair(Cell::filled,
                       table.in_air ? pounds_per_gallon_in_air(at) : per_litre(at));
    };
  });
  return table;
}

GaugingTable mass_table(const Strengths& strengths, units::System system) {
  GaugingTable table;
  table.kind = TableKind::mass;
  table.row_scale = strengths.scale;
  table.in_air = system != units::System::metric;
  table.rows = heads_of("true strength", strengths);
  const std::vector<Measure> metric{{"by mass", "%mass", 2},
                                    {"mass of a litre", "kg/L", 4},
                                    {"volume of a kilogram", "L/kg", 4},
                                    {"pure alcohol in a kilogram", "L/kg", 4}};
  const std::vector<Measure> us{{"weight of a gallon", "lb/gal", 3},
                                {"gallons in a pound", "gal/lb", 5},
                                {"proof gallons in a pound", "pg/lb", 5}};
  if (system != units::System::us) table.measures = metric;
  if (system != units::System::metric) {
    table.measures.insert(table.measures.end(), us.begin(), us.end());
  }
  make_room(table);

  const std::vector<MassFraction> rows = mixtures(strengths);
  for (std::size_t row = 0; row < table.height(); ++row) {
    const MassFraction p = rows[row];
    std::size_t i = table.index(row, 0);
    if (system != units::System::us) {
      const double kg_L = per_litre(density(p, reference_20C));
      table.figures[i++] = p.percent();
      table.figures[i++] = kg_L;
      table.figures[i++] = 1.0 / kg_L;
      table.figures[i++] =
          pure_alcohol(lot(units::Mass::kilograms(1.0), volume_strength(p))).litres();
    }
    if (system != units::System::metric) {
      const double lb_gal = pounds_per_gallon_in_air(density(p, reference_60F));
      table.figures[i++] = lb_gal;
      table.figures[i++] = 1.0 / lb_gal;
      table.figures[i++] = proof(p).degrees() / 100.0 / lb_gal;
    }
  }
  return table;
}

}  // namespace lynearm::spirit
