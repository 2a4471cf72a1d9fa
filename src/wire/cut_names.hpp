// What a choice of hearts is called beside the one that is proposed: only what is true of it.
//
// Less does not mean cleaner: hearts that end sooner have a greater share of what came early,
// and a border that lies earlier does not always bring in more of it. So a name tells volume
// and borders; what each carries stands beside it in figures.
//
// A border is where it lies in the order the jars ran. A jar is mixed, so of one that is poured
// in part the part in the hearts counts as next to the others: more of the first jar is begun
// earlier, more of the last one ended later. What lies between the two is left out.
#pragma once

#include <string>
#include <vector>

#include "still/jar.hpp"
#include "still/propose_cut.hpp"

namespace lynearm::wire {

/// Less than this of the same place, or the same volume: what cannot be poured.
inline constexpr units::Volume same_pour = units::Volume::millilitres(0.5);

/// "less of it, begun later, ended earlier"; "as much of it" within same_pour. A border that
/// stays is left out; of the same jars between the same borders "between the same ends" is
/// said.
///
/// jars       with an allotment for each, in both
[[nodiscard]] std::string cut_name(const std::vector<still::Jar>& jars,
                                   const still::Alternative& one,
                                   const still::Alternative& proposed);

}  // namespace lynearm::wire
