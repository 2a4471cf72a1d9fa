#include "journal/standing.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "journal/book.hpp"

namespace lynearm::journal {
namespace {

MashTemperature at_C(double t) { return {units::Temperature::celsius(t)}; }

// What stands of each first telling, in order: its temperature.
std::vector<double> temperatures(const Standings& all) {
  std::vector<double> found;
  for (const Standing& one : all.entries) {
    found.push_back(std::get<MashTemperature>(one.said->body).temperature.celsius());
  }
  return found;
}

class StandingTest : public testing::Test {
 protected:
  Book book;
  std::vector<double> now() {
    all = standings(book.entries);
    return temperatures(all);
  }
  Standings all;
};

using testing::DoubleNear;
using testing::ElementsAre;
using testing::IsEmpty;
auto near(double t) { return DoubleNear(t, 1e-9); }

TEST_F(StandingTest, OrderIsThatOfHappening) {
  book.tell(2, at_C(66));
  book.tell(1, at_C(67));
  EXPECT_THAT(now(), ElementsAre(near(67), near(66)));
}

TEST_F(StandingTest, AClockThatIsAheadIsPutBack) {
  book.tell(10, at_C(66));
  book.last().clock_ahead_ms = 9 * 60'000;
  book.tell(2, at_C(67));
  EXPECT_THAT(now(), ElementsAre(near(66), near(67)));
}

TEST_F(StandingTest, AtOneTimeTheIdDecides) {
  book.tell(1, at_C(66));
  book.tell(1, at_C(67));
  EXPECT_THAT(now(), ElementsAre(near(66), near(67)));
  std::swap(book.entries[0], book.entries[1]);
  EXPECT_THAT(now(), ElementsAre(near(66), near(67)));
}

TEST_F(StandingTest, WhatArrivedTwiceStandsOnce) {
  book.tell(1, at_C(66));
  book.entries.push_back(book.entries[0]);
  book.entries[1].received = minute(9);
  EXPECT_THAT(now(), ElementsAre(near(66)));
}

TEST_F(StandingTest, ACorrectionStandsInThePlaceOfWhatItCorrects) {
  const Id first = book.tell(1, at_C(37.2));
  book.tell(2, at_C(66));
  book.correct(first, 5, 1, at_C(73.2));
  EXPECT_THAT(now(), ElementsAre(near(73.2), near(66)));
  EXPECT_EQ(all.entries[0].id, first);
  EXPECT_EQ(all.entries[0].corrections, 1);
}

TEST_F(StandingTest, ACorrectionMayTellAnotherTime) {
  const Id first = book.tell(1, at_C(65));
  book.tell(2, at_C(66));
  book.correct(first, 5, 3, at_C(65));
  EXPECT_THAT(now(), ElementsAre(near(66), near(65)));
}

TEST_F(StandingTest, OfSeveralTheLastMadeCounts) {
  const Id first = book.tell(1, at_C(60));
  book.correct(first, 6, 1, at_C(62));
  book.correct(first, 5, 1, at_C(61));
  EXPECT_THAT(now(), ElementsAre(near(62)));
  EXPECT_EQ(all.entries[0].corrections, 2);
}

TEST_F(StandingTest, OfSeveralTheLastMadeCountsByTheHousesClock) {
  const Id first = book.tell(1, at_C(60));
  book.correct(first, 60, 1, at_C(61));
  book.last().clock_ahead_ms = 58 * 60'000;  // made at minute 2
  book.correct(first, 6, 1, at_C(62));
  EXPECT_THAT(now(), ElementsAre(near(62)));
}

// The phone was an hour ahead when it corrected; the laptop corrected that correction.
TEST_F(StandingTest, ACorrectionOfACorrectionCountsWhateverItsClockSays) {
  const Id first = book.tell(1, at_C(60));
  const Id phone = book.correct(first, 65, 1, at_C(61));
  book.correct(phone, 6, 1, at_C(62));
  EXPECT_THAT(now(), ElementsAre(near(62)));
}

TEST_F(StandingTest, StruckOutIsGone) {
  const Id first = book.tell(1, at_C(60));
  book.correct(first, 5, 1, Struck{"twice"});
  EXPECT_THAT(now(), IsEmpty());
  EXPECT_THAT(all.struck, ElementsAre(first));
  EXPECT_THAT(all.idle, IsEmpty());
}

TEST_F(StandingTest, AStruckCorrectionIsUndone) {
  const Id first = book.tell(1, at_C(60));
  const Id correction = book.correct(first, 5, 1, at_C(61));
  book.correct(correction, 6, 1, Struck{});
  EXPECT_THAT(now(), ElementsAre(near(60)));
}

TEST_F(StandingTest, StrikingOutIsUndoneByStrikingThat) {
  const Id first = book.tell(1, at_C(60));
  const Id strike = book.correct(first, 5, 1, Struck{});
  book.correct(strike, 6, 1, Struck{});
  EXPECT_THAT(now(), ElementsAre(near(60)));
}

TEST_F(StandingTest, StrikingOutIsUndoneByTellingItAgain) {
  const Id first = book.tell(1, at_C(60));
  const Id strike = book.correct(first, 5, 1, Struck{});
  book.correct(strike, 6, 1, at_C(61));
  EXPECT_THAT(now(), ElementsAre(near(61)));
  book.correct(first, 7, 1, Struck{});
  EXPECT_THAT(now(), IsEmpty());
  book.correct(first, 8, 1, at_C(62));
  EXPECT_THAT(now(), ElementsAre(near(62)));
}

TEST_F(StandingTest, ACorrectionOfAnotherKindOrBatchIsIdle) {
  const Id first = book.tell(1, at_C(60));
  const Id other_kind = book.correct(first, 5, 1, Note{"no", {}});
  const Id other_batch = book.correct(first, 6, 1, at_C(61));
  book.last().batch = id_at(0, 201);
  EXPECT_THAT(now(), ElementsAre(near(60)));
  ASSERT_EQ(all.idle.size(), 2U);
  EXPECT_EQ(all.idle[0].id, other_kind);
  EXPECT_EQ(all.idle[0].why, "it is of another kind than what it corrects");
  EXPECT_EQ(all.idle[1].id, other_batch);
  EXPECT_EQ(all.idle[1].why, "it is of another batch than what it corrects");
}

TEST_F(StandingTest, ACorrectionOfAnIdleOneStillCorrects) {
  const Id first = book.tell(1, at_C(60));
  const Id idle = book.correct(first, 5, 1, Note{"no", {}});
  book.correct(idle, 6, 1, at_C(61));
  EXPECT_THAT(now(), ElementsAre(near(61)));
}

TEST_F(StandingTest, ACorrectionOfWhatIsNotThereIsIdle) {
  book.correct(id_at(3, 99), 5, 1, at_C(61));
  EXPECT_THAT(now(), IsEmpty());
  ASSERT_EQ(all.idle.size(), 1U);
  EXPECT_EQ(all.idle[0].why,
            "what it corrects is not in the journal, or goes round in a circle");
}

TEST_F(StandingTest, CirclesAreIdle) {
  const Id one = book.correct(id_at(3, 99), 5, 1, at_C(61));
  const Id other = book.correct(one, 6, 1, at_C(62));
  book.entries[0].corrects = other;
  book.correct(other, 7, 1, at_C(63));
  book.correct(id_at(8, 4), 8, 1, at_C(64));  // itself
  ASSERT_EQ(book.last().corrects, book.last().id);
  EXPECT_THAT(now(), IsEmpty());
  EXPECT_EQ(all.idle.size(), 4U);
}

TEST_F(StandingTest, StrikingOutNothingIsIdle) {
  book.tell(1, Struck{});
  EXPECT_THAT(now(), IsEmpty());
  EXPECT_THAT(all.struck, IsEmpty());
  ASSERT_EQ(all.idle.size(), 1U);
  EXPECT_EQ(all.idle[0].why, "it strikes out, but names no entry");
}

}  // namespace
}  // namespace lynearm::journal
