// Where everything of the stream stands, before a line is drawn. y is 0 at the band's first
// upper edge and counts downward.
//
// Along x each branch keeps its distance from the one before: stems must not touch, and a
// stage's head must hold its name. Labels hang as flags from the branches; how far apart those
// stand decides how many flags fly over each other. Several spacings are tried, and the lowest
// picture that fits the paper wins.
#pragma once

#include <string>
#include <vector>

#include "sheet/letter.hpp"
#include "sheet/stream.hpp"

namespace lynearm::sheet {

/// From x on, an edge of the band runs at y; before, at `before`.
struct Step {
  double x = 0.0, before = 0.0, y = 0.0;
};

/// A flow that leaves or joins between the ends.
struct Branch {
  Course course = Course::lost;
  bool up = false;
  bool planned = false;
  bool hair = false;   ///< too thin to draw to scale
  double x = 0.0;      ///< where it leaves; for one that joins, its left side
  double width = 0.0;  ///< mm
  double edge = 0.0;   ///< y of the band's edge before it leaves or joins
  double tip = 0.0;    ///< y of its far end
  double point = 0.0;  ///< length of its point, or depth of its notch
  double pole = 0.0;   ///< x of the flag pole
  Label name, figure;
};

/// A flow at one of the two ends of the band.
struct EndPiece {
  double top = 0.0, bottom = 0.0;
  bool unaccounted = false;
  bool planned = false;
  Label name, figure;
};

struct StageHead {
  double left = 0.0, right = 0.0, rule = 0.0;
  double band_top = 0.0, band_bottom = 0.0;
  bool planned = false;
  Label name, figure;
  Label plan = {};  ///< what the plan had; without lines where that is not told
};

struct StreamLayout {
  static constexpr double bend_mm = 2.0;   ///< inner radius of a turn
  static constexpr double ahead_mm = 4.0;  ///< from the band's end to the names' leaders

  double width = 0.0;
  double top = 0.0, bottom = 0.0;  ///< of everything
  double start = 0.0, end = 0.0;   ///< of the band
  double mm_per_litre = 0.0;
  double unaccounted_litres = 0.0;
  std::vector<double> flow_mm;
  std::vector<Step> upper, lower;  ///< at least one step each, at start
  std::vector<Branch> branches;
  std::vector<EndPiece> entries, exits;
  std::vector<StageHead> heads;
};

[[nodiscard]] StreamLayout lay_out(const std::vector<Flow>& flows,
                                   const StreamOptions& options);

}  // namespace lynearm::sheet
