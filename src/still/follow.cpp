#include "still/follow.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/error.hpp"
#include "still/follow_bands.hpp"
#include "still/follow_move.hpp"

namespace lynearm::still {
namespace {

// Below this share of equally weighted members new ones are drawn.
constexpr double too_few = 0.2;
// And so often at most.
constexpr int most_generations = 3;
// Borders that fewer of the possible stills come to in their order contradict each other.
constexpr double in_order_at_least = 0.01;
// A run is computed down to this share of the least strength that is waited for, %vol at the
// least; and where a volume or a temperature may lie beyond, so far down.
constexpr double well_past = 0.7;
constexpr double least_asked = 0.3;

}  // namespace

Follower::Follower(StillPrior prior, CutRules rules, const vapour::BoilingCurve& curve,
                   std::uint64_t seed, std::size_t members, const numeric::Executor& executor)
    : prior_(std::move(prior)),
      rules_(rules),
      curve_(curve),
      seed_(seed),
      before_(prior_.spread) {
  std::vector<base::Fault> faults = faults_of(rules_);
  if (members < 100 || members > 20000) {
    faults.push_back({"members", fmt::format("{}", members), "100 to 20000", "", 0, 0});
  }
  if (!faults.empty()) throw base::InputError(std::move(faults));
  for (const auto& rule : {rules_.heads_end, rules_.hearts_end, rules_.stop}) {
    if (!rule) continue;
    if (const auto* s = std::get_if<units::VolumeStrength>(&*rule)) {
      least_percent_ =
          std::fmax(std::fmin(least_percent_, well_past * s->percent()), least_asked);
    }
  }
  // What is wrong with kit or charge is told of the medians.
  const Run medians = distil(prior_.charge, with_fire(prior_.setting, fire_), curve_, stop());
  boiling_ = medians.boiling;
  const auto may_lie_beyond = [&medians](const Border& rule) {
    if (const auto* v = std::get_if<units::Volume>(&rule)) {
      return *v > medians.last().collected * 0.8;
    }
    const auto* t = std::get_if<units::Temperature>(&rule);
    return t != nullptr &&
           *t > medians.last().head_temperature - units::TemperatureChange::kelvins(0.5);
  };
  for (const auto& rule : {rules_.heads_end, rules_.hearts_end, rules_.stop}) {
    if (rule && may_lie_beyond(*rule)) least_percent_ = least_asked;
  }
  standings_.resize(members);
  for (std::size_t k = 0; k < members; ++k) standings_[k] = draw_prior(seed_, k);
  log_run_start_.assign(members, 0.0);
  log_instruments_start_.assign(members, 0.0);
  wander_.resize(members);
  for (std::size_t k = 0; k < members; ++k) {
    wander_[k] = numeric::Draw(seed_ ^ 0x77616e646572U, k).normal();
  }
  run_members(executor);
  settle();
  require_order();
}

// Borders of different kinds, by the possible stills.
void Follower::require_order() const {
  std::vector<base::Fault> faults;
  for (const BorderPair& pair : border_pairs(rules_)) {
    if (pair.of_one_kind()) continue;
    double reached = 0.0, in_order = 0.0;
    for (std::size_t k = 0; k < weights_.size(); ++k) {
      if (weights_[k] <= 0.0) continue;
      const auto earlier = (*tracks_)[k].when(pair.earlier);
      const auto later = (*tracks_)[k].when(pair.later);
      if (!later) continue;
      reached += weights_[k];
      if (earlier && (pair.may_meet ? earlier->t_s <= later->t_s : earlier->t_s < later->t_s)) {
        in_order += weights_[k];
      }
    }
    if (reached > 0.5 && in_order < in_order_at_least * reached) {
      faults.push_back(fault_of(pair));
    }
  }
  if (!faults.empty()) throw base::InputError(std::move(faults));
}

// Weights from all that was read.
void Follower::settle() {
  std::vector<double> logs = log_likelihoods();
  const bool any =
      std::any_of(logs.begin(), logs.end(), [](double l) { return std::isfinite(l); });
  if (!any) {
    throw base::InputError(
        "power",
        fire_.steps.empty() ? "" : fmt::format("{:.0f} W", fire_.steps.back().power.watts()),
        "a fire under which a still like this one can be computed");
  }
  weights_ = weights_of(logs);
}

std::optional<units::Temperature> Follower::spirit_at(units::Duration at) const {
  // The spirit is as warm as when it was last said.
  std::optional<units::Duration> said;
  std::optional<units::Temperature> t;
  for (const Reading& r : readings_) {
    if (r.spout_temperature && r.at <= at && (!said || r.at >= *said)) {
      said = r.at;
      t = *r.spout_temperature;
    }
  }
  return t;
}

// Enough was read about that minute: by figures that are believed, or by several, which a
// broken instrument would repeat for ever.
bool Follower::is_crowded(const Figure& figure) const {
  constexpr std::size_t several = 3;
  const std::vector<std::size_t> near = neighbours(figures_, figure);
  if (figures_.size() < weighed_as_they_come) return near.size() >= most_by_hand;
  return near.size() >= several ||
         std::any_of(near.begin(), near.end(), [this](std::size_t i) { return !doubt_of(i); });
}

Follower Follower::without_readings() {
  std::vector<Reading> readings;
  readings.swap(readings_);
  try {
    Follower kept = *this;
    readings.swap(readings_);
    return kept;
  } catch (...) {
    readings.swap(readings_);
    throw;
  }
}

void Follower::step_back(Follower&& kept, std::size_t readings) {
  readings_.resize(readings);
  kept.readings_ = std::move(readings_);
  *this = std::move(kept);
}

Update Follower::take(const Reading& reading, const numeric::Executor& executor) {
  Update update = take_quietly(reading, executor);
  for (std::size_t i = 0; i < figures_.size() && figures_[i].reading != update.reading; ++i) {
    if (const auto doubt = doubt_of(i)) update.earlier.push_back(*doubt);
  }
  update.now = now();
  update.constants = constants();
  return update;
}

Update Follower::take_quietly(const Reading& reading, const numeric::Executor& executor) {
  require_plausible(reading);
  const bool fire = reading.power || reading.event;
  const bool rests_longer = fire_.stopped_at && reading.at > latest_;
  const bool outlasted = reading.at > standing_until_ &&
                         std::any_of(tracks_->begin(), tracks_->end(),
                                     [](const Track& track) { return track.stands(); });
  Update update;
  update.reading = readings_.size();
  std::vector<Figure> figures;
  for (const Figure& figure : figures_of(reading, update.reading, spirit_at(reading.at))) {
    if (is_crowded(figure)) {
      update.crowded.push_back(figure.instrument);
    } else {
      figures.push_back(figure);
    }
  }
  if (figures.empty() && !update.crowded.empty() && !fire && !rests_longer && !outlasted) {
    readings_.push_back(reading);
    latest_ = std::max(latest_, reading.at);
    update.effective_members = effective_size(weights_);
    return update;
  }
  Follower kept = without_readings();  // a refusal part way is undone with it
  try {
    readings_.push_back(reading);
    latest_ = std::max(latest_, reading.at);
    if (fire || rests_longer || outlasted) {
      const Fire before = fire_;
      fire_ = read_fire(readings_, prior_.setting, boiling_, latest_);
      for (const FireRemark& remark : fire_.remarks) {
        if (remark.reading == update.reading) update.remarks.push_back(remark);
      }
      if (!(fire_ == before) || outlasted) {
        run_members(executor);
        look_at_all(executor);
        settle();
        update.moved = true;
      }
    }
    const std::size_t first = figures_.size();
    for (const Figure& figure : figures) {
      figures_.push_back(figure);
      shown_.emplace_back();
      fit_.emplace_back();
      look(figures_.size() - 1);
      weigh(figures_.size() - 1);
    }
    // Against what was expected before it was read.
    for (std::size_t i = first; i < figures_.size(); ++i) {
      if (const auto doubt = doubt_of(i)) update.doubts.push_back(*doubt);
    }
    settle();
    const double least = too_few * static_cast<double>(standings_.size());
    if (effective_size(weights_) < least) refit_instruments(executor);
    if (effective_size(weights_) < least) {
      move(executor, most_generations);
      update.moved = true;
    }
    if (!figures.empty() && reconsider(executor)) {
      update.moved = true;
      update.doubts.clear();
      for (std::size_t i = first; i < figures_.size(); ++i) {
        if (const auto doubt = doubt_of(i)) update.doubts.push_back(*doubt);
      }
    }
  } catch (...) {
    step_back(std::move(kept), update.reading);
    throw;
  }
  update.effective_members = effective_size(weights_);
  return update;
}

std::optional<Doubt> Follower::doubt_of(std::size_t i) const {
  const std::vector<Fitness>& fit = *fit_[i];
  double believed = 0.0, slip = 0.0;
  for (std::size_t k = 0; k < weights_.size(); ++k) {
    believed += weights_[k] * fit[k].believed;
    slip += weights_[k] * fit[k].slip;
  }
  if (slip <= believed) return std::nullopt;
  const Figure& figure = figures_[i];
  Doubt doubt{
      figure.reading, figure.instrument, figure.value, 0.0, 0.0, slip / (slip + believed),
      false};
  const auto band = shown_at(figure.instrument, units::Duration::seconds(figure.at_s));
  if (band) {
    doubt.low = band->low;
    doubt.high = band->high;
  } else {
    doubt.nothing_runs = true;
  }
  return doubt;
}

std::vector<Doubt> Follower::doubts() const {
  std::vector<Doubt> all;
  for (std::size_t i = 0; i < figures_.size(); ++i) {
    if (const auto doubt = doubt_of(i)) all.push_back(*doubt);
  }
  return all;
}

std::vector<Learnt> Follower::constants() const {
  std::vector<Learnt> all;
  const std::array<double, constant_count> before = deviations(before_),
                                           now = deviations(prior_.spread);
  for (std::size_t c = 0; c < constant_count; ++c) {
    Learnt learnt;
    learnt.constant = static_cast<Constant>(c);
    // A constant is smooth and monotone in its own standing: mean and spread there, then the
    // slope.
    double mean = 0.0, square = 0.0;
    for (std::size_t k = 0; k < weights_.size(); ++k) {
      mean += weights_[k] * standings_[k][c];
      square += weights_[k] * standings_[k][c] * standings_[k][c];
    }
    const double sd = std::sqrt(std::fmax(square - mean * mean, 0.0));
    const auto at = [&](double z) {
      Standing standing{};
      standing[c] = z;
      return value_of(learnt.constant, prior_, standing);
    };
    learnt.value = at(mean);
    const double widened = c < run_constants ? sd * left_out_of[c] : sd;
    learnt.sd = std::abs(at(mean + 0.5 * widened) - at(mean - 0.5 * widened));
    const double told = now[c] > 0.0 ? before[c] / now[c] : 1.0;
    learnt.before = at(0.0);
    learnt.before_sd = std::abs(at(0.5 * told) - at(-0.5 * told));
    all.push_back(learnt);
  }
  return all;
}

}  // namespace lynearm::still
