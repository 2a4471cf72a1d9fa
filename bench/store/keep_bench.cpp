// What a reading waits for until it is acknowledged: entries kept durable one by one, by one
// thread, by sixteen at once, and by sixteen that send 500 a second between them.
//
//   synchronise        one block written and synchronised on the same disk, for the ratio
//   keep/1, keep/16    as fast as they go
//   five_hundred       what a busy house offers; the percentiles count from when an entry was
//   due
//
// Counters: entries a second, and the 50th and 99th percentile of one call in milliseconds.
#include <benchmark/benchmark.h>
#include <fcntl.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <atomic>
#include <chrono>
#include <thread>
#include <vector>

#include "store/entries.hpp"
#include "store/house.hpp"
#include "store/temporary_folder.hpp"

namespace lynearm::store {
namespace {

using Clock = std::chrono::steady_clock;

double ms_between(Clock::time_point from, Clock::time_point to) {
  return std::chrono::duration<double, std::milli>(to - from).count();
}

void tell(benchmark::State& state, std::vector<double> waits_ms, double seconds) {
  std::sort(waits_ms.begin(), waits_ms.end());
  const auto at = [&](double share) {
    return waits_ms[static_cast<std::size_t>(share * static_cast<double>(waits_ms.size() - 1))];
  };
  state.counters["per_second"] = static_cast<double>(waits_ms.size()) / seconds;
  state.counters["p50_ms"] = at(0.50);
  state.counters["p99_ms"] = at(0.99);
}

// Keeps `count` entries from `threads`; with a rate each waits until it is due.
void keep(benchmark::State& state, std::size_t threads, std::size_t count, double per_second) {
  for (auto _ : state) {
    const test::TemporaryFolder folder;
    House house({.folder = folder / "house", .database = ""});
    std::vector<double> waits_ms(count);
    std::atomic<std::size_t> next{0};
    const Clock::time_point begun = Clock::now();
    std::vector<std::thread> keepers;
    for (std::size_t t = 0; t < threads; ++t) {
      keepers.emplace_back([&] {
        for (std::size_t i = next++; i < count; i = next++) {
          Clock::time_point due = Clock::now();
          if (per_second > 0.0) {
            due =
                begun + std::chrono::duration_cast<Clock::duration>(
                            std::chrono::duration<double>(static_cast<double>(i) / per_second));
            std::this_thread::sleep_until(due);
          }
          static_cast<void>(house.journal().keep(test::readings(i, 1), test::noon));
          waits_ms[i] = ms_between(due, Clock::now());
        }
      });
    }
    for (std::thread& keeper : keepers) keeper.join();
    const double seconds = ms_between(begun, Clock::now()) * 1e-3;
    state.SetIterationTime(seconds);
    tell(state, std::move(waits_ms), seconds);
  }
}

void synchronise(benchmark::State& state) {
  const test::TemporaryFolder folder;
  const int file = ::open((folder / "block").c_str(), O_RDWR | O_CREAT, 0600);
  std::array<char, 4096> block{};
  std::vector<double> waits_ms;
  off_t at = 0;
  for (auto _ : state) {
    const Clock::time_point begun = Clock::now();
    if (::pwrite(file, block.data(), block.size(), at) < 0 || ::fdatasync(file) != 0) {
      state.SkipWithError("the disk does not take a block");
    }
    at += static_cast<off_t>(block.size());
    waits_ms.push_back(ms_between(begun, Clock::now()));
  }
  ::close(file);
  double sum_ms = 0.0;
  for (const double wait : waits_ms) sum_ms += wait;
  tell(state, std::move(waits_ms), sum_ms * 1e-3);
}

void keep_as_fast_as_it_goes(benchmark::State& state) {
  const auto threads = static_cast<std::size_t>(state.range(0));
  keep(state, threads, threads == 1 ? 1000 : 6000, 0.0);
}
void five_hundred_a_second(benchmark::State& state) { keep(state, 16, 5000, 500.0); }

BENCHMARK(synchronise)->Iterations(500)->Unit(benchmark::kMillisecond);
BENCHMARK(keep_as_fast_as_it_goes)->Arg(1)->Arg(16)->Iterations(1)->UseManualTime();
BENCHMARK(five_hundred_a_second)->Iterations(1)->UseManualTime();

}  // namespace
}  // namespace lynearm::store
