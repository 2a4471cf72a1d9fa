// The style sheet of a page: type, rules, and what happens at the edges of the paper.
#pragma once

#include "sheet/page.hpp"

namespace lynearm::sheet {

/// CSS that may stand inside a <style> element of XML or HTML: it holds neither < nor &.
[[nodiscard]] Html dress(const Page& page);

/// A text as a CSS string, with its quotes; control characters, quotes, < and & as escapes.
[[nodiscard]] std::string css_string(std::string_view text);

}  // namespace lynearm::sheet
