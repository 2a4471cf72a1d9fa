#include "spirit/target_blend.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <optional>
#include <random>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "spirit/any_lot.hpp"
#include "spirit/given_lots.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::Mass;
using units::Share;
using units::Volume;
using units::VolumeStrength;

// What counts, of one mixture.
struct Merit {
  double excess_kg, opened, water_kg, part_used;
};

bool better(const Merit& a, const Merit& b, double same_kg) {
  if (std::abs(a.excess_kg - b.excess_kg) > same_kg) return a.excess_kg < b.excess_kg;
  if (a.opened != b.opened) return a.opened < b.opened;
  if (std::abs(a.water_kg - b.water_kg) > same_kg) return a.water_kg < b.water_kg;
  return a.part_used < b.part_used;
}

// The oracle: every vertex of the linear programme (each lot out, whole, or one of at most two
// that the two balances decide), judged by the definition of waste and not by which lots are
// open.
std::optional<Merit> best_vertex(const std::vector<Lot>& lots, double to_p, double ethanol_kg,
                                 bool water, double negligible_kg) {
  const std::size_t n = lots.size();
  const double mass_kg = ethanol_kg / to_p;
  const double same_kg = 1e-9 * mass_kg;
  std::size_t assignments = 1;
  for (std::size_t i = 0; i < n; ++i) assignments *= 3;
  std::optional<Merit> best;
  for (std::size_t code = 0; code < assignments; ++code) {
    std::vector<double> used(n, 0.0);
    std::vector<std::size_t> free;
    double ethanol_left = ethanol_kg;
    double mass_left = mass_kg;
    for (std::size_t i = 0, rest = code; i < n; ++i, rest /= 3) {
      if (rest % 3 == 2) free.push_back(i);
      if (rest % 3 != 1) continue;
      used[i] = 1.0;
      ethanol_left -= lots[i].ethanol.kilograms();
      mass_left -= lots[i].mass().kilograms();
    }
    if (free.size() > 2) continue;
    if (free.size() == 1) {
      const Lot& a = lots[free[0]];
      if (!(a.ethanol.kilograms() > 0.0)) continue;
      used[free[0]] = ethanol_left / a.ethanol.kilograms();
    } else if (free.size() == 2) {
      const double ea = lots[free[0]].ethanol.kilograms();
      const double eb = lots[free[1]].ethanol.kilograms();
      const double ma = lots[free[0]].mass().kilograms();
      const double mb = lots[free[1]].mass().kilograms();
      const double determinant = ea * mb - eb * ma;
      if (std::abs(determinant) < 1e-9 * ma * mb) continue;
      used[free[0]] = (ethanol_left * mb - eb * mass_left) / determinant;
      used[free[1]] = (ea * mass_left - ethanol_left * ma) / determinant;
    }
    double ethanol_now = 0.0;
    double mass_now = 0.0;
    double waste = 0.0;
    Merit merit{0.0, 0.0, 0.0, 0.0};
    bool possible = true;
    for (std::size_t i = 0; i < n; ++i) {
      if (std::abs(used[i]) < 1e-10) used[i] = 0.0;
      if (std::abs(used[i] - 1.0) < 1e-10) used[i] = 1.0;
      possible = possible && used[i] >= 0.0 && used[i] <= 1.0;
      ethanol_now += used[i] * lots[i].ethanol.kilograms();
      mass_now += used[i] * lots[i].mass().kilograms();
      if (used[i] > 0.0) merit.opened += 1.0;
      if (used[i] > 0.0 && used[i] < 1.0) {
        merit.part_used += 1.0;
        waste += (1.0 - used[i]) * lots[i].ethanol.kilograms();
      }
    }
    merit.excess_kg = std::max(0.0, waste - negligible_kg);
    merit.water_kg = std::max(0.0, mass_kg - mass_now);
    possible =
        possible && std::abs(ethanol_now - ethanol_kg) <= same_kg &&
        (water ? mass_now <= mass_kg + same_kg : std::abs(mass_now - mass_kg) <= same_kg);
    if (possible && (!best || better(merit, *best, same_kg))) best = merit;
  }
  return best;
}

