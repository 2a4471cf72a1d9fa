// Where a figure comes from, so that it can travel with the figure and answer "why?".
#pragma once

#include <string_view>

namespace lynearm::base {

/// How much a figure's origin is worth.
enum class Standing {
  published,        ///< read in the cited document
  common_practice,  ///< a fact of the trade, no source
  from_memory,      ///< recalled, not verified
  our_estimate,     ///< ours: fitted or judged, said how in the document field
};

/// The words each standing is shown with.
[[nodiscard]] constexpr std::string_view words(Standing standing) {
  switch (standing) {
    case Standing::published:
      return "published";
    case Standing::common_practice:
      return "common practice, no source";
    case Standing::from_memory:
      return "from memory";
    case Standing::our_estimate:
      return "our estimate";
  }
  return "";
}

/// A source: the document, and the table, equation or page in it.
struct Source {
  std::string_view document;
  Standing standing = Standing::published;
};

}  // namespace lynearm::base
