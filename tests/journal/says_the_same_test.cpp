#include "journal/says_the_same.hpp"

#include <gtest/gtest.h>

namespace lynearm::journal {
namespace {

TEST(SaysTheSame, OfFiguresAboutAsGreat) {
  EXPECT_TRUE(says_the_same("28.0 L went in; there were 20.0 L.",
                            "27.5 L went in; there were 19.9 L."));
  EXPECT_TRUE(says_the_same("It was 3.3 h before.", "It was 2.5 h before."));
  EXPECT_TRUE(says_the_same("It was 60 min before.", "It was 1.2 h before.")) << "as long";
  EXPECT_TRUE(says_the_same("After one of 1.0350.", "After one of 1.0330."));
  EXPECT_TRUE(says_the_same("At 68 \u00b0C: dead.", "At 69 \u00b0C: dead."));
  EXPECT_TRUE(says_the_same("0.02 L are left.", "0.03 L are left."))
      << "a step of the last digit";
}

TEST(SaysTheSame, NotOfOtherFigures) {
  EXPECT_FALSE(says_the_same("62.0 L of clear wash.", "82.0 L of clear wash."));
  EXPECT_FALSE(says_the_same("After one of 1.0350.", "After one of 1.0450."));
  EXPECT_FALSE(says_the_same("At 68 \u00b0C: dead.", "At 75 \u00b0C: dead."));
  EXPECT_FALSE(says_the_same("It was 3.0 days before.", "It was 3.0 h before."));
}

TEST(SaysTheSame, NotOfAnotherJarBatchUnitOrWord) {
  EXPECT_FALSE(says_the_same("Jar 2 holds 0.5 L.", "Jar 3 holds 0.5 L."));
  EXPECT_FALSE(says_the_same("Hearts of Tern 8 held 0.5 L.", "Hearts of Tern 9 held 0.5 L."));
  EXPECT_FALSE(says_the_same("It holds 5.0 L.", "It holds 5.0 mL."));
  EXPECT_FALSE(says_the_same("It holds 5.0 L.", "It holds 5.0 L of it."));
  EXPECT_FALSE(says_the_same("", "5"));
  EXPECT_FALSE(says_the_same("5", "5.0 L"));
}

TEST(SaysTheSame, OfNamesThatLookLikeFiguresAsTheyStand) {
  EXPECT_TRUE(says_the_same("Cask 1e5, 2.0 L.", "Cask 1e5, 2.01 L."));
  EXPECT_FALSE(says_the_same("Cask 1e5.", "Cask 1e6."));
  EXPECT_FALSE(says_the_same("Lot T8 2.0 L.", "Lot T9 2.0 L."));
  EXPECT_FALSE(says_the_same("999999999999999999999999999", "999999999999999999999999998"));
}

}  // namespace
}  // namespace lynearm::journal
