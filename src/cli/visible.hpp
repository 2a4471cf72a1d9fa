// Text of others' making, fit for a terminal: what would move the cursor, change colours or
// turn the reading direction is shown as the code it is, never acted on.
#pragma once

#include <string>
#include <string_view>

namespace lynearm::cli {

/// `text` with each control character (C0, DEL, C1) and each mark that turns the direction of
/// writing as its code point, "<U+001B>"; bytes that are not UTF-8 as U+FFFD. Line ends too:
/// what is shown stands in one line.
[[nodiscard]] std::string visible(std::string_view text);

}  // namespace lynearm::cli
