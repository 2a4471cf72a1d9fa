#include "still/follow.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "base/error.hpp"
#include "still/follow_move.hpp"

namespace lynearm::still {
namespace {

// Below this share of equally weighted members new ones are drawn; once if that brings it to
// the second share, twice if to the third, and so often at most.
constexpr double too_few = 0.2;
constexpr double enough_at_once = 0.25;
constexpr double enough_later = 0.12;
constexpr int most_generations = 3;
// The proposal is fitted to tempered weights worth so many members, or this share of them.
constexpr double fitted_to = 0.15;
constexpr double fitted_to_members = 120.0;
// To the place an instrument's readings point to, and how much wider is drawn about it.
constexpr int instrument_turns = 5;
constexpr double instrument_widen = 1.2;
// A constant of the run takes on a little of the physics left out: so much wider is it told.
// Chosen on invented runs.
constexpr double left_out = 1.15;

// A draw of Student's t with six degrees of freedom, and its density over (2 pi)^(-1/2).
struct Tailed {
  double value = 0.0, log_density = 0.0;
};
Tailed tailed(numeric::Draw& draw) {
  constexpr double freedom = 6.0;
  double chi_squared = 0.0;
  for (int i = 0; i < 3; ++i) chi_squared -= 2.0 * std::log(draw.uniform());
  const double t = draw.normal() * std::sqrt(freedom / chi_squared);
  static const double scale = std::lgamma(0.5 * (freedom + 1.0)) - std::lgamma(0.5 * freedom) -
                              0.5 * std::log(0.5 * freedom);
  return {t, scale - 0.5 * (freedom + 1.0) * std::log1p(t * t / freedom)};
}

}  // namespace

Follower::Follower(StillPrior prior, CutRules rules, const vapour::BoilingCurve& curve,
                   std::uint64_t seed, std::size_t members, const numeric::Executor& executor)
    : prior_(std::move(prior)), rules_(rules), curve_(curve), seed_(seed) {
  if (members < 100 || members > 20000) {
    throw base::InputError("members", fmt::format("{}", members), "100 to 20000");
  }
  // What is wrong with kit or charge is told of the medians.
  boiling_ = distil(prior_.charge, with_fire(prior_.setting, fire_), curve_, stop()).boiling;
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
}

Stop Follower::stop() const {
  // Well past anything that is waited for.
  double least = 8.0;
  const auto look = [&least](const std::optional<Border>& rule) {
    if (!rule) return;
    if (const auto* s = std::get_if<units::VolumeStrength>(&*rule)) {
      least = std::fmin(least, 0.7 * s->percent());
    }
  };
  look(rules_.heads_end);
  look(rules_.hearts_end);
  look(rules_.stop);
  Stop end;
  end.spout_strength = units::VolumeStrength::percent(std::fmax(least, 0.3));
  return end;
}

void Follower::run_members(const numeric::Executor& executor) {
  const Stop end = stop();
  tracks_.assign(standings_.size(), {});
  executor(standings_.size(), [&](std::size_t k) {
    if (beyond_belief(standings_[k])) return;
    const PossibleStill still = possible_still(prior_, standings_[k]);
    try {
      tracks_[k] = Track(distil(still.charge, with_fire(still.setting, fire_), curve_, end));
    } catch (const base::InputError&) {
      // This still would not run with this fire, and the true one does: no weight.
    } catch (const base::NotConverged&) {
      // Without a run it cannot be weighed either.
    }
  });
}

// What each member would show at a figure.
void Follower::look(std::size_t i) {
  const Figure& figure = figures_[i];
  shown_[i].assign(standings_.size(), {});
  for (std::size_t k = 0; k < standings_.size(); ++k) {
    if (tracks_[k].empty()) continue;
    shown_[i][k] = expected(figure.instrument, tracks_[k].at(figure.at_s), prior_.spread);
  }
}

// And how well it fits.
void Follower::weigh(std::size_t i) {
  const Figure& figure = figures_[i];
  const std::size_t constant = constant_of(figure.instrument);
  fit_[i].assign(standings_.size(), {});
  for (std::size_t k = 0; k < standings_.size(); ++k) {
    if (tracks_[k].empty()) continue;
    fit_[i][k] = fitness(figure, shown_[i][k], standings_[k][constant]);
  }
}

void Follower::look_at_all(const numeric::Executor& executor) {
  shown_.resize(figures_.size());
  fit_.resize(figures_.size());
  executor(figures_.size(), [this](std::size_t i) {
    look(i);
    weigh(i);
  });
}

// The instruments of one member from what its own run makes of their readings. A run is not
// computed anew for that.
void Follower::draw_instruments(std::size_t k, const std::vector<double>& count) {
  if (tracks_[k].empty()) return;
  numeric::Draw draw(seed_ + 0x9e3779b9U * drawn_, k + standings_.size());
  double log_start = 0.0;
  for (std::size_t c = run_constants; c < constant_count; ++c) {
    double place = 0.0, precision = 1.0;
    for (int turn = 0; turn < instrument_turns; ++turn) {
      double sum = 0.0;
      precision = 1.0;
      for (std::size_t i = 0; i < figures_.size(); ++i) {
        if (constant_of(figures_[i].instrument) != c) continue;
        const Pull to = pull(figures_[i], shown_[i][k], place);
        precision += count[i] * to.precision;
        sum += count[i] * to.precision * to.towards;
      }
      place = sum / precision;
    }
    const double sd = std::sqrt(instrument_widen / precision);
    const Tailed drawn = tailed(draw);
    const double z = place + sd * drawn.value;
    standings_[k][c] = z;
    log_start += -0.5 * z * z - drawn.log_density + std::log(sd);
  }
  log_instruments_start_[k] = log_start;
}

void Follower::refit_instruments(const numeric::Executor& executor) {
  ++drawn_;
  const std::vector<double> count = counts(figures_);
  executor(standings_.size(), [&](std::size_t k) { draw_instruments(k, count); });
  executor(figures_.size(), [this](std::size_t i) { weigh(i); });
  settle();
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
        "a fire under which some still like this one runs");
  }
  weights_ = weights_of(logs);
}

