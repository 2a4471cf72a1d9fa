// Where a liquid boils and what rises from it; where a vapour condenses and what falls.
// Model: x gamma(x, T) p(T) = y P for ethanol and for water (modified Raoult's law), gamma by
// NRTL, ideal vapour. Leaves out dissolved extract: 5 % by mass of dextrin raises the boiling
// point by less than 0.06 °C, 5 % of sugar by 0.08 °C (our estimate).
//
// Along x the vapour y rises without turning, so each vapour has one liquid and the dew point
// is single. The boiling point falls from water's (x = 0) to the azeotrope and rises to
// ethanol's (x = 1); there and at the azeotrope liquid and vapour are alike.
#pragma once

#include "units/quantity.hpp"
#include "vapour/activity.hpp"

namespace lynearm::vapour {

struct BubblePoint {
  units::Temperature temperature;
  units::MoleFraction vapour;  ///< of ethanol in the first bubble
  double residual = 0.0;       ///< sum of partial pressures over P, less 1
  int iterations = 0;
};

/// Boiling point of a liquid and the vapour that rises from it.
///
/// liquid     mole fraction of ethanol, 0 to 1
/// p          20 to 120 kPa
/// throws     InputError outside; NotConverged (not seen) when the residual stays over 1e-11
/// accuracy   RMS of T in K and of y about a fit that has not seen the set: Kamihama 2012
///            (101.3 kPa, 19 rows) 0.16, 0.0056; Perry (101.3 kPa, 15) 0.34, 0.0076; Kirschbaum
///            1939 (98.7 kPa, 18) 0.22, 0.0068, (33.3 kPa, 28) 0.31, 0.0123; Voutsas 2011
///            (32.9 kPa, 13) 0.19, 0.0084; all within what the sets differ among themselves
///            (tests/published/vle_ethanol_water_test.cpp)
[[nodiscard]] BubblePoint bubble_point(units::MoleFraction liquid, units::Pressure p,
                                       const NrtlParameters& parameters = house_nrtl);

struct DewPoint {
  units::Temperature temperature;
  units::MoleFraction liquid;  ///< of ethanol in the first drop
  double residual = 0.0;       ///< vapour of that drop less the vapour asked for
  int iterations = 0;
};

/// Temperature at which a vapour begins to condense and its first drop. Inverse of
/// bubble_point(): the liquid whose vapour this is, put back to 1e-12.
///
/// vapour     mole fraction of ethanol, 0 to 1
/// p          20 to 120 kPa
/// throws     InputError outside; NotConverged
[[nodiscard]] DewPoint dew_point(units::MoleFraction vapour, units::Pressure p);

struct Azeotrope {
  units::MoleFraction ethanol;
  units::Temperature temperature;
};

/// The mixture that boils unchanged: no still passes it.
///
/// p          20 to 120 kPa, InputError outside; the model's azeotrope stays below 1 in all of
///            it
/// accuracy   at 101.325 kPa x 0.8947, 78.148 °C; published 0.8943 to 0.8946, 78.15 to 78.17 °C
[[nodiscard]] Azeotrope azeotrope(units::Pressure p,
                                  const NrtlParameters& parameters = house_nrtl);

}  // namespace lynearm::vapour
