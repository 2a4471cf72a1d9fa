#include "cli/visible.hpp"

#include <fmt/format.h>

#include <cstddef>
#include <cstdint>

namespace lynearm::cli {
namespace {

struct Decoded {
  std::uint32_t point = 0;
  std::size_t bytes = 0;  // 0: not UTF-8
};

// One character of UTF-8 (RFC 3629): no overlong form, no surrogate, nothing past U+10FFFF.
Decoded decoded(std::string_view text) {
  const auto byte = [&](std::size_t i) { return static_cast<unsigned char>(text[i]); };
  const unsigned char first = byte(0);
  if (first < 0x80) return {first, 1};
  const std::size_t bytes = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4 || text.size() < bytes) return {};
  std::uint32_t point = first & (0x7FU >> bytes);
  for (std::size_t i = 1; i < bytes; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return {};
    point = (point << 6U) | (byte(i) & 0x3FU);
  }
  constexpr std::uint32_t least[] = {0, 0, 0x80, 0x800, 0x10000};
  const bool surrogate = point >= 0xD800 && point <= 0xDFFF;
  if (point < least[bytes] || surrogate || point > 0x10FFFF) return {};
  return {point, bytes};
}

bool acts(std::uint32_t point) {
  const bool control = point < 0x20 || (point >= 0x7F && point <= 0x9F);
  const bool turns = point == 0x200E || point == 0x200F || point == 0x061C ||
                     (point >= 0x202A && point <= 0x202E) ||
                     (point >= 0x2066 && point <= 0x2069);
  const bool ends_a_line = point == 0x2028 || point == 0x2029;
  return control || turns || ends_a_line;
}

}  // namespace

std::string visible(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  while (!text.empty()) {
    const Decoded next = decoded(text);
    if (next.bytes == 0) {
      out += "\xEF\xBF\xBD";
      text.remove_prefix(1);
      continue;
    }
    if (acts(next.point)) {
      out += fmt::format("<U+{:04X}>", next.point);
    } else {
      out += text.substr(0, next.bytes);
    }
    text.remove_prefix(next.bytes);
  }
  return out;
}

}  // namespace lynearm::cli
