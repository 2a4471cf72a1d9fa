// The three ways a computation can end without an answer.
//
// InputError     the user can mend it: which field, what stood there, what is
//                accepted, and where in a text when there is one
// NotConverged   the model could not answer; carries what the solver last saw
// ensure()       a broken promise between our own functions: our fault
//
// The engine throws and never prints. Each surface turns these into its own
// words at one place (src/cli/report.cpp for the command line).
#pragma once

#include <stdexcept>
#include <string>
#include <string_view>
#include <vector>

namespace lynearm::base {

/// One mistake in what was entered.
struct Fault {
  std::string field;     ///< path of the field, e.g. "mash.rest_temperature"
  std::string value;     ///< what stood there, as entered; empty when the field is missing
  std::string accepted;  ///< what would be accepted, as a noun phrase or clause
  std::string file;      ///< empty when there is no text
  int line = 0;          ///< 1-based; 0 when there is no text
  int column = 0;        ///< 1-based; 0 when there is no text

  friend bool operator==(const Fault&, const Fault&) = default;
};

/// A fault as one sentence: "kit.toml:12:9: boiler.power is "3 kg"; accepted: a power such as
/// ...".
[[nodiscard]] std::string sentence(const Fault& fault);

/// Bad input. Holds one or more faults, so that several mistakes are told together.
class InputError : public std::runtime_error {
 public:
  InputError(std::string field, std::string value, std::string accepted);
  /// faults   at least one
  explicit InputError(std::vector<Fault> faults);

  [[nodiscard]] const std::vector<Fault>& faults() const { return faults_; }

 private:
  std::vector<Fault> faults_;
};

/// A solver that did not reach its tolerance. what() names the procedure, the bracket and the
/// last residual. Never caught to be replaced by a guess.
class NotConverged : public std::runtime_error {
 public:
  NotConverged(std::string_view procedure, std::string_view detail);
};

/// A promise inside the engine that does not hold; a defect of ours, not of the input.
class BrokenInvariant : public std::logic_error {
 public:
  explicit BrokenInvariant(const std::string& what) : std::logic_error(what) {}
};

/// A place in our own text. std::source_location is not to be had with Clang 14.
struct Place {
  const char* file;
  int line;
  static constexpr Place here(const char* file = __builtin_FILE(),
                              int line = __builtin_LINE()) {
    return {file, line};
  }
};

/// Throws BrokenInvariant, with the place and `promise`, when `holds` is false.
void ensure(bool holds, std::string_view promise, Place place = Place::here());

/// The name among `known` closest to `word` (edit distance, at most a third of its length),
/// or "" when none is near. For "unknown key ...; did you mean ...?".
[[nodiscard]] std::string nearest_name(std::string_view word,
                                       const std::vector<std::string>& known);

}  // namespace lynearm::base
