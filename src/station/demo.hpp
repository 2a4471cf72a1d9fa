// The demonstration: the invented Tern Island still house as a journal (examples/house), and
// the examples of recipes and kits to begin from (examples/), built into the program so that it
// needs no file. tools/make_demo_journal.py writes the journal; what it tells stands in
// examples/house/README.md.
#pragma once

#include <string_view>
#include <vector>

#include "wire/answer.hpp"

namespace lynearm::station {

/// The journal of the invented house, an entry a line, as wire::read_entry takes them. Ids are
/// fixed: keeping it twice keeps it once.
[[nodiscard]] std::string_view demo_journal();

/// Recipes and kits to begin from: tern-8, tern-7, and the ill-fitting batch, which reads
/// without fault and which the plan finds fault with at nearly every stage.
[[nodiscard]] std::vector<wire::Example> demo_examples();

}  // namespace lynearm::station
