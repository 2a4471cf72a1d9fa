// Over many invented ferments: do the 80 % bands hold the truth four times in five?
//
// The truth is another computation than the follower's: fixed small steps through the equations
// with a room that warms by day, other constants of the yeast, and everything that is doubtful
// drawn anew. Its readings carry the doubts stated for the instruments; one in thirty is wrong.
// Whole under LYNEARM_FULL (300 ferments at each of four times), else 16 (4 under sanitizers),
// with limits as wide as those numbers ask.
#include <gtest/gtest.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <cstdlib>
#include <iostream>
#include <optional>
#include <vector>

#include "ferment/follow.hpp"
#include "ferment/warmth.hpp"

namespace lynearm::ferment {
namespace {

using units::Duration;
using units::SpecificGravity;
using units::Temperature;

#if defined(__SANITIZE_ADDRESS__) || defined(__SANITIZE_THREAD__)
#define LYNEARM_SLOW 1
#elif defined(__has_feature)
#if __has_feature(address_sanitizer) || __has_feature(thread_sanitizer)
#define LYNEARM_SLOW 1
#endif
#endif
#ifdef LYNEARM_SLOW
constexpr int few_ferments = 4;
#else
constexpr int few_ferments = 16;
#endif

bool full() { return std::getenv("LYNEARM_FULL") != nullptr; }
int wanted() { return full() ? 300 : few_ferments; }
/// About three standard deviations of a share of 0.8 among so many, four times.
double apart() { return full() ? 0.08 : 1.2 / std::sqrt(4.0 * few_ferments); }

Batch usual() {
  Batch batch;
  batch.wort = wort::wort(units::Volume::litres(100.0), units::Plato::degrees(16.0));
  batch.sugars = {units::Share::percent(90.0), hexose_per_disaccharide};
  batch.yeast = units::Mass::grams(50.0);
  batch.nitrogen = units::Mass::grams(16.0);
  batch.pitched_at = Temperature::celsius(24.0);
  batch.vessel.room = Temperature::celsius(20.0);
  batch.vessel.loss = units::HeatLoss::watts_per_kelvin(12.0);
  return batch;
}

/// An invented ferment, hour by hour.
struct Truth {
  std::vector<double> gravity, t_C;
  double dry_h = 0.0;
};

/// stops_at   share of the sugar at which the yeast gives up
Truth invent(const Batch& batch, const PaceDoubt& doubt, numeric::Draw& dice,
             double stops_at = 2.0) {
  const double vigour = std::exp(doubt.vigour_ln * dice.normal());
  const double growth = 0.16 * vigour * std::exp(0.08 * dice.normal());
  const double beta = 0.30 * vigour * std::exp(0.08 * dice.normal());
  const double half = 10.0 * std::exp(0.2 * dice.normal());
  const double room = 20.0 + doubt.room.kelvins() * dice.normal();
  const double nitrogen0 = 0.16 * std::exp(doubt.nitrogen_ln * dice.normal());
  const Sugars sugars{
      units::Share::fraction(std::min(1.0, 0.9 * (1.0 + doubt.sugar * dice.normal()))),
      batch.sugars.hexose_per_gram};
  const double volume = wort::volume(batch.wort).litres();
  const double sugar0 = hexose(batch.wort, sugars).grams() / volume;
  const double yield = ethanol_per_hexose * batch.yield.fraction();
  const double capacity = heat_capacity(batch.wort).joules_per_kelvin() / volume;
  const double phase = 6.28 * dice.uniform();
  const auto arrhenius = [](double kJ, double t_C) {
    return std::exp(-kJ / 8.314462618e-3 * (1.0 / (t_C + 273.15) - 1.0 / 299.15));
  };
  const double lag = 9.0 * std::exp(doubt.lag_ln * dice.normal()) / arrhenius(34.6, 24.0);
  std::array<double, 4> s{0.5, nitrogen0, 0.0, 24.0};  // yeast, nitrogen, ethanol, warmth
  constexpr double step_h = 0.05;
  Truth out;
  for (int k = 0; k < 20 * 24 * 20; ++k) {
    const double t = k * step_h;
    const double left = std::max(0.0, sugar0 - s[2] / yield);
    if (k % 20 == 0) {
      out.gravity.push_back(
          wort::specific_gravity(ferment(batch.wort, sugars, batch.yield,
                                         units::Share::fraction(1.0 - left / sugar0))
                                     .wash)
              .ratio());
      out.t_C.push_back(s[3]);
    }
    if (left < 2.0 && out.dry_h == 0.0) out.dry_h = t;
    const bool awake = t > lag && 1.0 - left / sugar0 < stops_at;
    const double part = s[2] / (0.15 * 789.24);
    const double lively =
        awake ? std::max(0.0, 1.0 - part * part) * std::clamp((s[3] - 5.0) / 7.0, 0.0, 1.0)
              : 0.0;
    const double grown = growth * arrhenius(34.6, s[3]) * lively * s[1] / (0.010 + s[1]) * s[0];
    const double made = beta * arrhenius(35.0, s[3]) * lively * left / (half + left) * s[0];
    const double dying = 1e-4 * arrhenius(177.7, s[3]) * s[2] * s[0];
    const double room_now = room + 1.5 * std::sin(6.28 * t / 24.0 + phase);
    s[0] += step_h * (grown - dying);
    s[1] = std::max(0.0, s[1] - step_h * grown / 31.0);
    s[2] += step_h * made;
    s[3] += step_h * (heat_kJ_per_kg_hexose / yield / capacity * made -
                      3600.0 * 12.0 / (capacity * volume) * (s[3] - room_now));
  }
  return out;
}

struct ReadOf {
  std::vector<Reading> readings;
  std::vector<double> off;  // of each gravity
};

ReadOf read(const Truth& truth, double until_h, numeric::Draw& dice) {
  ReadOf out;
  for (double at = 10.0 + 6.0 * dice.uniform(); at < until_h;
       at += 10.0 + 4.0 * dice.uniform()) {
    const auto hour = static_cast<std::size_t>(at);
    Reading one;
    one.at = Duration::hours(static_cast<double>(hour));
    const bool wrong = dice.uniform() < 1.0 / 30.0;
    const double off = dice.normal() * (wrong ? 0.02 : hydrometer_sd);
    one.gravity = SpecificGravity::ratio(truth.gravity[hour] + off);
    one.temperature =
        Temperature::celsius(truth.t_C[hour] + warmth_sd.kelvins() * dice.normal());
    out.readings.push_back(one);
    out.off.push_back(off);
  }
  return out;
}

struct Counted {
  int dry = 0, dry_of = 0, gravity = 0, gravity_of = 0, stuck = 0;
  int wrong = 0, wrong_of = 0, right_doubted = 0, right_of = 0;
  double width_h = 0.0, miss_h = 0.0;
};

Followed told(const std::vector<Reading>& readings) {
  return follow(usual(), {}, yeast("distillers-dry"), {}, readings, 7, 300,
                numeric::one_after_another());
}

bool within(const LikelyMoment& band, double hours) {
  return band.low && band.low->hours() <= hours && (!band.high || hours <= band.high->hours());
}

std::optional<bool> within(const std::vector<ExpectedGravity>& course, double at_h, double is) {
  for (std::size_t k = 1; k < course.size(); ++k) {
    const ExpectedGravity &a = course[k - 1], &b = course[k];
    if (a.at.hours() > at_h || b.at.hours() < at_h) continue;
    const double part = (at_h - a.at.hours()) / (b.at - a.at).hours();
    return std::lerp(a.gravity.low.ratio(), b.gravity.low.ratio(), part) <= is &&
           is <= std::lerp(a.gravity.high.ratio(), b.gravity.high.ratio(), part);
  }
  return std::nullopt;
}

void count_doubts(const Followed& of, const ReadOf& read, Counted& out) {
  for (std::size_t i = 0; i < read.off.size(); ++i) {
    const bool doubted =
        std::any_of(of.doubts.begin(), of.doubts.end(),
                    [&](const DoubtedGravity& one) { return one.reading == i; });
    if (std::abs(read.off[i]) > 0.012) {
      ++out.wrong_of;
      out.wrong += doubted ? 1 : 0;
    } else if (std::abs(read.off[i]) < 3.0 * hydrometer_sd) {
      ++out.right_of;
      out.right_doubted += doubted ? 1 : 0;
    }
  }
}

Counted count(double until_h, int ferments, std::uint64_t seed) {
  Counted out;
  for (int i = 0; i < ferments; ++i) {
    numeric::Draw dice(seed, static_cast<std::uint64_t>(i));
    const Truth truth = invent(usual(), {}, dice);
    const ReadOf read_of = read(truth, until_h, dice);
    const Followed of = told(read_of.readings);
    out.stuck += of.stuck ? 1 : 0;
    count_doubts(of, read_of, out);
    if (truth.dry_h > until_h) {
      ++out.dry_of;
      out.dry += within(of.dry, truth.dry_h) ? 1 : 0;
      if (of.dry.high) out.width_h += (*of.dry.high - *of.dry.low).hours();
      if (of.dry.median) out.miss_h += std::abs(of.dry.median->hours() - truth.dry_h);
    }
    const double next_h = until_h + 24.0;
    if (const auto in =
            within(of.course, next_h, truth.gravity[static_cast<std::size_t>(next_h)])) {
      ++out.gravity_of;
      out.gravity += *in ? 1 : 0;
    }
  }
  return out;
}

TEST(FollowStatistics, BandsHoldTheTruthFourTimesInFive) {
  int dry = 0, dry_of = 0, gravity = 0, gravity_of = 0;
  int wrong = 0, wrong_of = 0, right_doubted = 0, right_of = 0, stuck = 0, all = 0;
  for (const double until_h : {0.0, 30.0, 60.0, 90.0}) {
    const Counted one = count(until_h, wanted(), 11);
    std::cout << "read for " << until_h << " h: dry in band " << one.dry << " of " << one.dry_of
              << ", band " << one.width_h / one.dry_of << " h wide, median off by "
              << one.miss_h / one.dry_of << " h; gravity a day on in band " << one.gravity
              << " of " << one.gravity_of << "\n";
    dry += one.dry;
    dry_of += one.dry_of;
    gravity += one.gravity;
    gravity_of += one.gravity_of;
    wrong += one.wrong;
    wrong_of += one.wrong_of;
    right_doubted += one.right_doubted;
    right_of += one.right_of;
    stuck += one.stuck;
    all += wanted();
  }
  std::cout << "wrong readings doubted: " << wrong << " of " << wrong_of
            << "; right ones: " << right_doubted << " of " << right_of
            << "; called stuck that go on: " << stuck << " of " << all << "\n";
  EXPECT_NEAR(static_cast<double>(dry) / dry_of, 0.80, apart());
  EXPECT_NEAR(static_cast<double>(gravity) / gravity_of, 0.80, apart());
  EXPECT_LE(right_doubted, 0.02 * right_of + 1);
  EXPECT_LE(stuck, 0.01 * all + 1);
  if (full()) {
    EXPECT_GE(wrong, 0.7 * wrong_of);
  }
}

TEST(FollowStatistics, WhatStopsWithSugarLeftIsCalledStuckTwoDaysLater) {
  int stuck = 0, of = 0;
  for (int i = 0; i < wanted() / 2; ++i) {
    numeric::Draw dice(23, static_cast<std::uint64_t>(i));
    const double stops_at = 0.4 + 0.4 * dice.uniform();
    const Truth truth = invent(usual(), {}, dice, stops_at);
    const double stood = *std::min_element(truth.gravity.begin(), truth.gravity.end()) + 1e-6;
    const auto since =
        static_cast<double>(std::find_if(truth.gravity.begin(), truth.gravity.end(),
                                         [&](double gravity) { return gravity <= stood; }) -
                            truth.gravity.begin());
    ++of;
    stuck += told(read(truth, since + 48.0, dice).readings).stuck ? 1 : 0;
  }
  std::cout << "stopped ferments called stuck: " << stuck << " of " << of << "\n";
  EXPECT_GE(stuck, 0.8 * of - 1);
}

}  // namespace
}  // namespace lynearm::ferment
