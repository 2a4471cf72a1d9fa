// What can go wrong with a store at work, when nobody's input is to blame: the disk is full,
// the database is gone. Nothing of the call was acknowledged; sending it again is harmless.
// What can be mended before the work begins (no such folder, a newer schema) is a
// base::InputError.
#pragma once

#include <stdexcept>
#include <string>

namespace lynearm::store {

class Trouble : public std::runtime_error {
 public:
  enum class Kind {
    full,         ///< no room left on the disk
    unreachable,  ///< the database does not answer, or its connection broke
    refused,      ///< the database would not take it: the fault is in what was to be kept
    damaged,      ///< the file does not hold what it must
    failed,       ///< anything else of the disk or the database
  };

  /// sentence   for the user; `detail` is for the log only
  Trouble(Kind kind, const std::string& sentence, std::string detail = "")
      : std::runtime_error(sentence), kind_(kind), detail_(std::move(detail)) {}

  [[nodiscard]] Kind kind() const { return kind_; }
  [[nodiscard]] const std::string& detail() const { return detail_; }

 private:
  Kind kind_;
  std::string detail_;
};

}  // namespace lynearm::store
