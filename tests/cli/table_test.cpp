#include "cli/table.hpp"

#include <gtest/gtest.h>

namespace lynearm::cli {
namespace {

TEST(Table, putsDecimalPointsUnderEachOther) {
  EXPECT_EQ(table({{"strength", "59.8 %vol", "at 20 °C"},
                   {"by mass", "8.25 %mass"},
                   {"density", "909.6 kg/m3", "here"}}),
            "  strength   59.8 %vol    at 20 °C\n"
            "  by mass     8.25 %mass\n"
            "  density   909.6 kg/m3   here\n");
}

TEST(Table, countsCharactersNotBytes) {
  EXPECT_EQ(columns("27.5 °C ± 1"), 11U);
  EXPECT_EQ(table({{"Köln", "1 °C", "a"}, {"Kiel", "2 kg", "b"}}),
            "  Köln  1 °C  a\n  Kiel  2 kg  b\n");
}

TEST(Table, ofNothingIsNothing) { EXPECT_EQ(table({}), ""); }

}  // namespace
}  // namespace lynearm::cli
