// One batch run of a pot still, from cold charge to the last drop, in time. Heat warms the pot
// and its metal, then the head; then the pot boils along its boiling line, some of what rises
// runs back (boil.hpp), and what goes over reaches the jar through coil and parrot
// (hold_up.hpp):
//     d(n x) = -y_D D dt,   dn = -D dt,   D from the heat that arrives
// Between changes of the fire this is Lord Rayleigh's differential distillation. Integrated by
// adaptive Dormand-Prince steps; every change and end is located in time. Congeners ride along
// as traces. Leaves out entrained droplets, air at the start, and the heat that the head's
// metal takes up once vapour passes.
#pragma once

#include <optional>
#include <string_view>
#include <variant>
#include <vector>

#include "spirit/lot.hpp"
#include "still/charge.hpp"
#include "still/kit.hpp"
#include "units/quantity.hpp"
#include "vapour/boiling_curve.hpp"
#include "vapour/congener_curve.hpp"

namespace lynearm::still {

/// From this much collected, or this long after the heat was turned on, the boiler draws this;
/// no power at all lets the still cool, and a later step takes the run up again.
struct PowerStep {
  std::variant<units::Volume, units::Duration> from;
  units::Power power;
};

struct RunSetting {
  Head head;
  Heating heating;                          ///< from the boil on
  std::optional<units::Power> to_the_boil;  ///< drawn until then; heating.power if not given
  units::HeatCapacity wall;                 ///< of the boiler, which warms as the pot does
  HoldUp hold_up;
  /// Those by volume in order among themselves, and those by time. One by time also ends
  /// `to_the_boil`.
  std::vector<PowerStep> power_steps;
  double tolerance = 1e-9;  ///< of each integration step, relative; 1e-14 to 1e-3
};

/// When to end a run: whichever is reached first. At least one must be given.
struct Stop {
  std::optional<units::VolumeStrength> spout_strength;  ///< falls to this
  std::optional<units::Temperature> head_temperature;   ///< rises to this
  std::optional<units::Volume> collected;               ///< reaches this, at 20 °C
  std::optional<units::Volume> least_in_pot;            ///< hot volume falls to this
  std::optional<units::Duration> after;                 ///< since the heat was turned on
};

enum class Ending { spout_strength, head_temperature, collected, least_in_pot, time, pot_dry };
[[nodiscard]] std::string_view words(Ending ending);

/// The state of a run at one moment, spirit running.
struct Point {
  spirit::Lot distillate;            ///< all that has come from the spout so far
  units::Volume collected;           ///< its volume at 20 °C
  units::VolumeStrength cumulative;  ///< its strength
  units::Volume pure_alcohol;        ///< its alcohol alone
  units::VolumeStrength spout;       ///< strength of what runs now
  units::VolumeFlow flow;            ///< at 20 °C
  spirit::Lot held;                  ///< in coil and parrot
  units::VolumeStrength pot;         ///< of what is left in the pot
  units::Temperature pot_temperature;
  units::Temperature head_temperature;  ///< dew point of the vapour leaving the head
  units::MoleFraction pot_ethanol;      ///< x
  units::MoleFraction rising_ethanol;   ///< y_V
  units::MoleFraction reflux_ethanol;   ///< x_R
  units::MoleFraction leaving_ethanol;  ///< y_D, of the vapour that leaves the head
  units::MoleFraction spout_ethanol;    ///< of what runs: y_D some time ago
  units::Share back;                    ///< of the rising vapour that runs back, by moles
  double over_mol_per_s = 0.0;          ///< what goes over
  vapour::AmountOfSubstance in_pot;     ///< n
  units::Energy into_pot;               ///< net heat into pot, extract and wall since boiling
  units::Energy head_heat;              ///< given to the head since boiling
  units::Energy carried;                ///< by the vapour that left the head; see enthalpy.hpp
  units::Energy drawn;                  ///< at the meter since boiling
  units::Duration since_start;          ///< since the heat was turned on
  units::Duration since_boiling;
};

/// A moment when nothing runs: warming, filling the parrot, or standing.
struct Quiet {
  units::Duration since_start;
  units::Temperature pot_temperature;
  units::Temperature head_temperature;
  units::Energy drawn;  ///< since the start
};

struct Run {
  Charge charge;
  RunSetting setting;
  std::vector<Point> points;        ///< from the first drop to the end; at least two
  std::vector<std::size_t> smooth;  ///< where stretches of points without a jump begin
  std::vector<Quiet> quiet;         ///< in order; before the first drop and in interruptions
  std::vector<CongenerAmounts> congeners_in_pot;  ///< at each point, when the charge has any
  std::vector<CongenerAmounts> congeners_held;    ///< in coil and parrot
  units::Duration boiling;      ///< when the pot came to the boil, since the start
  units::Energy drawn_to_boil;  ///< at the meter
  Ending ending = Ending::pot_dry;
  int steps = 0;  ///< of the integrator, refused ones left out

