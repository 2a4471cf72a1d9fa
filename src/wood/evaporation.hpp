// What a cask loses through its wood, and whether the strength rises or falls meanwhile.
//
// Model: water and ethanol pass the staves each in proportion to its own vapour pressure over
// the spirit less that in the cellar's air (activities by vapour/'s NRTL). In dry air water
// goes faster and the strength rises; in damp air it falls. New wood first drinks its share.
// Leaves out leaks, the bung (some 17 % more, common practice, no source), swings of
// temperature within a day, and the wood dried by the headspace: the wetted area is taken
// whole.
#pragma once

#include <vector>

#include "spirit/lot.hpp"
#include "units/quantity.hpp"
#include "wood/surface.hpp"

namespace lynearm::wood {

/// How easily oak 25 mm thick lets vapour through, kg/(m² year Pa). Our calibration, so that in
/// four years 200 L at 62.5 %vol, 15 °C and 65 % humidity lose 2.0 % a year and keep their
/// strength (held to it by tests/wood/evaporation_test.cpp, so that it is found anew when the
/// activities change); fit it to two gaugings of one's own cask.
struct Permeability {
  double water = 3.369e-3;
  double ethanol = 4.477e-4;
};

/// The air the cask stands in.
struct Cellar {
  units::Temperature t = units::Temperature::celsius(15.0);
  units::Share humidity = units::Share::fraction(0.65);
};

/// A cask as loss sees it.
struct Walls {
  units::Area area;
  units::Length thickness = units::Length::millimetres(25.0);
  bool new_wood = true;  ///< drinks 5 L/m² on filling; refill wood is taken as soaked
};

/// The walls of a usual cask of that volume, with staves as thick as such casks have: 25 mm at
/// 200 L, thinner with the fifth root of the volume (small casks then lose 1.2 to 1.6 times
/// more for their surface, from memory).
[[nodiscard]] Walls walls(units::Volume cask, bool new_wood = true);
[[nodiscard]] Walls walls(const Cask& measured, bool new_wood = true);

/// The cask at one time.
struct CaskPoint {
  units::Duration at;
  spirit::Lot lot;
  units::Volume volume;  ///< at 20 °C
  units::VolumeStrength strength;
};

/// A cask after resting. filled = course.back().lot + soaked + evaporated, to rounding.
struct Rested {
  std::vector<CaskPoint> course;  ///< the filling, then every month, then the end
  spirit::Lot soaked;             ///< in the staves, at filling strength
  spirit::Lot evaporated;
  /// Mean yearly volume loss by evaporation, of the volume after soaking. Zero for no time.
  units::Share loss_per_year;
};

/// Rests a cask.
///
/// filled     10 to 90 %vol, more than the wood soaks up
/// time       0 to 50 years; the course ends early, at the last whole month, when under a tenth
///            of the filling is left
/// throws     InputError outside; 0 to 40 °C, humidity 0 to 1, thickness 5 to 60 mm
/// accuracy   +-30 %, our estimate. Against our own table with other activities, 10 to 30 °C:
///            0.07 % a year and 0.18 %vol after four years, within what a per cent of the
///            water's activity moves (tests/wood/evaporation_test.cpp); ours is 1.1 % low at 30
///            °C and 62 %vol against Pemberton and Mash. Yearly losses of trade: Scotland
///            1.5-2.5 %, common practice, is of that size; the tropics' 7-10 % is twice what
///            this gives (3.7 % at 30 °C and 75 % humidity)
/// source     permeation, our calibration
[[nodiscard]] Rested rest(const spirit::Lot& filled, const Walls& walls, const Cellar& cellar,
                          units::Duration time, const Permeability& oak = {});

/// What a good closure of glass loses in a year, as a share of the spirit: our estimate.
inline constexpr units::Share good_closure = units::Share::fraction(0.002);

/// Glass with staves: nothing passes the glass; the closure loses a little.
struct GlassRest {
  spirit::Lot left;
  spirit::Lot soaked;   ///< in the staves
  spirit::Lot escaped;  ///< past the closure
};

/// closure_loss_per_year   share of the spirit, to 0.1
/// throws     InputError when the staves drink more than there is, or outside 0 to 50 years
[[nodiscard]] GlassRest rest_in_glass(const spirit::Lot& filled, const Stave& stave,
                                      double count, units::Duration time,
                                      units::Share closure_loss_per_year = good_closure);

}  // namespace lynearm::wood