// Round figures half of the time: they make ties and lots that fit whole.
std::vector<Lot> any_lots(int least, int most) {
  std::vector<Lot> lots;
  const int n = *rc::gen::inRange(least, most + 1);
  const bool round = *rc::gen::arbitrary<bool>();
  for (int i = 0; i < n; ++i) {
    lots.push_back(round ? litres(*rc::gen::inRange(1, 7), 10.0 * *rc::gen::inRange(0, 11))
                         : litres(any_figure(0.2, 30.0), any_figure(0.0, 100.0)));
  }
  return lots;
}

void assert_sound(const std::vector<Lot>& lots, const TargetBlend& b, VolumeStrength to) {
  Lot sum{{}, b.water};
  double left_litres = 0.0;
  int opened = 0;
  int part_used = 0;
  for (std::size_t i = 0; i < lots.size(); ++i) {
    const double used = b.used[i].fraction();
    RC_ASSERT(used >= 0.0 && used <= 1.0);
    sum = sum + lots[i] * used;
    if (used > 0.0) ++opened;
    if (used > 0.0 && used < 1.0) {
      ++part_used;
      left_litres += (1.0 - used) * pure_alcohol(lots[i]).litres();
    }
  }
  RC_ASSERT(equal_to(b.blend.result.mass(), sum.mass(), 1e-12));
  RC_ASSERT(equal_to(b.blend.result.ethanol, sum.ethanol, 1e-12));
  RC_ASSERT(std::abs((b.blend.strength - to).fraction()) < 1e-11);
  RC_ASSERT(std::abs(b.waste.litres() - left_litres) < 1e-9);
  RC_ASSERT(b.opened == opened);
  RC_ASSERT(b.part_used == part_used);
  RC_ASSERT(part_used <= 2);
}

RC_GTEST_PROP(TargetBlendProperty, is_the_best_of_all_vertices_of_the_linear_programme, ()) {
  const std::vector<Lot> lots = any_lots(1, 5);
  const bool round = *rc::gen::arbitrary<bool>();
  const VolumeStrength to =
      round ? percent(10.0 * *rc::gen::inRange(1, 11)) : any_strength(1.0, 99.0);
  const bool water = *rc::gen::arbitrary<bool>();
  BlendLimit limit;
  try {
    limit = most_at(lots, to, water);
  } catch (const base::InputError&) {
    // No vertex makes even a little of it.
    RC_ASSERT(!best_vertex(lots, mass_fraction(to).fraction(), 1e-3, water, 0.0));
    return;
  }
  const Volume volume =
      limit.blend.volume_at_20C * (*rc::gen::inRange(0, 5) == 0 ? 1.0 : any_figure(0.02, 1.0));
  const Share negligible = Share::percent(*rc::gen::element(0.0, 0.1, 3.0));
  const TargetBlend b = blend_to(lots, {to, volume, water, negligible});
  RC_ASSERT(b.proven);
  assert_sound(lots, b, to);
  RC_ASSERT(equal_to(b.blend.volume_at_20C, volume, 1e-11));
  const double ethanol_kg = b.blend.result.ethanol.kilograms();
  const double mass_kg = b.blend.result.mass().kilograms();
  const double waste_kg = ethanol_in(b.waste).kilograms();
  const std::optional<Merit> best = best_vertex(lots, mass_fraction(to).fraction(), ethanol_kg,
                                                water, negligible.fraction() * ethanol_kg);
  RC_ASSERT(best.has_value());
  RC_ASSERT(std::abs(std::max(0.0, waste_kg - negligible.fraction() * ethanol_kg) -
                     best->excess_kg) < 1e-8 * mass_kg);
  RC_ASSERT(b.opened == static_cast<int>(best->opened));
  RC_ASSERT(std::abs(b.water.kilograms() - best->water_kg) < 1e-8 * mass_kg);
  RC_ASSERT(b.part_used == static_cast<int>(best->part_used));
}

