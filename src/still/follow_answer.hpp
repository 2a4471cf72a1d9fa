// What a follower answers: plain values, each figure a median with its 80 % band, and the
// sentences that every surface says of them.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "still/follow_fire.hpp"
#include "still/follow_likelihood.hpp"
#include "still/follow_prior.hpp"
#include "still/follow_rules.hpp"
#include "units/quantity.hpp"

namespace lynearm::still {

/// A median and the 80 % band about it.
template <class Quantity>
struct Likely {
  Quantity low, median, high;
};

/// A figure that was read and is not believed.
struct Doubt {
  std::size_t reading = 0;  ///< in the order of arrival, from 0
  Instrument instrument = Instrument::pot_thermometer;
  double shown = 0.0;            ///< °C, % by volume true, mL at 20 °C
  double low = 0.0, high = 0.0;  ///< 80 % of what was expected there
  double slip = 0.0;             ///< probability that it is one, over ½
  bool nothing_runs = false;     ///< nothing was expected to run that could be read
};
/// "does not fit (expected 72–74 %vol)".
[[nodiscard]] std::string sentence(const Doubt& doubt);
/// The figure with its unit: "37.2 %vol".
[[nodiscard]] std::string shown(const Doubt& doubt);

/// A constant as it is known now, in its own unit (follow_prior.hpp).
struct Learnt {
  Constant constant = Constant::head_loss;
  double value = 0.0, sd = 0.0;          ///< weighted mean and standard deviation
  double before = 0.0, before_sd = 0.0;  ///< the same before any reading
};
/// Value and spread with as many decimals as the spread leaves a meaning: two digits of it.
struct LearntWords {
  std::string now, before;  ///< "-0.95 ± 0.12 K", "0.00 ± 0.50 K"
};
[[nodiscard]] LearntWords words(const Learnt& learnt);

/// The still at the latest time that was read.
struct StillNow {
  units::Duration at;
  Likely<units::Temperature> pot_temperature, head_temperature;  ///< true
  Likely<units::VolumeStrength> pot;
  std::optional<Likely<units::VolumeStrength>> spout;  ///< when something runs
  std::optional<Likely<units::VolumeFlow>> flow;       ///< the same; at 20 °C
  Likely<units::Volume> collected;                     ///< at 20 °C
  Likely<units::Volume> alcohol_left;                  ///< pure, in the pot
  Likely<units::Volume> left_in_pot;                   ///< all of it, as hot as it is
  PotFloor floor;                                      ///< what must stay in the pot
  bool heated = true;                                  ///< false: stopped
  /// Of the possible stills, with their weights: those under which nothing (more) comes over as
  /// the fire burns. None while stopped.
  units::Share nothing_runs;
};
/// "nothing runs at this power (12 % of the possible stills)"; empty below 1 %.
[[nodiscard]] std::string fire_words(const StillNow& now);
/// A pot that is nearly dry, or whose element is or may be bare: where the heat is on it goes
/// off at once.
struct PotDanger {
  std::string stands;  ///< what is left and what must stay, a sentence
  std::string brief;   ///< a few words, to be read with the heat on
};
inline constexpr std::string_view heat_off_first = "Heat off first.";
/// Nothing where as much is left as must stay, even by the least of the 80 % band, or where
/// nothing is known that must.
[[nodiscard]] std::optional<PotDanger> pot_danger(const StillNow& now);
/// The usual caution at an element that is, or may soon be, bare, or at a pot that is nearly
/// dry: heat off, with what is left and what must stay. Empty when there is enough.
[[nodiscard]] std::string pot_caution(const StillNow& now);

/// What a reading did.
struct Update {
  std::size_t reading = 0;
  std::vector<Doubt> doubts;        ///< figures of this reading
  std::vector<Doubt> earlier;       ///< of earlier readings, not believed as things stand
  std::vector<FireRemark> remarks;  ///< of this reading's power or event
  /// Figures of this reading that were not weighed: others of the same minute stand for them.
  std::vector<Instrument> crowded;
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

/// Why a decision has no time.
enum class NoTime {
  heat_off,      ///< the run stands
  fire_too_low,  ///< at this power nothing more comes over before it
  out_of_reach,  ///< this charge does not get there at any power
};

struct NextDecision {
  Decision decision = Decision::hearts_end;
  bool passed = false;                        ///< more likely behind than ahead
  units::Share reached;                       ///< of the possible stills, with their weights
  std::optional<Likely<units::Duration>> in;  ///< from the latest reading; not while stopped
  std::optional<Likely<units::Duration>> at;  ///< since heat on
  std::optional<Likely<units::Volume>> collected;  ///< by then, at 20 °C
  std::optional<NoTime> no_time;                   ///< when `in` is missing, ahead of it
};
/// "no time while the heat is off", "not reached at this power (in 80 % of the possible
/// stills)". Empty when there is a time.
[[nodiscard]] std::string why_no_time(const NextDecision& next);

struct Forecast {
  std::vector<ExpectedAt> by_time;    ///< from the first drop to the end, evenly
  std::vector<ExpectedAt> by_volume;  ///< evenly
  std::vector<NextDecision> decisions;
};

}  // namespace lynearm::still
