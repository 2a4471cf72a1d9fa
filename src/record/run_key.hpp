// The names under which a run is logged, in the head of a CSV column or as a key of JSON.
//
// A figure has a name (pot_temperature) and may state its unit in it (pot_temperature_F), by
// the one rule of units/unit_in_name.hpp. Upper and lower case are one.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "spirit/reading.hpp"
#include "still/reading.hpp"
#include "units/kind.hpp"
#include "units/quantity.hpp"

namespace lynearm::record {

/// A key: what its entries are and where they go.
class RunKey {
 public:
  /// The key of that name, or nothing.
  [[nodiscard]] static std::optional<RunKey> find(std::string_view name);

  /// What it is about, without unit: "pot_temperature"; "at" for every key of time.
  [[nodiscard]] std::string_view about() const { return about_; }
  /// A time off the wall clock, which put() does not take: see clock.hpp.
  [[nodiscard]] bool is_clock() const { return what_ == What::clock; }
  /// Whether entries are bare numbers.
  [[nodiscard]] bool is_number() const;

  /// Puts an entry in its place. Returns what would be accepted, empty when it was.
  [[nodiscard]] std::string put(still::Reading& reading, std::string_view entry) const;
  /// The same for a number; a key that takes none says so.
  [[nodiscard]] std::string put(still::Reading& reading, double number) const;

 private:
  enum class What { quantity, time, clock, spout, event, note };
  template <class Q>
  using Member = std::optional<Q> still::Reading::*;
  using Place = std::variant<std::monostate, Member<units::Temperature>, Member<units::Power>,
                             Member<units::Volume>, Member<units::VolumeFlow>>;
  struct Named;
  static const std::vector<Named>& all();

  What what_ = What::note;
  std::string_view about_;
  Place place_;
  const units::Unit* unit_ = nullptr;  ///< the name's; nullptr: each entry has its own
  std::optional<spirit::Scale> scale_;
};

/// Names to learn from: those our own writer uses and the commonest others.
[[nodiscard]] const std::vector<std::string>& run_key_names();

/// What is accepted where a name is unknown, with the nearest known one.
[[nodiscard]] std::string accepted_names(std::string_view unknown);

/// The rule above for people: whole lines for a help page.
[[nodiscard]] std::string run_keys_help();

}  // namespace lynearm::record