RC_GTEST_PROP(TargetBlendProperty, the_limit_is_the_most_of_all_vertices, ()) {
  const std::vector<Lot> lots = any_lots(1, 6);
  const VolumeStrength to = any_strength(1.0, 99.0);
  const bool water = *rc::gen::arbitrary<bool>();
  const double to_p = mass_fraction(to).fraction();
  const std::size_t n = lots.size();
  double most_kg = 0.0;
  for (std::size_t whole = 0; whole < (std::size_t{1} << n); ++whole) {
    double beyond = 0.0;
    double ethanol = 0.0;
    const auto above = [&](std::size_t i) {
      return lots[i].ethanol.kilograms() - to_p * lots[i].mass().kilograms();
    };
    for (std::size_t i = 0; i < n; ++i) {
      if ((whole >> i & 1U) == 0) continue;
      beyond += above(i);
      ethanol += lots[i].ethanol.kilograms();
    }
    if (water && beyond >= 0.0) most_kg = std::max(most_kg, ethanol);
    // One more lot in part, just enough to bring the sum to the strength.
    for (std::size_t i = 0; i < n; ++i) {
      if ((whole >> i & 1U) != 0) continue;
      const double share = -beyond / above(i);
      if (share >= 0.0 && share <= 1.0) {
        most_kg = std::max(most_kg, ethanol + share * lots[i].ethanol.kilograms());
      }
    }
  }
  try {
    const BlendLimit limit = most_at(lots, to, water);
    RC_ASSERT(std::abs(limit.blend.result.ethanol.kilograms() - most_kg) < 1e-9 * most_kg);
    RC_ASSERT(std::abs((limit.blend.strength - to).fraction()) < 1e-12);
    RC_ASSERT(limit.water >= Mass{});
  } catch (const base::InputError&) {
    RC_ASSERT(most_kg == 0.0);
  }
}

// Any mixture that can be poured, of any number of lots, has at least the waste of the one
// found for its own strength and volume.
RC_GTEST_PROP(TargetBlendProperty, no_mixture_poured_at_random_wastes_less, ()) {
  const std::vector<Lot> lots = any_lots(2, 10);
  std::vector<Lot> parts;
  double waste_litres = 0.0;
  for (const Lot& lot : lots) {
    const double share = *rc::gen::element(0.0, any_figure(0.0, 1.0), 1.0);
    parts.push_back(lot * share);
    if (share > 0.0) waste_litres += (1.0 - share) * pure_alcohol(lot).litres();
  }
  const Blend poured = blend(parts);
  RC_PRE(poured.strength > percent(0.5));
  const TargetBlend b = blend_to(lots, {poured.strength, poured.volume_at_20C, false, {}});
  assert_sound(lots, b, poured.strength);
  RC_ASSERT(b.waste.litres() <= waste_litres + 1e-9);
}

RC_GTEST_PROP(TargetBlendProperty, does_not_care_for_the_order_of_the_lots, ()) {
  const std::vector<Lot> lots = any_lots(1, 8);
  const VolumeStrength to = any_strength(1.0, strength(lots.front()).percent() + 1.0);
  BlendLimit limit;
  try {
    limit = most_at(lots, to, true);
  } catch (const base::InputError&) {
    return;
  }
  const BlendTarget target{to, limit.blend.volume_at_20C * any_figure(0.05, 0.99)};
  const TargetBlend a = blend_to(lots, target);
  const TargetBlend b = blend_to(std::vector<Lot>(lots.rbegin(), lots.rend()), target);
  RC_ASSERT(a.opened == b.opened);
  RC_ASSERT(a.part_used == b.part_used);
  RC_ASSERT(std::abs((a.water - b.water) / a.blend.result.mass()) < 1e-9);
  const double same_litres = 1e-3 * pure_alcohol(a.blend.result).litres();
  RC_ASSERT(std::abs((a.waste - b.waste).litres()) <= same_litres + 1e-9);
}

