// What is read beside the still during a run: at a time, any of the figures that a maker can
// take there. Nothing is corrected here; a reading says what the instruments showed.
//
// Readings may come late, out of order, or be wrong. The limits below only keep out what no
// instrument beside a still can show; whether a figure fits the run is for those who follow it.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "spirit/reading.hpp"
#include "units/quantity.hpp"

namespace lynearm::still {

/// What happened to the run at a reading.
enum class Event {
  stopped,  ///< heat off; the pot cools
  resumed,  ///< heat on again, the same day or another
};

/// One line of the log: when, and what was read then.
struct Reading {
  units::Duration at;                                   ///< since the heat was turned on
  std::optional<units::Power> power;                    ///< drawn from now on
  std::optional<units::Temperature> pot_temperature;    ///< of the liquid, as shown
  std::optional<units::Temperature> head_temperature;   ///< of the vapour, as shown
  std::optional<spirit::Reading> spout;                 ///< as the instrument shows it,
  std::optional<units::Temperature> spout_temperature;  ///< at this temperature of the spirit
  std::optional<units::Volume> collected;  ///< since the run began, at the temperature it has
  std::optional<units::Temperature> coolant_in;
  std::optional<units::Temperature> coolant_out;
  std::optional<units::VolumeFlow> coolant_flow;
  std::optional<Event> event;
  std::string note;
  int line = 0;  ///< of the text it was read from, 1-based; 0: none

  friend bool operator==(const Reading&, const Reading&) = default;
};

/// A run as it was logged: readings in the order in which they arrived.
struct Record {
  std::vector<Reading> readings;
};

// Wide on purpose; common practice, no source.
inline constexpr units::Duration longest_run = units::Duration::days(60.0);
inline constexpr units::Power most_power = units::Power::kilowatts(100.0);
inline constexpr units::Temperature coldest_reading = units::Temperature::celsius(-20.0);
inline constexpr units::Temperature hottest_reading = units::Temperature::celsius(120.0);
inline constexpr units::Volume most_collected = units::Volume::litres(10000.0);
inline constexpr units::VolumeFlow most_coolant = units::VolumeFlow::litres_per_minute(1000.0);

/// What in a reading no instrument can have shown: one fault a figure, its field the figure's
/// name ("pot_temperature"), its line the reading's. Empty when all is within the limits: time
/// 0 to 60 days, power 0 to 100 kW, temperatures -20 to 120 °C, spout 0 to 100 % (0 to 200
/// proof, 700 to 1100 kg/m³, specific gravity 0.7 to 1.1), collected 0 to 10,000 L, coolant 0
/// to 1000 L/min.
[[nodiscard]] std::vector<base::Fault> faults_of(const Reading& reading);

/// throws     InputError with faults_of(), unless it is empty
void require_plausible(const Reading& reading);

/// The readings in order of their times; those of one time stay as they came.
[[nodiscard]] Record by_time(Record record);

/// What in a record cannot be: the faults of its readings, and events that do not alternate
/// when put in order of time ("event": resumed without having been stopped).
[[nodiscard]] std::vector<base::Fault> faults_of(const Record& record);

/// "stopped", "resumed".
[[nodiscard]] std::string_view word(Event event);
/// The event of that word, or nothing.
[[nodiscard]] std::optional<Event> event_of(std::string_view word);

}  // namespace lynearm::still
