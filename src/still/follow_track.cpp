#include "still/follow_track.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

#include "spirit/lot.hpp"

namespace lynearm::still {

namespace {

constexpr float never = -std::numeric_limits<float>::infinity();
// Near its end a run is all but water: kilograms in a millilitre at 20 °C.
constexpr double kg_per_mL = 1e-3;

// How far a straight line may pass a point that is left out for it: a fifth and less of what a
// track is held to.
constexpr double spare_K = 0.005, spare_percent = 0.005, spare_mL = 0.2, spare_kg = 2e-4,
                 spare_L = 1e-4, spare_flow_share = 0.005;

}  // namespace

// Two of three points of a run lie on a line nearly enough, and a thousand runs are kept.
bool Track::spares(const Row& a, const Row& b, const Row& c) {
  const bool runs = b.flow_mL_s > 0.0F;
  if ((a.flow_mL_s > 0.0F) != runs || (c.flow_mL_s > 0.0F) != runs) return false;
  if (!runs && (a.ran_s != b.ran_s || c.ran_s != b.ran_s)) return false;
  if (!(c.t_s > b.t_s && b.t_s > a.t_s)) return false;
  const double part =
      (static_cast<double>(b.t_s) - a.t_s) / (static_cast<double>(c.t_s) - a.t_s);
  const auto near = [&](float Row::*figure, double within) {
    const double line = a.*figure + part * (static_cast<double>(c.*figure) - a.*figure);
    return std::fabs(line - b.*figure) <= within;
  };
  return near(&Row::pot_C, spare_K) && near(&Row::head_C, spare_K) &&
         near(&Row::spout_percent, spare_percent) && near(&Row::pot_percent, spare_percent) &&
         near(&Row::collected_mL, spare_mL) && near(&Row::pot_kg, spare_kg) &&
         near(&Row::alcohol_left_L, spare_L) &&
         near(&Row::flow_mL_s, spare_flow_share * b.flow_mL_s);
}

Track::Track(const Run& run, std::optional<double> until_s) {
  rows_.reserve(run.points.size() + run.quiet.size());
  bool line_spares_one = false;  // the line that ends at the last row
  const auto add = [&](const Row& row) {
    const std::size_t n = rows_.size();
    line_spares_one = !line_spares_one && n >= 2 && spares(rows_[n - 2], rows_[n - 1], row);
    if (line_spares_one) {
      rows_.back() = row;
    } else {
      rows_.push_back(row);
    }
  };
  const double charge_percent = spirit::strength(run.charge.spirit).percent();
  const double charge_L = spirit::pure_alcohol(run.charge.spirit).litres();
  const double charge_kg = run.charge.spirit.mass().kilograms();
  Row before{0.0F,
             0.0F,
             0.0F,
             static_cast<float>(run.first().spout.percent()),
             0.0F,
             0.0F,
             static_cast<float>(charge_percent),
             static_cast<float>(charge_L),
             static_cast<float>(charge_kg),
             never};
  const auto known = [until_s](units::Duration t) {
    return !until_s || t.seconds() <= *until_s * (1.0 + 1e-9);
  };
  auto quiet = run.quiet.begin();
  // A stretch of points begins where a quiet one ends, and the next quiet one where it ends.
  const auto stand = [&](units::Duration until, bool with_it) {
    for (; quiet != run.quiet.end() &&
           (quiet->since_start < until || (with_it && quiet->since_start == until));
         ++quiet) {
      if (!known(quiet->since_start)) continue;
      before.t_s = static_cast<float>(quiet->since_start.seconds());
      before.pot_C = static_cast<float>(quiet->pot_temperature.celsius());
      before.head_C = static_cast<float>(quiet->head_temperature.celsius());
      before.flow_mL_s = 0.0F;
      add(before);
    }
  };
  // Pure alcohol from mass by one factor: asking each point for its volume costs more.
  const double L_per_kg = charge_L / run.charge.spirit.ethanol.kilograms();
  for (std::size_t i = 0; i < run.points.size(); ++i) {
    const Point& p = run.points[i];
    stand(p.since_start, std::binary_search(run.smooth.begin(), run.smooth.end(), i));
    if (!known(p.since_start)) continue;
    const double left_kg = run.charge.spirit.ethanol.kilograms() -
                           p.distillate.ethanol.kilograms() - p.held.ethanol.kilograms();
    const double flow_mL_s = p.flow.litres_per_second() * 1e3;
    const auto t_s = static_cast<float>(p.since_start.seconds());
    const bool runs = flow_mL_s > least_flow_mL_s;
    before = {t_s,
              static_cast<float>(p.pot_temperature.celsius()),
              static_cast<float>(p.head_temperature.celsius()),
              static_cast<float>(p.spout.percent()),
              static_cast<float>(p.collected.millilitres()),
              runs ? static_cast<float>(flow_mL_s) : 0.0F,
              static_cast<float>(p.pot.percent()),
              static_cast<float>(std::fmax(left_kg, 0.0) * L_per_kg),
              static_cast<float>(charge_kg - p.distillate.mass().kilograms() -
                                 p.held.mass().kilograms()),
              runs ? t_s : before.ran_s};
    add(before);
  }
  if (until_s) {
    stand(units::Duration::seconds(*until_s), true);
    stands_ = rows_.empty() || !(rows_.back().flow_mL_s > 0.0F);
  } else {
    stand(run.last().since_start, true);
  }
  rows_.shrink_to_fit();
}

Instant Track::at(double t_s) const {
  const auto after = std::upper_bound(rows_.begin(), rows_.end(), t_s,
                                      [](double t, const Row& row) { return t < row.t_s; });
  const auto shown = [t_s](const Row& r) {
    return Instant{
        t_s,         r.pot_C,       r.head_C,         r.spout_percent, r.collected_mL,
        r.flow_mL_s, r.pot_percent, r.alcohol_left_L, r.pot_kg,        t_s - r.ran_s};
  };
  if (after == rows_.begin()) return shown(rows_.front());
  const Row& a = *(after - 1);
  if (after == rows_.end()) {
    Instant end = shown(a);
    if (end.runs()) {
      const double more_mL =
          std::fmin(end.flow_mL_s * (t_s - a.t_s), std::fmax(end.pot_kg, 0.0) / kg_per_mL);
      end.collected_mL += more_mL;
      end.pot_kg -= more_mL * kg_per_mL;
      end.ran_s_ago = more_mL / end.flow_mL_s < t_s - a.t_s ? end.ran_s_ago : 0.0;
      if (end.ran_s_ago > 0.0) end.flow_mL_s = 0.0;
    }
    return end;
  }
  const Row& b = *after;
  const double width = static_cast<double>(b.t_s) - a.t_s;
  const double part = (t_s - a.t_s) / width;
  const auto mix = [part](float from, float to) {
    return from + part * (static_cast<double>(to) - from);
  };
  Instant now;
  now.t_s = t_s;
  now.pot_C = mix(a.pot_C, b.pot_C);
  now.head_C = mix(a.head_C, b.head_C);
  now.spout_percent = mix(a.spout_percent, b.spout_percent);
  now.collected_mL = mix(a.collected_mL, b.collected_mL);
  now.flow_mL_s =
      a.flow_mL_s > 0.0F && b.flow_mL_s > 0.0F ? mix(a.flow_mL_s, b.flow_mL_s) : 0.0;
  now.pot_percent = mix(a.pot_percent, b.pot_percent);
  now.alcohol_left_L = mix(a.alcohol_left_L, b.alcohol_left_L);
  now.pot_kg = mix(a.pot_kg, b.pot_kg);
  now.ran_s_ago = now.runs() ? 0.0 : t_s - a.ran_s;
  now.pot_K_s = (static_cast<double>(b.pot_C) - a.pot_C) / width;
  now.head_K_s = (static_cast<double>(b.head_C) - a.head_C) / width;
  now.spout_percent_s = (static_cast<double>(b.spout_percent) - a.spout_percent) / width;
  return now;
}

bool Track::ever_runs() const { return !rows_.empty() && rows_.back().ran_s != never; }

double Track::begin_s() const {
  for (const Row& row : rows_) {
    if (row.flow_mL_s > 0.0F) return row.t_s;
  }
  return rows_.back().t_s;
}

double Track::end_s() const { return ever_runs() ? rows_.back().ran_s : rows_.front().t_s; }

template <class Figure>
std::optional<Track::Moment> Track::first(Figure figure, double wanted, bool rising) const {
  const Row* before = nullptr;
  for (const Row& row : rows_) {
    if (!(row.flow_mL_s > 0.0F)) {
      before = nullptr;
      continue;
    }
    const double here = figure(row);
    if (rising ? here >= wanted : here <= wanted) {
      if (before == nullptr) return Moment{row.t_s, row.collected_mL};
      const double there = figure(*before);
      const double part = here == there ? 1.0 : (wanted - there) / (here - there);
      return Moment{before->t_s + part * (static_cast<double>(row.t_s) - before->t_s),
                    before->collected_mL +
                        part * (static_cast<double>(row.collected_mL) - before->collected_mL)};
    }
    before = &row;
  }
  return std::nullopt;
}

std::optional<Track::Moment> Track::when_spout_falls_to(double percent) const {
  return first([](const Row& r) { return static_cast<double>(r.spout_percent); }, percent,
               false);
}
std::optional<Track::Moment> Track::when_head_rises_to(double celsius) const {
  return first([](const Row& r) { return static_cast<double>(r.head_C); }, celsius, true);
}
std::optional<Track::Moment> Track::when_pot_falls_to(double kg) const {
  return first([](const Row& r) { return static_cast<double>(r.pot_kg); }, kg, false);
}
std::optional<Track::Moment> Track::when_collected(double mL) const {
  return first([](const Row& r) { return static_cast<double>(r.collected_mL); }, mL, true);
}

std::optional<Track::Moment> Track::when(const Border& border) const {
  if (const auto* v = std::get_if<units::Volume>(&border)) {
    return when_collected(v->millilitres());
  }
  if (const auto* s = std::get_if<units::VolumeStrength>(&border)) {
    return when_spout_falls_to(s->percent());
  }
  return when_head_rises_to(std::get<units::Temperature>(border).celsius());
}

std::optional<Track::Moment> Track::first_drops() const {
  if (!ever_runs()) return std::nullopt;
  return Moment{begin_s(), 0.0};
}

}  // namespace lynearm::still
