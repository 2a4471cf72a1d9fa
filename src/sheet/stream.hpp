// The stream of pure alcohol: one band from left to right that narrows stage by stage. What is
// lost falls out of it downward, what is kept for another batch rises out of it, what is put in
// on the way joins from above, and what reaches the bottle leaves at the right.
//
// All widths are to one scale, and the band's edges are where the sum puts them, so nothing can
// vanish in the drawing. Flows under half a percent are a hairline. What does not add up is
// drawn too, as "unaccounted". What is expected beside what was measured is white, with a
// dashed edge.
#pragma once

#include <string>
#include <vector>

#include "sheet/letter.hpp"
#include "units/quantity.hpp"

namespace lynearm::sheet {

enum class Course { in, lost, kept, out };

/// One flow. amount: pure alcohol, finite, 0 or more (a flow of 0 is not drawn).
struct Flow {
  std::string stage;
  std::string name;
  units::Volume amount;
  Course course = Course::lost;
  bool planned = false;  ///< expected, among others that were measured: white, edged by dashes
};

/// What stands before a stage, in a stream that is measured in part.
struct StageMark {
  std::string stage;
  units::Volume planned;  ///< what the plan had; told under the head when it is not nought
  bool measured = false;  ///< else the band is as a planned flow is
};

struct StreamOptions {
  double width_mm = 170.0;  ///< the drawing is wider only when its labels cannot be placed else
  double band_mm = 30.0;    ///< width of the band where it is widest
  std::string unit = "L";
  units::Volume one_unit = units::Volume::litres(1.0);
  int decimals = 2;
  std::vector<StageMark> stages = {};  ///< none: all of the stream is of one kind
};

/// The drawing, and the widths it was made with, for checking.
struct Stream : Drawing {
  double mm_per_litre = 0.0;
  std::vector<double> flow_mm;  ///< one for each flow given, in that order
  double end_mm = 0.0;          ///< the band where it leaves: the trailing outs and the rest
  double unaccounted_litres = 0.0;
};

/// flows    in the order they happen, those of one stage together; the first comes in
/// throws   InputError "flows[i].amount" when more leaves than there is (by over a thousandth),
///          save in the outs at the end, where the excess is shown as unaccounted;
///          BrokenInvariant for a negative amount, or when nothing comes in
[[nodiscard]] Stream draw(const std::vector<Flow>& flows, const StreamOptions& options = {});

}  // namespace lynearm::sheet