  [[nodiscard]] const Point& first() const { return points.front(); }
  [[nodiscard]] const Point& last() const { return points.back(); }
  [[nodiscard]] const spirit::Lot& distillate() const { return last().distillate; }
  /// Charge less distillate: the balance is exact by construction. What coil and parrot hold
  /// at the end is in it.
  [[nodiscard]] spirit::Lot left() const { return charge.spirit - distillate(); }
  /// Alcohol of the distillate over that of the charge.
  [[nodiscard]] units::Share recovered() const {
    return units::Share::fraction(distillate().ethanol / charge.spirit.ethanol);
  }
  /// Congeners in all that came from the spout to the i-th point.
  [[nodiscard]] CongenerAmounts congeners_collected(std::size_t i) const;
};

/// Distils a charge.
///
/// charge      with some ethanol; above the azeotrope the pot grows stronger, not weaker
/// setting     net power above zero throughout, unless a step says otherwise
/// curve       at the pressure of the day
/// stop        first reached ends; a pot of which 0.1 % by moles is left counts as dry
/// volatility  at the same pressure; without it the charge's congeners are not followed
/// throws      InputError: "charge.spirit" water or nothing; "charge.temperature" outside 0 °C
///             to the boil; "run.head_reflux", "head.…", "run.hold_up"; "run.power_steps" out
///             of order; "run.stop" no end given; "run.stop.…" when past it from the first
///             drop; "run.heating.power" when it cannot bring the pot to the boil, keep it
///             there or drive vapour past the head; "run.tolerance". NotConverged when no step
///             is short enough
/// accuracy    the pot's mole fraction at the end within 1e-7 of integration at 1e-11, ln(n0/n)
///             within 1e-8 of Rayleigh's integral by quadrature (run_accuracy_test.cpp); heat
///             closes to 3e-9 over 1,000 random runs (tests/identity/still_balance_test.cpp).
///             The model's own: vapour/equilibrium.hpp
/// source      Lord Rayleigh's differential distillation; heat and head: boil.hpp
[[nodiscard]] Run distil(const Charge& charge, const RunSetting& setting,
                         const vapour::BoilingCurve& curve, const Stop& stop,
                         const vapour::CongenerCurve* volatility = nullptr);

/// State of the run when a volume (at 20 °C) has been collected.
///
/// throws     InputError("collected") below zero or past the end of the run
/// accuracy   between points by a cubic: within 3e-6 %vol and 1e-6 K of a run that ends there
///            (tests/still/run_accuracy_test.cpp)
[[nodiscard]] Point point_at_volume(const Run& run, units::Volume collected);
/// State of the run at a time since the heat was turned on; nothing when no spirit runs then.
[[nodiscard]] std::optional<Point> point_at_time(const Run& run, units::Duration since_start);

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

}  // namespace lynearm::still
