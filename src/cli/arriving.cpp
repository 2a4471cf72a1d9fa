#include "cli/arriving.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <unistd.h>

#include <cerrno>
#include <cstring>
#include <utility>

#include "base/error.hpp"

namespace lynearm::cli {

Arriving::Arriving(std::string path, std::string option, std::string noun)
    : path_(std::move(path)),
      option_(std::move(option)),
      noun_(std::move(noun)),
      number_(is_standard_input() ? STDIN_FILENO
                                  : ::open(path_.c_str(), O_RDONLY | O_CLOEXEC)) {
  if (number_ < 0) refuse(errno);
}

Arriving::~Arriving() {
  if (!is_standard_input()) ::close(number_);
}

std::string Arriving::name() const { return is_standard_input() ? "standard input" : path_; }

std::string_view Arriving::read() {
  while (true) {
    const ssize_t got = ::read(number_, buffer_.data(), buffer_.size());
    if (got >= 0) return {buffer_.data(), static_cast<std::size_t>(got)};
    if (errno != EINTR) refuse(errno);
  }
}

void Arriving::refuse(int error) const {
  throw base::InputError(option_, path_,
                         fmt::format("{} that can be read ({})", noun_, std::strerror(error)));
}

}  // namespace lynearm::cli
