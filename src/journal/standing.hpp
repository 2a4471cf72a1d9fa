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
  int corrections = 0;          ///< that were made of it, those struck out again among them
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
/// An entry stands as the last of its corrections tells it; each correction likewise stands as
/// its own corrections tell it, whatever their ids. The last is the one made last: by the time
/// in its id, less what its device's clock was ahead, then by id. Struck undoes exactly what it
/// corrects: of a first telling the whole, of a correction that correction, of another Struck
/// the striking out.
///
/// A correction must be of the same kind and batch as the first telling, or strike out; others
/// are idle, as are those whose first telling has not arrived and those that correct each
/// other in a circle. Time n log n.
[[nodiscard]] Standings standings(std::span<const Entry> entries);

}  // namespace lynearm::journal
