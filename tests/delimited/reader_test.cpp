#include "delimited/reader.hpp"

#include <gtest/gtest.h>

#include <string>
#include <vector>

namespace lynearm::delimited {
namespace {

using Rows = std::vector<std::vector<std::string>>;

struct Told {
  Rows rows;
  std::vector<std::string> faults;
};

Told read(std::string_view text, Limits limits = {}) {
  Reader reader("jars.csv", limits);
  reader.feed(text);
  reader.finish();
  Told told;
  while (const std::optional<Row> row = reader.next()) {
    if (row->fault) {
      told.faults.push_back(base::sentence(*row->fault));
    } else {
      told.rows.emplace_back(row->cells.begin(), row->cells.end());
    }
  }
  return told;
}

std::string fault(std::string_view text, Limits limits = {}) {
  const Told told = read(text, limits);
  EXPECT_EQ(told.faults.size(), 1U) << text;
  return told.faults.empty() ? "" : told.faults.front();
}

std::string head_fault(std::string_view text) {
  Reader reader("jars.csv");
  reader.feed(text);
  reader.finish();
  try {
    (void)reader.head();
  } catch (const base::InputError& error) {
    return error.what();
  }
  ADD_FAILURE() << "not refused: " << text;
  return "";
}

TEST(Reader, theHeadNamesTheColumnsAndIsNotARow) {
  Reader reader("jars.csv");
  EXPECT_EQ(reader.head(), nullptr);
  reader.feed("\n\"jar\",no");
  EXPECT_EQ(reader.head(), nullptr);
  EXPECT_FALSE(reader.next());
  reader.feed("te\n");
  ASSERT_NE(reader.head(), nullptr);
  EXPECT_EQ(reader.head()->columns, (std::vector<std::string>{"jar", "note"}));
  EXPECT_EQ(reader.head()->line, 2);
  EXPECT_FALSE(reader.next());
}

TEST(Reader, aRowIsHandedOutAsSoonAsItsLineHasEnded) {
  Reader reader("jars.csv");
  reader.feed("jar,note\n1,hearts");
  EXPECT_FALSE(reader.next());
  reader.feed("\n2");
  const std::optional<Row> row = reader.next();
  ASSERT_TRUE(row);
  EXPECT_EQ(row->line, 2);
  EXPECT_EQ(row->cells[1], "hearts");
  EXPECT_FALSE(reader.next());
  reader.feed(",tails");
  EXPECT_FALSE(reader.next());
  reader.finish();
  EXPECT_EQ(reader.next()->cells[1], "tails");
  EXPECT_FALSE(reader.next());
}

TEST(Reader, aHeadWithoutRowsIsATable) {
  EXPECT_EQ(read("jar,note\n").rows, Rows{});
  EXPECT_EQ(read("jar,note").rows, Rows{});
}

TEST(Reader, aRowWithAnotherNumberOfCellsIsAFaultOfThatRow) {
  const Told told = read("jar,note\n1\n2,hearts\n3,tails,late\n");
  EXPECT_EQ(told.rows, (Rows{{"2", "hearts"}}));
  EXPECT_EQ(told.faults,
            (std::vector<std::string>{"jars.csv:2: number of cells is \"1\"; accepted: 2, one "
                                      "for each column of the head line.",
                                      "jars.csv:4: number of cells is \"3\"; accepted: 2, one "
                                      "for each column of the head line."}));
}

TEST(Reader, aStrayMarkIsToldAtItsColumn) {
  EXPECT_EQ(fault("jar,note\n1,27\"5\n"),
            "jars.csv:2: column note is \"27\"\"; accepted: quote marks only around a whole "
            "cell, and doubled inside a quoted one.");
}

TEST(Reader, anUnclosedMarkIsToldAtItsLine) {
  const Told told = read("jar,note\n1,\"a\nb\"\n2,\"hearts\n3,tails\n");
  EXPECT_EQ(told.rows, (Rows{{"1", "a\nb"}, {"3", "tails"}}));
  EXPECT_EQ(told.faults, (std::vector<std::string>{
                             "jars.csv:4: column note is \"\"hearts\"; accepted: a closing "
                             "quote mark within 65536 bytes."}));
}

TEST(Reader, aLoneCarriageReturnIsRefused) {
  EXPECT_EQ(fault("jar,note\n1,a\r2,b\n"),
            "jars.csv:2: column note is \"a\r2\"; accepted: line ends of LF or CRLF, and CR "
            "only inside quote marks.");
}

TEST(Reader, whatIsTooLongIsToldWithItsLimit) {
  const Limits limits{.cell_bytes = 10, .row_bytes = 16};
  EXPECT_EQ(fault("jar,note\n1,hearts and tails\n", limits),
            "jars.csv:2: length of column note is \"more than 10 bytes\"; accepted: at most 10 "
            "bytes.");
  EXPECT_EQ(fault("jar,note\n1,a,b,c,d,e,f,g,h,i\n", limits),
            "jars.csv:2: length of the row is \"more than 16 bytes\"; accepted: at most 16 "
            "bytes.");
}

TEST(Reader, aCellWithoutAPresentableHeadIsNumbered) {
  EXPECT_EQ(fault("jar,\"\x1B[2J\"\n1,\"a\"b\n"),
            "jars.csv:2: cell 2 is \"\"a\"b\"; accepted: quote marks only around a whole cell, "
            "and doubled inside a quoted one.");
  EXPECT_EQ(
      fault("jar\n1,2,a\"\n"),
      "jars.csv:2: cell 3 is \"a\"\"; accepted: quote marks only around a whole cell, and "
      "doubled inside a quoted one.");
}

TEST(Reader, withoutAHeadLineThereIsNoTable) {
  const std::string missing =
      "jars.csv:1: head line is missing; accepted: a first line that names the columns.";
  EXPECT_EQ(head_fault(""), missing);
  EXPECT_EQ(head_fault("\n\r\n"), missing);
  EXPECT_EQ(head_fault("\"jar,note\n1,2\n"),
            "jars.csv:1: cell 1 is \"\"jar,note\"; accepted: a closing quote mark within 65536 "
            "bytes.");
}

TEST(Reader, textInUtf16IsToldAsSuch) {
  using namespace std::string_view_literals;
  const std::string utf_16 = "jars.csv:1: encoding of the text is \"UTF-16\"; accepted: UTF-8.";
  EXPECT_EQ(head_fault("\xFF\xFEj\0,\0n\0\n\0"sv), utf_16);
  EXPECT_EQ(head_fault("\xFE\xFF\0j\0,\0n\0\n"sv), utf_16);
}

// A hundred thousand rows go through without being kept.
TEST(Reader, aLongTextIsReadInConstantMemory) {
  Reader reader("jars.csv");
  reader.feed("jar,reading,note\n");
  std::size_t rows = 0;
  std::size_t most = 0;
  std::string piece;
  for (int block = 0; block < 1000; ++block) {
    piece.clear();
    for (int i = 0; i < 100; ++i) {
      piece += std::to_string(100 * block + i) + ",62.4 %vol,\"hearts,\nclear\"\r\n";
    }
    reader.feed(piece);
    while (const std::optional<Row> row = reader.next()) {
      ASSERT_FALSE(row->fault);
      ASSERT_EQ(row->line, 2 + 2 * static_cast<int>(rows));
      ASSERT_EQ(row->cells[0], std::to_string(rows));
      ASSERT_EQ(row->cells[2], "hearts,\nclear");
      ++rows;
    }
    most = std::max(most, reader.held());
  }
  reader.finish();
  EXPECT_FALSE(reader.next());
  EXPECT_EQ(rows, 100000U);
  EXPECT_LE(most, 5000U);
}

}  // namespace
}  // namespace lynearm::delimited
