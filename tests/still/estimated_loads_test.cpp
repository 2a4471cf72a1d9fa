#include "still/estimated_loads.hpp"

#include <gtest/gtest.h>

#include <algorithm>

#include "still/allotment.hpp"
#include "still/shelves.hpp"

namespace lynearm::still {
namespace {

double per_hL(const Jar& jar, const std::optional<Load>& load) {
  return 100.0 * load->mass.grams() / spirit::pure_alcohol(lot_of(jar)).litres();
}

TEST(EstimatedLoads, findThePotFromTheJars) {
  // The jars' means stand for the drops at both ends of the run, so it is not exact.
  for (const double stop : {10.0, 25.0, 40.0, 55.0}) {
    const SteppedRun run = stepped_run(20.0, 28.0, 0.5, stop);
    const FilledJars filled = fill_loads(run.jars);
    EXPECT_FALSE(filled.left_assumed);
    EXPECT_NEAR(filled.alcohol_left.fraction(), run.alcohol_left, 0.02) << stop;
  }
}

TEST(EstimatedLoads, comeInTheirOrder) {
  const std::vector<Jar> jars = usual_jars();
  for (std::size_t i = 1; i < jars.size(); ++i) {
    EXPECT_LT(per_hL(jars[i], jars[i].early), per_hL(jars[i - 1], jars[i - 1].early));
    EXPECT_GT(per_hL(jars[i], jars[i].late), per_hL(jars[i - 1], jars[i - 1].late));
  }
}

TEST(EstimatedLoads, haveBandsThatSayHowLittleIsKnown) {
  for (const Jar& jar : usual_jars()) {
    for (const auto& load : {jar.early, jar.middle, jar.late}) {
      EXPECT_GE(load->high, load->low * 4.0);
      EXPECT_GE(load->mass, load->low);
      EXPECT_LE(load->mass, load->high);
    }
  }
}

TEST(EstimatedLoads, areNoMoreThanTheCharge) {
  const SteppedRun run = stepped_run(20.0, 28.0, 0.5, 2.0);
  const FilledJars filled = fill_loads(run.jars);
  units::Mass early, middle, late;
  for (const Jar& jar : filled.jars) {
    early += jar.early->mass;
    middle += jar.middle->mass;
    late += jar.late->mass;
  }
  // 5.6 L of alcohol; 60, 250 and 40 g/hL of it.
  EXPECT_NEAR(early.grams(), 0.60 * 5.6, 0.01 * 0.60 * 5.6);
  EXPECT_NEAR(middle.grams(), 2.50 * 5.6, 0.01 * 2.50 * 5.6);
  EXPECT_LT(late.grams(), 0.40 * 5.6);
}

TEST(EstimatedLoads, leaveWhatIsStatedAlone) {
  std::vector<Jar> jars = stepped_run(20.0, 28.0, 1.0, 10.0).jars;
  const Load stated{units::Mass::grams(0.2), units::Mass::grams(0.2), units::Mass::grams(0.2)};
  for (Jar& jar : jars) jar.late = stated;
  const FilledJars filled = fill_loads(jars);
  EXPECT_TRUE(filled.early_estimated && filled.middle_estimated && !filled.late_estimated);
  EXPECT_EQ(filled.jars.back().late->mass, stated.mass);
}

TEST(EstimatedLoads, doNotHangOnTheOrderOfNumberedJars) {
  const SteppedRun run = stepped_run(20.0, 28.0, 0.5, 10.0);
  std::vector<Jar> turned = run.jars;
  std::reverse(turned.begin(), turned.end());
  const FilledJars one = fill_loads(run.jars);
  const FilledJars other = fill_loads(turned);
  EXPECT_EQ(one.alcohol_left, other.alcohol_left);
  for (std::size_t i = 0; i < run.jars.size(); ++i) {
    EXPECT_EQ(one.jars[i].late->mass, other.jars[run.jars.size() - 1 - i].late->mass);
  }
}

TEST(EstimatedLoads, assumeWhatTheStrengthsDoNotTell) {
  std::vector<Jar> jars = stepped_run(20.0, 28.0, 0.5, 10.0).jars;
  for (Jar& jar : jars) jar.strength = units::VolumeStrength::percent(60.0);
  EXPECT_TRUE(fill_loads(jars).left_assumed);
  EXPECT_EQ(fill_loads(jars).alcohol_left, usual_alcohol_left);
  EXPECT_TRUE(fill_loads({jars.front()}).left_assumed);
}

}  // namespace
}  // namespace lynearm::still
