#include "cli/visible.hpp"

#include <gtest/gtest.h>

namespace lynearm::cli {
namespace {

TEST(Visible, LeavesOrdinaryTextAlone) {
  for (const char* text : {"", "jar 7", "Bäche & Söhne", "21 °C", "酒", "<b>"}) {
    EXPECT_EQ(visible(text), text);
  }
}

TEST(Visible, ShowsWhatWouldActOnATerminal) {
  EXPECT_EQ(visible("\x1b[31mred"), "<U+001B>[31mred");
  EXPECT_EQ(visible("a\nb\tc\x7f"), "a<U+000A>b<U+0009>c<U+007F>");
  EXPECT_EQ(visible("\xC2\x9B"
                    "31m"),
            "<U+009B>31m");  // C1: the short form of ESC [
  EXPECT_EQ(visible("a\xE2\x80\xAE"
                    "b"),
            "a<U+202E>b");  // turns the direction of writing
}

TEST(Visible, ShowsBrokenBytesAsBroken) {
  EXPECT_EQ(visible("a\xFF"
                    "b"),
            "a\xEF\xBF\xBD"
            "b");
  EXPECT_EQ(visible("\xC0\x9B"), "\xEF\xBF\xBD\xEF\xBF\xBD");  // ESC in an overlong form
  EXPECT_EQ(visible("\xE2\x80"), "\xEF\xBF\xBD\xEF\xBF\xBD");
}

}  // namespace
}  // namespace lynearm::cli
