#include "wire/figure.hpp"

#include <gtest/gtest.h>

#include <cmath>
#include <limits>

#include "base/error.hpp"

namespace lynearm::wire {
namespace {

TEST(Figure, hasTenSignificantDigits) {
  EXPECT_EQ(figure(1.0 / 3.0).dump(), "0.3333333333");
  EXPECT_EQ(figure(59.785731612345).dump(), "59.78573161");
  EXPECT_EQ(figure(123456789012.0).dump(), "123456789000.0");
  EXPECT_EQ(figure(0.1 + 0.2).dump(), "0.3");
}

TEST(Figure, isZeroWithoutASignWhenItIsNoise) {
  EXPECT_EQ(figure(-0.0).dump(), "0.0");
  EXPECT_EQ(figure(-8.9e-16).dump(), "0.0");
  EXPECT_EQ(figure(2e-9).dump(), "2e-09");
}

TEST(Figure, isNeverNotANumber) {
  EXPECT_THROW((void)figure(std::nan("")), base::BrokenInvariant);
  EXPECT_THROW((void)figure(std::numeric_limits<double>::infinity()), base::BrokenInvariant);
}

}  // namespace
}  // namespace lynearm::wire
