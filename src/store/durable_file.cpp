#include "store/durable_file.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <cstring>
#include <string>
#include <utility>

#include "base/error.hpp"

namespace lynearm::store {
namespace {

namespace fs = std::filesystem;

[[noreturn]] void fail(const fs::path& path, const char* what) {
  const int error = errno;
  const bool full = error == ENOSPC || error == EDQUOT;
  throw Trouble(
      full ? Trouble::Kind::full : Trouble::Kind::failed,
      full ? "the disk of the house is full; nothing of this was kept"
           : fmt::format("{} cannot be {}: {}", path.string(), what, std::strerror(error)),
      fmt::format("{} {}: errno {}", what, path.string(), error));
}

class Descriptor {
 public:
  Descriptor(const fs::path& path, int flags, mode_t mode = 0)
      : number_(::open(path.c_str(), flags | O_CLOEXEC, mode)) {}
  ~Descriptor() {
    if (number_ >= 0) ::close(number_);
  }
  Descriptor(const Descriptor&) = delete;
  Descriptor& operator=(const Descriptor&) = delete;
  [[nodiscard]] int number() const { return number_; }
  [[nodiscard]] bool open() const { return number_ >= 0; }

 private:
  int number_;
};

void synchronise(const fs::path& path) {
  const Descriptor opened(path, O_RDONLY);
  if (!opened.open() || ::fsync(opened.number()) != 0) fail(path, "synchronised");
}

fs::path folder_of(const fs::path& file) {
  return file.has_parent_path() ? file.parent_path() : fs::path(".");
}

}  // namespace

void write_durably(const fs::path& file, std::span<const std::uint8_t> content) {
  // mkstemp makes a name of its own, so that two threads may write the same file at once.
  std::string name = file.string() + ".XXXXXX";
  const int number = ::mkstemp(name.data());
  if (number < 0) fail(file, "written");
  ::close(number);
  const fs::path temporary(name);
  try {
    const Descriptor opened(temporary, O_WRONLY);
    if (!opened.open()) fail(temporary, "written");
    while (!content.empty()) {
      const ssize_t written = ::write(opened.number(), content.data(), content.size());
      if (written < 0 && errno == EINTR) continue;
      if (written < 0) fail(temporary, "written");
      content = content.subspan(static_cast<std::size_t>(written));
    }
    rename_durably(temporary, file);
  } catch (...) {
    std::error_code ignored;
    fs::remove(temporary, ignored);
    throw;
  }
}

void rename_durably(const fs::path& from, const fs::path& to) {
  synchronise(from);
  if (::rename(from.c_str(), to.c_str()) != 0) fail(to, "written");
  synchronise(folder_of(to));
}

Trouble disk_full(const fs::path& file, std::string detail) {
  return {Trouble::Kind::full,
          fmt::format("the disk is full; {} is not written", file.string()), std::move(detail)};
}

Draft::Draft(const fs::path& beside) {
  std::string name = beside.string() + ".XXXXXX";
  const int number = ::mkstemp(name.data());
  if (number < 0 && (errno == ENOSPC || errno == EDQUOT)) {
    throw disk_full(beside, std::strerror(errno));
  }
  if (number < 0) fail(beside, "written");
  ::close(number);
  file_ = name;
}

Draft::~Draft() {
  std::error_code ignored;
  for (const char* end : {"", "-wal", "-shm", "-journal"}) {
    fs::remove(fs::path(file_.string() + end), ignored);
  }
}

void Draft::finish(const fs::path& name) {
  try {
    rename_durably(file_, name);
  } catch (const Trouble& trouble) {
    if (trouble.kind() != Trouble::Kind::full) throw;
    throw disk_full(name, trouble.detail());
  }
}

void make_folder_durably(const fs::path& folder) {
  if (::mkdir(folder.c_str(), 0700) == 0) {
    synchronise(folder_of(folder));
  } else if (errno != EEXIST) {
    fail(folder, "made");
  }
}

std::optional<std::vector<std::uint8_t>> read_file(const fs::path& file, std::size_t most) {
  const Descriptor opened(file, O_RDONLY);
  if (!opened.open()) {
    if (errno == ENOENT) return std::nullopt;
    fail(file, "read");
  }
  std::vector<std::uint8_t> content;
  std::array<std::uint8_t, 65536> piece{};
  for (;;) {
    const ssize_t got = ::read(opened.number(), piece.data(), piece.size());
    if (got < 0 && errno == EINTR) continue;
    if (got < 0) fail(file, "read");
    if (got == 0) return content;
    if (content.size() + static_cast<std::size_t>(got) > most) {
      throw Trouble(Trouble::Kind::damaged,
                    fmt::format("{} holds more than {} bytes", file.string(), most));
    }
    content.insert(content.end(), piece.begin(), piece.begin() + got);
  }
}

Lock::Lock(const fs::path& file)
    : descriptor_(::open(file.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0600)) {
  if (descriptor_ < 0) {
    throw base::InputError("store", file.string(), "a folder that can be written to");
  }
  if (::flock(descriptor_, LOCK_EX | LOCK_NB) == 0) return;
  ::close(descriptor_);
  throw base::InputError("store", folder_of(file).string(),
                         "a house that no other running Lynearm keeps");
}

Lock::~Lock() { ::close(descriptor_); }

}  // namespace lynearm::store
