// A QR code (ISO/IEC 18004) of an address: as SVG for the page, as text for a terminal. The
// only includer of libqrencode.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace lynearm::serve {

/// Square: modules[row][column], true is dark. No quiet zone.
using Modules = std::vector<std::vector<bool>>;

/// Error correction level M: up to 15 % of the picture may be unreadable.
///
/// throws     InputError for more text than the largest code holds (2331 bytes)
[[nodiscard]] Modules modules_of(std::string_view text);

/// SVG, one unit a module, with its quiet zone of four. Its colours are its own: a code must be
/// dark on light, whatever the page wears.
[[nodiscard]] std::string picture_of(std::string_view text);

/// Half blocks, two rows a line, light on dark as a terminal is; quiet zone of two.
[[nodiscard]] std::string terminal_picture_of(std::string_view text);

}  // namespace lynearm::serve
