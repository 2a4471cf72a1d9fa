// A spirit run with all that a maker asks of it, worked out once for every surface: the curve
// at even steps with what the glass shows, the cuts, the jars, the congeners of each fraction.
// Every figure is the run's own. What is not right about it, the surfaces say.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "still/congeners_of_run.hpp"
#include "still/cuts.hpp"
#include "still/exchange.hpp"
#include "still/jar.hpp"
#include "still/run.hpp"

namespace lynearm::still {

struct Step {
  Point point;
  AtTheSpout spout;
  Groups came;  ///< congeners collected so far; zero without
};

/// What is wanted of a run beside the run itself.
struct Asked {
  std::optional<Borders> borders;    ///< of the cuts
  std::optional<units::Volume> jar;  ///< caught in jars of this size
  double amount_factor = 1.0;        ///< see jars_of_run.hpp
  units::HeatLoss conductance;       ///< of the coil; see exchange.hpp
  CoolantFlow coolant;
  int steps = 251;  ///< points of the curve; see even_points.hpp
};

struct JarRow {
  Jar jar;
  Point from, to;
};

/// A part of the run with its congeners: a fraction of the cuts, or all that came.
struct Part {
  std::string name;
  Fraction fraction;
  std::optional<CongenerAmounts> congeners;
};

struct ToldRun {
  Run run;
  units::Pressure pressure;
  units::HeatLoss conductance;
  CoolantFlow coolant;
  std::vector<Step> curve;
  std::optional<Cuts> cuts;
  std::vector<Part> parts;  ///< foreshots, heads, hearts, tails; "all" without cuts
  std::vector<JarRow> jars;
};

/// Works it out.
///
/// curve      the one that the run was distilled with
/// throws     InputError of cut(), into_jars(), jars_of(), exchange(), even_points()
[[nodiscard]] ToldRun tell(Run run, const Asked& asked, const vapour::BoilingCurve& curve);

/// Warmest the spirit runs on the curve, and the greatest share of vapour that escapes.
[[nodiscard]] units::Temperature warmest_spirit(const ToldRun& told);
[[nodiscard]] units::Share most_escaping(const ToldRun& told);

}  // namespace lynearm::still