TEST(TargetBlend, empties_the_lots_it_opens_where_it_can) {
  // 10 L of 60 %vol from 10 L at 60 and two of 7 L at 60: the one that fits whole is taken.
  const TargetBlend b = blend_to({litres(7.0, 60.0), litres(10.0, 60.0), litres(7.0, 60.0)},
                                 {percent(60.0), Volume::litres(10.0), false});
  EXPECT_EQ(b.opened, 1);
  EXPECT_EQ(b.part_used, 0);
  EXPECT_EQ(b.used[1].fraction(), 1.0);
  EXPECT_NEAR(b.waste.litres(), 0.0, 1e-12);
  EXPECT_TRUE(b.proven);
}

TEST(TargetBlend, uses_the_most_there_is_when_no_volume_is_wanted) {
  const std::vector<Lot> lots = {litres(2.0, 70.0), litres(3.0, 62.0), litres(5.0, 30.0)};
  const TargetBlend all = blend_to(lots, {percent(46.0), {}, true});
  EXPECT_EQ(all.opened, 3);
  EXPECT_NEAR(all.waste.litres(), 0.0, 1e-12);
  EXPECT_NEAR(pure_alcohol(all.blend.result).litres(), 1.4 + 1.86 + 1.5, 1e-9);
  EXPECT_GT(all.water.kilograms(), 0.0);
  // Without water the strongest is drawn from only as far as the weak lot can take it.
  const TargetBlend dry = blend_to(lots, {percent(46.0), {}, false});
  EXPECT_EQ(dry.water, Mass{});
  EXPECT_LT(dry.used[0].fraction(), 1.0);
  EXPECT_EQ(dry.used[1].fraction(), 1.0);
  EXPECT_EQ(dry.used[2].fraction(), 1.0);
}

TEST(TargetBlend, a_negligible_remainder_does_not_open_another_lot) {
  // 10.005 L would do; exactly 10 L take two lots. Half a litre in a thousand is no waste.
  const std::vector<Lot> lots = {litres(10.005, 60.0), litres(4.0, 60.0), litres(6.0, 60.0)};
  EXPECT_EQ(blend_to(lots, {percent(60.0), Volume::litres(10.0), false}).opened, 1);
  const TargetBlend strict =
      blend_to(lots, {percent(60.0), Volume::litres(10.0), false, Share{}});
  EXPECT_EQ(strict.opened, 2);
  EXPECT_NEAR(strict.waste.litres(), 0.0, 1e-12);
}

std::string refusal(const std::vector<Lot>& lots, const BlendTarget& target) {
  try {
    static_cast<void>(blend_to(lots, target));
  } catch (const base::InputError& error) {
    return error.faults().at(0).field + ": " + error.faults().at(0).accepted;
  }
  return "";
}

TEST(TargetBlend, says_why_it_cannot_be) {
  const std::vector<Lot> lots = {litres(3.0, 52.0), litres(2.0, 61.0)};
  EXPECT_EQ(refusal(lots, {percent(65.0), {}, true}),
            "to: at most 61.00 %vol, the strongest lot at hand (lot 2)");
  EXPECT_EQ(refusal(lots, {percent(46.0), {}, false}),
            "to: at least 52.00 %vol, the weakest lot at hand (lot 1), unless water may be "
            "added");
  // (3 x 0.52 + 2 x 0.61) / 0.46 L.
  EXPECT_EQ(refusal(lots, {percent(46.0), Volume::litres(8.0), true}),
            "volume: at most 6.043 L at 20 °C: lots 1 and 2 make no more of 46.00 %vol");
  // 2.25 L by volumes that added; the contraction c lets 6.5 c more of lot 1 in.
  EXPECT_EQ(refusal(lots, {percent(60.0), Volume::litres(8.0), false}),
            "volume: at most 2.251 L at 20 °C: lot 2, and part of lot 1 make no more of 60.00 "
            "%vol");
  EXPECT_EQ(refusal({}, {percent(46.0)}), "lot: at least one lot that is not empty");
  EXPECT_EQ(refusal({Lot{}, Lot{}}, {percent(46.0)}),
            "lot: at least one lot that is not empty");
  EXPECT_EQ(refusal(std::vector<Lot>(65, litres(1.0, 50.0)), {percent(46.0)}),
            "lot: at most 64 lots");
}

