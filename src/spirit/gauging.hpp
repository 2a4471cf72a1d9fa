// A gauging: what was observed (an instrument's figure, a temperature, perhaps a volume or a
// weight and what evaporating left) and what it means: true strength, volume, pure alcohol,
// each with its uncertainty and what that is made of.
//
// Uncertainty is of the first order (GUM, JCGM 100:2008): every limit "may be off by so much
// either way" counts as a uniform distribution of that half width, and independent. One
// thermometer reading serves strength and volume alike, so the two are carried together.
#pragma once

#include <optional>
#include <span>
#include <string_view>
#include <variant>
#include <vector>

#include "base/figure.hpp"
#include "spirit/account.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/obscuration.hpp"
#include "spirit/reading.hpp"
#include "spirit/refractometer.hpp"
#include "spirit/vessel.hpp"
#include "spirit/weighing.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

// How the strength was observed. `most_error` is what the instrument may be off, either way:
// its class, or its maker's word; zero leaves it out.

/// A glass hydrometer of any scale.
struct ByHydrometer {
  Reading reading;
  Hydrometer hydrometer{};
  double most_error = 0.0;  ///< in the scale's figure
  double read_to = 0.0;     ///< smallest step told apart on the stem, in the scale's figure
};

/// An oscillating density meter, or any other figure of density at the spirit's temperature.
struct ByDensity {
  units::Density density;
  units::Density most_error{};
};

/// Scales and a flask filled to its mark.
struct ByFlask {
  units::Mass shown;
  Flask flask;
  Weighing weighing{};
  units::Mass most_error{};
  units::Volume flask_error{};
};

/// Which of the two strengths of a refractive index: only the maker can say.
enum class Side { weak, strong };

/// A refractometer.
struct ByRefraction {
  units::RefractiveIndex index;
  std::optional<Side> side{};  ///< needed where one index has two strengths
  units::RefractiveIndex most_error{};
};

/// A strength known already.
struct KnownStrength {
  units::VolumeStrength strength;
  units::VolumeStrength most_error{};
};

using Observation = std::variant<ByHydrometer, ByDensity, ByFlask, ByRefraction, KnownStrength>;

/// A volume read at a mark, at the spirit's temperature.
struct VolumeRead {
  units::Volume marked;
  Vessel vessel{};
  units::Volume most_error{};
};

/// A weight on the scale.
struct WeightRead {
  units::Mass shown;
  Weighing weighing{};
  units::Mass most_error{};
};

using AmountRead = std::variant<VolumeRead, WeightRead>;

struct GaugingInput {
  Observation observation;
  units::Temperature at = reference_20C;
  units::TemperatureChange thermometer_error{};  ///< the most it may be off, either way
  std::optional<AmountRead> amount{};
  units::MassConcentration residue{};  ///< evaporated residue, g/L at 20 °C; zero: none
  units::MassConcentration residue_error{};
};

/// What an uncertainty is made of: one input's limits, and what they do.
struct Contribution {
  std::string_view input;          ///< "class of the instrument"
  units::VolumeStrength strength;  ///< standard, with the sign of the slope
  units::Volume volume;            ///< the same of the volume; zero without an amount
  PureAlcohol alcohol;
};

/// The lot gauged, when an amount was.
struct GaugedLot {
  Account account;  ///< of the spirit; `alcohol` and `proof_gallons` by the true strength
  units::Volume volume_standard;  ///< standard uncertainty of account.volume_20C
  PureAlcohol alcohol_standard;
};

/// What a maker should know of this gauging beside its figures.
enum class GaugingNote {
  may_be_frozen,       ///< below the freezing point: what is liquid is stronger than the whole
  refraction_is_flat,  ///< near the maximum of the index, where it hardly tells strengths apart
  obscured,            ///< `strength` is not what the alcoholmeter shows
  near_warmest,        ///< above 35 °C: strength is being lost to the air
};

struct Gauging {
  units::MassFraction apparent;    ///< the pure spirit of this density
  units::VolumeStrength strength;  ///< true, at 20 °C: ethanol in a litre of it as it is
  units::MassFraction ethanol;     ///< true, of the whole mass
  units::VolumeStrength standard;  ///< standard uncertainty of `strength`
  std::optional<units::MassFraction> other_side;  ///< a refractive index's other answer
  std::optional<GaugedLot> lot;
  std::vector<Contribution> contributions;  ///< of the inputs that have limits
  std::vector<GaugingNote> notes;
};

/// The density formula's own error, as most it may be off either way: our estimate, from the
/// scatter of the measurements behind OIML R 22 about its table (a few hundredths of a kg/m³).
inline constexpr units::Density formula_error = units::Density::kilograms_per_cubic_metre(0.03);

/// What an observation means.
///
/// at         -20 to 40 °C (a refractometer: 0 to 40 °C)
/// throws     InputError "at", "reading", "density", "shown", "index", "strength", "volume",
///            "residue": outside, or what no spirit shows; "side" when an index has two
///            strengths and none was chosen
/// accuracy   strengths: the functions of the instrument. Uncertainty: within 3 % of a
///            simulation with 200,000 draws (tests/spirit/gauging_test.cpp)
[[nodiscard]] Gauging gauge(const GaugingInput& input);

/// What a class of hydrometer promises, in % of its scale (proof: twice that).
struct HydrometerClass {
  std::string_view id;    ///< "class-2"
  std::string_view name;  ///< "class II of OIML R 44"
  double most_error_percent;
  double division_percent;
  base::Source source;
};
[[nodiscard]] std::span<const HydrometerClass> hydrometer_classes();
/// throws     InputError ("class") with the nearest id
[[nodiscard]] const HydrometerClass& hydrometer_class(std::string_view id);

}  // namespace lynearm::spirit
