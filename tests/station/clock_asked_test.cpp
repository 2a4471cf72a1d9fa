// The clock by which a record is asked for: what is taken, and what is refused.
#include "station/clock_asked.hpp"

#include <gtest/gtest.h>

#include "base/error.hpp"

namespace lynearm::station {
namespace {

ClockAsked asked(serve::Pairs query) {
  serve::Request request;
  request.query = std::move(query);
  return clock_asked(request);
}

std::string refused(serve::Pairs query) {
  try {
    (void)asked(std::move(query));
  } catch (const base::InputError& error) {
    return error.what();
  }
  return "";
}

TEST(ClockAsked, IsUtcUntilSomethingElseIsAsked) {
  EXPECT_EQ(asked({}).minutes_east, 0);
  EXPECT_TRUE(asked({}).turns.empty());
  EXPECT_EQ(asked({{"minutes_east", "-210"}}).minutes_east, -210);
}

TEST(ClockAsked, TakesWhereTheClockWasPutOnOrBack) {
  const ClockAsked clock =
      asked({{"minutes_east", "120"},
             {"clock_turns", "60@2026-10-25T01:00:00.000Z,120@2027-03-28T01:00:00Z"}});
  ASSERT_EQ(clock.turns.size(), 2U);
  EXPECT_EQ(journal::print(clock.turns[0].at), "2026-10-25T01:00:00.000Z");
  EXPECT_EQ(clock.turns[0].minutes_east, 60);
  EXPECT_EQ(clock.turns[1].minutes_east, 120);
}

TEST(ClockAsked, RefusesWhatIsNoClock) {
  for (const char* east : {"841", "-841", "1h", "", "60 "}) {
    EXPECT_NE(refused({{"minutes_east", east}}).find("minutes_east"), std::string::npos)
        << east;
  }
  for (const char* turns :
       {"60", "60@", "@2026-10-25T01:00:00Z", "900@2026-10-25T01:00:00Z", "60@2026-13-25",
        "60@2026-10-25T01:00:00Z,120@2026-10-25T01:00:00Z",
        "120@2027-03-28T01:00:00Z,60@2026-10-25T01:00:00Z", ",60@2026-10-25T01:00:00Z"}) {
    EXPECT_NE(refused({{"clock_turns", turns}}).find("clock_turns"), std::string::npos)
        << turns;
  }
  std::string many;
  for (int i = 0; i < 65; ++i) many += "60@" + std::to_string(2000 + i) + "-10-25T01:00:00Z,";
  EXPECT_NE(refused({{"clock_turns", many}}).find("up to 64"), std::string::npos);
}

}  // namespace
}  // namespace lynearm::station
