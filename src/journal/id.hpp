// Names of entries: UUIDs (RFC 9562), made by whoever records, so that a phone without a
// network names its entries itself and sending one twice is harmless. New ones are of version
// 7: their first 48 bits are the time they were made, so that sorting ids sorts by making.
#pragma once

#include <array>
#include <compare>
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "journal/moment.hpp"

namespace lynearm::journal {

/// A UUID; ordered by its bytes, which for version 7 is the order of making to a millisecond.
class Id {
 public:
  constexpr Id() = default;  ///< the nil UUID, which names nothing
  constexpr explicit Id(const std::array<std::uint8_t, 16>& bytes) : bytes_(bytes) {}

  /// A version 7 UUID from a time and ten random bytes (six bits of which give way to version
  /// and variant).
  /// made       1970 to 10889
  [[nodiscard]] static Id version_7(Moment made, const std::array<std::uint8_t, 10>& random);

  [[nodiscard]] constexpr const std::array<std::uint8_t, 16>& bytes() const { return bytes_; }
  [[nodiscard]] constexpr bool is_nil() const { return *this == Id{}; }
  [[nodiscard]] constexpr int version() const { return bytes_[6] >> 4U; }
  /// When it was made, of a version 7 UUID; what its first 48 bits happen to be, of others.
  [[nodiscard]] Moment made() const;

  friend constexpr auto operator<=>(const Id&, const Id&) = default;
  friend constexpr bool operator==(const Id&, const Id&) = default;

 private:
  std::array<std::uint8_t, 16> bytes_{};
};

/// "01939f3e-8a52-7c1e-b1f0-0123456789ab".
[[nodiscard]] std::string print(const Id& id);

/// A UUID of 8-4-4-4-12 hexadecimal digits, in either case; nothing for any other text.
[[nodiscard]] std::optional<Id> read_id(std::string_view text);

}  // namespace lynearm::journal
