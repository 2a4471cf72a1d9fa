// What stands of a journal: each entry once, corrections in the place of what they correct,
// what was struck out left out, in the order in which things happened. The result is the same
// whatever the order in which entries arrived, and however often.
#pragma once

#include <span>
#include <string>
#include <vector>

#include "journal/entry.hpp"

namespace lynearm::journal {

/// An entry as it stands: the first telling's id, the last telling's words.
struct Standing {
  Id id;                        ///< of the first telling: what others refer to
  const Entry* said = nullptr;  ///< the telling that counts; points into the span given
  int corrections = 0;
  Moment happened;
};

/// A correction that has no effect, and why.
struct Idle {
  Id id;
  std::string why;
};

struct Standings {
  std::vector<Standing> entries;  ///< by happened, then id
  std::vector<Id> struck;         ///< first tellings that are struck out, by id
  std::vector<Idle> idle;         ///< by id
};

/// entries    in any order, some perhaps twice; of one id all tell the same (the store sees to
///            that). Must outlive the result
///
/// Of several corrections of one entry, or of its corrections, the last made counts: the one of
/// the greatest id. A correction must be of the same kind as what it corrects, or strike it
/// out; others are idle, as are those whose first telling has not arrived.
[[nodiscard]] Standings standings(std::span<const Entry> entries);

}  // namespace lynearm::journal
