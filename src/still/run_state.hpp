// Inside a run: the bare state that is integrated, and the Point that is shown of it.
#pragma once

#include "still/run.hpp"

namespace lynearm::still {

/// What is known at one moment, in bare figures. u = ln(n0/n).
struct RunState {
  double u = 0.0;
  double pot_x = 0.0;
  double rising_y = 0.0;
  double reflux_x = 0.0;
  double spout_y = 0.0;
  double pot_K = 0.0;
  double head_K = 0.0;
  double into_pot_J = 0.0;
  double head_heat_J = 0.0;
};

/// Strength by volume at 20 °C of a mole fraction, 0 to 1, and litres of a lot at 20 °C:
/// spirit's own definitions through its fast kernel.
[[nodiscard]] double strength_of_mole_fraction(double x);
[[nodiscard]] double litres_20C(const spirit::Lot& lot);

/// What a charge of `n0` moles has given when e^-u of it is left at `x`.
[[nodiscard]] spirit::Lot distilled(const Charge& charge, double n0_mol, double u, double x);

/// The point that a state stands for, without its time and drawn energy.
[[nodiscard]] Point shown(const Charge& charge, double n0_mol, const RunState& state);

}  // namespace lynearm::still
