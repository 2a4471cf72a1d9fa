// A boiling pot at one moment: how much vapour goes over, of what, for the heat that arrives.
// The pot is mixed and stays on its boiling line, so heat and composition together fix the
// flow:
//     Q = D [(H_V - r h_b) / (1 - r) - h - (y_D - x) (h' + C T' / n)]
// Q net heat, D what leaves, H_V rising vapour, h_b what falls back, h the pot, C the metal
// and extract that warm with it, ' along the boiling line. A head that loses heat condenses
// what that heat is worth, so a gentler fire sends a greater share back. Leaves out droplets
// carried over and the heat that the head's metal takes up while its temperature creeps up.
#pragma once

#include "still/kit.hpp"
#include "still/rectify.hpp"
#include "vapour/boiling_curve.hpp"

namespace lynearm::still {

/// The moment, in bare figures.
struct Boil {
  vapour::BoilingAlong pot;
  Passage passage;
  double share = 0.0;     ///< of the rising vapour that runs back, r
  double on_mol_s = 0.0;  ///< what goes over, D
  double head_W = 0.0;    ///< given off by the head
  bool stalled = false;   ///< the head takes all that rises: nothing goes over
};

class BoilingPot {
 public:
  /// warmed_J_per_K   metal and extract, at the pot's temperature
  /// throws           InputError "run.head_reflux", "head.plates", "head.plate_efficiency",
  ///                  "head.loss", "head.cooling"
  BoilingPot(const vapour::BoilingCurve& curve, const Head& head, units::Temperature ambient,
             double warmed_J_per_K);

  /// What to begin the next solution from; successive moments are close.
  struct Guess {
    double reflux_over_leaving = 0.0;  ///< r / (1 - r)
    double top_x = -1.0;               ///< below zero: none
  };

  /// n_mol      in the pot, of which x ethanol, 0 to 1; above zero
  /// net_W      heat that arrives in the pot less its loss; at zero or below nothing goes over
  /// throws     NotConverged with the bracket of r / (1 - r)
  /// accuracy   the head's heat against its loss to 1e-9 of it (tests/still/boil_test.cpp)
  [[nodiscard]] Boil at(double n_mol, double x, double net_W, Guess& guess) const;

  /// The head's temperature when vapour begins to pass, all but all of it running back, over a
  /// pot at x.
  [[nodiscard]] double passing_K(double x) const;
  /// What the head gives off at a temperature of its own: its loss, never a gain, and what a
  /// cooled head is made to give.
  [[nodiscard]] double given_off_W(double head_K) const;

  [[nodiscard]] const Rectifier& rectifier() const { return rectifier_; }

 private:
  const vapour::BoilingCurve& curve_;
  Head head_;
  double ambient_K_;
  double warmed_J_per_K_;
  Rectifier rectifier_;
};

}  // namespace lynearm::still
