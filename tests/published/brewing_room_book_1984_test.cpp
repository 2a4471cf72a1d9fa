// The table of malt's specific heat and slaking temperature rise in the Brewing Room Book
// 1984/85, as quoted by another page (the book itself not opened). Specific heat is relative to
// water's, printed to 0.01.
#include <gtest/gtest.h>

#include "mash/heat.hpp"

namespace lynearm::mash {
namespace {

using units::HeatCapacity;
using units::Mass;
using units::Share;

struct Row {
  const char* source;
  double moisture_percent, specific_heat, rise_C;
};
// clang-format off
constexpr Row rows[] = {
    {"Brewing Room Book 1984/85, 0 % moisture", 0, .38, 3.0},
    {"Brewing Room Book 1984/85, 1 % moisture", 1, .38, 2.8},
    {"Brewing Room Book 1984/85, 2 % moisture", 2, .39, 2.3},
    // Printed 2.3 °C and 3.5 °F (1.9 °C): the row contradicts itself.
    {"Brewing Room Book 1984/85, 3 % moisture", 3, .40, 1.9},
    {"Brewing Room Book 1984/85, 4 % moisture", 4, .40, 1.5},
    {"Brewing Room Book 1984/85, 6 % moisture", 6, .41, 1.3},
    {"Brewing Room Book 1984/85, 8 % moisture", 8, .42, 1.0},
};
// clang-format on

TEST(BrewingRoomBook1984, specific_heat_of_malt) {
  for (const Row& row : rows) {
    const double ours =
        heat_capacity_of_grain(Mass::kilograms(1.0), Share::percent(row.moisture_percent))
            .kilojoules_per_kelvin() /
        4.187;
    EXPECT_NEAR(ours, row.specific_heat, 0.01) << row.source;
  }
}

TEST(BrewingRoomBook1984, rise_of_a_mash_at_2_6_litres_a_kilogram) {
  // Half of the last digit, and as much again because the thickness the table was made for is
  // not printed (2.5 to 2.7 L/kg).
  for (const Row& row : rows) {
    Contents liquor;
    liquor.water = Mass::kilograms(2.6);
    const Mass malt = Mass::kilograms(1.0);
    const Share moisture = Share::percent(row.moisture_percent);
    const HeatCapacity whole = heat_capacity(liquor) + heat_capacity_of_grain(malt, moisture);
    const double rise = hydration_heat(malt, moisture).joules() / whole.joules_per_kelvin();
    EXPECT_NEAR(rise, row.rise_C, 0.16) << row.source;
  }
}

}  // namespace
}  // namespace lynearm::mash