TEST(TargetBlend, refuses_figures_that_are_none) {
  const std::vector<Lot> lots = {litres(3.0, 52.0)};
  const double nan = std::nan("");
  EXPECT_NE(refusal(lots, {percent(nan)}), "");
  EXPECT_NE(refusal(lots, {percent(0.0)}), "");
  EXPECT_NE(refusal(lots, {percent(101.0)}), "");
  EXPECT_NE(refusal(lots, {percent(46.0), Volume::litres(0.0)}), "");
  EXPECT_NE(refusal(lots, {percent(46.0), Volume::litres(nan)}), "");
  EXPECT_NE(refusal(lots, {percent(46.0), {}, true, Share::percent(11.0)}), "");
  EXPECT_NE(refusal(lots, {percent(46.0), {}, true, Share::percent(nan)}), "");
  EXPECT_NE(refusal({Lot{Mass::kilograms(nan), {}}}, {percent(46.0)}), "");
  EXPECT_NE(refusal({Lot{Mass::kilograms(-1.0), {}}}, {percent(46.0)}), "");
}

TEST(TargetBlend, of_sixty_four_lots_is_found_and_says_whether_it_is_proven) {
  std::mt19937 dice(20240601);
  std::uniform_real_distribution<double> amount(0.5, 20.0);
  std::uniform_real_distribution<double> vol(30.0, 75.0);
  int proven = 0;
  for (int round = 0; round < 6; ++round) {
    std::vector<Lot> lots;
    for (std::size_t i = 0; i < most_lots; ++i) lots.push_back(litres(amount(dice), vol(dice)));
    const bool water = round % 2 == 0;
    const Volume volume = most_at(lots, percent(46.0), water).blend.volume_at_20C * 0.2;
    const TargetBlend b = blend_to(lots, {percent(46.0), volume, water});
    EXPECT_NEAR(b.blend.strength.percent(), 46.0, 1e-9);
    EXPECT_NEAR(b.blend.volume_at_20C / volume, 1.0, 1e-11);
    // Among so many lots some sum always fits to within the negligible.
    EXPECT_LE(b.waste / pure_alcohol(b.blend.result), 1e-3 * (1.0 + 1e-9));
    proven += b.proven ? 1 : 0;
  }
  RecordProperty("proven_of_6", proven);
}

TEST(TargetBlend, of_many_equal_lots_is_proven_at_once) {
  const std::vector<Lot> lots(most_lots, litres(10.0, 62.0));
  const TargetBlend b = blend_to(lots, {percent(46.0), Volume::litres(95.0), true});
  EXPECT_TRUE(b.proven);
  EXPECT_EQ(b.opened, 8);
  EXPECT_EQ(b.part_used, 1);
}

TEST(TargetBlend, names_the_lots_as_people_do) {
  const auto share = [](double v) { return Share::fraction(v); };
  EXPECT_EQ(words({share(1.0), share(0.5), share(1.0)}), "lots 1 and 3, and part of lot 2");
  EXPECT_EQ(words({share(1.0), share(1.0), share(1.0)}), "lots 1, 2 and 3");
  EXPECT_EQ(words({share(0.0), share(0.4), share(0.3)}), "part of lots 2 and 3");
  EXPECT_EQ(words({share(0.0)}), "no lot");
}

}  // namespace
}  // namespace lynearm::spirit
