// When readings and belief do not agree: one that strays is a slip, but where three of a kind
// on end do, or only stills fit that were hardly believed possible, it is the belief that is in
// doubt. It is then made wider, possible stills are drawn
// anew from it and weighed by all that was read; what was doubted and fits one of them is
// believed again. A wider belief that takes in no more of the readings is given up, and asked
// for again once more of them speak for it. Leaves out a still that changed on its way.
#include <algorithm>
#include <array>

#include "still/follow.hpp"
#include "still/follow_move.hpp"

namespace lynearm::still {
namespace {

// So many of one instrument on end, or more than half of the figures of the latest readings.
constexpr std::size_t agree = 3;
// Of what was doubted so many figures must be believed, and so many more be doubted before it
// is looked at again.
constexpr std::size_t worth_it = 2;
// Of many that were doubted and stayed so, a quarter more: a belief that no still satisfies is
// not looked into at every reading.
constexpr std::size_t of_many = 4;
// Or stills fit that were given hardly a chance in a hundred: chi-squared of the seven
// constants of a run. Asked again after so many figures.
constexpr double too_far_out = 16.0;
constexpr std::size_t again_after = 8;
// A wide belief is narrowed step by step.
constexpr int most_generations = 3;

}  // namespace

// By time of reading, not of arrival.
bool Follower::agree_against_belief(const std::vector<bool>& doubted) const {
  std::vector<std::size_t> order(figures_.size());
  for (std::size_t i = 0; i < order.size(); ++i) order[i] = i;
  std::stable_sort(order.begin(), order.end(), [this](std::size_t a, std::size_t b) {
    return figures_[a].at_s < figures_[b].at_s;
  });
  std::array<std::size_t, instrument_count> on_end{};
  for (const std::size_t i : order) {
    std::size_t& run = on_end[static_cast<std::size_t>(figures_[i].instrument)];
    run = doubted[i] ? run + 1 : 0;
    if (run >= agree) return true;
  }
  // The latest readings that hold a figure.
  std::size_t readings = 0, all = 0, off = 0;
  double at_s = -1.0;
  for (auto i = order.rbegin(); i != order.rend(); ++i) {
    if (figures_[*i].at_s != at_s && ++readings > agree) break;
    at_s = figures_[*i].at_s;
    ++all;
    if (doubted[*i]) ++off;
  }
  return off >= agree && 2 * off > all;
}

void Follower::believe_wider(const numeric::Executor& executor) {
  if (!wider_) prior_.spread = widened(before_);
  wider_ = true;
  ++drawn_;
  for (std::size_t k = 0; k < standings_.size(); ++k) {
    standings_[k] = draw_prior(seed_ + 0x100000001b3U * drawn_, k);
  }
  log_run_start_.assign(standings_.size(), 0.0);
  log_instruments_start_.assign(standings_.size(), 0.0);
  run_members(executor);
  look_at_all(executor);
  refit_instruments(executor);
  move(executor, most_generations);
}

// Squares of where the run's constants lie: of a belief that is right, some seven.
double Follower::surprise() const {
  double sum = 0.0;
  for (std::size_t c = 0; c < run_constants; ++c) {
    double mean = 0.0;
    for (std::size_t k = 0; k < weights_.size(); ++k) mean += weights_[k] * standings_[k][c];
    sum += mean * mean;
  }
  return sum;
}

bool Follower::reconsider(const numeric::Executor& executor) {
  std::vector<bool> doubted(figures_.size());
  for (std::size_t i = 0; i < doubted.size(); ++i) doubted[i] = doubt_of(i).has_value();
  const auto before =
      static_cast<std::size_t>(std::count(doubted.begin(), doubted.end(), true));
  const std::size_t more = std::max(worth_it, doubts_then_ / of_many);
  const bool against = before >= doubts_then_ + more && agree_against_belief(doubted);
  const bool far_out = !wider_ && surprise() > too_far_out &&
                       (figures_then_ == 0 || figures_.size() >= figures_then_ + again_after);
  if (!against && !far_out) return false;
  Follower kept = without_readings();
  believe_wider(executor);
  const std::size_t after = doubts().size();
  const bool taken = far_out ? after <= before : after + worth_it <= before;
  if (!taken) step_back(std::move(kept), readings_.size());
  doubts_then_ = taken ? after : before;
  figures_then_ = figures_.size();
  return taken;
}

}  // namespace lynearm::still
