// One batch run of a pot still, differential in the amount distilled (Rayleigh): the pot is
// mixed and boils, the vapour over it is in equilibrium, and a share of it condenses in the
// head and runs back, in equilibrium with the vapour that goes on:
//     y_V = (1 - r) y_D + r x_R,   y_D = y*(x_R),   y_V = y*(x)
//     d(n x) = y_D dn,  so  dx / d ln(n0/n) = -(y_D - x).
// Energy from enthalpies of pot, vapour and returning liquid; time from the net power.
// Leaves out what the head and condenser hold up, entrained droplets, and air at the start.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "spirit/lot.hpp"
#include "still/charge.hpp"
#include "still/kit.hpp"
#include "units/quantity.hpp"
#include "vapour/boiling_curve.hpp"

namespace lynearm::still {

/// From this much collected, the boiler draws this.
struct PowerStep {
  units::Volume from_collected;
  units::Power power;
};

struct RunSetting {
  /// Share by moles of the rising vapour that condenses in the head, 0 to 0.9. A plain pot that
  /// is driven fast has 0.02 to 0.05; a tall bare head run slowly 0.1 to 0.25 (our estimate).
  units::Share head_reflux;
  Heating heating;
  units::HeatCapacity wall;            ///< of the boiler, which warms as the pot does
  std::vector<PowerStep> power_steps;  ///< in order of volume; empty keeps heating.power
};

/// When to end a run: whichever is reached first. At least one must be given.
struct Stop {
  std::optional<units::VolumeStrength> spout_strength;  ///< falls to this
  std::optional<units::Temperature> head_temperature;   ///< rises to this
  std::optional<units::Volume> collected;               ///< reaches this, at 20 °C
  std::optional<units::Volume> least_in_pot;            ///< hot volume falls to this
};

enum class Ending { spout_strength, head_temperature, collected, least_in_pot, pot_dry };
[[nodiscard]] std::string_view words(Ending ending);

/// The state of a run at one moment.
struct Point {
  spirit::Lot distillate;            ///< all that has come so far
  units::Volume collected;           ///< its volume at 20 °C
  units::VolumeStrength cumulative;  ///< its strength
  units::Volume pure_alcohol;        ///< its alcohol alone
  units::VolumeStrength spout;       ///< strength of what runs now
  units::VolumeStrength pot;         ///< of what is left in the pot
  units::Temperature pot_temperature;
  units::Temperature head_temperature;  ///< dew point of the vapour leaving the head
  units::MoleFraction pot_ethanol;      ///< x
  units::MoleFraction rising_ethanol;   ///< y_V
  units::MoleFraction reflux_ethanol;   ///< x_R
  units::MoleFraction spout_ethanol;    ///< y_D
  vapour::AmountOfSubstance in_pot;     ///< n
  units::Energy into_pot;               ///< net heat into pot, extract and wall since boiling
  units::Energy head_heat;              ///< given off by the head since boiling
  units::Energy drawn;                  ///< at the meter since boiling
  units::Duration since_boiling;
};

struct Run {
  Charge charge;
  RunSetting setting;
  std::vector<Point> points;  ///< from the first drop to the end; at least two
  Ending ending = Ending::pot_dry;

  [[nodiscard]] const Point& first() const { return points.front(); }
  [[nodiscard]] const Point& last() const { return points.back(); }
  [[nodiscard]] const spirit::Lot& distillate() const { return last().distillate; }
  /// Charge less distillate: the balance is exact by construction.
  [[nodiscard]] spirit::Lot left() const { return charge.spirit - distillate(); }
  /// Alcohol of the distillate over that of the charge.
  [[nodiscard]] units::Share recovered() const {
    return units::Share::fraction(distillate().ethanol / charge.spirit.ethanol);
  }
};

/// Distils a charge that has come to the boil.
///
/// charge     with some ethanol; above the azeotrope the pot grows stronger, not weaker
/// setting    head_reflux 0 to 0.9; net power above zero throughout
/// stop       first reached ends; a pot of which 0.1 % by moles is left counts as dry
/// throws     InputError: "charge.spirit" water or nothing; "run.head_reflux"; "run.stop" no
///            end given; "run.stop.spout_strength", "run.stop.head_temperature",
///            "run.stop.collected", "run.stop.least_in_pot" when past it from the start;
///            "run.heating.power" when it cannot keep the pot boiling
/// accuracy   the pot's mole fraction at the end of a run within 5e-7 of integration at a
///            tolerance of 1e-11; ln(n0/n) within 2e-8 of the Rayleigh integral by quadrature
///            (tests/still/run_accuracy_test.cpp). The model's own: vapour/equilibrium.hpp
/// source     Lord Rayleigh's differential distillation with one partial condensation
[[nodiscard]] Run distil(const Charge& charge, const RunSetting& setting,
                         const vapour::BoilingCurve& curve, const Stop& stop);

/// State of the run when a volume (at 20 °C) has been collected. Between points by a cubic.
/// throws     InputError("collected") below zero or past the end of the run
[[nodiscard]] Point point_at_volume(const Run& run, units::Volume collected);

/// The first moment the spout has fallen to a strength, or the head risen to a temperature;
/// nothing when the run does not get there (or was past it from the start).
[[nodiscard]] std::optional<Point> when_spout_falls_to(const Run& run,
                                                       units::VolumeStrength strength);
[[nodiscard]] std::optional<Point> when_head_rises_to(const Run& run, units::Temperature head);
[[nodiscard]] std::optional<Point> when_pot_falls_to(const Run& run,
                                                     units::VolumeStrength strength);

/// The spirit that runs between two moments of a run.
[[nodiscard]] inline spirit::Lot between(const Point& from, const Point& to) {
  return to.distillate - from.distillate;
}

/// Head reflux that a head's heat loss makes of a vapour stream: heat lost over the latent heat
/// of the vapour made by `net` power. For a first guess; a logged run calibrates it better.
/// throws     InputError when the head would condense more than 90 %
[[nodiscard]] units::Share head_reflux(units::HeatLoss head, units::Temperature ambient,
                                       units::Power net, units::MoleFraction rising,
                                       const vapour::BoilingCurve& curve);

}  // namespace lynearm::still
