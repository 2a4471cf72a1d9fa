// Inside a run: the bare state at one moment, and the Point that is shown of it.
#pragma once

#include "still/run.hpp"

namespace lynearm::still {

/// What is known at one moment, in bare figures.
struct RunState {
  double t_s = 0.0;  ///< since the heat was turned on
  double pot_ethanol_mol = 0.0, pot_water_mol = 0.0;
  double held_ethanol_mol = 0.0, held_water_mol = 0.0;
  double spout_z = 0.0;    ///< mole fraction of what runs at the spout
  double rising_y = 0.0;   ///< of the vapour over the pot
  double reflux_x = 0.0;   ///< of the drops in the head
  double leaving_y = 0.0;  ///< of the vapour that leaves the head
  double back_share = 0.0;
  double on_mol_s = 0.0;
  double pot_K = 0.0;
  double head_K = 0.0;
  double drawn_J = 0.0;  ///< since boiling, as the next three
  double into_pot_J = 0.0;
  double head_heat_J = 0.0;
  double carried_J = 0.0;
  [[nodiscard]] double pot_mol() const { return pot_ethanol_mol + pot_water_mol; }
  [[nodiscard]] double pot_x() const { return pot_ethanol_mol / pot_mol(); }
};

/// Strength by volume at 20 °C of a mole fraction, 0 to 1, and litres at 20 °C of moles or of a
/// lot: spirit's own definitions through its fast kernel.
[[nodiscard]] double strength_of_mole_fraction(double x);
[[nodiscard]] double litres_20C(double ethanol_mol, double water_mol);
[[nodiscard]] double litres_20C(const spirit::Lot& lot);

/// What a charge has given at a state: all but the pot's and what is held on the way.
[[nodiscard]] spirit::Lot distilled(const Charge& charge, const RunState& state);

/// The point that a state stands for, and the state of a point.
/// boiling_s   when the pot came to the boil
[[nodiscard]] Point shown(const Charge& charge, double boiling_s, const RunState& state);
[[nodiscard]] RunState state_of(const Point& point);

}  // namespace lynearm::still
