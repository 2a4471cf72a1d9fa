// Today's pressure and today's thermometer, from one look into boiling water: "reads 99.2".
//
// Model: what is shown is where water boils at the day's pressure, plus the thermometer's
// offset, plus the scatter of the look. Pressure and offset are Gaussian beforehand (the mean
// of the altitude with the weather's spread, or a barometer's figure; nought with the spread of
// such thermometers) and after one update; the boiling point is taken along its slope, anew at
// the place found. Leaves out an offset that changes along the scale, dissolved matter, and the
// pressure of deep water.
#pragma once

#include <optional>
#include <string>

#include "units/quantity.hpp"

namespace lynearm::still {

/// What is known of the day before or without a look into boiling water.
struct AirBefore {
  units::Pressure pressure;  ///< at the still, not reduced to the sea
  units::Pressure pressure_sd{};
  units::TemperatureChange thermometer_sd{};
};

/// How far weather moves the pressure about its mean: 10 hPa, so that 20 hPa either way cover
/// nineteen days of twenty; our estimate for middle latitudes, less near the equator.
inline constexpr units::Pressure weather_sd = units::Pressure::hectopascals(10.0);
/// Of a barometer that was read at the still; common practice, no source.
inline constexpr units::Pressure barometer_sd = units::Pressure::hectopascals(1.0);
/// Of a kitchen or still-head thermometer, sold as within 1 °C; common practice, no source.
inline constexpr units::TemperatureChange thermometer_sd =
    units::TemperatureChange::kelvins(0.5);
/// Of the look itself: the last digit, bubbles, the tip's place; our estimate.
inline constexpr units::TemperatureChange look_sd = units::TemperatureChange::kelvins(0.1);

/// A day of which only the altitude is known (-400 to 9000 m; InputError "altitude" outside).
[[nodiscard]] AirBefore air_at_altitude(units::Length altitude);
/// A day whose pressure was read at the still.
[[nodiscard]] AirBefore air_at_pressure(units::Pressure pressure);

/// The pressure at an altitude when a report, reduced to the sea, says `at_sea_level`: by the
/// standard atmosphere's ratio.
///
/// throws     InputError "altitude" outside -400 to 9000 m
/// accuracy   exact for reports reduced by that atmosphere (aviation's); for those reduced by
///            the day's own warmth some 0.6 % per 1000 m on a day 15 K off the standard (slope
///            of the barometric formula)
[[nodiscard]] units::Pressure pressure_at_altitude(units::Pressure at_sea_level,
                                                   units::Length altitude);

/// Pressure and thermometer as far as they are known.
struct TodaysAir {
  units::Pressure pressure;
  units::Pressure pressure_sd;
  units::TemperatureChange thermometer_offset;  ///< shown less true
  units::TemperatureChange offset_sd;
  /// Between the errors of the two; near -1: the reading fixes their sum, not the parts.
  double correlation = 0.0;
  /// Shown less expected, in standard deviations of what was expected; 0 without a look.
  /// Beyond 3 the look itself is to be doubted first.
  double surprise = 0.0;

  [[nodiscard]] units::Temperature as_shown(units::Temperature truly) const {
    return truly + thermometer_offset;
  }
  [[nodiscard]] units::Temperature true_of(units::Temperature shown) const {
    return shown - thermometer_offset;
  }
};

/// The day without a look: as before, thermometer taken at its word.
[[nodiscard]] TodaysAir todays_air(const AirBefore& before);

/// The day once the thermometer stood in boiling water.
///
/// before     pressure 20 to 120 kPa, both spreads zero or more
/// shown      within 5 K of where water boils at that pressure
/// look_sd    above zero
/// throws     InputError ("pressure", "boiling_water", "look_sd") otherwise
/// accuracy   a known pressure gives the offset to the look's own spread. The boiling point is
///            the model's (atmosphere.hpp: 0.03 to 0.05 K late); an offset found with it
///            cancels that in cues of the same model. Against sums over a fine grid of both:
///            means within 0.01 of their spreads, spreads within 1 %
///            (tests/still/todays_air_test.cpp)
/// source     one step of an iterated Kalman update (Bayes' rule for Gaussians)
[[nodiscard]] TodaysAir todays_air(const AirBefore& before, units::Temperature shown,
                                   units::TemperatureChange look_sd = still::look_sd);

/// What a thermometer shows at a cue, and how far that may be off for the day's air alone.
struct Cue {
  units::Temperature as_shown;
  units::TemperatureChange sd;
};

/// Where a liquid boils today, as shown. liquid: 0 to 1 (InputError "liquid" outside). Since
/// all these mixtures move with the pressure nearly as water does, the cue is better known than
/// pressure or offset alone.
[[nodiscard]] Cue boiling_cue(const TodaysAir& air, units::MoleFraction liquid);
/// The same for the dew point of a vapour: a thermometer in the head.
[[nodiscard]] Cue dew_cue(const TodaysAir& air, units::MoleFraction vapour);

/// What the day's figures rest on and what the reading cannot tell apart, as sentences.
[[nodiscard]] std::string account(const TodaysAir& air);

}  // namespace lynearm::still
