// A process killed under load: it tells each acknowledged entry through a pipe, is killed at a
// random moment, and the house is opened again. Nothing it told may be missing.
#include <gtest/gtest.h>
#include <poll.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <random>
#include <set>
#include <thread>

#include "store/entries.hpp"
#include "store/house.hpp"
#include "store/sqlite/database.hpp"
#include "store/temporary_folder.hpp"

namespace lynearm::store {
namespace {

constexpr int keepers = 4;

// In the child: keeps from several threads until it is killed.
[[noreturn]] void keep_for_ever(const std::filesystem::path& folder, std::uint64_t round,
                                int pipe) {
  House house({.folder = folder, .database = ""});
  std::vector<std::thread> threads;
  for (std::uint64_t thread = 0; thread < keepers; ++thread) {
    threads.emplace_back([&house, round, thread, pipe] {
      for (std::uint64_t i = 0;; ++i) {
        const std::uint64_t number = round << 24U | thread << 20U | i;
        static_cast<void>(
            house.journal().keep(std::vector{test::mash_temperature(number)}, test::noon));
        // Eight bytes go into a pipe whole or not at all.
        if (::write(pipe, &number, sizeof number) != sizeof number) ::_exit(1);
      }
    });
  }
  for (;;) ::pause();
}

// One life of the child, counted from its beginning or from the first entry it told. returns
// the numbers it told
std::vector<std::uint64_t> live_and_die(const std::filesystem::path& folder,
                                        std::uint64_t round, bool from_first,
                                        std::chrono::microseconds life) {
  int ends[2];
  if (::pipe(ends) != 0) throw std::runtime_error("no pipe");
  const pid_t child = ::fork();
  if (child == 0) {
    ::close(ends[0]);
    try {
      keep_for_ever(folder, round, ends[1]);
    } catch (...) {
      ::_exit(2);
    }
  }
  ::close(ends[1]);
  pollfd first{ends[0], POLLIN, 0};
  if (from_first) ::poll(&first, 1, 20'000);
  std::this_thread::sleep_for(life);
  ::kill(child, SIGKILL);
  int status = 0;
  ::waitpid(child, &status, 0);
  EXPECT_TRUE(WIFSIGNALED(status)) << "the child ended by itself: " << WEXITSTATUS(status);
  std::vector<std::uint64_t> told;
  std::uint64_t number = 0;
  while (::read(ends[0], &number, sizeof number) == sizeof number) told.push_back(number);
  ::close(ends[0]);
  return told;
}

TEST(KillTest, NothingAcknowledgedIsLostWhenTheProcessIsKilledTwoHundredTimes) {
  constexpr std::uint64_t rounds = 231, rounds_a_house = 20;
  std::mt19937_64 random(1126);
  std::size_t acknowledged = 0, killed_under_load = 0;
  std::unique_ptr<test::TemporaryFolder> folder;
  std::vector<std::uint64_t> told;
  for (std::uint64_t round = 1; round <= rounds; ++round) {
    if (round % rounds_a_house == 1) {
      folder = std::make_unique<test::TemporaryFolder>();
      told.clear();
    }
    // One in eleven dies at any moment of its youth, perhaps before the house is open.
    const bool from_first = round % 11 != 0;
    const auto life = std::chrono::microseconds(random() % 25'000);
    const auto now = live_and_die(folder->path(), round, from_first, life);
    told.insert(told.end(), now.begin(), now.end());
    acknowledged += now.size();
    if (!now.empty()) ++killed_under_load;

    {
      sqlite::Database database(folder->path() / "house.db", sqlite::Use::keep);
      ASSERT_EQ(database.text("PRAGMA integrity_check"), "ok") << "round " << round;
    }
    House house({.folder = folder->path(), .database = ""});
    std::set<journal::Id> there;
    house.journal().each([&there](const Numbered& one) { there.insert(one.entry.id); });
    for (const std::uint64_t number : told) {
      ASSERT_TRUE(there.contains(test::id_of(number))) << "lost in round " << round;
    }
  }
  std::printf("%llu kills, %zu of them under load, %zu entries acknowledged: 0 lost\n",
              static_cast<unsigned long long>(rounds), killed_under_load, acknowledged);
  EXPECT_GE(killed_under_load, 200U);
}

}  // namespace
}  // namespace lynearm::store