std::vector<double> Follower::log_likelihoods() const {
  std::vector<double> logs(standings_.size());
  const std::vector<double> count = counts(figures_);
  for (std::size_t k = 0; k < logs.size(); ++k) {
    logs[k] = log_run_start_[k] + log_instruments_start_[k];
    if (tracks_[k].empty()) logs[k] = -std::numeric_limits<double>::infinity();
  }
  for (std::size_t i = 0; i < figures_.size(); ++i) {
    for (std::size_t k = 0; k < logs.size(); ++k) {
      if (tracks_[k].empty()) continue;
      logs[k] += count[i] * std::log(fit_[i][k].believed + fit_[i][k].slip);
    }
  }
  return logs;
}

void Follower::move(const numeric::Executor& executor) {
  const auto n = static_cast<double>(standings_.size());
  for (int generation = 0; generation < most_generations; ++generation) {
    const std::vector<double> logs = log_likelihoods();
    const Proposal proposal(
        standings_,
        weights_of(logs, tempering(logs, std::fmax(fitted_to * n,
                                                   std::fmin(fitted_to_members, 0.5 * n)))));
    ++drawn_;
    for (std::size_t k = 0; k < standings_.size(); ++k) {
      proposal.draw(seed_ + 0x100000001b3U * drawn_, k, standings_[k]);
      log_run_start_[k] = proposal.log_prior_over(standings_[k]);
    }
    run_members(executor);
    look_at_all(executor);
    refit_instruments(executor);
    const double enough = generation == 0 ? enough_at_once : enough_later;
    if (effective_size(weights_) >= enough * n) return;
  }
}

units::Temperature Follower::spirit_at(units::Duration at) const {
  // The spirit is as warm as when it was last said.
  std::optional<units::Duration> said;
  units::Temperature t = units::Temperature::celsius(20.0);
  for (const Reading& r : readings_) {
    if (r.spout_temperature && r.at <= at && (!said || r.at >= *said)) {
      said = r.at;
      t = *r.spout_temperature;
    }
  }
  return t;
}

Update Follower::take(const Reading& reading, const numeric::Executor& executor) {
  require_plausible(reading);
  const bool fire = reading.power || reading.event;
  const bool rests_longer = fire_.stopped_at && reading.at > latest_;
  // What a refusal part way is undone with.
  Follower kept = *this;
  Update update;
  update.reading = readings_.size();
  try {
    readings_.push_back(reading);
    latest_ = std::max(latest_, reading.at);
    if (fire || rests_longer) {
      const Fire before = fire_;
      fire_ = read_fire(readings_, prior_.setting, boiling_, latest_);
      if (!(fire_ == before)) {
        run_members(executor);
        look_at_all(executor);
        settle();
        update.moved = true;
      }
    }
    const std::size_t first = figures_.size();
    for (const Figure& figure : figures_of(reading, update.reading, spirit_at(reading.at))) {
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
      move(executor);
      update.moved = true;
    }
  } catch (...) {
    *this = std::move(kept);
    throw;
  }
  for (std::size_t i = 0; i < figures_.size() && figures_[i].reading != update.reading; ++i) {
    if (const auto doubt = doubt_of(i)) update.earlier.push_back(*doubt);
  }
  update.now = now();
  update.constants = constants();
  update.effective_members = effective_size(weights_);
  return update;
}

std::optional<Doubt> Follower::doubt_of(std::size_t i) const {
  double believed = 0.0, slip = 0.0;
  for (std::size_t k = 0; k < weights_.size(); ++k) {
    believed += weights_[k] * fit_[i][k].believed;
    slip += weights_[k] * fit_[i][k].slip;
  }
  if (slip <= believed) return std::nullopt;
  const Figure& figure = figures_[i];
  Doubt doubt{figure.reading,          figure.instrument, figure.value, 0.0, 0.0,
              slip / (slip + believed)};
  const auto band = shown_at(figure.instrument, units::Duration::seconds(figure.at_s));
  if (band) {
    doubt.low = band->low;
    doubt.high = band->high;
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
    const double widened = c < run_constants ? sd * left_out : sd;
    learnt.sd = std::abs(at(mean + 0.5 * widened) - at(mean - 0.5 * widened));
    learnt.before = at(0.0);
    learnt.before_sd = std::abs(at(0.5) - at(-0.5));
    all.push_back(learnt);
  }
  return all;
}

}  // namespace lynearm::still
