// Scales: a strength from the weight of a flaskful, a lot from its weight, and what the scale
// shows for a lot, so that water can be added "until the scale shows 7.412 kg". A weight needs
// no temperature but for the air it pushes aside; a flask needs it for its own volume and for
// the spirit's density.
//
// Model: buoyancy.hpp and vessel.hpp. The empty vessel is weighed full of air; what it shows is
// the tare. Leaves out spirit that evaporates or clings while it is handled.
#pragma once

#include "spirit/buoyancy.hpp"
#include "spirit/lot.hpp"
#include "spirit/vessel.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// How a thing is weighed.
struct Weighing {
  units::Mass tare = {};  ///< what the scale shows for the vessel alone; zero when it was tared
  Air air = {};
  units::Density weights = conventional_weights;
};

/// A flask with one mark. Its glass unless told: borosilicate 3.3 marked for 20 °C.
struct Flask {
  units::Volume volume;  ///< at the mark, where the glass is true; above zero
  Vessel glass{borosilicate_expansion_per_K, reference_20C};
};

/// Density of what fills a flask to its mark, whatever the liquid is.
///
/// shown      with the flask on it, tare included; above the tare
/// t          of liquid and flask, -20 to 40 °C
/// throws     InputError ("shown", "flask.volume" and those of vessel.hpp, buoyancy.hpp)
/// accuracy   mL of water for a gram in air, 15 to 30 °C: ISO 8655-6 (from memory), 4 rows, to
///            their last printed digit (tests/spirit/weighing_test.cpp). Left uncorrected, the
///            air makes a spirit of 50 %vol read 0.54 %vol too strong
[[nodiscard]] units::Density density_in_flask(units::Mass shown, units::Temperature t,
                                              const Flask& flask,
                                              const Weighing& weighing = {});

/// The spirit that fills a flask to its mark.
/// throws     InputError as above; ("shown") when no spirit weighs so, with what would
[[nodiscard]] units::MassFraction mass_fraction_in_flask(units::Mass shown,
                                                         units::Temperature t,
                                                         const Flask& flask,
                                                         const Weighing& weighing = {});

/// What the scale shows for a flask of that spirit: inverse of mass_fraction_in_flask(), which
/// comes back to 1e-11.
[[nodiscard]] units::Mass flask_shows(units::MassFraction ethanol, units::Temperature t,
                                      const Flask& flask, const Weighing& weighing = {});

/// A flask whose volume is found by filling it with clean water.
/// shown      with the flask of water on it, tare included
/// glass      its material, and the temperature its volume is wanted at
[[nodiscard]] Flask flask_by_water(units::Mass shown, units::Temperature t, const Vessel& glass,
                                   const Weighing& weighing = {});

/// What the scale shows for a lot at `t`, tare included.
///
/// lot        zero or more of each; an empty lot shows the tare
/// t          -20 to 40 °C; ten degrees move the figure by 1e-5
/// throws     InputError ("lot", "weighing.tare", and those of buoyancy.hpp) outside
[[nodiscard]] units::Mass balance_shows(const Lot& lot, units::Temperature t,
                                        const Weighing& weighing = {});

/// The lot for which the scale shows `shown`: inverse of balance_shows(), to rounding.
/// throws     InputError ("shown") below the tare
[[nodiscard]] Lot lot_weighed(units::Mass shown, units::MassFraction ethanol,
                              units::Temperature t, const Weighing& weighing = {});

/// Water to add to a lot on the scale until it shows `shown`. The mixture's density changes as
/// the water goes in, and with it the air pushed aside.
///
/// t          of the mixture when the scale is read, -20 to 40 °C
/// throws     InputError ("shown") when the scale shows more already
/// accuracy   balance_shows() of the result gives `shown` back to 1e-14; mass is conserved
[[nodiscard]] units::Mass water_weighed_in(const Lot& lot, units::Mass shown,
                                           units::Temperature t, const Weighing& weighing = {});

}  // namespace lynearm::spirit
