// What jars carry when no run was computed and no laboratory asked: an estimate from their
// strengths and their order, with a band that says how little is known.
//
// Model: the pot is found from the jars by a mass balance. Its liquid at the begin and at the
// end is that in equilibrium with the first and the last jar, and what it lost is what the jars
// hold: two unknowns, two equations. Then Lord Rayleigh's law for a trace beside ethanol, with
// one relative volatility to ethanol over the run: when the share e of the ethanol is left in
// the pot, the share e^a of the trace is. The trace's grams in the charge are those of a usual
// one. Leaves out the head's reflux, the hold-up of head and condenser (which smears the first
// jars), what depends on the grain and the yeast, and that a runs up as the pot weakens.
#pragma once

#include <vector>

#include "base/figure.hpp"
#include "still/jar.hpp"
#include "units/quantity.hpp"

namespace lynearm::still {

/// A group of congeners as it is estimated.
struct UsualGroup {
  base::Figure<double> volatility;                   ///< relative to ethanol's, over a run
  base::Figure<units::MassConcentration> in_charge;  ///< per litre of pure alcohol
};

/// Relative volatilities: the orders of magnitude of acetaldehyde and ethyl acetate; higher
/// alcohols; furfural, lactate, phenylethanol and acids over a pot of 30 %vol to nearly nothing
/// (from memory, within 40 % at best). Grams in a charge: our estimate, within a factor of two.
[[nodiscard]] const UsualGroup& usual_early();
[[nodiscard]] const UsualGroup& usual_middle();
[[nodiscard]] const UsualGroup& usual_late();

/// Jars with every load, and which groups are estimates.
struct FilledJars {
  std::vector<Jar> jars;
  bool early_estimated = false, middle_estimated = false, late_estimated = false;
  units::Share alcohol_left;  ///< of the charge's ethanol, in the pot when the last jar ended
  bool left_assumed = false;  ///< the strengths did not tell it: usual_alcohol_left

  [[nodiscard]] bool any_estimated() const {
    return early_estimated || middle_estimated || late_estimated;
  }
};

/// Left in the pot where the strengths do not fall as in a run: common practice, no source.
inline constexpr units::Share usual_alcohol_left = units::Share::fraction(0.05);

/// Fills the groups that no jar states.
///
/// jars       in the order they ran. Where every label is a whole number, the order is that of
///            the numbers, and the list may have any
/// throws     InputError as check() does
/// accuracy   not compared with measured jars. The balance gives the pot of a computed run back
///            to 0.02 of the charge's ethanol (tests/still/estimated_loads_test.cpp)
[[nodiscard]] FilledJars fill_loads(std::vector<Jar> jars);

}  // namespace lynearm::still
