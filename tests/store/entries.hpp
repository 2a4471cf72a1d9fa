// Invented entries for the tests of the store, each as a kind of work makes it.
#pragma once

#include <array>
#include <atomic>
#include <cstring>
#include <string>
#include <vector>

#include "journal/entry.hpp"

namespace lynearm::store::test {

inline constexpr journal::Moment noon{1'795'694'400'000};  // 2026-11-26T12:00:00Z

/// The `number`th id of an invented phone; the same number gives the same id.
inline journal::Id id_of(std::uint64_t number, std::uint8_t phone = 1) {
  std::array<std::uint8_t, 10> random{};
  std::memcpy(random.data() + 2, &number, sizeof number);
  random[1] = phone;
  return journal::Id::version_7({noon.milliseconds + static_cast<std::int64_t>(number)},
                                random);
}

inline const journal::Id batch_one = id_of(1, 9);
inline const journal::Id batch_two = id_of(2, 9);

inline journal::Entry mash_temperature(std::uint64_t number, double celsius = 65.9,
                                       journal::Id batch = batch_one) {
  journal::Entry entry;
  entry.id = id_of(number);
  entry.batch = batch;
  entry.stage = journal::Stage::mash;
  entry.at = {noon.milliseconds + static_cast<std::int64_t>(number) * 1000};
  entry.clock_ahead_ms = -250;
  entry.who = "the still hand";
  entry.typed = "65.9 °C";
  entry.body = journal::MashTemperature{units::Temperature::celsius(celsius)};
  return entry;
}

inline journal::Entry note(std::uint64_t number, const std::string& text,
                           std::optional<journal::Id> batch = std::nullopt) {
  journal::Entry entry;
  entry.id = id_of(number);
  entry.batch = batch;
  entry.stage = journal::Stage::ledger;
  entry.at = noon;
  entry.body = journal::Note{text, {}};
  return entry;
}

inline journal::Entry correction(std::uint64_t number, const journal::Entry& of,
                                 double celsius) {
  journal::Entry entry = mash_temperature(number, celsius);
  entry.corrects = of.id;
  return entry;
}

inline journal::Entry foreign(std::uint64_t number) {
  journal::Entry entry = mash_temperature(number);
  entry.body = journal::Foreign{"cooper's visit", 3, R"({"hoops":8,"words":["sound","dry"]})"};
  return entry;
}

inline std::vector<journal::Entry> readings(std::uint64_t first, std::size_t count) {
  std::vector<journal::Entry> entries;
  for (std::size_t i = 0; i < count; ++i) {
    entries.push_back(mash_temperature(first + i, 60.0 + 0.01 * static_cast<double>(i)));
  }
  return entries;
}

}  // namespace lynearm::store::test
