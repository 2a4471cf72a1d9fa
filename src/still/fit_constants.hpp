// The constants that a fit of the still looks for: what each is, what is believed of it before
// the runs are looked at, and a charge and setting that have it.
//
// What must be positive is believed in as a factor (its logarithm is Gaussian), offsets and
// corrections as differences. The beliefs are weak and only keep a constant that the runs do
// not tell from running away; their spreads are our estimates.
#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "still/run.hpp"

namespace lynearm::still {

enum class StillConstant {
  head_loss,           ///< W/K, head and lyne arm
  pot_loss,            ///< W/K
  heating_efficiency,  ///< of the power drawn, 0 to 1 and above: a meter may read low
  hold_up,             ///< L in coil and parrot together, by which the hydrometer is late
  pot_thermometer,     ///< K, shown less true
  head_thermometer,    ///< K, shown less true
  hydrometer,          ///< %vol, shown less true
  charge_strength,     ///< %vol, true less stated; of one run
  charge_volume,       ///< a factor, true over stated; of one run
  charge_temperature,  ///< K, true less stated; of one run
  first_power,         ///< a factor, true over read, until the power is changed; of one run
};

/// "head loss", "pot thermometer".
[[nodiscard]] std::string_view words(StillConstant constant);
/// "W/K", "L", "K", "%vol"; empty for a bare ratio.
[[nodiscard]] std::string_view unit_of(StillConstant constant);
/// Whether each run has its own.
[[nodiscard]] bool is_of_a_run(StillConstant constant);
/// Whether it is believed in, and moved, as a factor.
[[nodiscard]] bool is_a_factor(StillConstant constant);

/// What is believed of a constant before the runs: a middle, and a standard deviation in the
/// constant's unit, or relative (of the logarithm) when it is a factor.
struct Belief {
  StillConstant constant = StillConstant::head_loss;
  double value = 0.0;
  double spread = 1.0;
  int run = -1;  ///< whose; -1 for those of the still
};

/// What a charge and a setting state, with our spreads: factors of e^0.7 for the head's loss
/// (e^1 about 3 W/K when none is stated), e^0.5 for the pot's (about 6 W/K), 10 % for the
/// efficiency, e^0.7 for the hold-up (e^1 about 0.15 L); 0.5 K for thermometers, 0.5 %vol for
/// the hydrometer; 4 % of the charge's strength, 3 % of its volume, 1.5 K of its temperature; 1
/// % of the power before its first change, by which the mains wander.
[[nodiscard]] Belief belief(StillConstant constant, const Charge& charge,
                            const RunSetting& setting, int run);

/// A figure of a constant that lies `steps` spreads from the belief's middle.
[[nodiscard]] double figure_at(const Belief& belief, double steps);

/// The constants of one run as figures; what a run is computed from.
struct Figures {
  double head_loss_W_per_K = 0.0;
  double pot_loss_W_per_K = 0.0;
  double efficiency = 1.0;
  double hold_up_L = 0.0;
  double pot_offset_K = 0.0;
  double head_offset_K = 0.0;
  double hydrometer_percent = 0.0;
  double strength_percent = 0.0;
  double volume_factor = 1.0;
  double charge_K = 0.0;
  double first_power = 1.0;

  [[nodiscard]] double& of(StillConstant constant);
  /// Whether the run itself, offsets of instruments aside, is the same.
  [[nodiscard]] bool same_run(const Figures& other) const;
};

/// The charge as it really was, and the setting with the still's constants. The head goes by
/// its loss of heat; coil and parrot share the hold-up as they were stated to, the parrot has
/// it all when nothing was.
[[nodiscard]] Charge with(Charge charge, const Figures& figures);
[[nodiscard]] RunSetting with(RunSetting setting, const Figures& figures);

}  // namespace lynearm::still
