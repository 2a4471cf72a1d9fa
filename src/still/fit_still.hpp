// The constants of a still from runs that were logged on it.
//
// Model: the constants (fit_constants.hpp) whose computed runs come nearest to all readings at
// once, each weighed by its instrument's scatter and counted less the farther it lies off
// (Student's t with four degrees of freedom, so that a mistyped reading is not followed).
// Scatter is judged from the log itself, beginning from a usual one. Readings of an instrument
// that lean the same way one after the other tell of the model rather than of the still; they
// count as correspondingly fewer. Weak beliefs stand beside the readings; what they decide is
// said to be untold. Leaves out a pressure that changes during a run, and power that was wrong
// all along: it is in the efficiency.
#pragma once

#include <array>
#include <optional>
#include <string>
#include <vector>

#include "still/fit_constants.hpp"
#include "still/fit_readings.hpp"
#include "still/reading.hpp"
#include "still/run.hpp"

namespace lynearm::still {

/// A run as it was logged, and what is known of it.
struct RecordedRun {
  std::string name;
  Record record;
  Charge charge;       ///< as stated
  RunSetting setting;  ///< as the kit states it; what draws power where none was read
  units::Pressure pressure = units::Pressure::atmospheres(1.0);
};

/// One constant, in the unit of its kind (unit_of).
struct FittedConstant {
  StillConstant constant = StillConstant::head_loss;
  int run = -1;  ///< whose; -1: of still and instruments
  double value = 0.0;
  double sd = 0.0;   ///< standard uncertainty
  double low = 0.0;  ///< 80 % band
  double high = 0.0;
  Belief before;
  double left_open = 1.0;  ///< its spread over that of the belief
  bool told = false;       ///< left_open at most 0.8, and readings enough; see fit_still()

  /// How many spreads of the belief it lies off: beyond strange_from it is to be doubted.
  [[nodiscard]] double spreads_off() const;
};

/// Two constants that the runs do not tell apart.
struct Entangled {
  std::size_t first = 0, second = 0;  ///< of StillFit::constants
  double correlation = 0.0;
};

/// A reading beside what the fitted run shows at its time, both as the instrument shows it.
struct FittedReading {
  int run = 0;
  Seen seen;
  double expected = 0.0;
  double spread = 0.0;     ///< of such a reading, as judged
  double deviation = 0.0;  ///< shown less expected, over the spread
  bool outlying = false;   ///< beyond four spreads
};

struct InstrumentFit {
  LogInstrument instrument = LogInstrument::pot_thermometer;
  int readings = 0;
  int outlying = 0;
  double rms = 0.0;       ///< of shown less expected, outlying ones left out
  double noise = 0.0;     ///< the scatter that was judged, in a middling reading
  double count_as = 0.0;  ///< independent readings they are worth
};

/// An entry of the log that was passed over.
struct PassedOver {
  int run = 0;
  int line = 0;
  std::string what;  ///< "power 40000 W, mistyped"
};

struct StillFit {
  std::vector<FittedConstant> constants;  ///< shared ones first
  std::vector<double> correlations;       ///< row by row
  std::vector<Entangled> entangled;       ///< |correlation| above 0.95, worst first
  std::vector<FittedReading> readings;
  std::vector<InstrumentFit> instruments;  ///< those that were read
  std::vector<PassedOver> passed_over;
  std::vector<Run> runs;       ///< as fitted
  std::vector<Run> as_stated;  ///< as the kit had them; see below
  int rounds = 0;

  [[nodiscard]] double correlation(std::size_t i, std::size_t j) const {
    return correlations[i * constants.size() + j];
  }
  /// Told constants strange_from spreads off and more, farthest first: places in `constants`.
  [[nodiscard]] std::vector<std::size_t> strange() const;
  /// The shared constant; or that of a run.
  [[nodiscard]] const FittedConstant& of(StillConstant constant, int run = -1) const;
};

/// Above this two constants are not told apart.
inline constexpr double entangled_from = 0.95;
/// A constant whose belief was narrowed to no less than this share is not told by the runs.
inline constexpr double untold_from = 0.8;
/// A told constant that lies this many spreads from what was stated of it speaks of a slip in
/// what was stated, or of a log that is another run's.
inline constexpr double strange_from = 4.0;
/// A reading farther off than this many spreads is listed.
inline constexpr double outlying_from = 4.0;

struct FitChoices {
  std::vector<Belief> beliefs;  ///< in place of belief()'s
};

/// Fits the constants of a still to runs logged on it.
///
/// runs       at least one, each with a reading that tells something (InputError
///            "runs[i].record"); records in any order of time. The settings agree in what they
///            state of the still: the first one's is believed. `as_stated` leaves out a run
///            that cannot be computed so. A reading that is there twice (time, instrument,
///            figure) counts once; a log that is given twice is refused
/// returns    constants told: never more than independent readings less one, since else no
///            reading would check another; those the readings narrowed most
/// throws     InputError as distil() does where no constants near the beliefs give a run
///            ("runs[i]…"); NotConverged
/// accuracy   exact readings of its own model: the constants to a fraction of their uncertainty
///            (tests/still/fit_still_test.cpp). 500 invented runs with physics that the model
///            lacks and 5 % of figures mistyped: the truth lies in the 80 % bands in 80 % of
///            all cases, 77 to 83 % for single constants (tests/still/fit_statistics_test.cpp)
/// source     least squares by numeric/least_squares.hpp; Student's weights by expectation and
///            maximisation (Lange, Little and Taylor, J. Am. Stat. Assoc. 84 (1989) 881, from
///            memory)
[[nodiscard]] StillFit fit_still(const std::vector<RecordedRun>& runs,
                                 const FitChoices& choices = {});

/// "head loss"; with its run where there are several: "charge strength of run 2".
[[nodiscard]] std::string name_of(const FittedConstant& constant, std::size_t runs);

/// What the fit says and does not say, as sentences.
[[nodiscard]] std::vector<std::string> account(const StillFit& fit);

}  // namespace lynearm::still
