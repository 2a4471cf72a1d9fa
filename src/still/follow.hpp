// A run followed while it happens. Many possible stills, each with its whole run computed once;
// a reading weighs them by how well they fit it, wherever in time it lies, so late and
// out-of-order readings are as good as others. When the weights settle on a few, new ones are
// drawn near those and weighed by all that was read. Readings that agree with each other and
// not with the belief make it wider (follow_reconsider.cpp). Static constants, no state noise:
// how the real still's wandering is admitted stands in follow_likelihood.hpp.
//
// A power read and heat off or on are known inputs: the runs are computed anew with them. A
// still that such a fire no longer drives stands, and stays possible. Of the coolant nothing is
// learnt. Sources: importance sampling with adapted proposals (Cappé et
// al. 2004; Chopin 2002 for the sequence), from memory.
#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <optional>
#include <vector>

#include "numeric/ensemble.hpp"
#include "still/follow_answer.hpp"
#include "still/follow_fire.hpp"
#include "still/follow_likelihood.hpp"
#include "still/follow_prior.hpp"
#include "still/follow_track.hpp"
#include "still/reading.hpp"
#include "vapour/boiling_curve.hpp"

namespace lynearm::still {

/// Follows one run. A value: copying it keeps a past state.
///
/// accuracy   on invented runs whose physics is not the filter's: the rates and errors that
///            tests/still/follow_statistics_test.cpp prints, kept in docs/rooms/still.md. Not
///            compared with a run of a real still
class Follower {
 public:
  /// curve      at today's pressure; kept by copy
  /// members    100 to 20,000
  /// throws     InputError for the members; "rules.…" for borders of which the later comes
  ///            before the earlier in all but one possible still of a hundred, all together;
  ///            and what distil() throws for the medians
  Follower(StillPrior prior, CutRules rules, const vapour::BoilingCurve& curve,
           std::uint64_t seed, std::size_t members, const numeric::Executor& executor);

  /// Takes a reading, of any time. The result is the same for any executor. Where readings are
  /// logged by the second, those of a minute that is well read are kept and not weighed.
  ///
  /// throws     InputError with faults_of(reading), or for a fire ("power") under which no
  ///            possible still can be computed; nothing is then changed
  Update take(const Reading& reading, const numeric::Executor& executor);
  /// The same for who catches up: what stands after it (earlier doubts, now, constants) is left
  /// out of the update.
  Update take_quietly(const Reading& reading, const numeric::Executor& executor);

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
  [[nodiscard]] const Fire& fire() const { return fire_; }  ///< as the readings tell it
  [[nodiscard]] const CutRules& rules() const { return rules_; }
  [[nodiscard]] const StillPrior& prior() const { return prior_; }
  [[nodiscard]] std::size_t members() const { return standings_.size(); }

 private:
  void require_order() const;
  /// What a step back needs: a copy without the readings, which only grow.
  [[nodiscard]] Follower without_readings();
  /// As `kept` was, with the first `readings` of them.
  void step_back(Follower&& kept, std::size_t readings);
  void run_members(const numeric::Executor& executor);
  [[nodiscard]] Track run_of(const PossibleStill& still, const Stop& end) const;
  [[nodiscard]] bool is_crowded(const Figure& figure) const;
  void look(std::size_t figure);
  void look_at_all(const numeric::Executor& executor);
  void weigh(std::size_t figure);
  void refit_instruments(const numeric::Executor& executor);
  void draw_instruments(std::size_t member, const std::vector<double>& count);
  void settle();
  void move(const numeric::Executor& executor, int most_generations);
  [[nodiscard]] bool agree_against_belief(const std::vector<bool>& doubted) const;
  [[nodiscard]] double surprise() const;
  bool reconsider(const numeric::Executor& executor);
  void believe_wider(const numeric::Executor& executor);
  [[nodiscard]] std::vector<double> log_likelihoods() const;
  [[nodiscard]] std::optional<Doubt> doubt_of(std::size_t figure) const;
  using MomentOf = std::function<std::optional<Track::Moment>(const Track&)>;
  [[nodiscard]] NextDecision decide(Decision decision, double wander_mL,
                                    const MomentOf& when) const;
  [[nodiscard]] std::optional<units::Temperature> spirit_at(units::Duration at) const;
  [[nodiscard]] Stop stop() const;

  StillPrior prior_;
  CutRules rules_;
  vapour::BoilingCurve curve_;
  std::uint64_t seed_;
  std::uint64_t drawn_ = 0;  ///< generations so far
  StillSpread before_;       ///< as it was believed before the first reading
  bool wider_ = false;       ///< believed wider since
  /// What a wider belief was last asked about: figures doubted, and all of them.
  std::size_t doubts_then_ = 0, figures_then_ = 0;

  std::vector<Standing> standings_;
  /// Prior over the density it was drawn from: what makes the run, and the instruments.
  std::vector<double> log_run_start_, log_instruments_start_;
  /// One of each member. Never changed once made: copies share them.
  template <class T>
  using OfMembers = std::shared_ptr<const std::vector<T>>;
  OfMembers<Track> tracks_;  ///< an empty one: that still cannot be run
  std::vector<double> weights_;
  /// A standard normal for each, never learnt from: what a member's still will do otherwise
  /// than its constants say.
  std::vector<double> wander_;

  std::vector<Reading> readings_;
  std::vector<Figure> figures_;
  std::vector<OfMembers<Expected>> shown_;  ///< of each figure
  std::vector<OfMembers<Fitness>> fit_;     ///< the same
  Fire fire_;
  units::Duration boiling_;     ///< by the medians
  double least_percent_ = 8.0;  ///< at the spout: runs are computed down to it
  units::Duration latest_;
  units::Duration standing_until_;  ///< so long runs that stand are known
};

}  // namespace lynearm::still
