// Invented runs with hidden constants, to test what learns from a run. Not the model of
// still/run.hpp: short fixed steps, and physics which that leaves out. A little of the pot
// rides over as droplets, draughts stir the room and the head's loss, the mains wander, the
// head's metal takes up heat all along, thermometers lag, the coil pushes its spirit through
// without mixing. Readings have offsets, noise, rounding and mistypings.
#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "still/charge.hpp"
#include "still/reading.hpp"
#include "still/run.hpp"
#include "units/quantity.hpp"

namespace lynearm::still {

/// How far the hidden constants lie from the kit, as standard deviations.
struct HiddenSpread {
  double head_loss_log = 0.30;
  double pot_loss_log = 0.30;
  double efficiency_log = 0.04;
  double charge_strength_log = 0.04;
  double charge_volume_log = 0.03;
  double hold_up_log = 0.30;
  double pot_thermometer_K = 0.5;
  double head_thermometer_K = 0.5;
  double hydrometer_percent = 0.3;
};

/// What one constant of a run really was.
struct HiddenConstants {
  units::HeatLoss head_loss;
  units::HeatLoss pot_loss;
  units::Share efficiency;
  units::VolumeStrength charge_strength;
  units::Volume charge_volume;  ///< at 20 °C
  HoldUp hold_up;
  units::TemperatureChange pot_thermometer;   ///< shown less true
  units::TemperatureChange head_thermometer;  ///< shown less true
  double hydrometer_percent = 0.0;            ///< shown less true, % by volume
};

/// The true still at one moment.
struct TrueMoment {
  units::Duration at;
  units::Temperature pot_temperature;
  units::Temperature head_temperature;
  units::VolumeStrength pot;
  units::VolumeStrength spout;  ///< meaningless before anything ran
  units::Volume collected;      ///< at 20 °C
  units::Volume pure_alcohol;   ///< collected, at 20 °C
  bool runs = false;            ///< something has come from the spout
};

struct SyntheticOptions {
  Charge charge;  ///< what the maker believes; nothing: 20 L of 27 %vol
  std::optional<RunSetting>
      kit;  ///< medians; nothing: a bare 25 L pot of 2.4 kW, run at 1.5 kW
  units::Pressure pressure = units::Pressure::atmospheres(1.0);
  HiddenSpread spread;
  double mistyped = 0.05;         ///< share of the figures read
  double strangeness = 1.0;       ///< of the physics left out; 0: none of it
  bool every_instrument = false;  ///< instead of a random few
  bool changed_power = true;      ///< once or twice in most runs
  double interrupted = 0.05;      ///< share of the runs stopped and taken up again
  /// What the maker does to the fire comes before this much is collected.
  units::Volume fire_kept_after = units::Volume::litres(1e6);
  std::optional<units::Duration> interval;  ///< between readings; nothing: 5 to 12 min
  units::VolumeStrength run_to = units::VolumeStrength::percent(12.0);  ///< at the spout
};

struct SyntheticRun {
  Record record;                            ///< in order of time
  std::vector<std::vector<bool>> mistyped;  ///< of each reading: pot, head, spout, collected
  HiddenConstants truth;
  std::vector<TrueMoment> curve;  ///< every 20 s from heat on
  Charge believed;                ///< as the maker has it
  RunSetting kit;                 ///< as the kit has it, without changes of power
  units::Pressure pressure;

  /// The first moment the spout has fallen to a strength; the head risen to a temperature while
  /// spirit ran; a volume collected.
  [[nodiscard]] std::optional<TrueMoment> when_spout_falls_to(units::VolumeStrength s) const;
  [[nodiscard]] std::optional<TrueMoment> when_head_rises_to(units::Temperature t) const;
  [[nodiscard]] std::optional<TrueMoment> when_collected(units::Volume v) const;
};

/// A run of that number; the same on every machine.
[[nodiscard]] SyntheticRun synthetic_run(std::uint64_t seed,
                                         const SyntheticOptions& options = {});

/// The invented kit of the default options.
[[nodiscard]] RunSetting synthetic_kit();

}  // namespace lynearm::still
