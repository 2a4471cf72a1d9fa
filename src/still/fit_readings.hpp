// What a log says, brought to the figures that a computed run has: temperatures, true strength
// at 20 °C, volume at 20 °C, heat taken by the coolant. And what a run says at those moments.
//
// Left out of a fit: the head's temperature before spirit runs (air and metal decide it, not
// the spirit), strengths while nothing runs, and everything once the heat is off for good.
#pragma once

#include <string_view>
#include <vector>

#include "still/reading.hpp"
#include "still/run.hpp"
#include "vapour/boiling_curve.hpp"

namespace lynearm::still {

enum class LogInstrument { pot_thermometer, head_thermometer, hydrometer, receiver, coolant };
inline constexpr std::size_t log_instrument_count = 5;

/// "pot thermometer", "receiver".
[[nodiscard]] std::string_view words(LogInstrument instrument);
/// "°C", "%vol", "L", "W".
[[nodiscard]] std::string_view unit_of(LogInstrument instrument);

/// One figure of a log.
struct Seen {
  LogInstrument instrument = LogInstrument::pot_thermometer;
  double t_s = 0.0;
  double figure = 0.0;    ///< in the instrument's unit
  double spread = 1.0;    ///< of such a reading, before the log has shown better
  double spout_C = 20.0;  ///< of the spirit, for the coolant's heat
  int line = 0;
};

struct SeenRun {
  std::vector<Seen> readings;   ///< in order of time
  std::vector<Reading> unread;  ///< with a figure that no spirit can show
};

/// A thermometer 0.2 K; a hydrometer 0.5 %vol, 1.5 without the spirit's temperature; the
/// receiver 20 mL and 1 %; coolant 6 % of its heat. Our estimates.
///
/// record    in order of time
/// heat_off  when the heat was turned off for good
[[nodiscard]] SeenRun seen(const Record& record, std::optional<units::Duration> heat_off);

/// What a run shows at a moment, each figure going on smoothly past the ends of the run, so
/// that a run that begins a minute late is a little wrong and not wholly.
struct Moment {
  double pot_C = 0.0, head_C = 0.0, spout_percent = 0.0, litres = 0.0;
  double over_L_s = 0.0;
};
[[nodiscard]] Moment moment(const Run& run, double t_s);

/// The figure of `seen` that the moment has.
[[nodiscard]] double expected(const Seen& seen, const Moment& moment,
                              const vapour::BoilingCurve& curve);

}  // namespace lynearm::still
