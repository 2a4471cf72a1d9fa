#include "serve/picture.hpp"

#include <fmt/format.h>
#include <qrencode.h>

#include <memory>

#include "base/error.hpp"

namespace lynearm::serve {

Modules modules_of(std::string_view text) {
  const std::unique_ptr<QRcode, decltype(&QRcode_free)> code{
      QRcode_encodeString8bit(std::string{text}.c_str(), 0, QR_ECLEVEL_M), &QRcode_free};
  if (!code) throw base::InputError{"address", "", "a text of 1 to 2331 bytes"};
  const auto width = static_cast<std::size_t>(code->width);
  Modules modules(width, std::vector<bool>(width));
  for (std::size_t row = 0; row < width; ++row) {
    for (std::size_t column = 0; column < width; ++column) {
      // The lowest bit is the colour; the others tell what the module is for.
      modules[row][column] = (code->data[row * width + column] & 1U) != 0;
    }
  }
  return modules;
}

std::string picture_of(std::string_view text) {
  constexpr std::size_t quiet = 4;
  const Modules modules = modules_of(text);
  const std::size_t side = modules.size() + 2 * quiet;
  std::string path;
  for (std::size_t row = 0; row < modules.size(); ++row) {
    for (std::size_t column = 0; column < modules.size(); ++column) {
      std::size_t run = 0;
      while (column + run < modules.size() && modules[row][column + run]) ++run;
      if (run == 0) continue;
      path += fmt::format("M{} {}h{}v1h-{}z", column + quiet, row + quiet, run, run);
      column += run;
    }
  }
  return fmt::format(
      R"(<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {0} {0}" role="img" )"
      R"(aria-label="Pairing code" shape-rendering="crispEdges"><path fill="#fff" )"
      R"(d="M0 0h{0}v{0}H0z"/><path fill="#000" d="{1}"/></svg>)",
      side, path);
}

std::string terminal_picture_of(std::string_view text) {
  constexpr std::size_t quiet = 2;
  const Modules modules = modules_of(text);
  const std::size_t side = modules.size() + 2 * quiet;
  const auto light = [&](std::size_t row, std::size_t column) {
    const bool inside =
        row >= quiet && column >= quiet && row < side - quiet && column < side - quiet;
    return row < side && !(inside && modules[row - quiet][column - quiet]);
  };
  std::string out;
  for (std::size_t row = 0; row < side; row += 2) {
    for (std::size_t column = 0; column < side; ++column) {
      const bool upper = light(row, column);
      const bool lower = light(row + 1, column);
      out += upper ? (lower ? "█" : "▀") : (lower ? "▄" : " ");
    }
    out += '\n';
  }
  return out;
}

}  // namespace lynearm::serve
