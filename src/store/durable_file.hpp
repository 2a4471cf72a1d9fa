// Files that are on the disk when a call returns: written under another name, synchronised,
// given their own name, and the folder synchronised after. And the one lock of a house.
#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "store/trouble.hpp"

namespace lynearm::store {

/// Replaces what was there, wholly or not at all.
/// throws     Trouble
void write_durably(const std::filesystem::path& file, std::span<const std::uint8_t> content);

/// Gives a finished file its name, durably.
/// throws     Trouble
void rename_durably(const std::filesystem::path& from, const std::filesystem::path& to);

/// The file's disk is full, which need not be that of the house.
[[nodiscard]] Trouble disk_full(const std::filesystem::path& file, std::string detail);

/// A file in the making: under a name of its own until it is whole, gone when it never was.
/// With what SQLite lays beside it.
class Draft {
 public:
  /// beside     the file's later place; the folder must be there
  /// throws     Trouble
  explicit Draft(const std::filesystem::path& beside);
  ~Draft();
  Draft(const Draft&) = delete;
  Draft& operator=(const Draft&) = delete;

  /// There, empty, for its owner only.
  [[nodiscard]] const std::filesystem::path& file() const { return file_; }
  /// Gives the finished file its name, durably; an older one of that name is replaced.
  /// throws     Trouble
  void finish(const std::filesystem::path& name);

 private:
  std::filesystem::path file_;
};

/// Makes the folder when there is none, for its owner only; the one above it must be there.
/// throws     Trouble
void make_folder_durably(const std::filesystem::path& folder);

/// Nothing when there is no such file.
/// throws     Trouble when it cannot be read, or holds more than `most` bytes
[[nodiscard]] std::optional<std::vector<std::uint8_t>> read_file(
    const std::filesystem::path& file, std::size_t most);

/// Held by the one process that keeps a house; the system lets it go when the process ends,
/// however it ends.
class Lock {
 public:
  /// throws     InputError at "store" while another process (or another Lock) holds it
  explicit Lock(const std::filesystem::path& file);
  ~Lock();
  Lock(const Lock&) = delete;
  Lock& operator=(const Lock&) = delete;

 private:
  int descriptor_ = -1;
};

}  // namespace lynearm::store
