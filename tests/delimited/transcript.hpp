// What a scanner found in a text, as text: "1:a|b\n2:c|d\n3! unclosed in 1 of [\"x]\n".
#pragma once

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string>
#include <string_view>

#include "delimited/scanner.hpp"

namespace lynearm::delimited {

inline void take(Scanner& scanner, std::string& told) {
  constexpr std::array<const char*, 5> words{"stray mark", "unclosed", "lone return",
                                             "long cell", "long row"};
  while (true) {
    const Scanner::Found found = scanner.next();
    if (found == Scanner::Found::nothing) return;
    if (found == Scanner::Found::fault) {
      const Malformed& bad = scanner.malformed();
      told += fmt::format("{}! {} in {} of [{}]\n", bad.line,
                          words.at(static_cast<std::size_t>(bad.what)), bad.cell, bad.text);
      continue;
    }
    told += fmt::format("{}:", scanner.line());
    for (const std::string_view cell : scanner.cells()) {
      told += cell;
      told += '|';
    }
    told.back() = '\n';
  }
}

/// piece      bytes fed at once
inline std::string transcript(std::string_view text, std::size_t piece, Limits limits = {}) {
  Scanner scanner(limits);
  std::string told;
  for (std::size_t at = 0; at < text.size(); at += piece) {
    scanner.feed(text.substr(at, piece));
    take(scanner, told);
  }
  scanner.finish();
  take(scanner, told);
  return told;
}

}  // namespace lynearm::delimited
