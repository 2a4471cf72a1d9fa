// The target of a request line, "/api/v1/batches/tern%207?units=us", read into path and query
// (RFC 3986, RFC 9112 section 3.2.1). What is not plainly understood is refused: no empty or
// dot segments inside, no control characters, no broken escape, nothing that is not UTF-8.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "serve/request.hpp"

namespace lynearm::serve {

struct Target {
  std::string path;                   ///< decoded, for reading; a "%2F" in it became "/"
  std::vector<std::string> segments;  ///< decoded one by one, so "%2F" does not part them
  Pairs query;                        ///< "+" is a space; a name without "=" has the value ""
};

/// returns    nothing when the text is refused, or longer than 8 kB, or has more than 64
///            segments or 64 pairs
[[nodiscard]] std::optional<Target> read_target(std::string_view text);

/// The path as it was sent, without the query, which may hold what is nobody's business: for
/// logs.
[[nodiscard]] std::string_view path_part(std::string_view text);

/// True when `text` is well-formed UTF-8 (RFC 3629: no overlong forms, no surrogates).
[[nodiscard]] bool is_utf8(std::string_view text);

}  // namespace lynearm::serve
