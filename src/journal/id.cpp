#include "journal/id.hpp"

#include <algorithm>

namespace lynearm::journal {
namespace {

constexpr std::string_view digits = "0123456789abcdef";

constexpr bool dash_before(std::size_t byte) {
  return byte == 4 || byte == 6 || byte == 8 || byte == 10;
}

int digit(char c) {
  if (c >= 'A' && c <= 'F') c = static_cast<char>(c - 'A' + 'a');
  const std::size_t place = digits.find(c);
  return place == std::string_view::npos ? -1 : static_cast<int>(place);
}

}  // namespace

Id Id::version_7(Moment made, const std::array<std::uint8_t, 10>& random) {
  std::array<std::uint8_t, 16> bytes{};
  const auto time = static_cast<std::uint64_t>(std::max<std::int64_t>(made.milliseconds, 0));
  for (std::size_t i = 0; i < 6; ++i) {
    bytes[i] = static_cast<std::uint8_t>(time >> (8 * (5 - i)));
  }
  std::copy(random.begin(), random.end(), bytes.begin() + 6);
  bytes[6] = static_cast<std::uint8_t>((bytes[6] & 0x0FU) | 0x70U);
  bytes[8] = static_cast<std::uint8_t>((bytes[8] & 0x3FU) | 0x80U);
  return Id(bytes);
}

Moment Id::made() const {
  std::int64_t time = 0;
  for (std::size_t i = 0; i < 6; ++i) time = time << 8 | bytes_[i];
  return {time};
}

std::string print(const Id& id) {
  std::string text;
  text.reserve(36);
  for (std::size_t i = 0; i < 16; ++i) {
    if (dash_before(i)) text += '-';
    text += digits[id.bytes()[i] >> 4U];
    text += digits[id.bytes()[i] & 0x0FU];
  }
  return text;
}

std::optional<Id> read_id(std::string_view text) {
  if (text.size() != 36) return std::nullopt;
  std::array<std::uint8_t, 16> bytes{};
  std::size_t at = 0;
  for (std::size_t i = 0; i < 16; ++i) {
    if (dash_before(i) && text[at++] != '-') return std::nullopt;
    const int high = digit(text[at++]);
    const int low = digit(text[at++]);
    if (high < 0 || low < 0) return std::nullopt;
    bytes[i] = static_cast<std::uint8_t>(high * 16 + low);
  }
  return Id(bytes);
}

}  // namespace lynearm::journal
