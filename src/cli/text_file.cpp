#include "cli/text_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstdio>
#include <cstdlib>
#include <cstring>

namespace lynearm::cli {
namespace {

// A thousand times a usual recipe; what is larger is another kind of file.
constexpr std::size_t most_bytes = 4U << 20U;

[[noreturn]] void fail(const std::string& path, int error) {
  throw NotWritten(fmt::format("{} could not be written: {}.", path, std::strerror(error)));
}

// Closed when it goes out of scope.
class Descriptor {
 public:
  explicit Descriptor(int number) : number_(number) {}
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  [[nodiscard]] int number() const { return number_; }
  /// 0, or the error: a full disk may show itself only here.
  int close() {
    const int result = ::close(number_);
    number_ = -1;
    return result == 0 ? 0 : errno;
  }

 private:
  int number_;
};

// 0, or the error.
int put_all(int number, const std::string& text) {
  for (std::size_t done = 0; done < text.size();) {
    const ssize_t put = ::write(number, text.data() + done, text.size() - done);
    if (put < 0 && errno == EINTR) continue;
    if (put < 0) return errno;
    done += static_cast<std::size_t>(put);
  }
  return 0;
}

void write_in_place(const std::string& path, const std::string& text) {
  Descriptor file(::open(path.c_str(), O_WRONLY | O_CLOEXEC));
  if (file.number() < 0) fail(path, errno);
  int error = put_all(file.number(), text);
  const int closing = file.close();
  if (error == 0) error = closing;
  if (error != 0) fail(path, error);
}

// The mode a new file gets from the process's mask, or that of the file it takes the place of.
mode_t mode_for(const struct stat* old) {
  if (old != nullptr) return old->st_mode & 0777U;
  const mode_t mask = ::umask(0);
  ::umask(mask);
  return 0666U & ~mask;
}

}  // namespace

std::string read_file(Arguments& arguments, const std::string& option, const std::string& path,
                      const std::string& noun) {
  std::string text;
  const Descriptor file(::open(path.c_str(), O_RDONLY | O_CLOEXEC));
  int error = file.number() < 0 ? errno : 0;
  std::array<char, 65536> buffer{};
  while (error == 0 && text.size() <= most_bytes) {
    const ssize_t got = ::read(file.number(), buffer.data(), buffer.size());
    if (got == 0) break;  // its end
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) {
      error = errno;
    } else {
      text.append(buffer.data(), static_cast<std::size_t>(got));
    }
  }
  if (error != 0) {
    arguments.refuse(option, path,
                     fmt::format("{} that can be read ({})", noun, std::strerror(error)));
  } else if (text.size() > most_bytes) {
    arguments.refuse(option, path, fmt::format("{} of at most 4 MB", noun));
  }
  return text;
}

void write_file(const std::string& path, const std::string& text) {
  struct stat old {};
  const bool exists = ::stat(path.c_str(), &old) == 0;
  if (exists && S_ISDIR(old.st_mode)) fail(path, EISDIR);
  if (exists && !S_ISREG(old.st_mode)) return write_in_place(path, text);

  std::string beside = path + ".XXXXXX";
  Descriptor file(::mkstemp(beside.data()));
  if (file.number() < 0) fail(path, errno);
  int error = put_all(file.number(), text);
  if (error == 0 && ::fchmod(file.number(), mode_for(exists ? &old : nullptr)) != 0)
    error = errno;
  if (error == 0 && ::fsync(file.number()) != 0) error = errno;
  const int closing = file.close();
  if (error == 0) error = closing;
  if (error == 0 && std::rename(beside.c_str(), path.c_str()) != 0) error = errno;
  if (error != 0) {
    ::unlink(beside.c_str());
    fail(path, error);
  }
}

}  // namespace lynearm::cli
