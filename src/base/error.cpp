#include "base/error.hpp"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <utility>

#include "base/unknown_key.hpp"

namespace lynearm::base {
namespace {

std::string all_sentences(const std::vector<Fault>& faults) {
  std::string text;
  for (const Fault& fault : faults) {
    if (!text.empty()) text += '\n';
    text += sentence(fault);
  }
  return text;
}

// Levenshtein distance counting a swap of neighbours as one step.
std::size_t edit_distance(std::string_view a, std::string_view b) {
  std::vector<std::vector<std::size_t>> d(a.size() + 1, std::vector<std::size_t>(b.size() + 1));
  for (std::size_t i = 0; i <= a.size(); ++i) d[i][0] = i;
  for (std::size_t j = 0; j <= b.size(); ++j) d[0][j] = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t change = a[i - 1] == b[j - 1] ? 0U : 1U;
      d[i][j] = std::min({d[i - 1][j] + 1, d[i][j - 1] + 1, d[i - 1][j - 1] + change});
      if (i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1]) {
        d[i][j] = std::min(d[i][j], d[i - 2][j - 2] + 1);
      }
    }
  }
  return d[a.size()][b.size()];
}

}  // namespace

std::string sentence(const Fault& fault) {
  std::string where;
  if (!fault.file.empty()) {
    where = fault.file + ":";
    if (fault.line > 0) where += fmt::format("{}:", fault.line);
    if (fault.line > 0 && fault.column > 0) where += fmt::format("{}:", fault.column);
    where += ' ';
  }
  if (fault.value.empty()) {
    return fmt::format("{}{} is missing; accepted: {}.", where, fault.field, fault.accepted);
  }
  if (fault.value == unknown_key) {
    return fmt::format("{}{} is not known here; {}{}", where, fault.field, fault.accepted,
                       fault.accepted.ends_with('?') ? "" : ".");
  }
  return fmt::format("{}{} is \"{}\"; accepted: {}.", where, fault.field, fault.value,
                     fault.accepted);
}

std::string accepted_keys(std::string_view unknown, const std::vector<std::string>& known) {
  constexpr std::size_t longest = 80;  // of a slip of the pen; comparing takes its square
  const std::string nearest = unknown.size() > longest ? "" : nearest_name(unknown, known);
  const std::string keys = fmt::format("ccepted are the keys {}", fmt::join(known, ", "));
  return nearest.empty() ? "a" + keys : fmt::format("did you mean \"{}\"? A{}", nearest, keys);
}

InputError::InputError(std::string field, std::string value, std::string accepted)
    : InputError(std::vector<Fault>{
          {std::move(field), std::move(value), std::move(accepted), "", 0, 0}}) {}

InputError::InputError(std::vector<Fault> faults)
    : std::runtime_error(all_sentences(faults)), faults_(std::move(faults)) {
  ensure(!faults_.empty(), "an InputError names at least one fault");
}

NotConverged::NotConverged(std::string_view procedure, std::string_view detail)
    : std::runtime_error(fmt::format("{} did not converge: {}", procedure, detail)) {}

void ensure(bool holds, std::string_view promise, Place place) {
  if (holds) return;
  throw BrokenInvariant(
      fmt::format("{}:{}: does not hold: {}", place.file, place.line, promise));
}

std::string nearest_name(std::string_view word, const std::vector<std::string>& known) {
  std::string best;
  std::size_t best_distance = std::max<std::size_t>(1, word.size() / 3) + 1;
  for (const std::string& name : known) {
    const std::size_t distance = edit_distance(word, name);
    if (distance < best_distance) {
      best_distance = distance;
      best = name;
    }
  }
  return best;
}

}  // namespace lynearm::base
