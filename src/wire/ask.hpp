// What a page asks the server to compute, from its JSON: plain values with strong types. The
// shapes are those of web/api/openapi.yaml. Each reader throws InputError with every fault.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "journal/body.hpp"
#include "units/quantity.hpp"

namespace lynearm::wire {

struct PlanAsked {
  std::string recipe, kit;
  int members = 0;  ///< of the ensemble behind the bands
};
[[nodiscard]] PlanAsked read_plan_asked(std::string_view text);

/// What a batch is to be changed to: see plan/backward.hpp.
struct FitKitWish {};
struct SpiritWish {
  units::Volume volume;
  units::VolumeStrength strength;
  std::string strength_typed;
};
struct GravityWish {
  units::SpecificGravity gravity;
};
struct ReplaceWish {
  int line = 1;  ///< of the bill, from 1
  std::string ingredient;
};
using Wish = std::variant<FitKitWish, SpiritWish, GravityWish, ReplaceWish>;

struct SolveAsked {
  std::string recipe, kit;
  Wish wish;
};
/// Amounts are texts with their unit, as in a recipe: "5 L", "55 %vol", "110 proof", "1.062".
[[nodiscard]] SolveAsked read_solve_asked(std::string_view text);

/// Which glass was read: in the order of spirit::hydrometer_classes().
enum class Glass { class_1, class_2, class_3, house };

struct GaugeAsked {
  journal::StrengthRead strength;
  Glass glass = Glass::house;  ///< unless it is told, the kit's, or what most houses own
  bool glass_told = false;     ///< whether the request names it
  std::string certificate;     ///< of the kit's glass; not asked
  std::optional<units::Volume> volume;  ///< at the strength's temperature
  units::MassConcentration residue;     ///< what evaporating to dryness leaves, at 20 °C
};
[[nodiscard]] GaugeAsked read_gauge_asked(std::string_view text);

struct GravityAsked {
  journal::GravityRead gravity;
  std::optional<units::SpecificGravity> original;
};
[[nodiscard]] GravityAsked read_gravity_asked(std::string_view text);

/// A volume at 20 °C and its strength.
struct PartAsked {
  units::Volume volume;
  units::VolumeStrength strength;
};

/// Tea of oak: a volume at 20 °C, its true strength, what evaporating it leaves.
struct TeaAsked {
  PartAsked part;
  units::MassConcentration residue;
};
/// What stood in the vessel after mixing as planned. Without an amount the planned mass stands
/// there still.
struct FoundAsked {
  units::VolumeStrength strength;       ///< true
  std::optional<units::Volume> volume;  ///< at 20 °C; of the two one at most
  std::optional<units::Mass> mass;
};

/// A reduction, asked forward from `volume` or backward from what is to be made. Beside the
/// water may go in weaker spirit, or tea, as much as is told.
struct ReduceAsked {
  std::optional<units::Volume> volume;  ///< of the spirit, at `at`; of these two exactly one
  std::optional<units::Volume> make;    ///< of the result, at 20 °C
  units::VolumeStrength strength;       ///< true
  units::Temperature at = journal::at_20C;
  units::VolumeStrength to;
  units::Temperature water_at = journal::at_20C;
  std::optional<PartAsked> weaker;
  std::optional<TeaAsked> tea;
  units::MassConcentration residue;  ///< what evaporating the spirit leaves, at 20 °C
  std::optional<FoundAsked> found;

  /// Whether something is dissolved: the alcoholmeter will not show the true strength.
  [[nodiscard]] bool dissolved() const { return tea || residue > units::MassConcentration{}; }
};
[[nodiscard]] ReduceAsked read_reduce_asked(std::string_view text);

[[nodiscard]] std::vector<PartAsked> read_blend_asked(std::string_view text);

struct PourAsked {
  journal::Id run;
  std::vector<journal::JarPoured> pours;
};
[[nodiscard]] PourAsked read_pour_asked(std::string_view text);

struct MashCorrectionAsked {
  journal::Id batch;
  units::Temperature temperature;
  std::optional<std::string> step;  ///< in hand; empty once the last is done
};
[[nodiscard]] MashCorrectionAsked read_mash_correction_asked(std::string_view text);

/// A charge before its heat is on.
struct ChargeAsked {
  journal::RunKind run = journal::RunKind::strip;
  units::Volume volume;                           ///< at 20 °C; above zero
  std::optional<units::VolumeStrength> strength;  ///< true, where it is known
};
[[nodiscard]] ChargeAsked read_charge_asked(std::string_view text);

}  // namespace lynearm::wire
