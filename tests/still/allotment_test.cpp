#include "still/allotment.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>

#include "base/error.hpp"
#include "still/shelves.hpp"

namespace lynearm::still {
namespace {

using units::Volume;
using units::VolumeStrength;

Jar jar(const char* label, double litres, double percent) {
  const Load load{units::Mass::grams(1.0), units::Mass::grams(0.5), units::Mass::grams(2.0)};
  return {label, Volume::litres(litres), VolumeStrength::percent(percent), load, load, load};
}

std::string refusal(const std::vector<Jar>& jars) {
  try {
    check(jars);
  } catch (const base::InputError& error) {
    std::string all;
    for (const base::Fault& fault : error.faults()) all += base::sentence(fault) + "\n";
    return all;
  }
  return "";
}

TEST(Jars, thatCannotBeAreRefusedTogether) {
  EXPECT_EQ(refusal({}), "jars is missing; accepted: 1 to 200 jars.\n");
  Jar negative = jar("1", -0.5, 70.0);
  Jar strong = jar("1", 0.5, 97.5);
  Jar spoiled = jar("", 0.5, 60.0);
  spoiled.fault = 11.0;
  EXPECT_EQ(
      refusal({negative, strong, spoiled}),
      "jars[1].label is \"1\"; accepted: a label that no other jar has.\n"
      "jars[2].label is missing; accepted: a number or a name.\n"
      "jars[0].volume is \"-0.5 L\"; accepted: a volume above zero, to 100000 L.\n"
      "jars[1].strength is \"97.5 %vol\"; accepted: a strength above 0, to 97 %vol: no "
      "still passes the azeotrope.\n"
      "jars[2].fault is \"11\"; accepted: a mark from 0 (nothing found) to 10 (spoiled).\n");
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_NE(refusal({jar("1", nan, 70.0)}), "");
  EXPECT_NE(refusal({jar("1", 1.0, nan)}), "");
}

TEST(Jars, stateAGroupOfCongenersAllOrNone) {
  Jar without = jar("2", 0.5, 70.0);
  without.late.reset();
  EXPECT_EQ(
      refusal({jar("1", 0.5, 70.0), without}),
      "jars[1].late is missing; accepted: a load as in the other jars, or none in any.\n");
  EXPECT_THAT([&] { require_loads({without}); },
              testing::ThrowsMessage<base::InputError>(testing::HasSubstr("jars[0].late")));
}

TEST(Jars, carryNoMoreThanTheirMass) {
  Jar heavy = jar("1", 0.5, 70.0);
  heavy.early->mass = heavy.early->high = units::Mass::kilograms(0.6);
  EXPECT_NE(refusal({heavy}).find("jars[0].early is \"600 g\""), std::string::npos);
  Jar crossed = jar("1", 0.5, 70.0);
  crossed.early->low = units::Mass::grams(3.0);
  EXPECT_NE(refusal({crossed}), "");
}

TEST(Jars, ranInTheOrderOfTheirNumbers) {
  std::vector<Jar> jars{jar("10", 1, 60), jar("9", 1, 65), jar("1", 1, 75)};
  EXPECT_EQ(running_order(jars), (std::vector<std::size_t>{2, 1, 0}));
  jars[1].label = "9b";
  EXPECT_EQ(running_order(jars), (std::vector<std::size_t>{0, 1, 2}));
}

TEST(Allotment, ofTwoHalvesIsTheirBlend) {
  const std::vector<Jar> jars{jar("1", 1.0, 74.0), jar("2", 2.0, 61.0)};
  const Allotment all{{{}, Volume::litres(1.0), {}, {}}, {{}, Volume::litres(2.0), {}, {}}};
  const Outcome out = evaluate(jars, all);
  const spirit::Lot blend = lot_of(jars[0]) + lot_of(jars[1]);
  EXPECT_EQ(out.hearts.volume, spirit::volume(blend));
  EXPECT_NEAR(out.hearts.pure_alcohol.litres(), 0.74 + 1.22, 1e-12);
  EXPECT_GT(out.hearts.contraction, Volume{});
  EXPECT_EQ(out.feints.volume, Volume{});
  // 2 g in 1.96 L of alcohol.
  EXPECT_NEAR(grams_per_hectolitre(out.hearts.per_alcohol(out.hearts.late).value), 200.0 / 1.96,
              1e-9);
  EXPECT_NEAR(out.hearts.per_alcohol(out.hearts.late).high.grams_per_litre(), 4.0 / 1.96,
              1e-11);
  EXPECT_EQ(out.feints.per_alcohol(out.feints.late).value.grams_per_litre(), 0.0);
}

TEST(Allotment, thatIsNotTheJarsIsRefused) {
  const std::vector<Jar> jars{jar("1", 1.0, 74.0)};
  EXPECT_THAT([&] { (void)evaluate(jars, {}); },
              testing::ThrowsMessage<base::InputError>(testing::HasSubstr(
                  "allotment is \"0 parts\"; accepted: one for each of the 1")));
  EXPECT_THAT(
      [&] {
        (void)evaluate(jars, {{{}, Volume::litres(0.9), {}, {}}});
      },
      testing::ThrowsMessage<base::InputError>(testing::HasSubstr(
          "allotment[0] is \"0.9 L in all\"; accepted: parts of zero or more that add "
          "to the jar's 1 L")));
  EXPECT_THROW((void)evaluate(jars, {{Volume::litres(-0.1), Volume::litres(1.1), {}, {}}}),
               base::InputError);
}

RC_GTEST_PROP(Allotment, keepsMassAlcoholAndLoads, ()) {
  const std::vector<Jar> jars = any_jars(1, 20);
  Allotment allotment;
  double ethanol = 0.0, water = 0.0, early = 0.0, late_high = 0.0;
  for (const Jar& one : jars) {
    const double a = any_figure(0.0, 1.0), b = any_figure(0.0, 1.0 - a);
    const double c = any_figure(0.0, 1.0 - a - b);
    allotment.push_back(
        {one.volume * a, one.volume * b, one.volume * c, one.volume * (1.0 - a - b - c)});
    if (allotment.back().apart < Volume{}) allotment.back().apart = {};
    ethanol += lot_of(one).ethanol.kilograms();
    water += lot_of(one).water.kilograms();
    early += one.early->mass.grams();
    late_high += one.late->high.grams();
  }
  const Outcome out = evaluate(jars, allotment);
  double sums[4] = {};
  for (const Vessel20C* v : {&out.foreshots, &out.hearts, &out.feints, &out.apart}) {
    sums[0] += v->lot.ethanol.kilograms();
    sums[1] += v->lot.water.kilograms();
    sums[2] += v->early.mass.grams();
    sums[3] += v->late.high.grams();
  }
  RC_ASSERT(std::abs(sums[0] / ethanol - 1.0) <= 1e-12);
  RC_ASSERT(std::abs(sums[1] / water - 1.0) <= 1e-12);
  RC_ASSERT(std::abs(sums[2] - early) <= 1e-12 * (early + 1.0));
  RC_ASSERT(std::abs(sums[3] - late_high) <= 1e-12 * (late_high + 1.0));
}

}  // namespace
}  // namespace lynearm::still
