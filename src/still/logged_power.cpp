#include "still/logged_power.hpp"

#include <cmath>

namespace lynearm::still {
namespace {

// Twice as much, or half: no knob turned back and forth between two entries does that. At the
// start all the power there is may be drawn, to the boil; there only a digit too many is
// doubted.
constexpr double far_between = 1.7, far_at_first = 6.0;
bool far_apart(double a_W, double b_W, double ratio) {
  return std::fmax(a_W, b_W) > ratio * std::fmin(a_W, b_W) + 1.0;
}
// Read within this it was read at the start.
constexpr double at_the_start_s = 60.0;
bool alike(double a_W, double b_W) { return std::abs(a_W - b_W) <= 0.1 * std::fmax(a_W, b_W); }

struct Drawn {
  double t_s, W;
  const Reading* reading;
};

// Those that stand alone between two that agree; at the ends, against the two next.
std::vector<Drawn> believed(const std::vector<Drawn>& all, std::vector<Reading>& passed_over) {
  if (all.size() < 3) return all;
  std::vector<Drawn> kept;
  const std::size_t last = all.size() - 1;
  for (std::size_t i = 0; i <= last; ++i) {
    const std::size_t a = i == 0 ? 1 : i - 1;
    const std::size_t b = i == 0 ? 2 : i == last ? last - 2 : i + 1;
    // The last entry may be a fire that was just turned down: only more heat is doubted there.
    const bool may_be_turned_down = i == last && all[i].W < all[a].W;
    if (all[i].W > 0.0 && alike(all[a].W, all[b].W) &&
        far_apart(all[i].W, all[a].W, i == 0 ? far_at_first : far_between) &&
        !may_be_turned_down) {
      passed_over.push_back(*all[i].reading);
    } else {
      kept.push_back(all[i]);
    }
  }
  return kept;
}

}  // namespace

LoggedPower logged_power(const Record& record, units::Power stated,
                         std::optional<units::Power> to_the_boil) {
  LoggedPower logged;
  std::vector<Drawn> all;
  for (const Reading& r : record.readings) {
    if (r.power) all.push_back({r.at.seconds(), r.power->watts(), &r});
  }
  const std::vector<Drawn> drawn = believed(all, logged.passed_over);

  const auto put = [&logged](double t_s, double W) {
    const PowerStep step{units::Duration::seconds(t_s), units::Power::watts(W)};
    if (!logged.steps.empty() &&
        std::get<units::Duration>(logged.steps.back().from).seconds() >= t_s) {
      logged.steps.back().power = step.power;
    } else {
      logged.steps.push_back(step);
    }
  };

  double sum_W = 0.0;
  int count = 0;
  bool off = false;
  double before_W = drawn.empty() ? stated.watts() : drawn.front().W;
  std::size_t next = 0;
  const auto take = [&](const Drawn& d) {
    if (off) {
      before_W = d.W;
      return;
    }
    const double mean_W = count > 0 ? sum_W / count : 0.0;
    if (count > 0 && std::abs(d.W - mean_W) <= power_flicker * mean_W) {
      sum_W += d.W;
      ++count;
      logged.steps.back().power = units::Power::watts(sum_W / count);
    } else {
      sum_W = d.W;
      count = 1;
      const bool turned_down =
          logged.steps.empty() && to_the_boil && d.t_s > at_the_start_s && d.W > 0.0 &&
          std::abs(d.W - stated.watts()) < std::abs(d.W - to_the_boil->watts());
      if (turned_down) put(0.0, to_the_boil->watts());
      put(logged.steps.empty() ? 0.0 : d.t_s, d.W);
    }
  };
  for (const Reading& r : record.readings) {
    if (next < drawn.size() && drawn[next].reading == &r) take(drawn[next++]);
    if (r.event == Event::stopped && !off) {
      if (count > 0) before_W = sum_W / count;
      if (logged.steps.empty()) put(0.0, before_W);
      put(r.at.seconds(), 0.0);
      off = true;
      logged.heat_off = r.at;
    } else if (r.event == Event::resumed && off) {
      off = false;
      logged.heat_off.reset();
      if (r.power && r.power->watts() > 0.0) before_W = r.power->watts();
      put(r.at.seconds(), before_W);
      sum_W = before_W;
      count = 1;
    }
  }
  // Nought at the end is heat off as well.
  if (!logged.heat_off && !logged.steps.empty() && logged.steps.back().power.watts() <= 0.0) {
    logged.heat_off = std::get<units::Duration>(logged.steps.back().from);
  }
  return logged;
}

}  // namespace lynearm::still
