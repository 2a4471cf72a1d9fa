// What is believed of a still before a run: the kit's constants and the charge as the maker has
// it, and how far each may be off. The constants of one possible still are eleven standard
// normal numbers; here they become settings.
//
// Losses, efficiency, charge and hold-up are off by a factor (lognormal), instruments by a
// difference (normal), all independent of each other. Leaves out constants that change during a
// run: see follow_likelihood.hpp for how that is admitted.
#pragma once

#include <array>
#include <string_view>

#include "still/charge.hpp"
#include "still/run.hpp"
#include "units/quantity.hpp"

namespace lynearm::still {

/// What a run can teach: first what makes the run, then what the instruments add to it.
enum class Constant {
  head_loss,         ///< W/K; of a head by fixed share: that share, in percent
  pot_loss,          ///< W/K
  efficiency,        ///< percent of the power drawn
  charge_strength,   ///< percent by volume
  charge_volume,     ///< litres at 20 °C
  hold_up,           ///< millilitres in coil and parrot together
  charge_start,      ///< °C of the charge when the heat was lit
  pot_thermometer,   ///< K, shown less true
  head_thermometer,  ///< K, shown less true
  hydrometer,        ///< percent by volume, shown less true
  jar,               ///< percent, volume shown over true less one
};
inline constexpr std::size_t constant_count = 11;
inline constexpr std::size_t run_constants = 7;  ///< of them, the first

/// "head loss", and its unit: "W/K".
[[nodiscard]] std::string_view words(Constant constant);
[[nodiscard]] std::string_view unit(Constant constant);
/// For JSON: "head_loss_W_per_K".
[[nodiscard]] std::string_view key(Constant constant);

/// Standard deviations: of a logarithm where the name says so. The defaults are our estimates
/// of a still that was measured, of a charge gauged and its warmth read, and of instruments as
/// they are sold. What a kit leaves open is for plan/still_prior.hpp.
struct StillSpread {
  double head_loss_log = 0.30;
  double pot_loss_log = 0.30;
  double efficiency_log = 0.04;
  double charge_strength_log = 0.04;
  double charge_volume_log = 0.03;
  double hold_up_log = 0.30;
  double charge_start_K = 1.5;
  double pot_thermometer_K = 0.5;
  double head_thermometer_K = 0.5;
  double hydrometer_percent = 0.3;
  double jar_percent = 0.5;
};

/// What is believed once readings that agree with each other do not agree with the kit: two to
/// three times as wide (our estimate), the efficiency 0.25 at least and the charge's warmth at
/// heat on 12 K, which sets the first drop of 20 L a quarter sooner or later.
[[nodiscard]] StillSpread widened(const StillSpread& spread);

/// The standard deviation of each constant, in the order of the constants.
[[nodiscard]] std::array<double, constant_count> deviations(const StillSpread& spread);

/// The kit and the charge at their medians.
struct StillPrior {
  Charge charge;
  /// Power as planned; what is read of the power during the run takes its place from then on.
  RunSetting setting;
  StillSpread spread;
  units::Volume element_covered_above =
      {};  ///< least hot volume; zero when heated from outside
};

/// Liquid that must stay in the pot while it is heated.
struct PotFloor {
  units::Volume least;   ///< hot
  bool element = false;  ///< to cover it; else a twentieth of the charge, before a pot is dry
                         ///< (our estimate)
};
[[nodiscard]] PotFloor pot_floor(const StillPrior& prior);

/// A possible still: how many standard deviations each constant lies from its median.
using Standing = std::array<double, constant_count>;

/// The prior ends at six standard deviations of any constant that makes a run: beyond lie
/// stills that hold more in the parrot than in the pot.
[[nodiscard]] bool beyond_belief(const Standing& standing);

/// The settings and the charge of a possible still.
struct PossibleStill {
  Charge charge;
  RunSetting setting;
};
[[nodiscard]] PossibleStill possible_still(const StillPrior& prior, const Standing& standing);

/// A constant of a possible still in its own unit.
[[nodiscard]] double value_of(Constant constant, const StillPrior& prior,
                              const Standing& standing);

}  // namespace lynearm::still
