#include "serve/target.hpp"

#include <algorithm>

namespace lynearm::serve {

namespace {

constexpr std::size_t longest_target = 8192;
constexpr std::size_t most_parts = 64;

int hex(char c) {
  if (c >= '0' && c <= '9') return c - '0';
  if (c >= 'a' && c <= 'f') return c - 'a' + 10;
  if (c >= 'A' && c <= 'F') return c - 'A' + 10;
  return -1;
}

bool is_control(char c) { return static_cast<unsigned char>(c) < 0x20 || c == 0x7f; }

std::optional<std::string> decoded(std::string_view text, bool plus_is_space) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    char c = text[i];
    if (c == '%') {
      if (i + 2 >= text.size()) return std::nullopt;
      const int high = hex(text[i + 1]);
      const int low = hex(text[i + 2]);
      if (high < 0 || low < 0) return std::nullopt;
      c = static_cast<char>(high * 16 + low);
      i += 2;
    } else if (c == '+' && plus_is_space) {
      c = ' ';
    }
    if (is_control(c)) return std::nullopt;
    out.push_back(c);
  }
  if (!is_utf8(out)) return std::nullopt;
  return out;
}

bool read_query(std::string_view text, Pairs& into) {
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('&'), text.size());
    const std::string_view one = text.substr(0, end);
    text.remove_prefix(std::min(end + 1, text.size()));
    if (one.empty()) continue;
    if (into.size() == most_parts) return false;
    const std::size_t equals = std::min(one.find('='), one.size());
    const auto name = decoded(one.substr(0, equals), true);
    const auto value = decoded(equals < one.size() ? one.substr(equals + 1) : "", true);
    if (!name || !value) return false;
    into.emplace_back(*name, *value);
  }
  return true;
}

}  // namespace

bool is_utf8(std::string_view text) {
  std::size_t i = 0;
  while (i < text.size()) {
    const auto lead = static_cast<unsigned char>(text[i]);
    std::size_t more = 0;
    unsigned low = 0x80;  // of the byte that follows the lead
    unsigned high = 0xBF;
    if (lead < 0x80) {
      ++i;
      continue;
    }
    if (lead >= 0xC2 && lead <= 0xDF) {
      more = 1;
    } else if (lead >= 0xE0 && lead <= 0xEF) {
      more = 2;
      if (lead == 0xE0) low = 0xA0;
      if (lead == 0xED) high = 0x9F;
    } else if (lead >= 0xF0 && lead <= 0xF4) {
      more = 3;
      if (lead == 0xF0) low = 0x90;
      if (lead == 0xF4) high = 0x8F;
    } else {
      return false;
    }
    if (i + more >= text.size()) return false;
    for (std::size_t k = 1; k <= more; ++k) {
      const auto next = static_cast<unsigned char>(text[i + k]);
      if (next < low || next > high) return false;
      low = 0x80;
      high = 0xBF;
    }
    i += more + 1;
  }
  return true;
}

std::string_view path_part(std::string_view text) { return text.substr(0, text.find('?')); }

std::optional<Target> read_target(std::string_view text) {
  if (text.empty() || text.front() != '/' || text.size() > longest_target) return std::nullopt;
  Target target;
  std::string_view path = path_part(text);
  if (path.size() < text.size() && !read_query(text.substr(path.size() + 1), target.query)) {
    return std::nullopt;
  }
  target.path.push_back('/');
  path.remove_prefix(1);
  while (!path.empty()) {
    const std::size_t end = std::min(path.find('/'), path.size());
    const auto segment = decoded(path.substr(0, end), false);
    if (!segment || segment->empty() || *segment == "." || *segment == "..")
      return std::nullopt;
    if (target.segments.size() == most_parts) return std::nullopt;
    target.segments.push_back(*segment);
    target.path += *segment;
    if (end == path.size()) break;
    target.path += '/';
    path.remove_prefix(end + 1);
  }
  return target;
}

}  // namespace lynearm::serve
