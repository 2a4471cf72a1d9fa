// The members of a follower: their runs, what they would show, and where new ones are drawn.
#include <algorithm>
#include <cmath>
#include <limits>

#include "base/error.hpp"
#include "still/follow.hpp"
#include "still/follow_move.hpp"

namespace lynearm::still {
namespace {

// New members bring the effective share to the first of these at once, or to the second in two
// turns and more.
constexpr double enough_at_once = 0.25;
constexpr double enough_later = 0.12;
// The proposal is fitted to tempered weights worth so many members, or this share of them.
constexpr double fitted_to = 0.15;
constexpr double fitted_to_members = 120.0;
// To the place an instrument's readings point to, and how much wider is drawn about it.
constexpr int instrument_turns = 5;
constexpr double instrument_widen = 1.2;
// So long after all that is known of the fire a still that stands is computed.
constexpr units::Duration stands_for = units::Duration::hours(12.0);
// A fire that drives any still: so many times the greatest planned or read.
constexpr double surely = 10.0;

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

Stop Follower::stop() const {
  Stop end;
  end.spout_strength = units::VolumeStrength::percent(least_percent_);
  return end;
}

void Follower::run_members(const numeric::Executor& executor) {
  const Stop end = stop();
  units::Duration known = latest_;
  if (!fire_.steps.empty()) {
    known = std::max(known, std::get<units::Duration>(fire_.steps.back().from));
  }
  standing_until_ = known + stands_for;
  // Before others are made: a thousand runs are some 17 MB.
  tracks_.reset();
  auto tracks = std::make_shared<std::vector<Track>>(standings_.size());
  executor(standings_.size(), [&](std::size_t k) {
    if (beyond_belief(standings_[k])) return;
    (*tracks)[k] = run_of(possible_still(prior_, standings_[k]), end);
  });
  tracks_ = std::move(tracks);
}

// A run to its end. A fire under which nothing more comes over leaves the still standing, which
// is a state like others: it is then computed for as long as may matter before the fire is
// changed again. A still that cannot be computed has no track.
Track Follower::run_of(const PossibleStill& still, const Stop& end) const {
  RunSetting driven = with_fire(still.setting, fire_);
  try {
    return Track(distil(still.charge, driven, curve_, end));
  } catch (const base::InputError& error) {
    const std::vector<base::Fault>& faults = error.faults();
    if (faults.front().field != "run.heating.power") return {};
  } catch (const base::NotConverged&) {
    // Maybe a flow that dwindles for ever.
  }
  const double until_s = standing_until_.seconds();
  try {
    Stop at_last = end;
    at_last.after = standing_until_;
    return Track(distil(still.charge, driven, curve_, at_last), until_s);
  } catch (const base::InputError&) {
    // Nothing has come over yet.
  } catch (const base::NotConverged&) {
    return {};
  }
  // As if a great fire were lit then; what that does is left out.
  units::Power most =
      std::max(still.setting.heating.power, still.setting.to_the_boil.value_or(units::Power{}));
  for (const PowerStep& step : driven.power_steps) most = std::max(most, step.power);
  driven.power_steps.push_back({standing_until_, most * surely});
  try {
    return Track(distil(still.charge, driven, curve_, end), until_s);
  } catch (const base::InputError&) {
    return {};
  } catch (const base::NotConverged&) {
    return {};
  }
}

// What each member would show at a figure.
void Follower::look(std::size_t i) {
  const Figure& figure = figures_[i];
  std::vector<Expected> all(standings_.size());
  for (std::size_t k = 0; k < all.size(); ++k) {
    if ((*tracks_)[k].empty()) continue;
    Expected& shown = all[k];
    shown = expected(figure.instrument, (*tracks_)[k].at(figure.at_s), prior_.spread);
    shown.width = std::hypot(shown.width, figure.unsure);
  }
  shown_[i] = std::make_shared<const std::vector<Expected>>(std::move(all));
}

// And how well it fits.
void Follower::weigh(std::size_t i) {
  const Figure& figure = figures_[i];
  const std::size_t constant = constant_of(figure.instrument);
  const std::vector<Expected>& shown = *shown_[i];
  std::vector<Fitness> all(standings_.size());
  for (std::size_t k = 0; k < all.size(); ++k) {
    if ((*tracks_)[k].empty()) continue;
    all[k] = fitness(figure, shown[k], standings_[k][constant]);
  }
  fit_[i] = std::make_shared<const std::vector<Fitness>>(std::move(all));
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
  if ((*tracks_)[k].empty()) return;
  numeric::Draw draw(seed_ + 0x9e3779b9U * drawn_, k + standings_.size());
  double log_start = 0.0;
  for (std::size_t c = run_constants; c < constant_count; ++c) {
    double place = 0.0, precision = 1.0;
    for (int turn = 0; turn < instrument_turns; ++turn) {
      double sum = 0.0;
      precision = 1.0;
      for (std::size_t i = 0; i < figures_.size(); ++i) {
        if (constant_of(figures_[i].instrument) != c) continue;
        const Pull to = pull(figures_[i], (*shown_[i])[k], place);
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

std::vector<double> Follower::log_likelihoods() const {
  std::vector<double> logs(standings_.size());
  const std::vector<double> count = counts(figures_);
  for (std::size_t k = 0; k < logs.size(); ++k) {
    logs[k] = log_run_start_[k] + log_instruments_start_[k];
    if ((*tracks_)[k].empty()) logs[k] = -std::numeric_limits<double>::infinity();
  }
  for (std::size_t i = 0; i < figures_.size(); ++i) {
    const std::vector<Fitness>& fit = *fit_[i];
    for (std::size_t k = 0; k < logs.size(); ++k) {
      if ((*tracks_)[k].empty()) continue;
      logs[k] += count[i] * std::log(fit[k].believed + fit[k].slip);
    }
  }
  return logs;
}

void Follower::move(const numeric::Executor& executor, int most_generations) {
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

}  // namespace lynearm::still
