#include "regress_activity/regression.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <istream>

#include "base/error.hpp"
#include "vapour/boiling_kernel.hpp"
#include "vapour/equilibrium.hpp"

namespace lynearm::regression {
namespace {

// clang-format off
constexpr std::array<MeasuredSet, 7> all_sets{{
    // about 100 kPa
    {"Kamihama2012",           0, 0.31, 0.010},
    {"Perry_Carey_Lewis",      0, 0.46, 0.009},
    {"Kirschbaum1939_740mmHg", 0, 0.39, 0.009},
    // a third of that
    {"Voutsas2011",            1, 0.38, 0.012},
    {"Kirschbaum1939_250mmHg", 1, 0.34, 0.014},
    // 25 and 30 °C, 4 to 10 kPa
    {"Pemberton_Mash1978",     2, 0.14, 0.032},
    {"Yang1979",               2, 0.14, 0.031},
}};
// clang-format on

const MeasuredSet& set_named(std::string_view name) {
  for (const MeasuredSet& set : all_sets) {
    if (name == set.name) return set;
  }
  std::string names;
  for (const MeasuredSet& set : all_sets)
    names += (names.empty() ? "" : ", ") + std::string(set.name);
  throw base::InputError("set", std::string(name), names);
}

double number(const std::string& text, const std::string& line) {
  double value = 0.0;
  const char* end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, value);
  if (read.ec != std::errc{} || read.ptr != end) {
    throw base::InputError("row", line, "set,P,T,x,y with four numbers");
  }
  return value;
}

vapour::kernel::Boil boil(const Row& row, const vapour::NrtlParameters& parameters) {
  const vapour::kernel::Boil found =
      vapour::kernel::boil(parameters, row.liquid, row.pressure_kPa * 1e3);
  if (!(std::abs(found.residual) < vapour::kernel::boil_residual)) {
    throw base::NotConverged("bubble point of a row",
                             fmt::format("x {} at {} kPa: residual {}", row.liquid,
                                         row.pressure_kPa, found.residual));
  }
  return found;
}

vapour::NrtlParameters parameters_of(const std::vector<double>& v) {
  return {v[0], v[1], v[2], v[3], v.size() > 4 ? v[4] : vapour::house_nrtl.alpha};
}

void add(Differences& to, double difference, double at) {
  ++to.count;
  to.mean += difference;
  to.mean_absolute += std::abs(difference);
  to.rms += difference * difference;
  if (std::abs(difference) > std::abs(to.worst)) {
    to.worst = difference;
    to.worst_at = at;
  }
}

void settle(Differences& of) {
  base::ensure(of.count > 0, "a set has rows to compare");
  of.mean /= of.count;
  of.mean_absolute /= of.count;
  of.rms = std::sqrt(of.rms / of.count);
}

// The rows of a set as deviations from the ruler, by rising liquid.
struct Deviation {
  double liquid, temperature_K, vapour;
};

std::vector<Deviation> deviations(std::span<const Row> rows, std::string_view set,
                                  const vapour::NrtlParameters& ruler) {
  std::vector<Deviation> found;
  for (const Row& row : rows) {
    if (row.set != set) continue;
    const vapour::kernel::Boil model = boil(row, ruler);
    found.push_back({row.liquid, row.temperature_K - model.t_K, row.vapour - model.vapour});
  }
  std::ranges::sort(found, {}, &Deviation::liquid);
  return found;
}

}  // namespace

std::span<const MeasuredSet> sets() { return all_sets; }

std::vector<Row> read_rows(std::istream& file) {
  std::vector<Row> rows;
  for (std::string line; std::getline(file, line);) {
    if (line.empty() || line.front() == '#' || line.starts_with("dataset,")) continue;
    std::vector<std::string> cells(1);
    for (const char c : line) {
      if (c == ',') {
        cells.emplace_back();
      } else {
        cells.back() += c;
      }
    }
    if (cells.size() != 5) {
      throw base::InputError("row", line, "set,P,T,x,y with four numbers");
    }
    rows.push_back({cells[0], number(cells[1], line), number(cells[2], line),
                    number(cells[3], line), number(cells[4], line)});
  }
  return rows;
}

