#include "delimited/writer.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <vector>

#include "delimited/scanner.hpp"

namespace lynearm::delimited {
namespace {

std::string written(const std::vector<std::string_view>& cells) {
  std::string text;
  append_row(text, cells);
  return text;
}

TEST(Writer, quotesOnlyWhatNeedsIt) {
  EXPECT_EQ(written({"1", "62.4 %vol", " hearts ", ""}), "1,62.4 %vol, hearts ,\n");
  EXPECT_EQ(written({"a,b", "say \"when\"", "two\nlines", "a\rb"}),
            "\"a,b\",\"say \"\"when\"\"\",\"two\nlines\",\"a\rb\"\n");
}

TEST(Writer, oneEmptyCellIsNotAnEmptyLine) { EXPECT_EQ(written({""}), "\"\"\n"); }

TEST(Writer, aLeadingByteOrderMarkStaysInItsCell) {
  EXPECT_EQ(written({"\xEF\xBB\xBFjar"}), "\"\xEF\xBB\xBFjar\"\n");
}

RC_GTEST_PROP(Writer, whatIsWrittenIsReadBack,
              (const std::vector<std::vector<std::string>>& random)) {
  const auto cell = rc::gen::container<std::string>(
      rc::gen::element('a', ',', '"', '\n', '\r', ' ', '\xEF', '\xBB', '\xBF', '\0'));
  const auto table = *rc::gen::container<std::vector<std::vector<std::string>>>(
      rc::gen::nonEmpty(rc::gen::container<std::vector<std::string>>(cell)));
  std::string text;
  for (const auto& rows : {random, table}) {
    for (const std::vector<std::string>& row : rows) {
      if (row.empty()) continue;
      append_row(text, std::vector<std::string_view>(row.begin(), row.end()));
    }
  }
  Scanner scanner({});
  scanner.feed(text);
  scanner.finish();
  for (const auto& rows : {random, table}) {
    for (const std::vector<std::string>& row : rows) {
      if (row.empty()) continue;
      RC_ASSERT(scanner.next() == Scanner::Found::row);
      const std::vector<std::string> back(scanner.cells().begin(), scanner.cells().end());
      RC_ASSERT(back == row);
    }
  }
  RC_ASSERT(scanner.next() == Scanner::Found::nothing);
}

}  // namespace
}  // namespace lynearm::delimited
