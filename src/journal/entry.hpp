// An entry of the journal: who recorded what, when. Nothing is ever changed or taken out; what
// turns out wrong is corrected by another entry that names it.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "journal/body.hpp"
#include "journal/id.hpp"
#include "journal/moment.hpp"
#include "journal/stage.hpp"

namespace lynearm::journal {

struct Entry {
  Id id;
  std::optional<Id> batch;  ///< none: of the house
  Stage stage = Stage::ledger;
  Moment at;                        ///< when it happened, by the clock of the device
  std::int64_t clock_ahead_ms = 0;  ///< device's clock less the house's, where known
  Moment received;                  ///< by the house; nought until then. No state depends on it
  std::string who;                  ///< person, or device
  std::optional<Id> corrects;       ///< the entry that this one stands instead of
  std::string typed;  ///< what was typed, letter for letter ("151 F"); may be empty
  Body body;

  friend bool operator==(const Entry&, const Entry&) = default;
};

/// When it happened, by the house's clock.
[[nodiscard]] constexpr Moment happened(const Entry& entry) {
  return {entry.at.milliseconds - entry.clock_ahead_ms};
}

// What an entry may hold.
inline constexpr std::size_t most_who = 80;            ///< bytes
inline constexpr std::size_t most_text = 20'000;       ///< bytes of a note, a reason, a remark
inline constexpr std::size_t most_document = 200'000;  ///< bytes of a recipe or a kit
inline constexpr std::int64_t most_clock_ahead_ms = 400LL * 86'400'000LL;  ///< either way

/// The name of a body's kind, as it is written: "mash temperature".
[[nodiscard]] std::string_view kind_of(const Body& body);

/// Whether two entries tell the same: all but `received`.
[[nodiscard]] bool same(const Entry& a, const Entry& b);

}  // namespace lynearm::journal
