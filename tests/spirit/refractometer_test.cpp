#include "spirit/refractometer.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <cmath>
#include <limits>

#include "spirit/refusal.hpp"

namespace lynearm::spirit {
namespace {

using units::MassFraction;
using units::RefractiveIndex;
using units::Temperature;

double index_at(double percent_mass, double t_C = 20.0) {
  return refractive_index(MassFraction::percent(percent_mass), Temperature::celsius(t_C))
      .ratio();
}
RefractedStrength read(double index, double t_C = 20.0) {
  return strengths(RefractiveIndex::ratio(index), Temperature::celsius(t_C));
}

TEST(Refractometer, the_index_rises_to_one_maximum_and_falls) {
  for (int t = 0; t <= 40; t += 5) {
    const double top = refractive_maximum(Temperature::celsius(t)).strength.percent();
    EXPECT_GT(top, 77.0);
    EXPECT_LT(top, 82.0);
    for (double p = 0.25; p <= 100.0; p += 0.25) {
      const double rise = index_at(p, t) - index_at(p - 0.25, t);
      if (p < top) {
        EXPECT_GT(rise, 0.0) << p << " % " << t << " °C";
      } else if (p > top + 0.25) {
        EXPECT_LT(rise, 0.0) << p << " % " << t << " °C";
      }
    }
  }
}

TEST(Refractometer, the_curve_bends_over_once) {
  // A curve through rounded rows would wave.
  int turns = 0;
  double before = 0.0;
  for (int p = 1; p < 100; ++p) {
    const double bend = index_at(p + 1) - 2.0 * index_at(p) + index_at(p - 1);
    if (before * bend < 0.0) ++turns;
    before = bend;
  }
  EXPECT_EQ(turns, 1);
}

TEST(Refractometer, water_changes_with_temperature_as_its_own_formula_says) {
  // IAPWS R9-97 at 589.3 nm over the index of air, from memory: from air at the water's
  // temperature comes 0.00001 at 10 K from 20 °C.
  struct Row {
    double t_C, index;
  };
  for (const Row& row : {Row{0, 1.33394}, Row{10, 1.33369}, Row{20, 1.33299}, Row{25, 1.33250},
                         Row{30, 1.33194}, Row{40, 1.33061}})
    EXPECT_NEAR(index_at(0.0, row.t_C), row.index, 0.000035) << row.t_C;
}

TEST(Refractometer, pure_ethanol_loses_four_in_the_fourth_place_a_kelvin) {
  // From memory: 1.3594 at 25 °C and 1.3574 at 30 °C, a last digit each.
  EXPECT_NEAR(index_at(100.0, 25.0), 1.3594, 0.0001);
  EXPECT_NEAR(index_at(100.0, 30.0), 1.3574, 0.0001);
}

TEST(Refractometer, a_mixture_loses_between_what_water_and_ethanol_lose) {
  const auto loss = [](double p) { return index_at(p, 19.5) - index_at(p, 20.5); };
  EXPECT_NEAR(loss(0), 0.00009, 0.00001);
  EXPECT_NEAR(loss(100), 0.00040, 0.00001);
  for (int p = 5; p <= 90; p += 5) EXPECT_GT(loss(p), loss(p - 5)) << p;
  // From 90 % on it stays what it is, within the last steep step of the table.
  for (int p = 90; p <= 100; ++p) EXPECT_NEAR(loss(p), loss(100), 0.000003) << p;
}

RC_GTEST_PROP(RefractometerProperty, a_strength_is_among_those_its_index_may_mean, ()) {
  const double p = *rc::gen::inRange(0, 100001) / 1000.0;
  const double t_C = *rc::gen::inRange(0, 401) / 10.0;
  const RefractedStrength answer = read(index_at(p, t_C), t_C);
  if (answer.flat) {
    RC_ASSERT(answer.weak.percent() <= p && p <= answer.strong->percent());
  } else {
    const double weak_miss = std::abs(answer.weak.percent() - p);
    const double strong_miss = answer.strong ? std::abs(answer.strong->percent() - p) : 100.0;
    RC_ASSERT(std::min(weak_miss, strong_miss) < 1e-7);
    for (const MassFraction q : {answer.weak, answer.strong.value_or(answer.weak)})
      RC_ASSERT(std::abs(index_at(q.percent(), t_C) - index_at(p, t_C)) < table_blur.ratio());
  }
}

TEST(Refractometer, below_pure_ethanol_one_strength_above_it_two) {
  const RefractedStrength weak = read(1.3583);
  EXPECT_NEAR(weak.weak.percent(), 40.0, 0.2);
  EXPECT_FALSE(weak.strong);
  EXPECT_FALSE(weak.flat);
  const RefractedStrength either = read(1.3636);
  EXPECT_NEAR(either.weak.percent(), 58.9, 0.3);
  ASSERT_TRUE(either.strong);
  EXPECT_NEAR(either.strong->percent(), 96.1, 0.3);
  EXPECT_FALSE(either.flat);
  // Pure ethanol shows what 49.5 % does.
  const RefractedStrength pure = read(index_at(100.0));
  EXPECT_NEAR(pure.weak.percent(), 49.5, 0.1);
  ASSERT_TRUE(pure.strong);
  EXPECT_EQ(pure.strong->percent(), 100.0);
}

TEST(Refractometer, at_the_maximum_the_answer_is_a_range_and_says_so) {
  const RefractiveMaximum top = refractive_maximum();
  for (const double past : {-0.00004, 0.0, 0.00004}) {
    const RefractedStrength answer = read(top.index.ratio() + past);
    EXPECT_TRUE(answer.flat) << past;
    ASSERT_TRUE(answer.strong) << past;
    EXPECT_NEAR(answer.weak.percent(), 77.1, 0.05) << past;
    EXPECT_NEAR(answer.strong->percent(), 82.7, 0.05) << past;
  }
}

TEST(Refractometer, what_no_spirit_shows_is_refused_and_the_limits_told) {
  const base::Fault above = fault_of([] { return read(1.3660); });
  EXPECT_EQ(above.field, "reading");
  EXPECT_EQ(above.value, "1.36600");
  EXPECT_EQ(
      above.accepted,
      "a refractive index of 1.3330 (water) to 1.3658 (the most any spirit shows, at 80 % "
      "by mass) at 20.0 °C");
  const double nan = std::numeric_limits<double>::quiet_NaN();
  EXPECT_EQ(fault_of([] { return read(1.3328); }).field, "reading");
  EXPECT_EQ(fault_of([&] { return read(nan); }).field, "reading");
  EXPECT_EQ(fault_of([] { return read(1.35, 40.5); }).field, "temperature");
  EXPECT_EQ(fault_of([] { return read(1.35, -0.5); }).field, "temperature");
  EXPECT_EQ(fault_of([&] { return read(1.35, nan); }).field, "temperature");
  EXPECT_EQ(fault_of([&] { return index_at(nan); }).field, "strength");
  EXPECT_EQ(fault_of([] { return index_at(100.1); }).field, "strength");
}

TEST(Refractometer, a_reading_of_water_within_the_tables_blur_is_water) {
  EXPECT_EQ(read(1.33295).weak.percent(), 0.0);
}

TEST(Refractometer, the_ends_of_what_a_reading_tells_lie_the_doubt_away) {
  for (const double p : {5.0, 40.0, 60.0, 70.0, 90.0, 97.0}) {
    const RefractiveIndex doubt = RefractiveIndex::ratio(0.0002);
    const StrengthSpan span = strengths_within(MassFraction::percent(p), doubt);
    EXPECT_LT(span.low.percent(), p);
    EXPECT_GT(span.high.percent(), p);
    EXPECT_NEAR(std::abs(index_at(span.low.percent()) - index_at(p)), 0.0002, 1e-10) << p;
    EXPECT_NEAR(std::abs(index_at(span.high.percent()) - index_at(p)), 0.0002, 1e-10) << p;
  }
}

TEST(Refractometer, round_the_maximum_a_reading_tells_little) {
  const RefractiveIndex doubt = RefractiveIndex::ratio(0.0002);
  const StrengthSpan top = strengths_within(MassFraction::percent(80.0), doubt);
  EXPECT_LT(top.low.percent(), 75.0);
  EXPECT_GT(top.high.percent(), 85.0);
  // With the top inside the doubt the span reaches over it, from either side.
  const StrengthSpan weak_side = strengths_within(MassFraction::percent(75.0), doubt);
  const StrengthSpan strong_side = strengths_within(MassFraction::percent(84.0), doubt);
  EXPECT_GT(weak_side.high.percent(), 80.0);
  EXPECT_LT(strong_side.low.percent(), 79.0);
  // At the ends of the scale it stops.
  EXPECT_EQ(strengths_within(MassFraction::percent(0.0), doubt).low.percent(), 0.0);
  EXPECT_EQ(strengths_within(MassFraction::percent(100.0), doubt).high.percent(), 100.0);
  EXPECT_EQ(fault_of([] {
              return strengths_within(MassFraction::percent(40.0), RefractiveIndex::ratio(0.0));
            }).field,
            "doubt");
}

RC_GTEST_PROP(RefractometerProperty, a_diluted_sample_gives_the_strength_it_had, ()) {
  const double p = *rc::gen::inRange(0, 10001) / 10000.0;
  const Temperature t = Temperature::celsius(*rc::gen::inRange(0, 41));
  const double by_mass = 0.5 * p;
  const double spirit = density(MassFraction::fraction(p), t).kilograms_per_cubic_metre();
  const double water = density(MassFraction::fraction(0.0), t).kilograms_per_cubic_metre();
  const double by_volume = p * spirit / (spirit + water);
  const auto back = [&](double diluted, Dilution how) {
    return strength_of_diluted(refractive_index(MassFraction::fraction(diluted), t), how, t)
        .fraction();
  };
  RC_ASSERT(std::abs(back(by_mass, Dilution::equal_masses) - p) < 1e-10);
  RC_ASSERT(std::abs(back(by_volume, Dilution::equal_volumes) - p) < 1e-10);
}

TEST(Refractometer, the_diluted_sample_tells_the_two_strengths_apart) {
  const RefractedStrength either = read(1.3636);
  const auto diluted_index = [](MassFraction p) { return index_at(0.5 * p.percent()); };
  // Many times what any refractometer resolves.
  EXPECT_GT(diluted_index(*either.strong) - diluted_index(either.weak), 0.006);
  EXPECT_EQ(fault_of([] {
              return strength_of_diluted(RefractiveIndex::ratio(1.3630),
                                         Dilution::equal_masses);
            }).field,
            "reading");
}

TEST(Refractometer, the_refraction_of_an_index_is_undone) {
  for (const double n : {1.0, 1.33299, 1.3658, 1.45})
    EXPECT_NEAR(index_of_refraction(refraction_of(RefractiveIndex::ratio(n))).ratio(), n,
                1e-14);
}

}  // namespace
}  // namespace lynearm::spirit
