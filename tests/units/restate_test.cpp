#include "units/restate.hpp"

#include <gtest/gtest.h>

namespace lynearm::units {
namespace {

TEST(Restate, leaves_a_metric_sentence_alone) {
  EXPECT_EQ(restated("Heat 36.0 L to 68.9 °C", System::metric), "Heat 36.0 L to 68.9 °C");
}

TEST(Restate, replaces_each_figure_for_us_readers) {
  EXPECT_EQ(restated("Heat 36.0 L to 68.9 °C, 55 g of yeast", System::us),
            "Heat 9.51 gal to 156.0 °F, 1.94 oz of yeast");
}

TEST(Restate, adds_to_each_figure_for_both) {
  EXPECT_EQ(restated("Reduce with 2.00 kg of water", System::both),
            "Reduce with 2.00 kg (4.41 lb) of water");
}

TEST(Restate, takes_both_ends_of_a_range) {
  EXPECT_EQ(restated("thickest at 75 to 80 °C and", System::us),
            "thickest at 167.0 °F to 176.0 °F and");
}

TEST(Restate, a_change_of_temperature_has_no_zero_to_move) {
  EXPECT_EQ(restated("cools by 5.0 K in its rest", System::us), "cools by 9.0 °F in its rest");
}

TEST(Restate, leaves_compound_units_rooms_strengths_and_names_alone) {
  for (const char* sentence :
       {"60 mg/L short of 168", "at 0.5 g/L", "1.09 L/min of coolant", "the closed 8 m³ room",
        "55.0 %vol", "Strip 2 of 4", "4 Lintner", "70 cm² of wood"}) {
    EXPECT_EQ(restated(sentence, System::us), sentence);
  }
}

}  // namespace
}  // namespace lynearm::units
