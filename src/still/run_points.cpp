// Moments between the points of a run: the bare state by a cubic through four neighbouring
// points of one smooth stretch, and everything shown recomputed from it, so that the mass
// balance stays exact.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "base/error.hpp"
#include "numeric/root.hpp"
#include "still/between_points.hpp"
#include "still/run.hpp"
#include "still/run_state.hpp"

namespace lynearm::still {
namespace {

double time_of(const Run& run, std::size_t i) { return run.points[i].since_start.seconds(); }

// The figures of a state that are blended.
constexpr std::array<double RunState::*, 16> blended = {
    &RunState::pot_ethanol_mol, &RunState::pot_water_mol, &RunState::held_ethanol_mol,
    &RunState::held_water_mol,  &RunState::spout_z,       &RunState::rising_y,
    &RunState::reflux_x,        &RunState::leaving_y,     &RunState::back_share,
    &RunState::on_mol_s,        &RunState::pot_K,         &RunState::head_K,
    &RunState::drawn_J,         &RunState::into_pot_J,    &RunState::head_heat_J,
    &RunState::carried_J};

// The run between points i and i+1.
class Between {
 public:
  Between(const Run& run, std::size_t i) : i_(i), run_(run), near_(neighbours(run, i)) {
    for (std::size_t k = 0; k < near_.count; ++k) {
      node_[k] = time_of(run, near_.start + k);
      state_[k] = state_of(run.points[near_.start + k]);
    }
  }

  [[nodiscard]] double first() const { return time_of(run_, i_); }
  [[nodiscard]] double last() const { return time_of(run_, i_ + 1); }

  [[nodiscard]] RunState state(double t) const {
    RunState s;
    s.t_s = t;
    const auto weight = weights({node_.data(), near_.count}, t);
    for (std::size_t k = 0; k < near_.count; ++k) {
      for (const auto figure : blended) s.*figure += weight[k] * state_[k].*figure;
    }
    return s;
  }

  [[nodiscard]] Point point(double t) const {
    return shown(run_.charge, run_.boiling.seconds(), state(t));
  }

 private:
  std::size_t i_;
  const Run& run_;
  Neighbours near_;
  std::array<double, most_neighbours> node_{};
  std::array<RunState, most_neighbours> state_{};
};

// Points i and i+1 are the ends of a jump or of an interruption.
bool jumps(const Run& run, std::size_t i) {
  return std::binary_search(run.smooth.begin(), run.smooth.end(), i + 1);
}

// The first moment at which `room`, positive before, is used up.
template <class OfPoint, class OfState>
std::optional<Point> first_crossing(const Run& run, OfPoint room_of_point,
                                    OfState room_of_state) {
  if (room_of_point(run.first()) < 0.0) return std::nullopt;
  if (room_of_point(run.first()) == 0.0) return run.first();
  for (std::size_t i = 0; i + 1 < run.points.size(); ++i) {
    const double at_end = room_of_point(run.points[i + 1]);
    if (at_end > 0.0) continue;
    if (at_end == 0.0 || jumps(run, i)) return run.points[i + 1];
    const Between near(run, i);
    const auto room = [&](double t) { return room_of_state(near.state(t)); };
    // The ends of the interval reproduce the points only to rounding.
    if (room(near.first()) <= 0.0) return run.points[i];
    if (room(near.last()) >= 0.0) return run.points[i + 1];
    return near.point(
        numeric::root_between(room, near.first(), near.last(), "moment of a run").value);
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
  if (wanted_L <= run.first().collected.litres()) return run.first();
  const auto found = first_crossing(
      run, [&](const Point& p) { return wanted_L - p.collected.litres(); },
      [&](const RunState& s) { return wanted_L - litres_20C(distilled(run.charge, s)); });
  base::ensure(found.has_value(), "a volume within the run is reached");
  return *found;
}

std::optional<Point> point_at_time(const Run& run, units::Duration since_start) {
  const double t = since_start.seconds();
  const auto after = std::upper_bound(
      run.points.begin(), run.points.end(), t,
      [](double wanted, const Point& p) { return wanted < p.since_start.seconds(); });
  if (after == run.points.begin()) return std::nullopt;
  const auto i = static_cast<std::size_t>(after - run.points.begin()) - 1;
  if (after == run.points.end()) {
    if (t > run.last().since_start.seconds()) return std::nullopt;
    return run.last();
  }
  if (t == time_of(run, i)) return run.points[i];
  // Between the ends of an interruption nothing runs.
  if (jumps(run, i)) return std::nullopt;
  return Between(run, i).point(t);
}

std::optional<Point> when_spout_falls_to(const Run& run, units::VolumeStrength strength) {
  const double wanted = strength.fraction();
  return first_crossing(
      run, [wanted](const Point& p) { return p.spout.fraction() - wanted; },
      [wanted](const RunState& s) { return strength_of_mole_fraction(s.spout_z) - wanted; });
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
      [wanted](const RunState& s) { return strength_of_mole_fraction(s.pot_x()) - wanted; });
}

}  // namespace lynearm::still
