// What the house asks about an entry that only kit and recipe can tell to be wrong: more
// pitched than the fermenter holds, more wort than water and grain give, more extract than the
// bill is dry. A question never refuses: the entry is kept and counts as told.
#pragma once

#include <vector>

#include "journal/questions.hpp"
#include "journal/state.hpp"
#include "station/planned.hpp"

namespace lynearm::station {

/// Most wort that there can be of a mash: its water as planned and what was told besides, what
/// was put in, the bill at a litre a kilogram (extract takes 0.62, water that the grain brings
/// 1), the water of the boiled sugar and what is topped up; or, where more was poured than
/// anybody told, a tub full at each draining.
struct MostWort {
  units::Volume of_water;  ///< all that is poured, and the bill
  units::Volume tub;       ///< to its brim; zero for sugars alone
  int drainings = 0;       ///< as planned, or as told where those are more

  [[nodiscard]] units::Volume most() const {
    const units::Volume drained = tub * static_cast<double>(drainings);
    return of_water > drained ? of_water : drained;
  }
};
[[nodiscard]] MostWort most_wort(const PlanMade& made, const journal::BatchState& batch);

/// Questions of mash and pitch, one to an entry. Readings may err as in journal::questions():
/// what is merely read badly is never asked.
[[nodiscard]] std::vector<journal::Puzzle> asked_by_kit(const PlanMade& made,
                                                        const journal::BatchState& batch);

}  // namespace lynearm::station
