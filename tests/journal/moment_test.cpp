#include "journal/moment.hpp"

#include <fmt/format.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace lynearm::journal {
namespace {

std::string read_and_print(std::string_view text) {
  const auto moment = read_moment(text);
  return moment ? print(*moment) : "nothing";
}

// RFC 3339, section 5.8 prints five examples. Two lie within a journal's years and on a clock
// without leap seconds; the two of 1990 are one leap second, the last is of 1937.
TEST(Moment, ReadsTheExamplesOfTheStandardThatAJournalMayHold) {
  EXPECT_EQ(read_and_print("1985-04-12T23:20:50.52Z"), "1985-04-12T23:20:50.520Z");
  EXPECT_EQ(read_and_print("1996-12-19T16:39:57-08:00"), "1996-12-20T00:39:57.000Z");
  EXPECT_EQ(read_moment("1996-12-19T16:39:57-08:00"), read_moment("1996-12-20T00:39:57Z"));
  EXPECT_EQ(read_and_print("1990-12-31T23:59:60Z"), "nothing");
  EXPECT_EQ(read_and_print("1990-12-31T15:59:60-08:00"), "nothing");
  EXPECT_EQ(read_and_print("1937-01-01T12:00:27.87+00:20"), "nothing");
}

TEST(Moment, ReadsEitherCaseAndCutsWhatIsFinerThanAMillisecond) {
  EXPECT_EQ(read_and_print("2026-11-26t01:02:03.4569z"), "2026-11-26T01:02:03.456Z");
  EXPECT_EQ(read_and_print("2026-11-26T01:02:03.000000000000000000000009-00:00"),
            "2026-11-26T01:02:03.000Z");
  EXPECT_EQ(read_and_print("2026-11-26T00:10:00+23:59"), "2026-11-25T00:11:00.000Z");
}

TEST(Moment, HoldsToTheFirstAndTheLast) {
  EXPECT_EQ(read_moment("1970-01-01T00:00:00Z"), first_moment);
  EXPECT_EQ(read_moment("2199-12-31T23:59:59.999Z"), last_moment);
  EXPECT_EQ(read_and_print("2200-01-01T00:00:00Z"), "nothing");
  EXPECT_EQ(read_and_print("1969-12-31T23:59:59.999Z"), "nothing");
  EXPECT_EQ(read_and_print("1970-01-01T00:00:00+00:01"), "nothing");
}

TEST(Moment, RefusesEveryDayThatNoMonthHas) {
  for (int year : {1999, 2000, 2024, 2026, 2100}) {
    const bool leap = year % 4 == 0 && (year % 100 != 0 || year % 400 == 0);
    for (int month = 0; month <= 99; ++month) {
      constexpr int lengths[] = {0, 31, 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31};
      const int days = month > 12 ? 0 : lengths[month] + (month == 2 && leap ? 1 : 0);
      for (int day = 0; day <= 99; ++day) {
        const std::string text = fmt::format("{}-{:02}-{:02}T12:00:00Z", year, month, day);
        EXPECT_EQ(read_moment(text).has_value(), day >= 1 && day <= days) << text;
      }
    }
  }
}

TEST(Moment, RefusesTimesThatNoClockShows) {
  for (int figure = 0; figure <= 99; ++figure) {
    EXPECT_EQ(read_moment(fmt::format("2026-11-26T{:02}:00:00Z", figure)).has_value(),
              figure < 24);
    EXPECT_EQ(read_moment(fmt::format("2026-11-26T00:{:02}:00Z", figure)).has_value(),
              figure < 60);
    EXPECT_EQ(read_moment(fmt::format("2026-11-26T00:00:{:02}Z", figure)).has_value(),
              figure < 60);
    EXPECT_EQ(read_moment(fmt::format("2026-11-26T00:00:00-{:02}:00", figure)).has_value(),
              figure < 24);
    EXPECT_EQ(read_moment(fmt::format("2026-11-26T00:00:00+00:{:02}", figure)).has_value(),
              figure < 60);
  }
}

TEST(Moment, RefusesAnyOtherText) {
  for (const char* text :
       {"", "2026-11-26", "2026-11-26T01:02:03", "2026-11-26 01:02:03Z", "2026-11-26T01:02Z",
        "2026-11-26T01:02:03.Z", "2026-11-26T01:02:03,5Z", "2026-11-26T01:02:03+0100",
        "2026-11-26T01:02:03ZZ", " 2026-11-26T01:02:03Z", "2026-1-26T01:02:03Z",
        "+2026-11-26T01:02:03Z", "20261126T010203Z", "2026-11-26T01:02:-3Z"}) {
    EXPECT_FALSE(read_moment(text)) << text;
  }
}

TEST(Moment, PrintsTheYearsNoughtTo9999) {
  EXPECT_EQ(print(Moment{-62'167'219'200'000}), "0000-01-01T00:00:00.000Z");
  EXPECT_EQ(print(Moment{253'402'300'799'999}), "9999-12-31T23:59:59.999Z");
  EXPECT_EQ(print(Moment{-1}), "1969-12-31T23:59:59.999Z");
}

RC_GTEST_PROP(MomentProperty, PrintsAndReadsBack, ()) {
  const auto at = *rc::gen::inRange<std::int64_t>(0, last_moment.milliseconds + 1);
  RC_ASSERT(read_moment(print(Moment{at})) == Moment{at});
}

TEST(Moment, HowLongIsToldInTheUnitThatSuitsIt) {
  EXPECT_EQ(how_long(units::Duration::seconds(24)), "24 s");
  EXPECT_EQ(how_long(units::Duration::minutes(89)), "89 min");
  EXPECT_EQ(how_long(units::Duration::hours(35.0)), "35.0 h");
  EXPECT_EQ(how_long(units::Duration::days(7.13)), "7.1 days");
}

RC_GTEST_PROP(MomentProperty, AnOffsetIsTakenOff, ()) {
  const auto at = *rc::gen::inRange<std::int64_t>(86'400'000, last_moment.milliseconds);
  const int minutes = *rc::gen::inRange(-1439, 1440);
  std::string text = print(Moment{at + minutes * std::int64_t{60'000}});
  const int size = minutes < 0 ? -minutes : minutes;
  text.pop_back();
  text += fmt::format("{}{:02}:{:02}", minutes < 0 ? '-' : '+', size / 60, size % 60);
  RC_ASSERT(read_moment(text) == Moment{at});
}

}  // namespace
}  // namespace lynearm::journal
