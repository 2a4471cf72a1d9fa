#include "still/cuts.hpp"

#include <gtest/gtest.h>

#include <cmath>

#include "base/error.hpp"
#include "still/runs.hpp"

namespace lynearm::still {
namespace {

using units::Temperature;
using units::Volume;
using units::VolumeStrength;

const still::Run& spirit_run() {
  static const still::Run run = run_of(100.0, 28.0, 5.0, 15.0);
  return run;
}

base::Fault fault_of(const Borders& borders) {
  try {
    (void)cut(spirit_run(), borders);
  } catch (const base::InputError& error) {
    return error.faults().front();
  }
  return {"nothing was refused", "", "", "", 0, 0};
}

TEST(Cut, PartsTheDistillateWithoutLoss) {
  const Cuts cuts = cut(spirit_run(), {Volume::litres(1.0), VolumeStrength::percent(74.0),
                                       Temperature::celsius(88.0)});
  const spirit::Lot sum =
      cuts.foreshots.lot + cuts.heads.lot + cuts.hearts.lot + cuts.tails.lot;
  EXPECT_NEAR(sum.ethanol / spirit_run().distillate().ethanol, 1.0, 1e-14);
  EXPECT_NEAR(sum.water / spirit_run().distillate().water, 1.0, 1e-14);
  EXPECT_NEAR(cuts.foreshots.volume.litres(), 1.0, 1e-9);
  EXPECT_NEAR(cuts.hearts.from.spout.percent(), 74.0, 1e-9);
  EXPECT_NEAR(cuts.hearts.to.head_temperature.celsius(), 88.0, 1e-8);
  EXPECT_GT(cuts.foreshots.strength, cuts.hearts.strength);
  EXPECT_GT(cuts.hearts.strength, cuts.tails.strength);
  const auto time = cuts.foreshots.duration() + cuts.heads.duration() + cuts.hearts.duration() +
                    cuts.tails.duration();
  EXPECT_NEAR(time / spirit_run().last().since_boiling, 1.0, 1e-14);
}

TEST(Cut, OfAWhiskyRunHasHeartsOfTheTradesStrength) {
  // Hearts 63 to 71 %, feints about 25 % (a trade page; feints of the heads and tails together
  // depend on where the run ends). Cut at 73 and 62 % and run to 5 %, in a plain pot.
  const still::Run run = run_of(100.0, 28.0, 0.0, 5.0);
  const Cuts cuts = cut(
      run, {Volume::litres(1.0), VolumeStrength::percent(73.0), VolumeStrength::percent(62.0)});
  EXPECT_GT(cuts.hearts.strength.percent(), 63.0);
  EXPECT_LT(cuts.hearts.strength.percent(), 71.0);
}

TEST(Cut, AtOneMomentLeavesAnEmptyFraction) {
  const Cuts cuts = cut(
      spirit_run(), {Volume::litres(0.0), Volume::litres(0.0), VolumeStrength::percent(60.0)});
  EXPECT_EQ(cuts.foreshots.volume.litres(), 0.0);
  EXPECT_EQ(cuts.heads.volume.litres(), 0.0);
  EXPECT_EQ(cuts.heads.strength.percent(), 0.0);
  EXPECT_GT(cuts.hearts.volume.litres(), 20.0);
}

TEST(Cut, ThatTheRunDoesNotReachIsNamedWithWhatItReaches) {
  const base::Fault late = fault_of(
      {Volume::litres(1.0), VolumeStrength::percent(74.0), VolumeStrength::percent(10.0)});
  EXPECT_EQ(late.field, "cuts.hearts_end");
  EXPECT_EQ(late.value, "10.00 %vol");
  EXPECT_NE(late.accepted.find("down to 15.00 %vol"), std::string::npos) << late.accepted;

  const base::Fault strong = fault_of(
      {Volume::litres(1.0), VolumeStrength::percent(80.0), VolumeStrength::percent(60.0)});
  EXPECT_EQ(strong.field, "cuts.hearts_begin");

  const base::Fault much = fault_of(
      {Volume::litres(500.0), VolumeStrength::percent(74.0), VolumeStrength::percent(60.0)});
  EXPECT_EQ(much.field, "cuts.foreshots_end");
}

TEST(Cut, OutOfOrderIsNamed) {
  EXPECT_EQ(fault_of({Volume::litres(20.0), VolumeStrength::percent(74.0),
                      VolumeStrength::percent(60.0)})
                .field,
            "cuts.hearts_begin");
  EXPECT_EQ(fault_of({Volume::litres(1.0), VolumeStrength::percent(60.0),
                      VolumeStrength::percent(65.0)})
                .field,
            "cuts.hearts_end");
}

TEST(Jars, HoldTheRunInOrder) {
  const std::vector<Fraction> jars = into_jars(spirit_run(), Volume::litres(1.5));
  spirit::Lot sum;
  for (std::size_t i = 0; i < jars.size(); ++i) {
    sum = sum + jars[i].lot;
    if (i > 0) {
      EXPECT_LT(jars[i].strength, jars[i - 1].strength) << i;
    }
  }
  EXPECT_NEAR(sum.ethanol / spirit_run().distillate().ethanol, 1.0, 1e-13);
  EXPECT_NEAR(jars.front().volume.litres(), 1.5, 1e-9);
  EXPECT_EQ(jars.size(),
            static_cast<std::size_t>(std::ceil(spirit_run().last().collected.litres() / 1.5)));
  EXPECT_THROW((void)into_jars(spirit_run(), Volume::litres(0.0)), base::InputError);
}

}  // namespace
}  // namespace lynearm::still
