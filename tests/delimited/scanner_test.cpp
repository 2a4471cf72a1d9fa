#include "delimited/scanner.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>

#include "delimited/transcript.hpp"

namespace lynearm::delimited {
namespace {

// Fed whole; that any cutting gives the same is a property below.
std::string whole(std::string_view text, Limits limits = {}) {
  return transcript(text, text.size() + 1, limits);
}

struct Example {
  const char* source;
  const char* text;
  const char* rows;
};

// The examples of the RFC's definition, from memory.
// clang-format off
constexpr Example rfc_4180[] = {
    {"RFC 4180, 2.1: each record is located on a separate line",
     "aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", "1:aaa|bbb|ccc\n2:zzz|yyy|xxx\n"},
    {"RFC 4180, 2.2: the last record may or may not have an ending line break",
     "aaa,bbb,ccc\r\nzzz,yyy,xxx", "1:aaa|bbb|ccc\n2:zzz|yyy|xxx\n"},
    {"RFC 4180, 2.4: spaces are part of a field", " aaa , bbb,ccc\r\n", "1: aaa | bbb|ccc\n"},
    {"RFC 4180, 2.5: each field may be enclosed in double quotes",
     "\"aaa\",\"bbb\",\"ccc\"\r\nzzz,yyy,xxx", "1:aaa|bbb|ccc\n2:zzz|yyy|xxx\n"},
    {"RFC 4180, 2.6: fields with line breaks should be enclosed in double quotes",
     "\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", "1:aaa|b\r\nbb|ccc\n3:zzz|yyy|xxx\n"},
    {"RFC 4180, 2.7: a double quote inside a field is escaped by another one",
     "\"aaa\",\"b\"\"bb\",\"ccc\"", "1:aaa|b\"bb|ccc\n"},
};
// clang-format on

TEST(Scanner, readsTheExamplesOfItsRfc) {
  for (const Example& row : rfc_4180) EXPECT_EQ(whole(row.text), row.rows) << row.source;
}

TEST(Scanner, lfEndsALineAsCrlfDoes) {
  EXPECT_EQ(whole("a,b\nc,d\r\ne\n"), "1:a|b\n2:c|d\n3:e\n");
}

TEST(Scanner, passesOverAByteOrderMarkOnlyAtTheStart) {
  EXPECT_EQ(whole("\xEF\xBB\xBF\"a\",b\n"), "1:a|b\n");
  EXPECT_EQ(whole("a\n\xEF\xBB\xBFz\n"), "1:a\n2:\xEF\xBB\xBFz\n");
  EXPECT_EQ(whole("\xEF\xBB"), "1:\xEF\xBB\n");
  EXPECT_EQ(whole("\xEF\xBB\xBF"), "");
}

TEST(Scanner, skipsEmptyLinesAndStillCountsThem) {
  EXPECT_EQ(whole("\n\r\na\n\n\nb\n\n"), "3:a\n6:b\n");
  EXPECT_EQ(whole(" \n,\n"), "1: \n2:|\n");
}

TEST(Scanner, aQuotedEmptyCellAloneIsARow) { EXPECT_EQ(whole("a\n\"\"\n"), "1:a\n2:\n"); }

TEST(Scanner, cellsMayBeEmptyAnywhere) {
  EXPECT_EQ(whole(",a,\n,,\nb,"), "1:|a|\n2:||\n3:b|\n");
}

TEST(Scanner, quotedCellsHoldCommasLineEndsAndDoubledMarks) {
  EXPECT_EQ(whole("\"a,b\",\"\"\"\",\"\"\"x\"\"\"\"\"\n"), "1:a,b|\"|\"x\"\"\n");
  EXPECT_EQ(whole("\"\n\r\r\n\",y\nz\n"), "1:\n\r\r\n|y\n4:z\n");
}

TEST(Scanner, countsTheLinesInsideQuotedCells) {
  EXPECT_EQ(whole("a,\"1\n2\n3\"\nb,\"\n\"\nc\n"), "1:a|1\n2\n3\n4:b|\n\n6:c\n");
}

TEST(Scanner, aMarkInsideAPlainCellCostsThatLineOnly) {
  EXPECT_EQ(whole("a\nb,27\"5,c\nd\n"), "1:a\n2! stray mark in 1 of [27\"]\n3:d\n");
}

TEST(Scanner, textBehindAQuotedCellCostsThatLineOnly) {
  EXPECT_EQ(whole("\"a\"b\nc\n"), "1! stray mark in 0 of [\"a\"b]\n2:c\n");
  EXPECT_EQ(whole("\"a\" ,b\nc\n"), "1! stray mark in 0 of [\"a\" ]\n2:c\n");
}

TEST(Scanner, aForgottenMarkIsToldAtItsLineAndTheNextLinesAreRead) {
  EXPECT_EQ(whole("a\n\"b,1\nc,2\nd,3\n"), "1:a\n2! unclosed in 0 of [\"b,1]\n3:c|2\n4:d|3\n");
  EXPECT_EQ(whole("a\n\"b,1\n\"c\",2\nd,3\n"),
            "1:a\n2! stray mark in 0 of [\"b,1]\n3:c|2\n4:d|3\n");
}

TEST(Scanner, aFaultIsToldAtTheLineOnWhichItsCellBegins) {
  EXPECT_EQ(whole("\"1\n2\",\"x\ny\nz\n"), "2! unclosed in 1 of [\"x]\n3:y\n4:z\n");
}

TEST(Scanner, crAloneIsRefusedOutsideMarks) {
  EXPECT_EQ(whole("a\rb,c\nd\n"), "1! lone return in 0 of [a\rb]\n2:d\n");
  EXPECT_EQ(whole("a,b\r"), "1:a|b\n");  // at the end the LF may be missing too
}

TEST(Scanner, anythingElseIsContent) {
  using namespace std::string_view_literals;
  EXPECT_EQ(whole("\0,\xFF\x80\n"sv), "1:\0|\xFF\x80\n"sv);
}

TEST(Scanner, aCellOfTheMostBytesIsReadAndOneMoreIsNot) {
  const Limits four{.cell_bytes = 4};
  EXPECT_EQ(whole("abcd,e\nf\n", four), "1:abcd|e\n2:f\n");
  EXPECT_EQ(whole("abcde,e\nf\n", four), "1! long cell in 0 of [abcde]\n2:f\n");
  EXPECT_EQ(whole("abcde", four), "1! long cell in 0 of [abcde]\n");
  EXPECT_EQ(whole("\"abcd\",e\n", four), "1:abcd|e\n");
  EXPECT_EQ(whole("\"abcde\",e\nf\n", four), "1! unclosed in 0 of [\"abcde]\n2:f\n");
}

TEST(Scanner, aRowOfTheMostBytesIsReadAndOneMoreIsNot) {
  const Limits eight{.row_bytes = 8};
  EXPECT_EQ(whole("a,b,c,d\ne\n", eight), "1:a|b|c|d\n2:e\n");
  EXPECT_EQ(whole("a,b,c,d,e\nf\n", eight), "1! long row in 4 of []\n2:f\n");
  EXPECT_EQ(whole("a,\"b\nc\nd\ne\"\nf\n", eight),
            "1! unclosed in 1 of [\"b]\n2:c\n3:d\n4! stray mark in 0 of [e\"]\n5:f\n");
}

// A line without end is not held while its end is waited for.
TEST(Scanner, holdsNoMoreThanTheLimits) {
  const Limits limits{.cell_bytes = 100, .row_bytes = 1000};
  const std::string piece(64, 'x');
  for (const std::string first : {"", "\"", "a,\""}) {
    Scanner scanner(limits);
    scanner.feed(first);
    std::string told;
    std::size_t most = 0;
    for (int i = 0; i < 10000; ++i) {
      scanner.feed(piece);
      take(scanner, told);
      most = std::max(most, scanner.held());
    }
    EXPECT_LE(most, limits.cell_bytes + first.size() + piece.size());
    EXPECT_EQ(std::count(told.begin(), told.end(), '\n'), 1) << told;
  }
}

// Letters that mean something, and enough plain ones to make cells.
rc::Gen<std::string> texts() {
  return rc::gen::container<std::string>(rc::gen::weightedElement<char>(
      {{8, 'a'}, {4, ','}, {4, '"'}, {3, '\n'}, {1, '\r'}, {1, ' '}, {1, '\xEF'}}));
}

RC_GTEST_PROP(Scanner, theCuttingOfTheTextDoesNotMatter, ()) {
  const std::string text = *texts();
  const Limits limits{.cell_bytes = *rc::gen::element<std::size_t>(3, 1000),
                      .row_bytes = *rc::gen::element<std::size_t>(7, 1000)};
  const std::size_t piece = *rc::gen::inRange<std::size_t>(1, 8);
  RC_ASSERT(transcript(text, piece, limits) == whole(text, limits));
}

// Whatever stands before, the last line is read, and its number is right. The line before it
// ends every cell that is still open: as a cell of its own, or as a fault.
RC_GTEST_PROP(Scanner, noFaultSwallowsTheLinesBehindIt, ()) {
  const std::string before = *texts() + "\n\"b\"b\n";
  const auto line = 1 + std::count(before.begin(), before.end(), '\n');
  RC_ASSERT(whole(before + "last,line\n").ends_with(fmt::format("{}:last|line\n", line)));
}

}  // namespace
}  // namespace lynearm::delimited
