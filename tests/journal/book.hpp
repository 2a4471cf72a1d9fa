// A journal written down line by line, for tests: entry after entry, a minute count for a
// clock.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "journal/entry.hpp"

namespace lynearm::journal {

/// 2026-11-26T06:00:00Z
inline constexpr Moment morning{1'795'672'800'000};

inline Moment minute(double minutes) {
  return {morning.milliseconds + static_cast<std::int64_t>(minutes * 60'000.0)};
}
/// Made at a minute; `salt` tells apart what was made in one.
inline Id id_at(double minutes, std::uint8_t salt = 0) {
  return Id::version_7(minute(minutes), {0, salt, 0, 0, 0, 0, 0, 0, 0, salt});
}

class Book {
 public:
  explicit Book(std::optional<Id> of = id_at(0, 200)) : batch(of) {}

  /// Told at its minute, each with an id of its own; gives that id.
  Id tell(double minutes, Body body, Stage stage = Stage::ledger) {
    return put(minutes, minutes, std::move(body), std::nullopt, stage);
  }
  /// Told later, about `minutes`.
  Id correct(const Id& what, double made, double minutes, Body body) {
    return put(made, minutes, std::move(body), what, Stage::ledger);
  }
  Entry& last() { return entries.back(); }

  std::vector<Entry> entries;
  std::optional<Id> batch;

 private:
  Id put(double made, double minutes, Body body, std::optional<Id> corrects, Stage stage) {
    Entry entry;
    entry.id = id_at(made, ++salt_);
    entry.batch = batch;
    entry.stage = stage;
    entry.at = minute(minutes);
    entry.who = "Wren";
    entry.corrects = corrects;
    entry.body = std::move(body);
    entries.push_back(std::move(entry));
    return entries.back().id;
  }
  std::uint8_t salt_ = 0;
};

inline VolumeRead litres_at_20C(double litres) {
  return {units::Volume::litres(litres), at_20C};
}
inline StrengthRead percent_at_20C(double percent) {
  return {{percent, spirit::Scale::percent_vol}, at_20C};
}
inline GravityRead gravity_at_20C(double gravity) {
  return {gravity, GravityScale::specific_gravity, at_20C};
}

}  // namespace lynearm::journal
