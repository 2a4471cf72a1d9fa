// A file that is still being written, or standard input, read as it comes: for logs and tables
// too long to wait for, or whose end is not there yet.
#pragma once

#include <array>
#include <string>
#include <string_view>

namespace lynearm::cli {

class Arriving {
 public:
  /// path       a file, or "-" for standard input, which is left open
  /// option     the option that named it, and
  /// noun       what it should be, "a log of readings", for the fault
  /// throws     InputError when it cannot be opened
  Arriving(std::string path, std::string option, std::string noun);
  Arriving(const Arriving&) = delete;
  Arriving& operator=(const Arriving&) = delete;
  ~Arriving();

  /// As a person would call it.
  [[nodiscard]] std::string name() const;
  /// What has come in, as soon as something has; empty at the end. Good until the next read.
  /// throws     InputError when it cannot be read
  [[nodiscard]] std::string_view read();

 private:
  [[nodiscard]] bool is_standard_input() const { return path_ == "-"; }
  [[noreturn]] void refuse(int error) const;

  std::string path_, option_, noun_;
  int number_ = -1;
  std::array<char, 65536> buffer_{};
};

}  // namespace lynearm::cli
