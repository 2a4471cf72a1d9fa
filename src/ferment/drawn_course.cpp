#include "ferment/drawn_course.hpp"

#include <algorithm>
#include <cmath>

#include "wort/wash.hpp"

namespace lynearm::ferment {
namespace {

// Over how much gravity a ferment that stops does so.
constexpr double corner = 0.0007;

double between(const std::vector<double>& x, const std::vector<double>& y, double at) {
  if (at <= x.front()) return y.front();
  if (at >= x.back()) return y.back();
  const auto above =
      static_cast<std::size_t>(std::upper_bound(x.begin(), x.end(), at) - x.begin());
  const double part = (at - x[above - 1]) / (x[above] - x[above - 1]);
  return std::lerp(y[above - 1], y[above], part);
}

}  // namespace

double DrawnCourse::going_on_at(double hours) const {
  if (hours <= at_h.back()) return between(at_h, gravity, hours);
  return gone_on_to +
         (gravity.back() - gone_on_to) * std::exp(-(hours - at_h.back()) / fading_h);
}

double DrawnCourse::gravity_at(double hours) const {
  const double going_on = going_on_at(hours);
  if (!stands_at) return going_on;
  // The larger of the two, its corner rounded.
  const double apart = std::abs(going_on - *stands_at);
  return std::max(going_on, *stands_at) + corner * std::log1p(std::exp(-apart / corner));
}

double DrawnCourse::warmth_off(double hours, double read_C) const {
  const double runs_C = temperature_at(hours);
  if (!stands_at || going_on_at(hours) > *stands_at) return read_C - runs_C;
  return read_C - std::clamp(read_C, std::min(room_C, runs_C), std::max(room_C, runs_C));
}

double DrawnCourse::temperature_at(double hours) const { return between(at_h, t_C, hours); }

double vigour_factor(const PaceDoubt& doubt, const Offs& off) {
  return std::exp(doubt.vigour_ln * off[off_vigour]);
}

double sugar_factor(const PaceDoubt& doubt, const Offs& off) {
  return std::max(0.05, 1.0 + doubt.sugar * off[off_sugar]);
}

DrawnCourse drawn_course(const Batch& batch, const Kinetics& kinetics, const PaceDoubt& doubt,
                         const Offs& off, bool stops, units::Duration horizon) {
  Batch drawn = batch;
  Kinetics with = kinetics;
  with.vigour = std::clamp(kinetics.vigour * vigour_factor(doubt, off), 0.05, 20.0);
  drawn.lag =
      std::min(batch.lag * std::exp(doubt.lag_ln * off[off_lag]), units::Duration::hours(72.0));
  drawn.sugars.fermentable = units::Share::fraction(
      std::clamp(batch.sugars.fermentable.fraction() * sugar_factor(doubt, off), 0.0, 1.0));
  drawn.nitrogen = batch.nitrogen * std::exp(doubt.nitrogen_ln * off[off_nitrogen]);
  const auto shifted = [&](units::Temperature t) {
    return std::clamp(t + doubt.room * off[off_room], units::Temperature::celsius(0.0),
                      units::Temperature::celsius(45.0));
  };
  if (off[off_room] != 0.0) {
    drawn.vessel.room = shifted(batch.vessel.room);
    if (batch.vessel.held) drawn.pitched_at = shifted(batch.pitched_at);
  }

  const Pace run = pace(drawn, with, horizon);
  DrawnCourse out;
  for (const PacePoint& point : run.course) {
    out.at_h.push_back(point.at.hours());
    out.gravity.push_back(point.gravity.ratio());
    out.t_C.push_back(point.temperature.celsius());
  }
  if (run.dry_after && !stops) out.dry_h = run.dry_after->hours();
  out.lag_h = drawn.lag.hours();
  out.room_C = drawn.vessel.room.celsius();
  out.gone_on_to = out.gravity.back();
  if (run.ending == Ending::dry) {
    out.gone_on_to =
        wort::specific_gravity(ferment(drawn.wort, drawn.sugars, drawn.yield).wash).ratio();
    // The last sugar goes as it went at the end: sugar over its rate.
    const std::size_t n = run.course.size();
    if (n > 1) {
      const PacePoint& before = run.course[n - 2];
      const PacePoint& last = run.course[n - 1];
      const double rate = (before.sugar - last.sugar).grams_per_litre() /
                          std::max(1e-6, (last.at - before.at).hours());
      if (rate > 0.0) {
        out.fading_h = std::clamp(last.sugar.grams_per_litre() / rate, 1.0, 240.0);
      }
    }
  }
  out.end_gravity = out.gone_on_to;
  if (stops) {
    const double share = std::clamp(stops_about + stops_spread * off[off_stop], 0.0, 1.0);
    out.stands_at = std::lerp(out.gravity.front(), out.gone_on_to, share);
    out.end_gravity = *out.stands_at;
  }
  return out;
}

}  // namespace lynearm::ferment