Fit fit(std::span<const Row> rows, std::string_view left_out, Alpha alpha) {
  if (!left_out.empty()) (void)set_named(left_out);
  struct Weighted {
    const Row* row;
    const MeasuredSet* set;
  };
  std::vector<Weighted> used;
  for (const Row& row : rows) {
    if (row.set == left_out || row.set.starts_with("azeotrope")) continue;
    used.push_back({&row, &set_named(row.set)});
  }
  const auto residuals = [&](const std::vector<double>& v) {
    const vapour::NrtlParameters parameters = parameters_of(v);
    std::vector<double> r;
    r.reserve(2 * used.size() + 2);
    for (const Weighted& w : used) {
      const vapour::kernel::Boil model = boil(*w.row, parameters);
      r.push_back((model.t_K - w.row->temperature_K) / w.set->temperature_K);
      r.push_back((model.vapour - w.row->vapour) / w.set->vapour);
    }
    constexpr AzeotropeTarget target;
    const vapour::Azeotrope model =
        vapour::azeotrope(units::Pressure::atmospheres(1.0), parameters);
    r.push_back((model.ethanol.fraction() - target.liquid) / target.liquid_deviation);
    r.push_back((model.temperature.kelvins() - target.temperature_K) /
                target.temperature_deviation_K);
    return r;
  };
  // From the customary parameters of a simulator's databank: any place near will do.
  std::vector<double> start{-0.8, 246.0, 3.46, -586.0};
  std::vector<double> scale{1.0, 300.0, 1.0, 300.0};
  if (alpha == Alpha::free) {
    start.push_back(0.3);
    scale.push_back(0.1);
  }
  Fit found;
  found.solution =
      numeric::least_squares(residuals, start, scale, "regression of the activity model");
  found.parameters = parameters_of(found.solution.value);
  return found;
}

Misfit misfit(std::span<const Row> rows, std::string_view set,
              const vapour::NrtlParameters& parameters) {
  (void)set_named(set);
  Misfit found;
  for (const Row& row : rows) {
    if (row.set != set) continue;
    const vapour::kernel::Boil model = boil(row, parameters);
    add(found.temperature_K, model.t_K - row.temperature_K, row.liquid);
    add(found.vapour, model.vapour - row.vapour, row.liquid);
  }
  settle(found.temperature_K);
  settle(found.vapour);
  return found;
}

Misfit mutual_scatter(std::span<const Row> rows, std::string_view set,
                      const vapour::NrtlParameters& ruler) {
  const MeasuredSet& asked = set_named(set);
  const std::vector<Deviation> own = deviations(rows, set, ruler);
  Misfit found;
  for (const MeasuredSet& other : all_sets) {
    if (other.group != asked.group || &other == &asked) continue;
    const std::vector<Deviation> theirs = deviations(rows, other.name, ruler);
    for (const Deviation& here : own) {
      const auto above = std::ranges::lower_bound(theirs, here.liquid, {}, &Deviation::liquid);
      if (above == theirs.end() || (above == theirs.begin() && above->liquid > here.liquid)) {
        continue;
      }
      const Deviation& high = *above;
      const Deviation& low = above == theirs.begin() ? high : *(above - 1);
      const double width = high.liquid - low.liquid;
      const double share = width > 0.0 ? (here.liquid - low.liquid) / width : 1.0;
      add(found.temperature_K,
          here.temperature_K - std::lerp(low.temperature_K, high.temperature_K, share),
          here.liquid);
      add(found.vapour, here.vapour - std::lerp(low.vapour, high.vapour, share), here.liquid);
    }
  }
  settle(found.temperature_K);
  settle(found.vapour);
  return found;
}

}  // namespace lynearm::regression
