// How long a page waits for its state: a journal of 10,000 entries folded from nothing.
//
//   fold_readings       one night after another of readings beside the still
//   fold_arrived_last   the same, arrived in the opposite order
//   fold_corrections    each correcting the one before it
//   fold_waiting        lots each made of the next: all have to wait
//   fold_temperatures   a sensor in the wash, with few gravities between
#include <benchmark/benchmark.h>

#include <algorithm>
#include <vector>

#include "journal/book.hpp"
#include "journal/fold.hpp"

namespace lynearm::journal {
namespace {

constexpr int size = 10'000;

Id numbered(int i) {
  const auto byte = [&](int shift) { return static_cast<std::uint8_t>(i >> shift); };
  return Id::version_7(minute(i), {0, byte(24), byte(16), byte(8), byte(0), 0, 0, 0, 0, 0});
}

Entry told(int i, Body body) {
  Entry entry;
  entry.id = numbered(i);
  entry.batch = numbered(0);
  entry.at = minute(i);
  entry.who = "Wren";
  entry.body = std::move(body);
  return entry;
}

std::vector<Entry> readings() {
  std::vector<Entry> entries{told(0, BatchBegun{"Tern 8", "", true})};
  Id run;
  for (int i = 1; i < size; ++i) {
    if (i % 100 == 1) {
      RunBegun begun;
      begun.charge = litres_at_20C(20);
      begun.strength = percent_at_20C(27);
      entries.push_back(told(i, begun));
      run = entries.back().id;
    } else if (i % 10 == 0) {
      entries.push_back(
          told(i, JarGauged{run, i % 100 / 10 + 1, litres_at_20C(0.7), percent_at_20C(70)}));
    } else {
      RunRead read;
      read.run = run;
      read.reading.spout = {73.1, spirit::Scale::percent_vol};
      read.reading.spout_temperature = units::Temperature::celsius(29);
      entries.push_back(told(i, read));
    }
  }
  return entries;
}

void fold_all(benchmark::State& state, const std::vector<Entry>& entries) {
  for (auto _ : state) benchmark::DoNotOptimize(fold(entries));
}

void fold_readings(benchmark::State& state) { fold_all(state, readings()); }

void fold_arrived_last(benchmark::State& state) {
  auto entries = readings();
  std::reverse(entries.begin(), entries.end());
  fold_all(state, entries);
}

void fold_corrections(benchmark::State& state) {
  std::vector<Entry> entries;
  for (int i = 0; i < size; ++i) {
    entries.push_back(told(i, MashTemperature{units::Temperature::celsius(60)}));
    if (i > 0) entries.back().corrects = numbered(i - 1);
  }
  fold_all(state, entries);
}

void fold_waiting(benchmark::State& state) {
  std::vector<Entry> entries;
  for (int i = 0; i + 1 < size; ++i) {
    LotMade made;
    made.name = "blend";
    made.parts = {{{numbered(i + 1), LotKind::spirit}, units::Volume::litres(1)}};
    entries.push_back(told(i, made));
  }
  entries.push_back(told(
      size - 1, LotBrought{"before", LotKind::spirit, litres_at_20C(5), percent_at_20C(60)}));
  fold_all(state, entries);
}

void fold_temperatures(benchmark::State& state) {
  std::vector<Entry> entries{told(0, Pitched{litres_at_20C(60), gravity_at_20C(1.08), "", {}})};
  for (int i = 1; i < size; ++i) {
    FermentRead read;
    read.temperature = units::Temperature::celsius(27);
    if (i % 50 == 0) read.gravity = gravity_at_20C(1.03);
    entries.push_back(told(i, read));
  }
  fold_all(state, entries);
}

BENCHMARK(fold_readings)->Unit(benchmark::kMillisecond);
BENCHMARK(fold_arrived_last)->Unit(benchmark::kMillisecond);
BENCHMARK(fold_corrections)->Unit(benchmark::kMillisecond);
BENCHMARK(fold_waiting)->Unit(benchmark::kMillisecond);
BENCHMARK(fold_temperatures)->Unit(benchmark::kMillisecond);

}  // namespace
}  // namespace lynearm::journal
