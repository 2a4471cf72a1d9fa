#include "serve/limits.hpp"

#include <gtest/gtest.h>

#include <string>

namespace lynearm::serve {
namespace {

using std::chrono::milliseconds;
const Meter::Time begin{};

TEST(Meter, LetsABurstThroughAndThenThePace) {
  Meter meter{10, 5};
  for (int i = 0; i < 5; ++i) EXPECT_TRUE(meter.take("a", begin));
  EXPECT_FALSE(meter.take("a", begin));
  EXPECT_FALSE(meter.take("a", begin + milliseconds{90}));
  EXPECT_TRUE(meter.take("a", begin + milliseconds{110}));
  EXPECT_FALSE(meter.take("a", begin + milliseconds{120}));
}

TEST(Meter, NeverHoldsMoreThanTheBurst) {
  Meter meter{10, 5};
  EXPECT_TRUE(meter.take("a", begin));
  const auto later = begin + std::chrono::hours{1};
  for (int i = 0; i < 5; ++i) EXPECT_TRUE(meter.take("a", later));
  EXPECT_FALSE(meter.take("a", later));
}

TEST(Meter, KeepsPeersApart) {
  Meter meter{1, 1};
  EXPECT_TRUE(meter.take("a", begin));
  EXPECT_TRUE(meter.take("b", begin));
  EXPECT_FALSE(meter.take("a", begin));
}

TEST(Meter, ForgetsPeersThatAreQuiet) {
  Meter meter{1, 1};
  for (int i = 0; i < 1024; ++i) EXPECT_TRUE(meter.take(std::to_string(i), begin));
  EXPECT_FALSE(meter.take("one more", begin));
  EXPECT_TRUE(meter.take("one more", begin + std::chrono::seconds{2}));
  EXPECT_EQ(meter.size(), 1U);
}

}  // namespace
}  // namespace lynearm::serve
