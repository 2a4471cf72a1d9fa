// The rows and columns of a table as they are asked for: from, to and step, or a list, each
// with its unit, and what they are where nothing is said.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "cli/arguments.hpp"
#include "spirit/gauging_table.hpp"
#include "units/kind.hpp"

namespace lynearm::cli {

/// Figures of a range in the unit of a head.
struct Range {
  double from = 0.0, to = 0.0, step = 1.0;
};

/// The scale that a word names: "%vol", "proof", "kg/m3", "SG 60/60".
[[nodiscard]] std::optional<spirit::Scale> scale_called(std::string_view word);

/// The scale of an option that may be left out.
[[nodiscard]] std::optional<spirit::Scale> asked_scale(Arguments& arguments,
                                                       const std::string& option);

/// The strengths of --from, --to and --step, or of --columns-from and so on: `prefix` is "--"
/// or "--columns-". Faults are noted; the figures are then without meaning.
[[nodiscard]] spirit::Strengths asked_strengths(Arguments& arguments, const std::string& prefix,
                                                spirit::Scale scale, const Range& otherwise);

/// The strengths of a list "40 %vol, 43 %vol".
[[nodiscard]] spirit::Strengths asked_list_of_strengths(Arguments& arguments,
                                                        const std::string& option,
                                                        spirit::Scale scale);

/// The temperatures of --columns, or of --columns-from, --columns-to and --columns-step.
/// fahrenheit   where no temperature is given
[[nodiscard]] spirit::Temperatures asked_temperatures(Arguments& arguments, bool fahrenheit);

/// What the rows are where nothing is said.
[[nodiscard]] Range usual_rows(spirit::TableKind kind, spirit::Scale scale);

/// What a reduction table comes down to where nothing is said: strengths that spirit is bottled
/// and filled into casks at (common practice, no source).
[[nodiscard]] std::vector<double> usual_ends(spirit::Scale scale);

}  // namespace lynearm::cli
