// What the maker asks on the day: jars poured together, proposals for a cut, what a recipe may
// name. What a mash's temperature asks for is in advice_mash.hpp.
#pragma once

#include <string>
#include <vector>

#include "journal/state.hpp"
#include "station/planned.hpp"
#include "still/allotment.hpp"
#include "still/propose_cut.hpp"
#include "wire/answer.hpp"

namespace lynearm::station {

using wire::PouredJars;
using wire::ShelfJars;

/// The gauged jars of a run, as cut planning takes them, with estimated loads; what is gauged
/// beyond any still is left out and named in `misread`.
/// throws     InputError "jars" when none is gauged; "jar 3" when all are misread
[[nodiscard]] ShelfJars shelf_jars(const journal::RunState& run);
/// Where the recipe ends foreshots and heads by what has run, the proposal keeps to it.
void keep_to_plan(ShelfJars& shelf, const plan::Recipe& recipe, const journal::RunState& run);

/// What pouring these gives. Jars that are not named stand apart.
/// throws     InputError "jars[i]" for a jar that is not gauged, is misread, is named twice,
///            or holds less
[[nodiscard]] PouredJars poured(const ShelfJars& shelf,
                                const std::vector<journal::JarPoured>& pours);

/// throws     InputError "jar 3" for each that is misread: a proposal is of the whole run
[[nodiscard]] still::CutProposal cuts(const ShelfJars& shelf, const still::Purpose& purpose);

/// What a recipe may name.
[[nodiscard]] wire::Choices choices();

}  // namespace lynearm::station
