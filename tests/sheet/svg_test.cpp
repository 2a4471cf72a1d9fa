// The writer: what goes in as text comes out as text, whatever it is.
#include "sheet/svg.hpp"

#include <gtest/gtest.h>

#include <clocale>
#include <cmath>
#include <limits>

#include "base/error.hpp"
#include "sheet/well_formed.hpp"

namespace lynearm::sheet {
namespace {

TEST(Escape, writes_what_means_something_to_xml_as_entities) {
  EXPECT_EQ(escape("a<b & \"c\" > 'd'"), "a&lt;b &amp; &quot;c&quot; &gt; &#39;d&#39;");
  EXPECT_EQ(escape("20 °C · 55 %vol"), "20 °C · 55 %vol");
}

TEST(Escape, puts_a_mark_in_place_of_what_no_page_may_hold) {
  const std::string mark = "\xEF\xBF\xBD";
  EXPECT_EQ(escape(std::string("a\0b\x1b", 4)), "a" + mark + "b" + mark);
  EXPECT_EQ(escape("\xC3"), mark);                            // cut off
  EXPECT_EQ(escape("\xC0\xAF"), mark + mark);                 // longer than need be
  EXPECT_EQ(escape("\xED\xA0\x80"), mark + mark + mark);      // half of a pair
  EXPECT_EQ(escape("\xEF\xBF\xBF"), mark);                    // U+FFFF
  EXPECT_EQ(escape("\xF0\x9D\x84\x9E"), "\xF0\x9D\x84\x9E");  // U+1D11E is well
}

TEST(Number, is_plain_and_short) {
  EXPECT_EQ(number(0.0), "0");
  EXPECT_EQ(number(-0.0001), "0");
  EXPECT_EQ(number(12.50), "12.5");
  EXPECT_EQ(number(100.0), "100");
  EXPECT_EQ(number(-3.14159, 2), "-3.14");
  EXPECT_EQ(number(1e12), "1000000000000");
}

TEST(Number, is_never_NaN) {
  EXPECT_THROW((void)number(std::nan("")), base::BrokenInvariant);
  EXPECT_THROW((void)number(std::numeric_limits<double>::infinity()), base::BrokenInvariant);
  Path path;
  EXPECT_THROW(path.move(0.0, std::nan("")), base::BrokenInvariant);
}

TEST(Writer, closes_what_it_opens) {
  Writer out;
  out.open("p", {{"class", "a\"b"}}).text("1 < 2").leaf("br").element("b", {}, "&").close();
  EXPECT_EQ(out.finish().text, "<p class=\"a&quot;b\">1 &lt; 2<br/><b>&amp;</b></p>");
  EXPECT_EQ(fault_of_xml(out.finish().text), "");
  EXPECT_THROW(out.close(), base::BrokenInvariant);
  out.open("p");
  EXPECT_THROW((void)out.finish(), base::BrokenInvariant);
}

TEST(WellFormed, the_check_itself_finds_planted_faults) {
  EXPECT_EQ(fault_of_xml("<a b=\"c\"><d/>e &amp; f</a>"), "");
  for (const char* bad : {"<a>", "<a></b>", "<a>&nbsp;</a>", "<a b=c></a>", "<a b=\"<\"/>", "a",
                          "<a/><b/>", "<a b=\"1\" b=\"2\"/>", "", "<a>1 < 2</a>", "</a>"}) {
    EXPECT_NE(fault_of_xml(bad), "") << bad;
  }
}

}  // namespace
}  // namespace lynearm::sheet
