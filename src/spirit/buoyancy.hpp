// Weighing in air: a body pushes air aside and seems lighter by the weight of that air. Spirit
// is some nine times lighter than the weights a balance is adjusted with, so a balance shows
// about 0.1 % less than the mass on it: half a %vol, when a density is made of it.
//
// Model: Archimedes on both sides of the beam. Weights are taken as 8000 kg/m³, the convention
// of OIML D 28 and R 111. Leaves out a balance adjusted in other air than it weighs in: 0.1
// kg/m³ between the two is 1.3e-5 of the figure.
#pragma once

#include "spirit/strength.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// The air round a balance. The default is conventional (OIML D 28, R 111): near sea level at
/// 20 °C. 1.0 kg/m³ at 1500 m; a tenth of a kg/m³ is 1.1e-4 of a spirit's weight.
struct Air {
  units::Density density = units::Density::kilograms_per_cubic_metre(1.2);
};

/// Density of the weights a balance is adjusted with (OIML D 28, R 111).
inline constexpr units::Density conventional_weights =
    units::Density::kilograms_per_cubic_metre(8000.0);
/// Of brass ones, as in the United States tables of the first half of the 20th century (from
/// memory; borne out by tests/published/cfr_27_30_test.cpp).
inline constexpr units::Density brass_weights =
    units::Density::kilograms_per_cubic_metre(8400.0);

/// Air of a temperature, pressure and humidity.
///
/// t                  -20 to 40 °C
/// pressure           500 to 1100 hPa, as the barometer stands in the room (not reduced to sea
///                    level)
/// relative_humidity  0 to 100 %
/// throws     InputError ("air.temperature", "air.pressure", "air.humidity") outside
/// accuracy   the source states 2e-4 from 900 to 1100 hPa, 10 to 30 °C, up to 80 %. Against
///            ideal gases with Magnus' vapour pressure: worst 3.8e-4 there, 3.5e-3 over our
///            whole range (tests/spirit/buoyancy_test.cpp); the latter is 5e-6 of a spirit's
///            weight
/// source     OIML R 111-1 (2004), Annex E, simplified CIPM formula (from memory)
[[nodiscard]] Air moist_air(units::Temperature t, units::Pressure pressure,
                            units::Share relative_humidity);

/// What a balance shows for a mass, adjusted with `weights` in the same air.
///
/// mass       zero or more
/// density    of what is weighed, 100 to 25000 kg/m³
/// air        0 (vacuum) to 2 kg/m³
/// weights    1000 to 25000 kg/m³
/// throws     InputError ("mass", "density", "air", "weights") outside
/// source     Archimedes; OIML D 28 (from memory)
[[nodiscard]] units::Mass weight_in_air(units::Mass mass, units::Density density,
                                        const Air& air = {},
                                        units::Density weights = conventional_weights);
/// The same of a volume: what a gallon weighs.
[[nodiscard]] units::Mass weight_in_air(units::Volume volume, units::Density density,
                                        const Air& air = {},
                                        units::Density weights = conventional_weights);

/// The mass for which a balance shows `shown`: inverse of weight_in_air(), to rounding.
[[nodiscard]] units::Mass mass_of(units::Mass shown, units::Density density,
                                  const Air& air = {},
                                  units::Density weights = conventional_weights);

/// Density of what fills a volume and weighs `shown`: inverse of weight_in_air() of a volume.
/// volume     above zero
[[nodiscard]] units::Density density_of(units::Mass shown, units::Volume volume,
                                        const Air& air = {},
                                        units::Density weights = conventional_weights);

/// Conventional mass of a body: the weight of 8000 kg/m³ that balances it in air of 1.2 kg/m³.
/// source     OIML D 28, definition (from memory)
[[nodiscard]] units::Mass conventional_mass(units::Mass mass, units::Density density);

/// Specific gravity in air, as a pycnometer gives it: the weight of a flaskful over that of the
/// same flaskful of water. Further from 1 than in vacuum; its temperatures stand beside it.
class GravityInAir : public units::Amount<GravityInAir> {
 public:
  constexpr GravityInAir() = default;
  static constexpr GravityInAir raw(double v) { return GravityInAir(v); }
  static constexpr GravityInAir ratio(double v) { return GravityInAir(v); }
  constexpr double ratio() const { return base_; }

 private:
  constexpr explicit GravityInAir(double v) : Amount<GravityInAir>(v) {}
};

/// Gravity in air of a liquid against water, from the two densities.
/// throws     InputError ("density", "water", "air") outside the ranges of weight_in_air()
[[nodiscard]] GravityInAir gravity_in_air(units::Density liquid, units::Density water,
                                          const Air& air = {});
/// The liquid's density: inverse of gravity_in_air(), to rounding.
/// throws     InputError ("gravity") outside 0.1 to 10
[[nodiscard]] units::Density density_of(GravityInAir gravity, units::Density water,
                                        const Air& air = {});

/// Gravity in air of a spirit against water, both at `t` ("25/25 °C").
/// t          -20 to 40 °C
/// accuracy   USP 29 alcoholometric table, 60/60 °F and 25/25 °C, 21 rows: worst 8.0e-5, RMS
///            3.4e-5; printed to 1e-4 (tests/published/usp_29_test.cpp)
[[nodiscard]] GravityInAir gravity_in_air(units::MassFraction ethanol, units::Temperature t,
                                          const Air& air = {});
/// The spirit of a gravity in air, both at `t`: inverse, to 1e-11 in mass fraction.
/// throws     InputError ("gravity") outside that of pure ethanol to 1
[[nodiscard]] units::MassFraction mass_fraction(GravityInAir gravity, units::Temperature t,
                                                const Air& air = {});

/// From in vacuum to in air and back, at 20 °C and at 60 °F. At SG 0.8 the two part by 2.4e-4.
[[nodiscard]] GravityInAir in_air(units::SpecificGravity gravity, const Air& air = {});
[[nodiscard]] GravityInAir in_air(SpecificGravity60F gravity, const Air& air = {});
[[nodiscard]] units::SpecificGravity in_vacuum_20C(GravityInAir gravity, const Air& air = {});
[[nodiscard]] SpecificGravity60F in_vacuum_60F(GravityInAir gravity, const Air& air = {});

}  // namespace lynearm::spirit
