// What stands on the command line, read as quantities. Several mistakes are gathered and told
// together: read everything, then call settle(), then compute.
#pragma once

#include <fmt/format.h>

#include <charconv>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

#include "base/error.hpp"
#include "base/field_names.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

namespace lynearm::cli {

using base::with_names;

class Arguments {
 public:
  /// Notes one occurrence of an option; a switch has the text "true".
  void give(const std::string& option, std::string text);

  [[nodiscard]] bool has(const std::string& option) const;
  /// Every text an option was given, in order.
  [[nodiscard]] const std::vector<std::string>& texts(const std::string& option) const;

  /// The quantity of an option that must be there, or a fault and a value without meaning.
  template <class Q>
  [[nodiscard]] Q required(const std::string& option) {
    if (!has(option)) {
      refuse(option, "", units::try_parse<Q>("").accepted);
      return {};
    }
    return read<Q>(option, texts(option).front());
  }

  /// The quantity of an option that may be left out.
  template <class Q>
  [[nodiscard]] std::optional<Q> optional(const std::string& option) {
    if (!has(option)) return std::nullopt;
    return read<Q>(option, texts(option).front());
  }

  /// One quantity for each occurrence, at least one.
  template <class Q>
  [[nodiscard]] std::vector<Q> each(const std::string& option) {
    if (!has(option)) refuse(option, "", units::try_parse<Q>("").accepted);
    std::vector<Q> values;
    for (const std::string& text : texts(option)) values.push_back(read<Q>(option, text));
    return values;
  }

  /// The text of an option that must be there.
  [[nodiscard]] std::string required_text(const std::string& option, std::string accepted);

  /// The whole number of an option that may be left out; a fault unless least <= it <= most.
  template <class Whole>
  [[nodiscard]] Whole whole_number(const std::string& option, Whole least, Whole most,
                                   Whole otherwise) {
    if (!has(option)) return otherwise;
    const std::string& text = texts(option).front();
    Whole number = 0;
    const char* end = text.data() + text.size();
    const std::from_chars_result read = std::from_chars(text.data(), end, number);
    if (read.ec == std::errc{} && read.ptr == end && number >= least && number <= most) {
      return number;
    }
    refuse(option, text, fmt::format("a whole number from {} to {}", least, most));
    return otherwise;
  }

  /// A fault, when the option stands there at all, unless low <= value <= high.
  template <class Q>
  void keep_within(const std::string& option, Q value, Q low, Q high) {
    if (has(option) && !(value >= low && value <= high) && !refused(option)) {
      refuse(option, texts(option).front(),
             units::concise(low) + " to " + units::concise(high));
    }
  }

  /// Notes a fault of an option; an empty value means that it is missing, or
  /// stands there with nothing after it.
  void refuse(const std::string& option, std::string value, std::string accepted);
  [[nodiscard]] bool refused(const std::string& option) const;

  /// throws     InputError with every fault noted, if any
  void settle() const;

 private:
  template <class Q>
  Q read(const std::string& option, const std::string& text) {
    units::Parsed<Q> parsed = units::try_parse<Q>(text);
    if (parsed) return *parsed.value;
    refuse(option, text, std::move(parsed.accepted));
    return {};
  }

  std::map<std::string, std::vector<std::string>> given_;
  std::vector<base::Fault> faults_;
};

}  // namespace lynearm::cli
