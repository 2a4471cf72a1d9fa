// How fast a wash ferments, how warm it becomes, and whether it finishes.
//
// Model: yeast grows until the assimilable nitrogen is gone and then ferments on, losing life
// to alcohol: the nitrogen-limited equations of Cramer et al. 2002 (Biotechnol. Bioeng. 77:49)
// and Coleman, Fish and Block 2007 (Appl. Environ. Microbiol. 73:5875), with a ceiling at the
// strain's tolerance, and coupled to the heat of the vessel. Leaves out bacteria, pH, oxygen,
// and the order in which sugars are taken.
//
// What is checked: our solution of the equations against a separate one; the time to dry
// against practice. Not checked against the papers' own data: the constants come at second
// hand, their temperature (taken as 26 °C) is an assumption. Read a time as +-40 %.
#pragma once

#include <optional>
#include <vector>

#include "ferment/yeast.hpp"
#include "ferment/yield.hpp"
#include "units/quantity.hpp"
#include "wort/gravity.hpp"

namespace lynearm::ferment {

/// Constants of the equations, at 26 °C. Per hour, g/L.
struct Kinetics {
  double growth_per_h = 0.16;         ///< mu_max
  double nitrogen_half_g_L = 0.010;   ///< K_N
  double yeast_per_nitrogen = 31.0;   ///< g/g, Y_XN
  double ethanol_per_yeast_h = 0.30;  ///< beta_max
  double sugar_half_g_L = 10.0;       ///< K_S
  double death_L_per_g_h = 1e-4;      ///< kd'
  /// Activation energies, Phisalaphong et al. 2006, Biochem. Eng. J. 28:36 (molasses).
  double growth_kJ_per_mol = 34.6;
  double product_kJ_per_mol = 35.0;
  double death_kJ_per_mol = 177.7;
  /// Growth and fermentation times 1 - (alcohol/tolerance)^2 when true.
  bool ceiling = true;
  /// Multiplies growth and fermentation: a member of an ensemble, or a fit to readings.
  double vigour = 1.0;
};

/// How the yeast goes in: the wait before it works at 26 °C. Common practice, no source:
/// rehydrated 2 to 6 h, sprinkled on 6 to 12 h.
inline constexpr units::Duration lag_rehydrated = units::Duration::hours(4.0);
inline constexpr units::Duration lag_sprinkled = units::Duration::hours(9.0);

/// How the vessel stands.
struct Vessel {
  units::Temperature room = units::Temperature::celsius(25.0);
  units::HeatLoss loss;  ///< to the room; zero: none (see usual_heat_loss() in warmth.hpp)
  bool held = false;     ///< kept at the pitching temperature by cooling or a heater
};

/// A wash about to ferment.
struct Batch {
  wort::Wort wort;  ///< the liquid part
  Sugars sugars;
  units::Mass yeast;     ///< dry, see pitch.hpp
  units::Mass nitrogen;  ///< assimilable, with what was added
  units::Temperature pitched_at = units::Temperature::celsius(25.0);
  units::Duration lag = lag_sprinkled;
  units::VolumeStrength tolerance = units::VolumeStrength::percent(15.0);
  units::Share yield = usual_yield;
  Vessel vessel;
};

/// One point of the course.
struct PacePoint {
  units::Duration at;
  units::Share done;                 ///< of the fermentable sugar
  units::MassConcentration sugar;    ///< fermentable, as hexose, in a litre of the wort pitched
  units::MassConcentration ethanol;  ///< likewise
  units::SpecificGravity gravity;    ///< as a hydrometer at 20 °C shows
  units::VolumeFlow carbon_dioxide;  ///< of the whole vessel, at 20 °C and 101.325 kPa
  units::Temperature temperature;
};

/// How it ends within the horizon.
enum class Ending {
  dry,    ///< below 2 g/L fermentable sugar
  slow,   ///< still fermenting when the horizon came
  stuck,  ///< sugar left, and less than 0.5 g/L going in a day
};

struct Pace {
  Ending ending = Ending::dry;
  std::optional<units::Duration> dry_after;  ///< from pitching, lag included
  units::Share done;                         ///< 1 when dry: the last 2 g/L are taken to go
  units::MassConcentration sugar_left;       ///< as hexose; 0 when dry
  units::VolumeFlow peak_carbon_dioxide;
  units::Duration peak_at;
  units::Temperature warmest;
  std::vector<PacePoint> course;  ///< from pitching to the end; times ascending
};

/// Runs the fermentation.
///
/// batch      fermentable hexose 5 to 400 g/L; yeast 0.02 to 10 g/L; nitrogen 0 to 2 g/L;
///            pitched and room 0 to 45 °C; lag 0 to 72 h; tolerance 5 to 20 %vol
/// horizon    2 to 120 days
/// returns    never throws for a wash that does not finish: see Ending. Below 12 °C the rate
///            falls linearly to nothing at 5 °C; from 38 to 42 °C likewise (our estimate)
/// throws     InputError outside the ranges; NotConverged when the equations do not integrate
/// accuracy   S0 150 g/L, N 0.3, yeast 0.5: 2 g/L at 45 h and 70.5 g/L alcohol as a separate
///            solution gives (tests/ferment/pace_test.cpp). A grain and sugar wash of SG 1.055
///            to 1.070, half its extract malt, dry in 4 to 6 days at 25 °C with 0.5 g/L
[[nodiscard]] Pace pace(const Batch& batch, const Kinetics& kinetics = {},
                        units::Duration horizon = units::Duration::days(30.0));

}  // namespace lynearm::ferment
