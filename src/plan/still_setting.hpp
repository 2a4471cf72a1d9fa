// From the kit and its constants to the settings of one run of still/run.hpp: fire, head, metal
// and what coil and parrot hold. One place, so that the plan, a run by itself, a fit and the
// following of a run all drive the same still.
#pragma once

#include "plan/drawn.hpp"
#include "plan/kit.hpp"
#include "still/kit.hpp"
#include "still/rectify.hpp"
#include "still/run.hpp"

namespace lynearm::plan {

/// Boiler of the kit as still/ takes it: with all its metal, head included, and its heat loss
/// times the factor drawn for it.
[[nodiscard]] still::Boiler still_boiler(const Kit& kit, const Drawn& drawn);

/// How a run of this kit is driven: full power to the boil, `running` from then on.
///
/// running    drawn while spirit runs; above zero
/// gentle     a spirit run: of the two fixed shares the gentle one. A head that works by its
///            heat loss does not ask; there the lower power makes the difference
/// returns    tolerance 1e-9, no power steps; metal of the head apart from the boiler's
[[nodiscard]] still::RunSetting run_setting(const Kit& kit, const Drawn& drawn,
                                            units::Power running, bool gentle);

/// The same with every constant at its median.
[[nodiscard]] still::RunSetting run_setting(const Kit& kit, units::Power running, bool gentle);

/// What the boiler draws on a run: on a gentle one the kit's share of its power, where that can
/// be turned down.
[[nodiscard]] units::Power running_power(const Kit& kit, bool gentle);

/// The most plates a head may have.
inline constexpr int most_plates = still::most_plates;

/// Heat loss of a bare copper head and lyne arm when the kit does not state it.
///
/// boiler     volume to the brim
/// returns    12 W/(m² K) over 1.4 V^(2/3) of surface, with an 80 % band of 40 %
/// accuracy   our estimate: surface to 35 %, coefficient to 17 % (10 to 14 for bare, tarnished
///            copper in still air: natural convection and radiation, common practice). A
///            lagged head loses a sixth of it. Not compared with measured stills
[[nodiscard]] units::Spread<units::HeatLoss> estimated_head_loss(units::Volume boiler);

}  // namespace lynearm::plan
