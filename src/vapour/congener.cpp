#include "vapour/congener.hpp"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <string>

#include "base/error.hpp"
#include "vapour/activity.hpp"
#include "vapour/pure.hpp"

namespace lynearm::vapour {
namespace {

constexpr double henry_K = 298.15;

const std::vector<Congener>& table() {
  static const std::vector<Congener> rows = {
#include "vapour/congeners.inc"
  };
  return rows;
}

// ln of the pressure of the single molecules over the pure liquid. Where the vapour pairs:
// p = m + k m^2 with m the single molecules' pressure, k the constant of pairing.
double log_reference_Pa(const Congener& congener, double t_K) {
  const double all = congener.vapour_pressure.log_Pa(t_K);
  if (!congener.dimer) return all;
  constexpr double Pa_per_mmHg = 133.322387415;
  const auto& [a, b] = congener.dimer->values;
  const double k_p = std::exp(std::numbers::ln10 * (a + b / t_K) + all) / Pa_per_mmHg;
  // m / p = (sqrt(1 + 4 k p) - 1) / (2 k p) = 2 / (sqrt(1 + 4 k p) + 1)
  return all + std::log(2.0 / (std::sqrt(1.0 + 4.0 * k_p) + 1.0));
}

// Share of the liquid's volume that is water, by the molar volumes at 20 °C. Ethanol's and
// water's: 58.4 and 18.05 cm3/mol.
double water_by_volume(double ethanol) {
  const double water = 18.05 * (1.0 - ethanol);
  return water / (water + 58.4 * ethanol);
}

// What the equations need of a congener, made once.
struct Kernel {
  GroupMolecule molecule;
  double correction_in_water;  // of ln gamma
};

const std::vector<Kernel>& kernels() {
  static const std::vector<Kernel> made = [] {
    std::vector<Kernel> all;
    for (const Congener& row : table()) {
      Kernel kernel{group_molecule(row.model, row.groups), 0.0};
      if (row.brought) {
        base::ensure(row.henry_in_water.has_value(), "what is brought has a constant");
        const double model =
            trace_log_gamma(row.model, kernel.molecule, units::MoleFraction::fraction(0.0),
                            units::Temperature::kelvins(henry_K));
        kernel.correction_in_water = std::log(row.henry_in_water->value.pascals()) -
                                     log_reference_Pa(row, henry_K) - model;
      }
      all.push_back(std::move(kernel));
    }
    base::ensure(all.size() == congener_count, "the table has as many rows as it promises");
    return all;
  }();
  return made;
}

std::size_t place(const Congener& congener) {
  const Congener* first = table().data();
  base::ensure(&congener >= first && &congener < first + table().size(),
               "a congener is a row of the table");
  return static_cast<std::size_t>(&congener - first);
}

double log_gamma(const Congener& congener, units::MoleFraction liquid, units::Temperature t) {
  const Kernel& kernel = kernels()[place(congener)];
  return trace_log_gamma(congener.model, kernel.molecule, liquid, t) +
         kernel.correction_in_water * water_by_volume(liquid.fraction());
}

}  // namespace

double VapourPressure::log_Pa(double t_K) const {
  const auto& v = values;
  if (equation == Equation::antoine) return v[0] - v[1] / (t_K + v[2]);
  return v[0] + v[1] / t_K + v[2] * std::log(t_K) + v[3] * std::pow(t_K, v[4]);
}

std::span<const Congener> congeners() { return table(); }

std::size_t congener_index(std::string_view id) {
  std::vector<std::string> ids;
  for (const Congener& row : table()) {
    if (row.id == id) return ids.size();
    ids.emplace_back(row.id);
  }
  const std::string nearest = base::nearest_name(id, ids);
  std::string accepted = nearest.empty() ? "" : nearest + "; all: ";
  for (const std::string& known : ids) accepted += (&known == &ids.front() ? "" : ", ") + known;
  throw base::InputError("congener", std::string(id), accepted);
}

const Congener& congener(std::string_view id) { return table()[congener_index(id)]; }

double activity_coefficient(const Congener& congener, units::MoleFraction liquid,
                            units::Temperature t) {
  return std::exp(log_gamma(congener, liquid, t));
}

double volatility(const Congener& congener, units::MoleFraction liquid, units::Temperature t,
                  units::Pressure p) {
  require_in_range(p, "pressure");
  return std::exp(log_gamma(congener, liquid, t) + log_reference_Pa(congener, t.kelvins())) /
         p.pascals();
}

std::array<double, congener_count> volatilities(units::MoleFraction liquid,
                                                units::Temperature t, units::Pressure p) {
  require_in_range(liquid, "liquid");
  require_in_range(t, "temperature");
  require_in_range(p, "pressure");
  const double x = liquid.fraction();
  const double t_K = t.kelvins();
  const double water = water_by_volume(x);
  // The groups' hold on each other depends on temperature alone, the solvent's on the mixture:
  // once for all congeners of a model.
  std::array<double, congener_count> found{};
  for (const GroupModel model : {GroupModel::original, GroupModel::dortmund}) {
    const GroupPsi psi(group_table(model), t_K);
    const GroupMixture solvent(psi, std::array{&group_ethanol(model), &group_water(model)},
                               std::array{x, 1.0 - x});
    for (std::size_t i = 0; i < congener_count; ++i) {
      const Congener& row = table()[i];
      if (row.model != model) continue;
      const Kernel& kernel = kernels()[i];
      found[i] = std::exp(solvent.log_gamma(kernel.molecule) +
                          kernel.correction_in_water * water + log_reference_Pa(row, t_K)) /
                 p.pascals();
    }
  }
  return found;
}

double relative_volatility(const Congener& congener, units::MoleFraction liquid,
                           units::Temperature t) {
  const double ethanol = std::log(activity_coefficients(liquid, t).ethanol) +
                         std::log(vapour_pressure(Substance::ethanol, t).pascals());
  return std::exp(log_gamma(congener, liquid, t) + log_reference_Pa(congener, t.kelvins()) -
                  ethanol);
}

}  // namespace lynearm::vapour
