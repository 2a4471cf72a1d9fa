// A run followed while it happens. Many possible stills, each with its whole run computed once;
// a reading weighs them by how well they fit it, wherever in time it lies, so late and
// out-of-order readings are as good as others. When the weights settle on a few, new ones are
// drawn near those and weighed by all that was read. Static constants, no state noise: how the
// real still's wandering is admitted stands in follow_likelihood.hpp.
//
// A power read and heat off or on are known inputs: the runs are computed anew with them. Of
// the coolant nothing is learnt. Sources: importance sampling with adapted proposals (Cappé et
// al. 2004; Chopin 2002 for the sequence), from memory.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "numeric/ensemble.hpp"
#include "still/cuts.hpp"
#include "still/follow_fire.hpp"
#include "still/follow_likelihood.hpp"
#include "still/follow_prior.hpp"
#include "still/follow_track.hpp"
#include "still/reading.hpp"
#include "vapour/boiling_curve.hpp"

namespace lynearm::still {

/// A median and the 80 % band about it.
template <class Quantity>
struct Likely {
  Quantity low, median, high;
};

/// What a maker waits for. Strengths and temperatures are true ones, of what runs then.
struct CutRules {
  std::optional<Border> heads_end;  ///< hearts begin
  std::optional<units::Temperature> tails_near =
      units::Temperature::celsius(90.0);  ///< of the head: time to smell each jar
  std::optional<Border> hearts_end;
  std::optional<Border> stop;
};

enum class Decision { heads_end, tails_near, hearts_end, stop };
[[nodiscard]] std::string_view words(Decision decision);
[[nodiscard]] std::string_view key(Decision decision);

/// A figure that was read and is not believed.
struct Doubt {
  std::size_t reading = 0;  ///< in the order of arrival, from 0
  Instrument instrument = Instrument::pot_thermometer;
  double shown = 0.0;            ///< °C, % by volume true, mL at 20 °C
  double low = 0.0, high = 0.0;  ///< 80 % of what was expected there
  double slip = 0.0;             ///< probability that it is one, over ½
};
/// "does not fit (expected 72–74 %vol)".
[[nodiscard]] std::string sentence(const Doubt& doubt);

/// A constant as it is known now, in its own unit (follow_prior.hpp).
struct Learnt {
  Constant constant = Constant::head_loss;
  double value = 0.0, sd = 0.0;          ///< weighted mean and standard deviation
  double before = 0.0, before_sd = 0.0;  ///< the same before any reading
};

/// The still at the latest time that was read.
struct StillNow {
  units::Duration at;
  Likely<units::Temperature> pot_temperature, head_temperature;  ///< true
  Likely<units::VolumeStrength> pot;
  std::optional<Likely<units::VolumeStrength>> spout;  ///< when something runs
  std::optional<Likely<units::VolumeFlow>> flow;       ///< the same; at 20 °C
  Likely<units::Volume> collected;                     ///< at 20 °C
  Likely<units::Volume> alcohol_left;                  ///< pure, in the pot
  bool heated = true;                                  ///< false: stopped
};

/// What a reading did.
struct Update {
  std::size_t reading = 0;
  std::vector<Doubt> doubts;   ///< figures of this reading
  std::vector<Doubt> earlier;  ///< of earlier readings, not believed as things stand
  StillNow now;
  std::vector<Learnt> constants;
  double effective_members = 0.0;
  bool moved = false;  ///< possible stills were drawn anew, or run anew with another fire
};

/// What is expected at one time, or at one volume.
struct ExpectedAt {
  units::Duration at;                   ///< since heat on; along volume: the median time
  units::Volume collected;              ///< along time: the median volume
  Likely<units::VolumeStrength> spout;  ///< of the stills that run then, as the next
  Likely<units::Temperature> head;
  Likely<units::Temperature> pot;
  bool running = true;  ///< some run then; else the two above say nothing
};

struct NextDecision {
  Decision decision = Decision::hearts_end;
  bool passed = false;                        ///< more likely behind than ahead
  units::Share reached;                       ///< of the possible stills, with their weights
  std::optional<Likely<units::Duration>> in;  ///< from the latest reading; not while stopped
  std::optional<Likely<units::Duration>> at;  ///< since heat on
  std::optional<Likely<units::Volume>> collected;  ///< by then, at 20 °C
};

struct Forecast {
  std::vector<ExpectedAt> by_time;    ///< from the first drop to the end, evenly
  std::vector<ExpectedAt> by_volume;  ///< evenly
  std::vector<NextDecision> decisions;
};

/// Follows one run. A value: copying it keeps a past state.
///
/// accuracy   on invented runs whose physics is not the filter's: the rates and errors that
///            tests/still/follow_statistics_test.cpp prints, kept in docs/rooms/still.md. Not
///            compared with a run of a real still
class Follower {
 public:
  /// curve      at today's pressure; kept by copy
  /// members    100 to 20,000
  /// throws     InputError for the members, and what distil() throws for the medians
  Follower(StillPrior prior, CutRules rules, const vapour::BoilingCurve& curve,
           std::uint64_t seed, std::size_t members, const numeric::Executor& executor);

