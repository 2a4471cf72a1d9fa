// A followed run that is not as its kit says: readings that agree with each other win over what
// was believed, and what was doubted of them is believed again. Stray ones do not.
#include <gtest/gtest.h>

#include <cmath>
#include <functional>
#include <utility>

#include "still/followed.hpp"

namespace lynearm::still {
namespace {

using units::Duration;
using units::Temperature;
using units::VolumeStrength;

const numeric::Executor alone = numeric::one_after_another();

// A still that is not the believed one, and what it shows: read without error.
struct Other {
  Charge charge;
  RunSetting setting;
  [[nodiscard]] Run run() const {
    Stop stop;
    stop.spout_strength = VolumeStrength::percent(10.0);
    return distil(charge, setting, at_one_atmosphere(), stop);
  }
};

Other as_believed() {
  const StillPrior prior = prior_of_kit();
  return {prior.charge, prior.setting};
}

double first_drop_min(const Run& run) { return run.points.front().since_start.minutes(); }

Reading spout_of(const Run& run, double minutes) {
  const Sight seen = sight(run, Duration::minutes(minutes));
  Reading reading;
  reading.at = Duration::minutes(minutes);
  if (seen.spout) {
    reading.spout = spirit::Reading{seen.spout->percent(), spirit::Scale::percent_vol};
    reading.spout_temperature = Temperature::celsius(20.0);
  }
  reading.collected = seen.collected;
  return reading;
}

Duration hearts_end_of(const Follower& followed) {
  const Forecast forecast = forecast_of(followed);
  return decision_of(forecast, Decision::hearts_end)->at->median;
}

// Spout and jar read every so often from soon after the first drop on.
void expect_taken_in(const Other& other) {
  const Run run = other.run();
  const double end =
      when_spout_falls_to(run, VolumeStrength::percent(60.0))->since_start.minutes();
  const double first = first_drop_min(run) + 4.0;
  Follower followed = follower();
  const double believed_end = hearts_end_of(followed).minutes();
  const double off = std::abs(believed_end - end);
  for (int i = 0; i < 3; ++i) followed.take(spout_of(run, first + 8.0 * i), alone);
  EXPECT_TRUE(followed.doubts().empty());
  EXPECT_GT(followed.now().flow->median, units::VolumeFlow{});
  for (int i = 3; i < 6; ++i) {
    EXPECT_TRUE(followed.take(spout_of(run, first + 8.0 * i), alone).doubts.empty());
  }
  EXPECT_TRUE(followed.doubts().empty());
  EXPECT_LT(std::abs(hearts_end_of(followed).minutes() - end), std::fmax(0.35 * off, 8.0));
}

TEST(Reconsider, AStillThatHeatsAQuarterFasterIsTakenInAfterThreeReadings) {
  Other other = as_believed();
  other.setting.heating.efficiency = other.setting.heating.efficiency * 1.25;
  EXPECT_LT(first_drop_min(other.run()), 0.8 * first_drop_min(as_believed().run()));
  expect_taken_in(other);
}

TEST(Reconsider, AStillThatHeatsAFifthSlowerIsTakenInAfterThreeReadings) {
  Other other = as_believed();
  other.setting.heating.efficiency = other.setting.heating.efficiency * 0.8;
  EXPECT_GT(first_drop_min(other.run()), 1.25 * first_drop_min(as_believed().run()));
  expect_taken_in(other);
}

// The first drop early, and the flow as believed.
TEST(Reconsider, AChargeThatWasWarmIsTakenIn) {
  Other other = as_believed();
  other.charge.temperature = Temperature::celsius(36.0);
  EXPECT_LT(first_drop_min(other.run()), 0.8 * first_drop_min(as_believed().run()));
  expect_taken_in(other);
}

// Read before anything was expected to run: doubted while alone, believed once they are three.
TEST(Reconsider, DoubtsGiveWayWhenTheyAgree) {
  Other other = as_believed();
  other.setting.heating.efficiency = other.setting.heating.efficiency * 1.3;
  other.charge.temperature = Temperature::celsius(30.0);
  const auto run = other.run();
  const double first = first_drop_min(run) + 1.0;
  Follower followed = follower();
  EXPECT_EQ(followed.take(spout_of(run, first), alone).doubts.size(), 1U);
  EXPECT_FALSE(followed.now().spout.has_value());
  followed.take(spout_of(run, first + 2.0), alone);
  const Update third = followed.take(spout_of(run, first + 4.0), alone);
  EXPECT_TRUE(third.moved);
  EXPECT_TRUE(third.doubts.empty());
  EXPECT_TRUE(third.earlier.empty());
  EXPECT_TRUE(third.now.spout.has_value());
  // What was believed at first is still told beside what was learnt.
  const Learnt efficiency =
      followed.constants()[static_cast<std::size_t>(Constant::efficiency)];
  const Learnt told = follower().constants()[static_cast<std::size_t>(Constant::efficiency)];
  EXPECT_NEAR(efficiency.before_sd, told.before_sd, 0.01 * told.before_sd);
  EXPECT_GT(efficiency.value, told.value);
}

// Three that no still shows are three slips, and leave what was learnt as it was.
TEST(Reconsider, ThreeThatDoNotAgreeAreKeptNotBelieved) {
  Follower followed = followed_to(100.0);
  const double before = hearts_end_of(followed).minutes();
  for (const auto& [minutes, figure] : {std::pair{101.0, 37.2}, {103.0, 58.0}, {105.0, 17.4}}) {
    Reading slip;
    slip.at = Duration::minutes(minutes);
    slip.spout = spirit::Reading{figure, spirit::Scale::percent_vol};
    slip.spout_temperature = Temperature::celsius(20.0);
    EXPECT_EQ(followed.take(slip, alone).doubts.size(), 1U) << figure;
  }
  EXPECT_EQ(followed.doubts().size(), 3U);
  EXPECT_NEAR(hearts_end_of(followed).minutes(), before, 2.0);
}

TEST(Reconsider, TheSameForAnyNumberOfThreads) {
  Other other = as_believed();
  other.setting.heating.efficiency = other.setting.heating.efficiency * 1.3;
  const auto run = other.run();
  const numeric::Executor backwards = [](std::size_t count,
                                         const std::function<void(std::size_t)>& task) {
    for (std::size_t i = count; i > 0; --i) task(i - 1);
  };
  Follower one = follower(), other_way = follower();
  for (int i = 0; i < 3; ++i) {
    const Reading reading = spout_of(run, first_drop_min(run) + 2.0 + 3.0 * i);
    EXPECT_EQ(one.take(reading, alone).effective_members,
              other_way.take(reading, backwards).effective_members);
  }
  EXPECT_EQ(hearts_end_of(one), hearts_end_of(other_way));
}

}  // namespace
}  // namespace lynearm::still
