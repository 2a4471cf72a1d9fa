#include "cli/gauge_batch.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstring>
#include <exception>
#include <string_view>

#include "base/error.hpp"
#include "cli/gauge_rows.hpp"
#include "cli/report.hpp"

namespace lynearm::cli {
namespace {

// The file that is read, or standard input, which is left open.
class Source {
 public:
  explicit Source(std::string path)
      : path_(std::move(path)),
        number_(is_standard_input() ? STDIN_FILENO
                                    : ::open(path_.c_str(), O_RDONLY | O_CLOEXEC)) {
    if (number_ < 0) refuse(errno);
  }
  Source(const Source&) = delete;
  Source& operator=(const Source&) = delete;
  ~Source() {
    if (!is_standard_input()) ::close(number_);
  }

  [[nodiscard]] std::string name() const {
    return is_standard_input() ? "standard input" : path_;
  }

  // What has come in, as soon as something has; empty at the end.
  std::string_view read() {
    while (true) {
      const ssize_t got = ::read(number_, buffer_.data(), buffer_.size());
      if (got >= 0) return {buffer_.data(), static_cast<std::size_t>(got)};
      if (errno != EINTR) refuse(errno);
    }
  }

 private:
  [[nodiscard]] bool is_standard_input() const { return path_ == "-"; }
  [[noreturn]] void refuse(int error) const {
    throw base::InputError("--batch", path_,
                           fmt::format("a file of comma-separated text that can be read ({})",
                                       std::strerror(error)));
  }

  std::string path_;
  int number_ = -1;
  std::array<char, 65536> buffer_{};
};

int answer(const GaugedRows& rows) {
  if (!rows.csv.empty()) {
    if (const int status = put(rows.csv); status != Status::well) return status;
  }
  for (const base::Fault& fault : rows.faults) {
    static_cast<void>(report(std::make_exception_ptr(base::InputError({fault}))));
  }
  return Status::well;
}

// 1204 as "1,204".
std::string grouped(std::size_t count) {
  std::string digits = fmt::format("{}", count);
  for (std::size_t i = digits.size(); i > 3; i -= 3) digits.insert(i - 3, 1, ',');
  return digits;
}

}  // namespace

int gauge_batch(const std::string& path, const spirit::Hydrometer& hydrometer) {
  Source source(path);
  GaugeRows rows(source.name(), hydrometer);
  for (bool more = true; more;) {
    const std::string_view text = source.read();
    more = !text.empty();
    const int status = answer(more ? rows.feed(text) : rows.finish());
    if (status != Status::well) return status;
  }
  if (rows.failed() == 0) return Status::well;
  const std::string count =
      fmt::format("{} of {} rows failed.\n", grouped(rows.failed()), grouped(rows.rows()));
  static_cast<void>(std::fputs(count.c_str(), stderr));
  return some_rows_failed;
}

}  // namespace lynearm::cli