  /// Takes a reading, of any time. The result is the same for any executor.
  ///
  /// throws     InputError with faults_of(reading), or for a fire ("power") under which no
  ///            possible still would run on; nothing is then changed
  Update take(const Reading& reading, const numeric::Executor& executor);

  /// Curves and decisions as things stand.
  [[nodiscard]] Forecast forecast(const numeric::Executor& executor,
                                  std::size_t steps = 60) const;

  /// What was expected of an instrument at a time, as it would show it, before or after it was
  /// read: an 80 % band with the instrument's own scatter. Nothing when nothing would show.
  [[nodiscard]] std::optional<numeric::Band> shown_at(Instrument instrument,
                                                      units::Duration at) const;

  [[nodiscard]] StillNow now() const;
  [[nodiscard]] std::vector<Learnt> constants() const;
  [[nodiscard]] std::vector<Doubt> doubts() const;
  [[nodiscard]] const std::vector<Reading>& readings() const { return readings_; }
  [[nodiscard]] const std::vector<Figure>& figures() const { return figures_; }
  [[nodiscard]] const CutRules& rules() const { return rules_; }
  [[nodiscard]] const StillPrior& prior() const { return prior_; }
  [[nodiscard]] std::size_t members() const { return standings_.size(); }

 private:
  void run_members(const numeric::Executor& executor);
  void look(std::size_t figure);
  void look_at_all(const numeric::Executor& executor);
  void weigh(std::size_t figure);
  void refit_instruments(const numeric::Executor& executor);
  void draw_instruments(std::size_t member, const std::vector<double>& count);
  void settle();
  void move(const numeric::Executor& executor);
  [[nodiscard]] std::vector<double> log_likelihoods() const;
  [[nodiscard]] std::optional<Doubt> doubt_of(std::size_t figure) const;
  [[nodiscard]] units::Temperature spirit_at(units::Duration at) const;
  [[nodiscard]] Stop stop() const;

  StillPrior prior_;
  CutRules rules_;
  vapour::BoilingCurve curve_;
  std::uint64_t seed_;
  std::uint64_t drawn_ = 0;  ///< generations so far

  std::vector<Standing> standings_;
  /// Prior over the density it was drawn from: what makes the run, and the instruments.
  std::vector<double> log_run_start_, log_instruments_start_;
  std::vector<Track> tracks_;  ///< empty: that still cannot be run
  std::vector<double> weights_;
  /// A standard normal for each, never learnt from: what a member's still will do otherwise
  /// than its constants say.
  std::vector<double> wander_;

  std::vector<Reading> readings_;
  std::vector<Figure> figures_;
  std::vector<std::vector<Expected>> shown_;  ///< of each figure, by member
  std::vector<std::vector<Fitness>> fit_;     ///< the same
  Fire fire_;
  units::Duration boiling_;  ///< by the medians
  units::Duration latest_;
};

}  // namespace lynearm::still
