// What a pulled plug leaves: the journal on a disk that loses what was not synchronised.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "base/error.hpp"
#include "store/crash_disk.hpp"
#include "store/entries.hpp"
#include "store/journal.hpp"
#include "store/sqlite/engine.hpp"
#include "store/trouble.hpp"

namespace lynearm::store {
namespace {

using sqlite::Database;
using sqlite::SqliteEngine;
using sqlite::Use;
using test::CrashDisk;

const std::string file = "/house.db";

// The log is copied back into the file many times on the way.
constexpr int log_pages = 60;

std::unique_ptr<Journal> opened(CrashDisk& disk) {
  return std::make_unique<Journal>(
      std::make_unique<SqliteEngine>(file, Use::keep, disk.vfs(), log_pages));
}

// A note that fills some pages, and a short reading after it.
std::vector<journal::Entry> call(std::uint64_t number) {
  return {test::note(2 * number, std::string(300 + number % 7 * 1500,
                                             static_cast<char>('a' + number % 26))),
          test::mash_temperature(2 * number + 1)};
}

constexpr std::uint64_t calls = 220;

// Keeps until all is kept or the disk dies. returns the calls that were acknowledged
std::vector<std::uint64_t> keep_until_dead(CrashDisk& disk, std::uint64_t first = 0) {
  std::vector<std::uint64_t> acknowledged;
  try {
    const std::unique_ptr<Journal> journal = opened(disk);
    for (std::uint64_t number = first; number < first + calls; ++number) {
      static_cast<void>(journal->keep(call(number), test::noon));
      acknowledged.push_back(number);
    }
  } catch (const Trouble&) {
  } catch (const base::InputError&) {  // it died before the house was open
  }
  return acknowledged;
}

// Opens what is left, holds it against what was acknowledged. returns what is wrong
std::string fault_of(CrashDisk& disk, const std::vector<std::uint64_t>& acknowledged) {
  try {
    const std::unique_ptr<Journal> journal = opened(disk);
    Database database(file, Use::keep, disk.vfs());
    const std::string whole = database.text("PRAGMA integrity_check");
    if (whole != "ok") return "integrity_check: " + whole;
    std::map<journal::Id, journal::Entry> there;
    Sequence next = 1;
    journal->each([&](const Numbered& one) {
      if (one.sequence != next++) next = -1;
      there.emplace(one.entry.id, one.entry);
    });
    if (next < 1) return "places with a gap";
    for (const std::uint64_t number : acknowledged) {
      for (const journal::Entry& entry : call(number)) {
        const auto found = there.find(entry.id);
        if (found == there.end()) return "lost: call " + std::to_string(number);
        if (!same(found->second, entry)) return "changed: call " + std::to_string(number);
      }
    }
    // No call was kept by halves.
    if (there.size() % 2 != 0) return "half a call";
    for (const auto& [id, entry] : there) {
      const bool is_note = std::holds_alternative<journal::Note>(entry.body);
      if (is_note && !there.contains(call(static_cast<std::uint64_t>(id.made().milliseconds -
                                                                     test::noon.milliseconds) /
                                          2)[1]
                                         .id)) {
        return "half a call";
      }
    }
    static_cast<void>(journal->keep(std::vector{test::note(1'000'000, "goes on")}, test::noon));
  } catch (const Trouble& trouble) {
    return trouble.what() + ("; " + trouble.detail());
  } catch (const std::exception& error) {
    return error.what();
  }
  return "";
}

TEST(CrashTest, NothingAcknowledgedIsLostWhereverThePlugIsPulled) {
  CrashDisk whole;
  ASSERT_EQ(keep_until_dead(whole).size(), calls);
  // The log was copied back on the way, so crashes fall into that too.
  ASSERT_GT(whole.syncs(), calls + 30);

  std::mt19937_64 random(20261126);
  std::size_t crashes = 0, with_acknowledged = 0;
  const auto crash_at = [&](std::size_t operation) {
    CrashDisk disk;
    disk.die_at(operation);
    const auto acknowledged = keep_until_dead(disk);
    ++crashes;
    if (!acknowledged.empty()) ++with_acknowledged;
    const auto after = disk.after_crash(random);
    ASSERT_EQ(fault_of(*after, acknowledged), "") << "crash at operation " << operation;
  };
  // Each operation of making the file, then spread over all that follow.
  constexpr std::size_t early = 60, spread = 220;
  for (std::size_t operation = 1; operation <= early; ++operation) crash_at(operation);
  const std::size_t later = whole.operations() - early;
  for (std::size_t i = 1; i <= spread; ++i) crash_at(early + i * later / (spread + 1));
  std::printf("%zu crashes, %zu of them after something was acknowledged: 0 entries lost\n",
              crashes, with_acknowledged);
  EXPECT_GE(with_acknowledged, 200U);
}

TEST(CrashTest, ASecondCrashWhileTheFirstIsBeingMendedLosesNothing) {
  std::mt19937_64 random(4711);
  for (std::size_t operation = 40; operation < 1500; operation += 61) {
    CrashDisk disk;
    disk.die_at(operation);
    auto acknowledged = keep_until_dead(disk);
    const auto second = disk.after_crash(random);
    second->die_at(1 + operation % 37);
    const auto more = keep_until_dead(*second, 10'000);
    acknowledged.insert(acknowledged.end(), more.begin(), more.end());
    const auto third = second->after_crash(random);
    ASSERT_EQ(fault_of(*third, acknowledged), "") << "crash at operation " << operation;
  }
}

TEST(CrashTest, EveryAcknowledgementWaitsForItsOwnSynchronisation) {
  CrashDisk disk;
  const std::unique_ptr<Journal> journal = opened(disk);
  for (std::uint64_t number = 0; number < 20; ++number) {
    const std::size_t before = disk.syncs();
    static_cast<void>(journal->keep(call(number), test::noon));
    EXPECT_GT(disk.syncs(), before);
  }
}

TEST(CrashTest, ASynchronisationThatFailsOnceAcknowledgesNothingAndLosesNothing) {
  for (std::uint64_t failing = 0; failing < 30; ++failing) {
    CrashDisk disk;
    std::vector<std::uint64_t> acknowledged;
    {
      const std::unique_ptr<Journal> journal = opened(disk);
      for (std::uint64_t number = 0; number < 40; ++number) {
        if (number == failing) disk.fail_next_sync();
        try {
          static_cast<void>(journal->keep(call(number), test::noon));
          acknowledged.push_back(number);
        } catch (const Trouble&) {
          EXPECT_EQ(number, failing);
        }
      }
    }
    EXPECT_EQ(acknowledged.size(), 39U);
    std::mt19937_64 random(failing);
    const auto after = disk.after_crash(random);
    ASSERT_EQ(fault_of(*after, acknowledged), "") << failing;
  }
}

TEST(CrashTest, AFullDiskIsToldAndNothingIsHalfKept) {
  CrashDisk disk;
  disk.room(400'000);
  std::vector<std::uint64_t> acknowledged;
  const std::unique_ptr<Journal> journal = opened(disk);
  std::size_t refused = 0;
  for (std::uint64_t number = 0; number < 60; ++number) {
    try {
      static_cast<void>(journal->keep(call(number), test::noon));
      acknowledged.push_back(number);
    } catch (const Trouble& trouble) {
      EXPECT_EQ(trouble.kind(), Trouble::Kind::full);
      EXPECT_THAT(trouble.what(), ::testing::HasSubstr("full"));
      ++refused;
    }
  }
  EXPECT_GT(acknowledged.size(), 5U);
  EXPECT_GT(refused, 5U);
  // With room again the same calls go through, and what was refused is not there twice.
  disk.room(SIZE_MAX);
  for (std::uint64_t number = 0; number < 60; ++number) {
    static_cast<void>(journal->keep(call(number), test::noon));
    if (std::find(acknowledged.begin(), acknowledged.end(), number) == acknowledged.end()) {
      acknowledged.push_back(number);
    }
  }
  EXPECT_EQ(journal->last(), 120);
  std::mt19937_64 random(1);
  EXPECT_EQ(fault_of(*disk.after_crash(random), acknowledged), "");
}

}  // namespace
}  // namespace lynearm::store
