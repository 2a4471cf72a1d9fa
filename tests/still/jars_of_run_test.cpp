// A run as jars: what they hold is what ran, and their bands are what a volatility off by its
// own spread would have done.
#include "still/jars_of_run.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "base/error.hpp"
#include "still/congeners_of_run.hpp"
#include "still/even_points.hpp"
#include "still/runs.hpp"
#include "vapour/congener_curve.hpp"

namespace lynearm::still {
namespace {

using units::Volume;

Run spirit_run(std::optional<CongenerAmounts> amounts = std::nullopt, HoldUp hold_up = {}) {
  static const vapour::CongenerCurve volatility(at_one_atmosphere());
  Charge charge = charge_of(20.0, 28.0);
  charge.congeners = amounts ? amounts : usual_amounts(spirit::pure_alcohol(charge.spirit));
  RunSetting setting = setting_with(0.0);
  setting.hold_up = hold_up;
  return distil(charge, setting, at_one_atmosphere(), spout_at(10.0), &volatility);
}

TEST(JarsOfARun, HoldWhatRan) {
  const still::Run run = spirit_run();
  const std::vector<Jar> jars = jars_of(run, Volume::millilitres(250.0));
  EXPECT_NO_THROW(check(jars));
  Groups sum;
  spirit::Lot lots;
  for (const Jar& jar : jars) {
    sum.early_g += jar.early->mass.grams();
    sum.middle_g += jar.middle->mass.grams();
    sum.late_g += jar.late->mass.grams();
    lots = lots + lot_of(jar);
  }
  const Groups all = groups_of(run.congeners_collected(run.points.size() - 1));
  EXPECT_NEAR(sum.early_g, all.early_g, 1e-9 * all.early_g);
  EXPECT_NEAR(sum.middle_g, all.middle_g, 1e-9 * all.middle_g);
  EXPECT_NEAR(sum.late_g, all.late_g, 1e-9 * all.late_g);
  EXPECT_NEAR(lots.ethanol / run.distillate().ethanol, 1.0, 1e-9);
}

TEST(JarsOfARun, CarryEarlyOnesFirstAndLateOnesLast) {
  const std::vector<Jar> jars = jars_of(spirit_run(), Volume::millilitres(500.0));
  ASSERT_GT(jars.size(), 6u);
  const auto per_alcohol = [](const Jar& jar, const Load& load) {
    return load.mass.grams() / spirit::pure_alcohol(lot_of(jar)).litres();
  };
  for (std::size_t i = 1; i < jars.size(); ++i) {
    EXPECT_LE(jars[i].strength, jars[i - 1].strength);
    EXPECT_GT(per_alcohol(jars[i], *jars[i].late), per_alcohol(jars[i - 1], *jars[i - 1].late))
        << i;
  }
  EXPECT_GT(per_alcohol(jars[0], *jars[0].early), 3.0 * per_alcohol(jars[3], *jars[3].early));
}

TEST(JarsOfARun, HaveBandsThatHoldTheMass) {
  for (const double factor : {1.0, 2.0}) {
    for (const Jar& jar : jars_of(spirit_run(), Volume::millilitres(250.0), factor)) {
      for (const Load& load : {*jar.early, *jar.middle, *jar.late}) {
        EXPECT_LE(load.low, load.mass);
        EXPECT_LE(load.mass, load.high);
        if (factor == 2.0) {
          // At least what the amounts alone leave open.
          EXPECT_GE(load.high.grams(), 2.0 * load.mass.grams() * (1.0 - 1e-12));
        }
      }
    }
  }
}

TEST(JarsOfARun, TakeAVolatilityToItsBandAsRayleighDoes) {
  // Furfural alone. Without head and hold-up, a volatility f times as great leaves R^f: so the
  // band of the first jar is 1 - R^f over 1 - R, computed here from the pot itself.
  CongenerAmounts furfural;
  const std::size_t c = vapour::congener_index("furfural");
  furfural.grams[c] = 1.0;
  const still::Run run = spirit_run(furfural);
  const Jar first = jars_of(run, Volume::litres(1.0)).front();
  const double left = 1.0 - congeners_to(run, Volume::litres(1.0)).grams[c];
  const double f = std::pow(vapour::congeners()[c].spread.value, 1.28155157);
  EXPECT_NEAR(first.late->mass.grams(), 1.0 - left, 1e-12);
  EXPECT_NEAR(first.late->high.grams(), 1.0 - std::pow(left, f), 1e-6);
  EXPECT_NEAR(first.late->low.grams(), 1.0 - std::pow(left, 1.0 / f), 1e-6);
}

TEST(JarsOfARun, AreRefusedWhereThereAreNoneOrTooMany) {
  const still::Run run = spirit_run();
  EXPECT_THROW((void)jars_of(run, Volume{}), base::InputError);
  EXPECT_THROW((void)jars_of(run, Volume::millilitres(1.0)), base::InputError);
  EXPECT_THROW((void)jars_of(run, Volume::litres(1.0), 0.5), base::InputError);
  EXPECT_THROW((void)jars_of(run_of(20.0, 28.0, 5.0, 10.0), Volume::litres(1.0)),
               base::InputError);
}

TEST(EvenPoints, GoFromTheFirstDropToTheEndInEvenSteps) {
  const still::Run run = run_of(20.0, 28.0, 5.0, 10.0);
  const std::vector<Point> points = even_points(run, 201);
  ASSERT_EQ(points.size(), 201u);
  EXPECT_EQ(points.front().collected, run.first().collected);
  EXPECT_EQ(points.back().collected, run.last().collected);
  EXPECT_EQ(points.back().spout, run.last().spout);
  const double step_L = run.last().collected.litres() / 200.0;
  for (std::size_t i = 1; i < points.size(); ++i) {
    EXPECT_NEAR((points[i].collected - points[i - 1].collected).litres(), step_L, 1e-9);
    EXPECT_LT(points[i].spout, points[i - 1].spout);
    EXPECT_GT(points[i].since_start, points[i - 1].since_start);
  }
  EXPECT_THROW((void)even_points(run, 1), base::InputError);
}

}  // namespace
}  // namespace lynearm::still
