#include "units/unit_in_name.hpp"

#include <gtest/gtest.h>

#include "units/quantity.hpp"

namespace lynearm::units {
namespace {

TEST(UnitInName, standsBehindTheNameAndAnUnderscore) {
  EXPECT_EQ(unit_behind("power", "power_W"), "W");
  EXPECT_EQ(unit_behind("power", "Power_kW"), "kW");
  EXPECT_EQ(unit_behind("power", "power"), "");
  for (const char* other : {"", "pow", "power_", "powers", "powerW", "horse_power_W"}) {
    EXPECT_FALSE(unit_behind("power", other)) << other;
  }
}

TEST(UnitInName, isSpeltWithPerForAStrokeAndAnUnderscoreForASpace) {
  const Kind& flow = kind<VolumeFlow>();
  EXPECT_EQ(unit_in_name("L_per_min", flow), flow.find("L/min"));
  EXPECT_EQ(unit_in_name("l_PER_min", flow), nullptr);  // "per" is ours, and written small
  const Kind& volume = kind<Volume>();
  EXPECT_NE(unit_in_name("fl_oz", volume), nullptr);
  EXPECT_EQ(unit_in_name("fl_oz", volume), volume.find("fl oz"));
  EXPECT_EQ(unit_in_name("ml", volume), volume.find("mL"));
  EXPECT_EQ(unit_in_name("kg", volume), nullptr);
  EXPECT_EQ(unit_in_name("", volume), nullptr);
}

TEST(BareNumber, isADecimalFigureAndNothingElse) {
  EXPECT_EQ(bare_number("62.4").value, 62.4);
  EXPECT_EQ(bare_number(" -5 ").value, -5.0);
  EXPECT_EQ(bare_number("+.5").value, 0.5);
  EXPECT_EQ(bare_number("1e1").value, 10.0);
  const std::string number = "a number without unit, which the head states";
  for (const char* text : {"", " ", "abc", "nan", "NaN", "inf", "-inf", "infinity", ".", "-",
                           "--5", "0x10", "62.4 %vol", "1 000", "1'000", "1..2", "1e"}) {
    EXPECT_EQ(bare_number(text).accepted, number) << text;
  }
  for (const char* text : {"62,4", "1,204.5"}) {
    EXPECT_EQ(bare_number(text).accepted,
              number + ", with a point as decimal mark and no separator of thousands");
  }
  for (const char* text : {"1e400", "-1e400", "1e-400"}) {
    EXPECT_EQ(bare_number(text).accepted, number + ", of a size that can be held") << text;
  }
}

TEST(BareNumber, isToldWhatStatesItsUnit) {
  EXPECT_EQ(bare_number("x", {}, "name").accepted,
            "a number without unit, which the name states");
  EXPECT_EQ(bare_number(1e308, Unit{"kW", 1000.0}, "name").accepted,
            "a number without unit, which the name states, of a size that can be held");
  EXPECT_EQ(bare_number(2.0, Unit{"kW", 1000.0}, "name").value, 2000.0);
}

}  // namespace
}  // namespace lynearm::units
