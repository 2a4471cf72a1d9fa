// Moments between the points of a run: the bare state by a cubic through four neighbouring
// points, and everything shown recomputed from it, so that the mass balance stays exact.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/error.hpp"
#include "numeric/root.hpp"
#include "still/run.hpp"
#include "still/run_state.hpp"

namespace lynearm::still {
namespace {

double n0_mol(const Run& run) { return run.first().in_pot.moles(); }

double u_of(const Run& run, std::size_t i) {
  return std::log(n0_mol(run) / run.points[i].in_pot.moles());
}

// Weights of the neighbours of interval i (between points i and i+1) at u.
class Neighbours {
 public:
  Neighbours(const Run& run, std::size_t i) : run_(run), i_(i) {
    const std::size_t count = std::min<std::size_t>(4, run.points.size());
    const std::size_t last_start = run.points.size() - count;
    start_ = std::min(i == 0 ? 0 : i - 1, last_start);
    for (std::size_t k = 0; k < count; ++k) node_[k] = u_of(run, start_ + k);
    count_ = count;
  }

  [[nodiscard]] double first_u() const { return node_[i_ - start_]; }
  [[nodiscard]] double last_u() const { return node_[i_ - start_ + 1]; }

  [[nodiscard]] RunState state(double u) const {
    std::array<double, 4> weight{};
    for (std::size_t k = 0; k < count_; ++k) {
      weight[k] = 1.0;
      for (std::size_t j = 0; j < count_; ++j) {
        if (j != k) weight[k] *= (u - node_[j]) / (node_[k] - node_[j]);
      }
    }
    const auto blend = [&](auto of) {
      double sum = 0.0;
      for (std::size_t k = 0; k < count_; ++k) sum += weight[k] * of(run_.points[start_ + k]);
      return sum;
    };
    RunState s;
    s.u = u;
    s.pot_x = blend([](const Point& p) { return p.pot_ethanol.fraction(); });
    s.rising_y = blend([](const Point& p) { return p.rising_ethanol.fraction(); });
    s.reflux_x = blend([](const Point& p) { return p.reflux_ethanol.fraction(); });
    s.spout_y = blend([](const Point& p) { return p.spout_ethanol.fraction(); });
    s.pot_K = blend([](const Point& p) { return p.pot_temperature.kelvins(); });
    s.head_K = blend([](const Point& p) { return p.head_temperature.kelvins(); });
    s.into_pot_J = blend([](const Point& p) { return p.into_pot.joules(); });
    s.head_heat_J = blend([](const Point& p) { return p.head_heat.joules(); });
    return s;
  }

  // Time has a corner where the power changes, so it runs straight with the heat.
  [[nodiscard]] Point point(double u) const {
    const RunState s = state(u);
    Point p = shown(run_.charge, n0_mol(run_), s);
    const Point& a = run_.points[i_];
    const Point& b = run_.points[i_ + 1];
    const double heat_J = (b.into_pot - a.into_pot).joules();
    const double part =
        heat_J > 0.0 ? std::clamp((s.into_pot_J - a.into_pot.joules()) / heat_J, 0.0, 1.0)
                     : 0.0;
    p.since_boiling = a.since_boiling + (b.since_boiling - a.since_boiling) * part;
    p.drawn = a.drawn + (b.drawn - a.drawn) * part;
    return p;
  }

 private:
  const Run& run_;
  std::size_t i_;
  std::size_t start_ = 0;
  std::size_t count_ = 0;
  std::array<double, 4> node_{};
};

// The first moment at which `room`, positive before, is used up.
template <class OfPoint, class OfState>
std::optional<Point> first_crossing(const Run& run, OfPoint room_of_point,
                                    OfState room_of_state) {
  if (room_of_point(run.first()) < 0.0) return std::nullopt;
  if (room_of_point(run.first()) == 0.0) return run.first();
  for (std::size_t i = 0; i + 1 < run.points.size(); ++i) {
    const double at_end = room_of_point(run.points[i + 1]);
    if (at_end > 0.0) continue;
    if (at_end == 0.0) return run.points[i + 1];
    const Neighbours near(run, i);
    const auto room = [&](double u) { return room_of_state(near.state(u)); };
    // The ends of the interval reproduce the points only to rounding.
    if (room(near.first_u()) <= 0.0) return run.points[i];
    if (room(near.last_u()) >= 0.0) return run.points[i + 1];
    return near.point(
        numeric::root_between(room, near.first_u(), near.last_u(), "moment of a run").value);
  }
  return std::nullopt;
}

}  // namespace

Point point_at_volume(const Run& run, units::Volume collected) {
  const double wanted_L = collected.litres();
  const double end_L = run.last().collected.litres();
  // A hair of room for a volume that was printed and read again.
  if (!(wanted_L >= 0.0 && wanted_L <= end_L * (1.0 + 1e-9))) {
    throw base::InputError("collected", fmt::format("{:.4g} L", wanted_L),
                           fmt::format("0 to the {:.4g} L of the run", end_L));
  }
  if (wanted_L >= end_L) return run.last();
  if (wanted_L == 0.0) return run.first();
  const auto found = first_crossing(
      run, [&](const Point& p) { return wanted_L - p.collected.litres(); },
      [&](const RunState& s) {
        return wanted_L - litres_20C(distilled(run.charge, n0_mol(run), s.u, s.pot_x));
      });
  base::ensure(found.has_value(), "a volume within the run is reached");
  return *found;
}

std::optional<Point> when_spout_falls_to(const Run& run, units::VolumeStrength strength) {
  const double wanted = strength.fraction();
  return first_crossing(
      run, [wanted](const Point& p) { return p.spout.fraction() - wanted; },
      [wanted](const RunState& s) { return strength_of_mole_fraction(s.spout_y) - wanted; });
}

std::optional<Point> when_head_rises_to(const Run& run, units::Temperature head) {
  const double wanted_K = head.kelvins();
  return first_crossing(
      run, [wanted_K](const Point& p) { return wanted_K - p.head_temperature.kelvins(); },
      [wanted_K](const RunState& s) { return wanted_K - s.head_K; });
}

std::optional<Point> when_pot_falls_to(const Run& run, units::VolumeStrength strength) {
  const double wanted = strength.fraction();
  return first_crossing(
      run, [wanted](const Point& p) { return p.pot.fraction() - wanted; },
      [wanted](const RunState& s) { return strength_of_mole_fraction(s.pot_x) - wanted; });
}

}  // namespace lynearm::still
