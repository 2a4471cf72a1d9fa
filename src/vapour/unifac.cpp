#include "vapour/unifac.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <optional>
#include <string>
#include <string_view>

#include "base/error.hpp"
#include "base/source.hpp"
#include "vapour/pure.hpp"

namespace lynearm::vapour {
namespace {

enum class MainGroup : std::size_t {
  ch2,
  oh,
  h2o,
  ach,
  acch2,
  ch3oh,
  cho,
  ccoo,
  ch2o,
  cooh,
  furfural,
  coo,
  sulphide,
  count
};
static_assert(static_cast<std::size_t>(MainGroup::count) <= GroupTable::most_groups);

struct Size {
  double r, q;
  base::Source source;
};
struct Subgroup {
  std::string_view id;
  MainGroup main;
  Size original, dortmund;
};
template <std::size_t N>
struct Numbers {
  std::array<double, N> values;
  base::Source source;
};
struct Interaction {
  std::string_view id;
  MainGroup first, second;
  std::optional<Numbers<2>> original;
  Numbers<6> dortmund;
};

const std::vector<Subgroup>& subgroups() {
  static const std::vector<Subgroup> rows = {
#include "vapour/unifac_groups.inc"
  };
  return rows;
}

const std::vector<Interaction>& interactions() {
  static const std::vector<Interaction> rows = {
#include "vapour/unifac_interactions.inc"
  };
  return rows;
}

GroupTable made_table(GroupModel model) {
  GroupTable table;
  table.power = model == GroupModel::dortmund ? 0.75 : 1.0;
  for (std::size_t m = 0; m < table.pairs.size(); ++m) table.pairs[m][m].known = true;
  for (const Interaction& row : interactions()) {
    GroupTable::Pair& there =
        table.pairs[static_cast<std::size_t>(row.first)][static_cast<std::size_t>(row.second)];
    GroupTable::Pair& back =
        table.pairs[static_cast<std::size_t>(row.second)][static_cast<std::size_t>(row.first)];
    if (model == GroupModel::dortmund) {
      const auto& v = row.dortmund.values;
      there = {v[0], v[1], v[2], true};
      back = {v[3], v[4], v[5], true};
    } else if (row.original) {
      there = {row.original->values[0], 0.0, 0.0, true};
      back = {row.original->values[1], 0.0, 0.0, true};
    }
  }
  return table;
}

GroupMolecule molecule_of(const GroupTable& table, GroupModel model,
                          std::span<const GroupCount> groups) {
  std::vector<GroupTable::Part> parts;
  for (const GroupCount& group : groups) {
    const auto row = std::ranges::find(subgroups(), std::string_view(group.id), &Subgroup::id);
    if (row == subgroups().end()) {
      throw base::InputError("group", group.id, "a group of data/unifac_groups.toml");
    }
    const Size& size = model == GroupModel::dortmund ? row->dortmund : row->original;
    parts.push_back({static_cast<std::size_t>(row->main), size.r, size.q, group.count});
  }
  return table.molecule(parts);
}

constexpr std::array<GroupCount, 3> ethanol_groups{{{"ch3", 1}, {"ch2", 1}, {"oh-primary", 1}}};
constexpr std::array<GroupCount, 1> water_groups{{{"h2o", 1}}};

struct Known {
  explicit Known(GroupModel model)
      : table(made_table(model)),
        ethanol(molecule_of(table, model, ethanol_groups)),
        water(molecule_of(table, model, water_groups)) {}
  GroupTable table;
  GroupMolecule ethanol, water;
};

const Known& known(GroupModel model) {
  static const Known original(GroupModel::original);
  static const Known dortmund(GroupModel::dortmund);
  return model == GroupModel::dortmund ? dortmund : original;
}

struct Solvent {
  Solvent(GroupModel model, units::MoleFraction ethanol, units::Temperature t)
      : psi(group_table(model), t.kelvins()),
        mixture(psi, std::array{&group_ethanol(model), &group_water(model)},
                std::array{ethanol.fraction(), 1.0 - ethanol.fraction()}) {}
  GroupPsi psi;
  GroupMixture mixture;
};

}  // namespace

GroupMolecule GroupTable::molecule(std::span<const Part> parts) const {
  GroupMolecule sums;
  for (const Part& part : parts) {
    sums.r += part.count * part.r;
    sums.q += part.count * part.q;
    auto surface = std::ranges::find(sums.surfaces, part.group, &GroupMolecule::Surface::group);
    if (surface == sums.surfaces.end()) {
      sums.surfaces.push_back({part.group, 0.0});
      surface = sums.surfaces.end() - 1;
    }
    surface->q += part.count * part.q;
  }
  sums.r_power = std::pow(sums.r, power);
  return sums;
}

const GroupTable& group_table(GroupModel model) { return known(model).table; }
const GroupMolecule& group_ethanol(GroupModel model) { return known(model).ethanol; }
const GroupMolecule& group_water(GroupModel model) { return known(model).water; }

GroupMolecule group_molecule(GroupModel model, std::span<const GroupCount> groups) {
  return molecule_of(group_table(model), model, groups);
}

GroupPsi::GroupPsi(const GroupTable& table, double t_K) {
  for (std::size_t m = 0; m < table.pairs.size(); ++m) {
    for (std::size_t n = 0; n < table.pairs.size(); ++n) {
      const GroupTable::Pair& pair = table.pairs[m][n];
      psi_[m][n] = m == n       ? 1.0
                   : pair.known ? std::exp(-(pair.a / t_K + pair.b + pair.c * t_K))
                                : std::numeric_limits<double>::quiet_NaN();
    }
  }
}

GroupMixture::GroupMixture(const GroupPsi& psi, std::span<const GroupMolecule* const> molecules,
                           std::span<const double> mole_fractions)
    : psi_(&psi) {
  base::ensure(molecules.size() == mole_fractions.size(), "each molecule has a mole fraction");
  double moles = 0.0;
  for (std::size_t i = 0; i < molecules.size(); ++i) {
    const double x = mole_fractions[i];
    if (x <= 0.0) continue;
    const GroupMolecule& molecule = *molecules[i];
    moles += x;
    r_ += x * molecule.r;
    q_ += x * molecule.q;
    r_power_ += x * molecule.r_power;
    for (const auto& [group, q] : molecule.surfaces) {
      std::size_t k = 0;
      while (k < count_ && present_[k].group != group) ++k;
      if (k == count_) present_[count_++] = {group, 0.0, 0.0};
      present_[k].theta += x * q;
    }
  }
  base::ensure(moles > 0.0, "a mixture holds something");
  for (Present& entry : present()) entry.theta /= q_;
  for (Present& entry : present()) {
    for (const Present& other : present()) {
      entry.sum += other.theta * psi(other.group, entry.group);
    }
  }
  r_ /= moles;
  q_ /= moles;
  r_power_ /= moles;
}

// ln(Gamma of a group) over its q: 1 - ln sum_m theta_m psi(m, k)
//                                    - sum_m theta_m psi(k, m) / sum_n theta_n psi(n, m).
double GroupMixture::held(std::size_t group) const {
  double sum = 0.0;
  double ratio = 0.0;
  for (const Present& entry : present()) {
    sum += entry.theta * (*psi_)(entry.group, group);
    ratio += entry.theta * (*psi_)(group, entry.group) / entry.sum;
  }
  return 1.0 - std::log(sum) - ratio;
}

double GroupMixture::log_gamma(const GroupMolecule& molecule) const {
  constexpr double half_neighbours = 5.0;
  const double q = molecule.q;
  const double volume = molecule.r_power / r_power_;
  const double volume_by_surface = molecule.r / r_ / (q / q_);
  const double by_size =
      1.0 - volume + std::log(volume) -
      half_neighbours * q * (1.0 - volume_by_surface + std::log(volume_by_surface));

  // The same groups in the pure liquid, from which activity is counted. A molecule of one main
  // group holds none of its own back.
  double by_groups = 0.0;
  if (molecule.surfaces.size() == 1) {
    by_groups = molecule.surfaces[0].q * held(molecule.surfaces[0].group);
  } else {
    const GroupMolecule* const alone[] = {&molecule};
    constexpr double all[] = {1.0};
    const GroupMixture pure(*psi_, alone, all);
    for (const auto& [group, surface] : molecule.surfaces) {
      by_groups += surface * (held(group) - pure.held(group));
    }
  }
  const double sum = by_size + by_groups;
  if (std::isnan(sum)) {
    throw base::InputError("model", "UNIFAC",
                           "a model whose published list has every pair of groups that meet");
  }
  return sum;
}

double trace_log_gamma(GroupModel model, const GroupMolecule& trace,
                       units::MoleFraction ethanol, units::Temperature t) {
  require_in_range(ethanol, "ethanol");
  require_in_range(t, "temperature");
  return Solvent(model, ethanol, t).mixture.log_gamma(trace);
}

GroupEthanolWater group_log_gammas(GroupModel model, units::MoleFraction ethanol,
                                   units::Temperature t) {
  require_in_range(ethanol, "ethanol");
  require_in_range(t, "temperature");
  const Solvent solvent(model, ethanol, t);
  return {solvent.mixture.log_gamma(group_ethanol(model)),
          solvent.mixture.log_gamma(group_water(model))};
}

}  // namespace lynearm::vapour
