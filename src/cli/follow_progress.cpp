#include "cli/follow_progress.hpp"

#include <fmt/format.h>
#include <unistd.h>

#include <chrono>
#include <cstdio>
#include <memory>
#include <optional>
#include <string>

namespace lynearm::cli {
namespace {

constexpr double patience_s = 1.0;

// The work at hand: a task list that is begun, and whether it was told.
struct Told {
  std::optional<double> since_s;
  bool told = false;
};

}  // namespace

Progress stills_told(std::function<void(const std::string&)> put,
                     std::function<double()> now_s) {
  return [put = std::move(put), now_s = std::move(now_s), told = std::make_shared<Told>()](
             std::size_t done, std::size_t count) {
    if (done >= count) {
      if (told->told) put("");
      *told = {};
      return;
    }
    if (!told->since_s) told->since_s = now_s();
    if (now_s() - *told->since_s > patience_s) {
      put(fmt::format("Possible stills: {} of {}", done, count));
      told->told = true;
    }
  };
}

Progress stills_on_terminal() {
  if (isatty(STDERR_FILENO) != 1) return {};
  return stills_told(
      [](const std::string& line) {
        // As wide as the longest line that is ever told.
        fmt::print(stderr, "\r{:<40}\r{}", "", line);
        static_cast<void>(std::fflush(stderr));
      },
      [] {
        return std::chrono::duration<double>(
                   std::chrono::steady_clock::now().time_since_epoch())
            .count();
      });
}

}  // namespace lynearm::cli
