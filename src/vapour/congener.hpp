// Traces that a still moves beside ethanol and water: how much richer the vapour is in each
// than the boiling liquid. Model: modified Raoult's law for a trace, y/x = gamma p / P, with
// gamma from groups (unifac.hpp). Where that misses a credible Henry constant in water at 25 °C
// by far it is brought to it, the correction fading with water's share of the liquid's volume.
// Leaves out what traces do to each other, to ethanol and to copper, and any reaction. Says
// nothing about whether a spirit is fit to drink: what is in a mash is not known here.
#pragma once

#include <array>
#include <cstddef>
#include <optional>
#include <span>
#include <string_view>
#include <vector>

#include "base/figure.hpp"
#include "units/quantity.hpp"
#include "vapour/unifac.hpp"

namespace lynearm::vapour {

using base::Figure;

inline constexpr std::size_t congener_count = 16;

/// When most of it comes in a spirit run from about 28 %vol.
enum class Comes { early, middle, late };

/// Vapour pressure of a pure substance, with the range its coefficients were fitted to.
struct VapourPressure {
  enum class Equation {
    antoine,    ///< ln(p/Pa) = A - B/(T + C)
    dippr_101,  ///< ln(p/Pa) = C1 + C2/T + C3 ln T + C4 T^C5
  };
  Equation equation;
  std::array<double, 5> values;
  units::Temperature from, to;
  base::Source source;
  [[nodiscard]] double log_Pa(double t_K) const;
};

/// The coefficients of an equation and where they come from.
template <std::size_t N>
struct Numbers {
  std::array<double, N> values;
  base::Source source;
};

/// One row of data/congeners.toml.
struct Congener {
  std::string_view id;    ///< "isoamyl-alcohol"
  std::string_view name;  ///< "isoamyl alcohol (3-methyl-1-butanol)"
  std::string_view cas;   ///< registry number
  Comes comes;
  Figure<double> molar_mass_g_per_mol;
  Figure<units::Temperature> boils;  ///< pure, at 101.325 kPa
  VapourPressure vapour_pressure;
  std::optional<Numbers<2>> dimer;  ///< of the vapour: log10 K (1/mmHg) = a + b/T
  GroupModel model;
  std::string_view why;  ///< this model
  std::vector<GroupCount> groups;
  std::optional<Figure<units::Pressure>> henry_in_water;  ///< p/x at 25 °C
  bool brought;  ///< the activity coefficient is brought to that constant
  /// A factor: one standard deviation of ln(volatility).
  Figure<double> spread;
};

/// The table, always in the same order: the index of a congener is its place here.
[[nodiscard]] std::span<const Congener> congeners();

/// The congener of an id. Throws InputError ("congener") that names the nearest or all.
[[nodiscard]] const Congener& congener(std::string_view id);
/// Its place in congeners(). Throws as congener().
[[nodiscard]] std::size_t congener_index(std::string_view id);

/// Activity coefficient of a trace, counted from the pure liquid (for acetic acid from the
/// single molecules over it).
///
/// liquid     mole fraction of ethanol, 0 to 1
/// t          0 to 115 °C
/// throws     InputError outside
[[nodiscard]] double activity_coefficient(const Congener& congener, units::MoleFraction liquid,
                                          units::Temperature t);

/// y/x of a trace: mole fraction in the vapour over that in the liquid. It need not boil at
/// `t` and `p`; along the boiling line CongenerCurve is the quick way.
///
/// liquid     mole fraction of ethanol, 0 to 1
/// t          0 to 115 °C
/// p          20 to 120 kPa
/// throws     InputError outside
/// accuracy   `spread` of the congener; docs/rooms/vapour.md
[[nodiscard]] double volatility(const Congener& congener, units::MoleFraction liquid,
                                units::Temperature t, units::Pressure p);

/// All of them at once, in the order of congeners(), for a fraction of sixteen calls.
[[nodiscard]] std::array<double, congener_count> volatilities(units::MoleFraction liquid,
                                                              units::Temperature t,
                                                              units::Pressure p);

/// Volatility over that of ethanol in the same liquid: above 1 it runs ahead of ethanol.
[[nodiscard]] double relative_volatility(const Congener& congener, units::MoleFraction liquid,
                                         units::Temperature t);

}  // namespace lynearm::vapour
