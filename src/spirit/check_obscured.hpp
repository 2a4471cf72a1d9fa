// After mixing, where something is dissolved: what mends it, and what the difference from the
// plan says about the mistake. As check_reading.hpp, whose words it uses, with the volumes and
// strengths of obscuration.hpp: strengths are true ones, not what the alcoholmeter shows.
#pragma once

#include "spirit/check_reading.hpp"
#include "spirit/obscuration.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

struct ObscuredCorrection {
  Remedy remedy = Remedy::none;
  units::Mass water;   ///< to add still
  ObscuredLot spirit;  ///< strong spirit to add back
  ObscuredLot result;
};

/// The lot of a known mass, solids and all, of a true strength and a residue at 20 °C.
///
/// mass       zero or more
/// throws     InputError ("strength", "residue") as obscured_lot() does
[[nodiscard]] ObscuredLot obscured_lot(units::Mass mass, units::VolumeStrength true_strength,
                                       units::MassConcentration residue,
                                       double solids_mL_per_g = sucrose_mL_per_g);

/// What brings the vessel to a true strength.
///
/// found      what stands there; must hold ethanol
/// wanted     above 0 to 100 %vol
/// strong     some of the spirit to add back if it is too weak; only what it is made of counts
/// near       a difference left alone, in points of strength; zero or more
/// throws     InputError ("found", "wanted", "near"), or ("strong") when it is too weak and
///            `strong` is empty or not above `wanted`
/// accuracy   the result has the wanted true strength to 1e-12; without solids, correct()
[[nodiscard]] ObscuredCorrection correct(const ObscuredLot& found, units::VolumeStrength wanted,
                                         const ObscuredLot& strong, units::VolumeStrength near,
                                         double solids_mL_per_g = sucrose_mL_per_g);

/// What a finding implies against the plan of adding `besides` and `water` to `spirit`.
///
/// spirit     as planned; must hold ethanol
/// besides    tea or weaker spirit, as planned and taken as right; may be empty
/// found      what stands there; must hold ethanol. Its residue is best that of the plan: what
/// a
///            mistake changes in it is not seen
/// returns    as mistake() of plain lots; strengths are true ones, masses hold the solids
/// throws     InputError ("spirit", "water", "besides", "found") as that does
[[nodiscard]] Mistake mistake(const ObscuredLot& spirit, const ObscuredLot& besides,
                              units::Mass water, const ObscuredLot& found,
                              double solids_mL_per_g = sucrose_mL_per_g);

}  // namespace lynearm::spirit
