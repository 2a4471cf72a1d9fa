// All boiling mixtures at one pressure, tabulated once and cheap to ask: a run of a still asks
// thousands of times. Between 257 nodes, evenly spaced in s = 1.3 x / (x + 0.3), which spreads
// out the steep end near pure water, runs a cubic with fourth-order slopes. The node is found
// by arithmetic and one look serves all columns, which a general curve's search cannot do.
// Immutable once made, so threads may share it.
#pragma once

#include <vector>

#include "units/quantity.hpp"
#include "vapour/boiling_kernel.hpp"
#include "vapour/molar.hpp"

namespace lynearm::vapour {

/// A boiling liquid and the vapour in equilibrium with it, at one pressure.
struct Boiling {
  units::Temperature temperature;
  units::MoleFraction vapour;
  MolarEnthalpy liquid_enthalpy;  ///< of the liquid, at `temperature`; reference: enthalpy.hpp
  MolarEnthalpy vapour_enthalpy;  ///< of the vapour, at `temperature`
};

/// The same with its derivatives along the boiling line, per mole fraction of the liquid: exact
/// derivatives of the tabulated curves, so that a balance written with both closes.
struct BoilingAlong {
  Boiling here;
  double temperature_slope_K = 0.0;
  double vapour_slope = 0.0;
  double liquid_enthalpy_slope_J_per_mol = 0.0;
};

/// The boiling line at one pressure.
///
/// accuracy   against bubble_point() and enthalpy.hpp at 20,000 mixtures and 20 to 120 kPa:
///            see tests/vapour/boiling_curve_test.cpp (worst: T 4e-7 K, vapour 5e-8 mole
///            fraction, enthalpies 0.015 J/mol)
class BoilingCurve {
 public:
  /// p          20 to 120 kPa; InputError outside
  explicit BoilingCurve(units::Pressure p);

  /// All of the mixture at once. liquid: 0 to 1; BrokenInvariant outside.
  [[nodiscard]] Boiling at(units::MoleFraction liquid) const;
  [[nodiscard]] BoilingAlong along(units::MoleFraction liquid) const;
  [[nodiscard]] units::Temperature temperature(units::MoleFraction liquid) const;
  /// Mole fraction of ethanol in the vapour.
  [[nodiscard]] units::MoleFraction vapour(units::MoleFraction liquid) const;
  /// d(vapour)/d(liquid).
  [[nodiscard]] double vapour_slope(units::MoleFraction liquid) const;
  /// Of the boiling liquid, and its derivative along the boiling line (per mole fraction).
  [[nodiscard]] MolarEnthalpy liquid_enthalpy(units::MoleFraction liquid) const;
  [[nodiscard]] MolarEnthalpy liquid_enthalpy_slope(units::MoleFraction liquid) const;
  /// Of the vapour in equilibrium with `liquid`.
  [[nodiscard]] MolarEnthalpy vapour_enthalpy(units::MoleFraction liquid) const;

  /// The liquid in equilibrium with a vapour: inverse of vapour(), to 1e-13.
  [[nodiscard]] units::MoleFraction liquid_under(units::MoleFraction vapour) const;
  /// Dew point of a vapour: temperature(liquid_under(vapour)).
  [[nodiscard]] units::Temperature dew_temperature(units::MoleFraction vapour) const;

  /// The first drop when a share of a rising vapour condenses and runs back in equilibrium with
  /// what goes on: the x with (1 - share) vapour(x) + share x = rising.
  ///
  /// share      0 to 1 (at 0 this is liquid_under()); put back to 1e-13
  /// near       a guess, which saves turns when successive states are close
  [[nodiscard]] units::MoleFraction first_drop(units::MoleFraction rising, units::Share share,
                                               units::MoleFraction near) const;

  [[nodiscard]] units::Pressure pressure() const { return pressure_; }
  /// The azeotrope at this pressure, where vapour(x) = x.
  [[nodiscard]] units::MoleFraction azeotrope() const { return azeotrope_; }

 private:
  struct Column {
    double value, slope;  // slope times the width of an interval
  };
  struct Node {
    Column temperature_K, vapour, liquid_J_per_mol, vapour_J_per_mol;
  };
  struct Place {
    const Node* left;
    double t;       // 0 to 1 within the interval
    double t_by_x;  // dt/dx
  };
  [[nodiscard]] kernel::Boil boil_at(double x, int i) const;
  [[nodiscard]] Place place(units::MoleFraction liquid) const;
  [[nodiscard]] static double value(const Place& at, Column Node::*column);
  [[nodiscard]] static double slope(const Place& at, Column Node::*column);

  units::Pressure pressure_;
  units::MoleFraction azeotrope_;
  std::vector<Node> nodes_;
};

}  // namespace lynearm::vapour
