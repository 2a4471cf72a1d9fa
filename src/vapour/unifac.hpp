// Activity coefficients from the groups molecules are built of: UNIFAC as first published and
// modified UNIFAC (Dortmund). A molecule is a sum of groups, each with a volume r and a surface
// q; the groups of the mixture hold each other back pair by pair. Needed where nobody measured
// a trace in ethanol and water. Data: data/unifac_groups.toml, data/unifac_interactions.toml.
// Leaves out what sits next to what in a molecule, so isomers are alike.
#pragma once

#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "units/quantity.hpp"

namespace lynearm::vapour {

enum class GroupModel { original, dortmund };

/// A molecule as a model sees it: its volume r, its surface q and that by main group.
struct GroupMolecule {
  struct Surface {
    std::size_t group;  ///< of a GroupTable
    double q;
  };
  double r = 0.0;
  double q = 0.0;
  double r_power = 0.0;           ///< r to the table's power
  std::vector<Surface> surfaces;  ///< each main group once
};

/// What a model knows of its main groups.
struct GroupTable {
  static constexpr std::size_t most_groups = 16;
  /// psi = exp(-(a + b T + c T^2) / T), T in K.
  struct Pair {
    double a = 0.0, b = 0.0, c = 0.0;
    bool known = false;
  };
  std::array<std::array<Pair, most_groups>, most_groups> pairs{};
  /// Of r in the combinatorial part: 1 in the original, 3/4 in the Dortmund model.
  double power = 1.0;

  struct Part {
    std::size_t group;
    double r, q;  ///< of one group
    int count;
  };
  /// The sums of a molecule.
  [[nodiscard]] GroupMolecule molecule(std::span<const Part> parts) const;
};

/// A model's own table, and its ethanol and water.
[[nodiscard]] const GroupTable& group_table(GroupModel model);
[[nodiscard]] const GroupMolecule& group_ethanol(GroupModel model);
[[nodiscard]] const GroupMolecule& group_water(GroupModel model);

/// How often a molecule has a group; `id` as in data/unifac_groups.toml ("ch3", "oh-primary").
struct GroupCount {
  const char* id;
  int count;
};
/// The sums of a molecule. Throws InputError ("group") for an id the table has not.
[[nodiscard]] GroupMolecule group_molecule(GroupModel model,
                                           std::span<const GroupCount> groups);

/// All psi of a table at one temperature; a pair that is not known is not a number.
class GroupPsi {
 public:
  GroupPsi(const GroupTable& table, double t_K);
  [[nodiscard]] double operator()(std::size_t m, std::size_t n) const { return psi_[m][n]; }

 private:
  std::array<std::array<double, GroupTable::most_groups>, GroupTable::most_groups> psi_{};
};

/// A mixture, in which the activity coefficient of its own molecules and of traces can be
/// asked. Refers to `psi`, which must outlive it.
class GroupMixture {
 public:
  /// mole fractions need not add up to 1; a molecule at 0 takes no part
  GroupMixture(const GroupPsi& psi, std::span<const GroupMolecule* const> molecules,
               std::span<const double> mole_fractions);

  /// ln(activity coefficient) of a molecule of the mixture, or of a trace of another one.
  /// throws     InputError ("model") when the list has no value for a pair that meets
  [[nodiscard]] double log_gamma(const GroupMolecule& molecule) const;

 private:
  struct Present {
    std::size_t group;
    double theta;  ///< share of the surface
    double sum;    ///< sum over m of theta_m psi(m, group)
  };
  [[nodiscard]] double held(std::size_t group) const;
  [[nodiscard]] std::span<Present> present() { return {present_.data(), count_}; }
  [[nodiscard]] std::span<const Present> present() const { return {present_.data(), count_}; }

  const GroupPsi* psi_;
  std::array<Present, GroupTable::most_groups> present_{};  // the first count_ of it
  std::size_t count_ = 0;
  double r_ = 0.0, q_ = 0.0, r_power_ = 0.0;
};

/// ln(activity coefficient) of a trace in ethanol and water.
///
/// ethanol    mole fraction in the liquid, 0 to 1
/// t          0 to 115 °C
/// throws     InputError outside, and when the model has no value for a pair of groups
/// accuracy   the arithmetic: the printed digits of published and independently computed check
///            values (tests/vapour/unifac_test.cpp). The models themselves: a factor of 1.2 to
///            2 for traces in water, see docs/rooms/vapour.md
/// source     Fredenslund, Jones and Prausnitz 1975; Weidlich and Gmehling 1987; parameters of
///            the published lists, read in open data files
[[nodiscard]] double trace_log_gamma(GroupModel model, const GroupMolecule& trace,
                                     units::MoleFraction ethanol, units::Temperature t);

/// ln(activity coefficients) of ethanol and water themselves: a second opinion beside NRTL.
struct GroupEthanolWater {
  double ethanol, water;
};
[[nodiscard]] GroupEthanolWater group_log_gammas(GroupModel model, units::MoleFraction ethanol,
                                                 units::Temperature t);

}  // namespace lynearm::vapour
