// What a head, with plates or without, lets pass when a share of the rising vapour runs back:
// stage by stage, at steady state and with equal molar flows from stage to stage. The head is
// one equilibrium stage; a plate brings the vapour through it part of the way to equilibrium
// with its liquid (Murphree). Heat is balanced over the whole, by the caller. Leaves out what
// the plates hold.
#pragma once

#include <array>
#include <span>

#include "units/quantity.hpp"
#include "vapour/boiling_curve.hpp"
#include "vapour/congener_curve.hpp"

namespace lynearm::still {

inline constexpr int most_plates = 12;

/// What passes, in mole fractions of ethanol.
struct Passage {
  double leaving_y = 0.0;  ///< of the vapour that goes to the condenser
  double top_x = 0.0;      ///< of the drops in equilibrium with it
  double back_x = 0.0;     ///< of the liquid that falls into the pot
  vapour::Boiling top;     ///< at top_x: temperature and vapour enthalpy of what leaves
  std::array<double, most_plates> plate_x{};  ///< from the top down
};

class Rectifier {
 public:
  /// plates       0 to 12
  /// efficiency   above 0, to 1
  Rectifier(const vapour::BoilingCurve& curve, int plates, units::Share efficiency);

  /// pot_x      of the boiling pot, pot its boiling state
  /// share      of the rising vapour that runs back, 0 to below 1
  /// near_x     a guess of top_x
  /// throws     NotConverged
  /// accuracy   the vapour that rises into the lowest stage is put back to 1e-9 of a mole
  ///            fraction, as a rule to 1e-14; at the azeotrope, where nothing changes, too
  [[nodiscard]] Passage pass(double pot_x, const vapour::Boiling& pot, double share,
                             double near_x) const;

  /// Of each congener: mole fraction in the leaving vapour over that in the pot, for a passage
  /// of pass() at the same pot_x and share. Exact: traces are linear.
  void pass_congeners(const vapour::CongenerCurve& volatility, double pot_x, double share,
                      const Passage& passage,
                      std::span<double, vapour::congener_count> leaving_by_pot) const;

 private:
  // The vapour that must rise into the lowest stage for the drops at the top to be `top_x`.
  [[nodiscard]] double rising_for(double top_x, double share, Passage& passage) const;

  const vapour::BoilingCurve& curve_;
  int plates_;
  double efficiency_;
};

}  // namespace lynearm::still
