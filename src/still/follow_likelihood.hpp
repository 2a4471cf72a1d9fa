// How well a figure that was read fits a possible still: robustly, and with the model's own
// errors admitted.
//
// Density of a figure: a Student-t about what the possible still would show, mixed with a wide
// normal for slips of pen and eye, so that no single figure can carry the filter off. A real
// still also wanders: mains, draughts, droplets. That is admitted twice. The widths below hold
// more than an instrument's noise; and figures of one instrument that follow close on each
// other repeat the same error, so each counts by 1 - exp(-gap / 15 min). Widths and time were
// chosen by what calibrates on invented runs (tests/still/follow_statistics_test.cpp).
// Thermometers show what was 40 s ago, our estimate for one in a pocket: left out, the lag
// reads as a still that warms more slowly, and is put down to the pot's loss.
#pragma once

#include <optional>
#include <string_view>
#include <vector>

#include "still/follow_prior.hpp"
#include "still/follow_track.hpp"
#include "still/reading.hpp"

namespace lynearm::still {

/// Where a figure was read.
enum class Instrument { pot_thermometer, head_thermometer, hydrometer, jar };
inline constexpr std::size_t instrument_count = 4;
/// As in the log: "pot_temperature", "head_temperature", "spout", "collected".
[[nodiscard]] std::string_view name(Instrument instrument);
/// For people: "pot thermometer", "head thermometer", "hydrometer", "jar".
[[nodiscard]] std::string_view words(Instrument instrument);

/// One figure of a reading: °C, % by volume at 20 °C, or mL at 20 °C.
struct Figure {
  std::size_t reading = 0;  ///< in the order of arrival
  Instrument instrument = Instrument::pot_thermometer;
  double at_s = 0.0;
  double value = 0.0;
  bool impossible = false;  ///< no spirit makes the glass show that at this temperature
  double unsure = 0.0;      ///< of the value itself, one sd, besides the instrument's own
};

/// The figures of a reading that say something about the still.
///
/// spirit     of the running spirit, when the reading does not say it; where nothing does, its
///            strength is taken as read at 20 °C, and believed less
/// returns    of a reading that also changes the fire: as a second before, since instruments
///            are read before a hand goes to the fire
[[nodiscard]] std::vector<Figure> figures_of(const Reading& reading, std::size_t index,
                                             const std::optional<units::Temperature>& spirit);

/// The constant that an instrument adds.
[[nodiscard]] inline std::size_t constant_of(Instrument instrument) {
  return run_constants + static_cast<std::size_t>(instrument);
}

/// What a possible still would show: a straight line in the standing of the instrument's own
/// constant. And the width that goes with it.
struct Expected {
  double base = 0.0, slope = 0.0;
  double width = 1.0;
  bool shows = true;  ///< false: nothing runs that could be read
  [[nodiscard]] double value(double standing) const { return base + slope * standing; }
};
[[nodiscard]] Expected expected(Instrument instrument, const Instant& instant,
                                const StillSpread& spread);

/// The two parts of a figure's density.
struct Fitness {
  double believed = 0.0;  ///< with its share, 0.95
  double slip = 0.0;      ///< with its share
};
/// standing   of the instrument's constant
[[nodiscard]] Fitness fitness(const Figure& figure, const Expected& shown, double standing);

/// How much a figure says of where its instrument's constant stands: a place and a precision
/// (for a normal in its stead), given where it was thought to stand.
struct Pull {
  double towards = 0.0, precision = 0.0;
};
[[nodiscard]] Pull pull(const Figure& figure, const Expected& shown, double standing);

/// So many figures are weighed as they come: more than a person reads in a night. But of one
/// instrument no more about a minute than a hand writes down, or a logger that contradicts the
/// still has it drawn anew every second.
inline constexpr std::size_t weighed_as_they_come = 240;
inline constexpr std::size_t most_by_hand = 6;
/// Beyond that a figure waits for its instrument to have been silent so long. A thermometer
/// that is logged every second would say no more at a thousand times the work: of what counts()
/// grants figures without a gap, those a minute apart keep 97 %.
inline constexpr units::Duration silent_for = units::Duration::minutes(1.0);
/// The places of those of one instrument that lie nearer than that to a time, before or after.
[[nodiscard]] std::vector<std::size_t> neighbours(const std::vector<Figure>& figures,
                                                  const Figure& figure);

/// How much each figure counts, 0 to 1, by the gap to the one before it on that instrument.
[[nodiscard]] std::vector<double> counts(const std::vector<Figure>& figures);

}  // namespace lynearm::still
