// The fold: from the entries of a journal to the state of the house. The same entries give the
// same state, whatever the order in which they arrived and however often.
#pragma once

#include <span>

#include "journal/entry.hpp"
#include "journal/state.hpp"

namespace lynearm::journal {

/// The house as these entries tell it.
///
/// entries    all of the journal, in any order; of one id all tell the same
/// returns    does not throw for anything an entry may say: what speaks of something that is
///            not there, or cannot be, becomes a Puzzle
/// accuracy   of meaning.hpp; lots balance to rounding
///
/// An entry whose time lies before what it speaks of (a clock was wrong) still counts, as if
/// told just after that; save a reading beside the still, which has no place before the run's
/// nought. Time n log n.
[[nodiscard]] HouseState fold(std::span<const Entry> entries);

}  // namespace lynearm::journal
