// What a follower says: the still now, the curves expected, the decisions to come.
#include <algorithm>
#include <cmath>

#include "base/error.hpp"
#include "spirit/strength.hpp"
#include "still/follow.hpp"
#include "still/follow_bands.hpp"

namespace lynearm::still {
namespace {

// What a still does between now and a decision, over what its constants say: mains, draughts.
// One standard deviation, as a share of the time and of the volume still to go.
constexpr double wander_time = 0.02;
constexpr double wander_volume = 0.03;
// And what the model leaves out of a strength, %vol, and of a temperature, K.
constexpr double wander_percent = 0.18;
constexpr double wander_K = 0.08;
constexpr double wander_pot = 0.025;  // as a share of the pot's strength

// A pot that may run low in so many of the possible stills is told.
constexpr double may_come = 0.1;
constexpr units::Temperature boiling_water = units::Temperature::celsius(99.0);

template <class Q, class Make>
Likely<Q> likely(const numeric::Band& band, Make make) {
  return {make(band.low), make(band.median), make(band.high)};
}

Likely<units::Temperature> celsius(const numeric::Band& band) {
  return likely<units::Temperature>(band,
                                    [](double C) { return units::Temperature::celsius(C); });
}
Likely<units::VolumeStrength> percent(const numeric::Band& band) {
  return likely<units::VolumeStrength>(
      band, [](double p) { return units::VolumeStrength::percent(std::clamp(p, 0.0, 100.0)); });
}
Likely<units::Volume> millilitres(const numeric::Band& band) {
  return likely<units::Volume>(
      band, [](double mL) { return units::Volume::millilitres(std::fmax(mL, 0.0)); });
}

// One liquid's, taken for all the possible stills: theirs differ by less than 1 %.
double hot_litres_per_kg(units::VolumeStrength strength, units::Temperature t) {
  const auto kg = units::Mass::kilograms(1.0);
  const units::MassFraction w = spirit::mass_fraction(strength);
  const spirit::Lot one{kg * w.fraction(), kg * (1.0 - w.fraction())};
  const auto warm = units::Temperature::celsius(std::clamp(t.celsius(), -20.0, 110.0));
  return hot_volume(one, warm).litres();
}

}  // namespace

std::optional<numeric::Band> Follower::shown_at(Instrument instrument,
                                                units::Duration at) const {
  std::vector<Weighted> sample;
  const std::size_t constant = constant_of(instrument);
  for (std::size_t k = 0; k < weights_.size(); ++k) {
    if (weights_[k] <= 0.0) continue;
    const Expected shown = expected(instrument, (*tracks_)[k].at(at.seconds()), prior_.spread);
    if (!shown.shows) continue;
    sample.push_back(
        {shown.value(standings_[k][constant]) + shown.width * wander_[k], weights_[k]});
  }
  if (sample.empty()) return std::nullopt;
  return weighted_band(sample);
}

StillNow Follower::now() const {
  StillNow now;
  now.at = latest_;
  now.heated = !fire_.stopped_at.has_value();
  const double t = latest_.seconds();
  std::vector<Instant> instants(weights_.size());
  double running = 0.0, standing = 0.0;
  for (std::size_t k = 0; k < weights_.size(); ++k) {
    if (weights_[k] <= 0.0) continue;
    instants[k] = (*tracks_)[k].at(t);
    if (instants[k].runs()) running += weights_[k];
    if (now.heated && (*tracks_)[k].stands_from(t)) standing += weights_[k];
  }
  now.nothing_runs = units::Share::fraction(std::fmin(standing, 1.0));
  std::vector<Weighted> sample;
  const auto band = [&](double wander, bool of_running, auto figure, double share = 0.0) {
    sample.clear();
    for (std::size_t k = 0; k < weights_.size(); ++k) {
      if (weights_[k] <= 0.0 || (of_running && !instants[k].runs())) continue;
      const double of_it = figure(instants[k]);
      sample.push_back({of_it + (wander + share * of_it) * wander_[k], weights_[k]});
    }
    if (of_running) widen(sample, left_out);
    return weighted_band(sample);
  };
  now.pot_temperature =
      celsius(band(wander_K, false, [](const Instant& i) { return i.pot_C; }));
  now.head_temperature =
      celsius(band(wander_K, false, [](const Instant& i) { return i.head_C; }));
  now.pot = percent(band(
      0.0, false, [](const Instant& i) { return i.pot_percent; }, wander_pot));
  now.collected =
      millilitres(band(0.0, false, [](const Instant& i) { return i.collected_mL; }));
  now.alcohol_left =
      millilitres(band(0.0, false, [](const Instant& i) { return 1e3 * i.alcohol_left_L; }));
  now.floor = pot_floor(prior_);
  const double L_per_kg = hot_litres_per_kg(now.pot.median, now.pot_temperature.median);
  const double extract_L = prior_.charge.extract.kilograms() * extract_litres_per_kg;
  now.left_in_pot = millilitres(band(0.0, false, [L_per_kg, extract_L](const Instant& i) {
    return 1e3 * (i.pot_kg * L_per_kg + extract_L);
  }));
  if (running > 0.5) {
    now.spout =
        percent(band(wander_percent, true, [](const Instant& i) { return i.spout_percent; }));
    now.flow = likely<units::VolumeFlow>(
        band(0.0, true, [](const Instant& i) { return 1e-3 * i.flow_mL_s; }),
        [](double L_s) { return units::VolumeFlow::litres_per_second(L_s); });
  }
  return now;
}

Forecast Follower::forecast(const numeric::Executor& executor, std::size_t steps) const {
  base::ensure(steps >= 2, "a curve has two steps at least");
  Forecast all;
  std::vector<Weighted> sample;
  const auto gather = [&](auto figure) {
    sample.clear();
    for (std::size_t k = 0; k < weights_.size(); ++k) {
      if (weights_[k] > 0.0 && (*tracks_)[k].ever_runs()) {
        sample.push_back({figure(k), weights_[k]});
      }
    }
    return weighted_band(sample);
  };
  // Of those that run at all; else of nothing, from heat on to now.
  double begin_s = 0.0, end_s = std::fmax(latest_.seconds(), 60.0), end_mL = 1.0;
  double ever = 0.0;
  for (std::size_t k = 0; k < weights_.size(); ++k) {
    if (weights_[k] > 0.0 && (*tracks_)[k].ever_runs()) ever += weights_[k];
  }
  if (ever > 0.0) {
    begin_s = gather([this](std::size_t k) { return (*tracks_)[k].begin_s(); }).median;
    end_s = gather([this](std::size_t k) { return (*tracks_)[k].end_s(); }).median;
    end_mL = gather([this](std::size_t k) { return (*tracks_)[k].end_mL(); }).median;
  }

  all.by_time.resize(steps + 1);
  all.by_volume.resize(steps + 1);
  executor(2 * (steps + 1), [&](std::size_t task) {
    const bool by_time = task <= steps;
    const std::size_t i = by_time ? task : task - steps - 1;
    const double part = static_cast<double>(i) / static_cast<double>(steps);
    std::vector<Weighted> spout, head, pot, other;
    for (std::size_t k = 0; k < weights_.size(); ++k) {
      if (weights_[k] <= 0.0) continue;
      double t = std::lerp(begin_s, end_s, part);
      if (!by_time) {
        const auto when = (*tracks_)[k].when_collected(end_mL * part);
        t = when ? when->t_s : (*tracks_)[k].end_s();
      }
      const Instant now = (*tracks_)[k].at(t);
      // The spirit and the head of a still that stands are nothing to expect.
      if (now.runs()) {
        spout.push_back({now.spout_percent + wander_percent * wander_[k], weights_[k]});
        head.push_back({now.head_C + wander_K * wander_[k], weights_[k]});
      }
      pot.push_back({now.pot_C + wander_K * wander_[k], weights_[k]});
      other.push_back({by_time ? now.collected_mL : t, weights_[k]});
    }
    ExpectedAt& at = by_time ? all.by_time[i] : all.by_volume[i];
    const double median = weighted_band(other).median;
    at.at = units::Duration::seconds(by_time ? std::lerp(begin_s, end_s, part) : median);
    at.collected = units::Volume::millilitres(by_time ? median : end_mL * part);
    at.running = !spout.empty();
    if (at.running) {
      at.spout = percent(weighted_band(spout));
      at.head = celsius(weighted_band(head));
    }
    at.pot = celsius(weighted_band(pot));
  });

  const auto add = [&](Decision decision, double wander_mL, const MomentOf& when) {
    all.decisions.push_back(decide(decision, wander_mL, when));
  };
  const auto by_rule = [&](Decision decision, const std::optional<Border>& rule) {
    if (!rule) return;
    // A volume that is waited for is that volume.
    const bool of_volume = std::holds_alternative<units::Volume>(*rule);
    add(decision, of_volume ? 0.0 : wander_volume,
        [&rule](const Track& track) { return track.when(*rule); });
  };
  add(Decision::first_drops, 0.0, [](const Track& track) { return track.first_drops(); });
  by_rule(Decision::foreshots_end, rules_.foreshots_end);
  by_rule(Decision::heads_end, rules_.heads_end);
  if (rules_.tails_near) {
    add(Decision::tails_near, wander_volume,
        [this](const Track& track) { return track.when(*rules_.tails_near); });
  }
  by_rule(Decision::hearts_end, rules_.hearts_end);
  by_rule(Decision::stop, rules_.stop);
  // Nobody's wish, and told only where it may come.
  const PotFloor floor = pot_floor(prior_);
  const double extract_L = prior_.charge.extract.kilograms() * extract_litres_per_kg;
  const double floor_kg =
      std::fmax(floor.least.litres() - extract_L, 0.0) / hot_litres_per_kg({}, boiling_water);
  const NextDecision low =
      decide(Decision::pot_low, wander_volume,
             [floor_kg](const Track& track) { return track.when_pot_falls_to(floor_kg); });
  if (low.reached.fraction() > may_come) all.decisions.push_back(low);
  return all;
}

NextDecision Follower::decide(Decision decision, double wander_mL, const MomentOf& when) const {
  NextDecision next;
  next.decision = decision;
  const double t = latest_.seconds();
  double reached = 0.0, behind = 0.0, standing = 0.0;
  std::vector<Weighted> at_s, at_mL, was_s;
  std::vector<double> wander_s, wander_of_mL;
  for (std::size_t k = 0; k < weights_.size(); ++k) {
    if (weights_[k] <= 0.0) continue;
    const std::optional<Track::Moment> m = when((*tracks_)[k]);
    if (!m) {
      if ((*tracks_)[k].stands()) standing += weights_[k];
      continue;
    }
    reached += weights_[k];
    const double to_go = std::fmax(m->t_s - t, 0.0);
    const double mL_to_go = std::fmax(m->collected_mL - (*tracks_)[k].at(t).collected_mL, 0.0);
    at_s.push_back({m->t_s, weights_[k]});
    wander_s.push_back(to_go * wander_time * wander_[k]);
    at_mL.push_back({m->collected_mL, weights_[k]});
    wander_of_mL.push_back(mL_to_go * wander_mL * wander_[k]);
    if (m->t_s <= t) {
      behind += weights_[k];
      was_s.push_back(at_s.back());
    }
  }
  next.reached = units::Share::fraction(std::fmin(reached, 1.0));
  next.passed = behind > 0.5;
  if (reached <= 0.5) {
    next.no_time =
        standing > 1.0 - reached - standing ? NoTime::fire_too_low : NoTime::out_of_reach;
    return next;
  }
  // What the members say is told wider, and what their stills do on the way comes to it.
  const auto allow = [](std::vector<Weighted>& sample, const std::vector<double>& wander) {
    widen(sample, left_out);
    for (std::size_t i = 0; i < sample.size(); ++i) sample[i].value += wander[i];
  };
  allow(at_s, wander_s);
  allow(at_mL, wander_of_mL);
  next.collected = millilitres(weighted_band(at_mL));
  if (fire_.stopped_at && !next.passed) {
    next.no_time = NoTime::heat_off;
    return next;
  }
  // While it stands, by those that have it behind them.
  const numeric::Band band = weighted_band(fire_.stopped_at ? was_s : at_s);
  next.at = likely<units::Duration>(band, [](double s) { return units::Duration::seconds(s); });
  if (!fire_.stopped_at) {
    next.in = likely<units::Duration>(band, [t, &next](double s) {
      return units::Duration::seconds(next.passed ? s - t : std::fmax(s - t, 0.0));
    });
  }
  return next;
}

}  // namespace lynearm::still
