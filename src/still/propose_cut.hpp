// Which jars make the hearts: the allotment of most worth (wishes.hpp), and a few beside it
// along the line of yield against load. An estimate always: nose and palate decide.
//
// For an amount A of pure alcohol in the hearts, the least load is a convex quadratic programme
// over the jars' shares (box_programme.hpp), since what mixes adds and the deduction is of sums
// and their squares over A. That least load grows faster than A, so the worth has one top,
// where the price of the next drop is the weight of volume. Both are exact: there is no better
// allotment. Limits of strength are rows of the programme, exact because masses add.
#pragma once

#include <cstddef>
#include <vector>

#include "still/allotment.hpp"
#include "still/wishes.hpp"

namespace lynearm::still {

struct Alternative {
  Allotment allotment;
  Outcome outcome;
  double deduction = 0.0;  ///< s u_w^2 + e u_e^2 + l u_l^2 + f m: what a litre loses
  units::Volume worth;     ///< A (v - deduction)
};

struct CutProposal {
  /// From the least pure alcohol in the hearts to the most. Five where the jars allow as many:
  /// the best, and others with a tenth of its pure alcohol less or more. None is dominated:
  /// each has more pure alcohol than the one before and a larger deduction; only a wished
  /// amount may stand though more could be had with no more load.
  std::vector<Alternative> alternatives;
  std::size_t recommended = 0;
  Yardstick yardstick;
};

/// The best allotment for a maker's wishes, and its neighbours.
///
/// jars       with all loads (fill_loads()); the first is the first that ran
/// throws     InputError as check() does; "jars" when nothing is left for the hearts;
///            "weights.volume", ".strength", ".early", ".late", ".fault" outside; "hearts",
///            "pure_alcohol" when there is less; "hearts_at_least", "hearts_at_most",
///            "jars_at_least" when no jars reach them, each with what can be had; "weights"
///            when no jar is worth its load
/// accuracy   no better one, to 1e-7 of the pure alcohol, among 200 at random on each of 100
///            random shelves, nor on a grid over three jars (tests/still/propose_cut_test.cpp);
///            wished volume to 1e-9 L
[[nodiscard]] CutProposal propose(const std::vector<Jar>& jars, const Wishes& wishes);

/// What a litre of pure alcohol in these hearts loses: the deduction above.
[[nodiscard]] double deduction(const Vessel20C& hearts, const Weights& weights,
                               const Yardstick& yardstick);

}  // namespace lynearm::still
