// A boiling liquid and its vapour with all that is told of them: temperature, both
// compositions, what makes the one richer, and their heats. Puts together equilibrium.hpp and
// enthalpy.hpp for those who show it; a run of a still asks boiling_curve.hpp.
#pragma once

#include "vapour/activity.hpp"
#include "vapour/molar.hpp"

namespace lynearm::vapour {

struct BoilingMixture {
  units::Pressure pressure;
  units::Temperature temperature;  ///< bubble point of the liquid, dew point of the vapour
  units::MoleFraction liquid;      ///< of ethanol
  units::MoleFraction vapour;      ///< of ethanol
  ActivityCoefficients activity;
  /// Ethanol over water in the vapour, over the same in the liquid: 1 at the azeotrope.
  double relative_volatility = 1.0;
  MolarEnthalpy liquid_enthalpy;  ///< above the pure liquids at 0 °C
  MolarEnthalpy vapour_enthalpy;
  MolarEnthalpy heat_of_vaporisation;  ///< of the liquid, to vapour of its own composition
};

/// A liquid at its bubble point and the vapour that rises from it; ranges and accuracy as
/// bubble_point() and enthalpy.hpp.
[[nodiscard]] BoilingMixture boiling_mixture(units::MoleFraction liquid, units::Pressure p);

/// A vapour at its dew point and the liquid that falls from it: the same pair, asked from the
/// other side.
[[nodiscard]] BoilingMixture condensing_mixture(units::MoleFraction vapour, units::Pressure p);

/// Per kilogram of a mixture, in kJ/kg: what a molar enthalpy is by mass.
[[nodiscard]] double kilojoules_per_kilogram(MolarEnthalpy enthalpy,
                                             units::MoleFraction ethanol);

}  // namespace lynearm::vapour
