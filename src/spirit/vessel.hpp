// The vessel a volume is read in: its walls grow with warmth, so what stands at a mark is the
// marked volume only at the temperature it was marked for. From the mark to the lot and back,
// and the volume at another temperature.
//
// Model: cubic expansion, linear in temperature from where it was marked. Leaves out a vessel's
// bulging under its load, its tilt, and what a cask drinks: class errors stand for those.
#pragma once

#include <span>
#include <string_view>

#include "base/figure.hpp"
#include "base/source.hpp"
#include "spirit/density.hpp"
#include "spirit/lot.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// What a vessel is made of.
struct Material {
  std::string_view id;                   ///< "borosilicate-3.3"
  std::string_view name;                 ///< "borosilicate glass 3.3"
  base::Figure<double> expansion_per_K;  ///< cubic: three times the linear
};

/// Glasses, steels, copper, plastics, oak; each with its source.
[[nodiscard]] std::span<const Material> materials();
/// throws     InputError ("material") with the nearest id
[[nodiscard]] const Material& material(std::string_view id);

/// Cubic expansion of borosilicate glass 3.3, the usual volumetric flask: ISO 4787 (from
/// memory).
inline constexpr double borosilicate_expansion_per_K = 9.9e-6;

/// A vessel with marks. The default has walls that do not grow: its volumes are already true.
struct Vessel {
  double expansion_per_K = 0.0;                  ///< cubic, 0 to 1e-3
  units::Temperature marked_at = reference_20C;  ///< where its marks are true
};

/// A vessel of a material, marked for `marked_at`. A US prover or drum is marked for 60 °F.
[[nodiscard]] Vessel vessel_of(const Material& material,
                               units::Temperature marked_at = reference_20C);

/// True volume of what stands at a mark.
///
/// marked     zero or more
/// t          of spirit and vessel alike, -20 to 40 °C
/// throws     InputError ("volume", "temperature", "vessel.expansion", "vessel.marked_at")
///            outside
[[nodiscard]] units::Volume true_volume(units::Volume marked, units::Temperature t,
                                        const Vessel& vessel);
/// The mark a true volume stands at: inverse of true_volume(), to rounding.
[[nodiscard]] units::Volume marked_volume(units::Volume truth, units::Temperature t,
                                          const Vessel& vessel);

/// The lot that stands at a mark.
/// accuracy   lot_at_mark() and mark_of() undo one another to 1e-15; the density is OIML R 22's
[[nodiscard]] Lot lot_at_mark(units::Volume marked, units::MassFraction ethanol,
                              units::Temperature t, const Vessel& vessel = {});
/// The mark a lot stands at: inverse of lot_at_mark().
[[nodiscard]] units::Volume mark_of(const Lot& lot, units::Temperature t,
                                    const Vessel& vessel = {});

/// What a volume marked at `from` is multiplied by to be the true volume at `to`: the spirit's
/// expansion and the vessel's. Masses and strength do not change.
///
/// from, to   -20 to 40 °C
/// accuracy   27 CFR 30.25 (Gauging Manual Table 7), 115 proof, 68 to 60 °F: 0.9962 with the
///            spirit alone, 0.9963 in mild steel; printed 0.996
[[nodiscard]] double volume_correction(units::MassFraction ethanol, units::Temperature from,
                                       units::Temperature to, const Vessel& vessel = {});

/// A measure of volume: how far from the truth its marks may be.
struct VolumeMeasure {
  std::string_view id;           ///< "flask-a-1000"
  std::string_view name;         ///< "volumetric flask 1000 mL, class A"
  std::string_view material;     ///< the usual one, an id of materials()
  units::Volume capacity;        ///< nominal; zero when the row holds for every size
  units::Volume absolute_error;  ///< most it may be off, either way; zero when relative
  units::Share relative_error;   ///< of the volume read; zero when absolute
  base::Source source;
};

/// Flasks, cylinders, drums and casks.
[[nodiscard]] std::span<const VolumeMeasure> volume_measures();
/// throws     InputError ("measure") with the nearest id
[[nodiscard]] const VolumeMeasure& volume_measure(std::string_view id);
/// Most that `read` may be off in a measure, either way.
/// throws     InputError ("volume") below zero
[[nodiscard]] units::Volume most_error(const VolumeMeasure& measure, units::Volume read);

}  // namespace lynearm::spirit
