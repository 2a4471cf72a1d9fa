// Work shared out over threads.
#include <gtest/gtest.h>

#include <atomic>
#include <stdexcept>
#include <vector>

#include "cli/threads.hpp"

namespace lynearm::cli {
namespace {

TEST(Threads, doEachTaskOnce) {
  for (const int threads : {1, 2, 5}) {
    std::vector<int> times(200, 0);  // each task has its own place
    on_threads(threads)(times.size(), [&](std::size_t task) { ++times[task]; });
    EXPECT_EQ(times, std::vector<int>(200, 1)) << threads;
  }
}

TEST(Threads, haveNothingToDoWithoutTasks) {
  int tasks = 0;
  on_threads(4)(0, [&](std::size_t) { ++tasks; });
  EXPECT_EQ(tasks, 0);
}

TEST(Threads, tellTheErrorOfTheLowestTaskThatFailed) {
  for (const int threads : {1, 4}) {
    try {
      on_threads(threads)(50, [](std::size_t task) {
        if (task < 3) throw std::runtime_error("task " + std::to_string(task));
      });
      ADD_FAILURE() << "no error";
    } catch (const std::runtime_error& error) {
      EXPECT_EQ(error.what(), std::string("task 0"));
    }
  }
}

TEST(Threads, tellTheirProgressToTheEnd) {
  std::size_t last = 0;
  std::size_t of = 0;
  std::atomic<std::size_t> begun{0};
  on_threads(2, [&](std::size_t done, std::size_t count) {
    EXPECT_GE(done, last);
    EXPECT_LE(done, begun.load() > count ? count : begun.load());
    last = done;
    of = count;
  })(30, [&](std::size_t) { ++begun; });
  EXPECT_EQ(last, 30U);
  EXPECT_EQ(of, 30U);
}

TEST(Threads, areAtLeastOne) { EXPECT_GE(all_cores(), 1); }

}  // namespace
}  // namespace lynearm::cli
