// What the server tells its operator, line by line with time and level. Never a body, a token,
// a code or a query: callers hand in paths and sentences only. The only includer of spdlog.
#pragma once

#include <functional>
#include <memory>
#include <string>
#include <string_view>

namespace lynearm::serve {

enum class Level { debug, info, warning, error };

struct LogOptions {
  Level least = Level::info;  ///< at debug every request is told; at info those that went wrong
  std::string file;           ///< appended to; empty: standard error
  /// Takes every line instead, from any thread, one at a time; for tests.
  std::function<void(std::string_view)> taker;
};

class Log {
 public:
  /// throws     InputError for a file that cannot be opened
  explicit Log(const LogOptions& options);
  ~Log();
  Log(const Log&) = delete;
  Log& operator=(const Log&) = delete;

  [[nodiscard]] bool tells(Level level) const;
  /// Control characters in `sentence` become "?": a caller cannot forge a line.
  void tell(Level level, std::string_view sentence);

 private:
  struct Writer;
  std::unique_ptr<Writer> writer_;
};

}  // namespace lynearm::serve
