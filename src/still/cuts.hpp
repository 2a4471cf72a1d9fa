// Where foreshots, heads, hearts and tails part: borders laid over a run that has been
// computed, as often as the maker likes. Lots are differences of the run's own, so the
// fractions sum to the distillate.
#pragma once

#include <variant>
#include <vector>

#include "spirit/lot.hpp"
#include "still/run.hpp"
#include "units/quantity.hpp"

namespace lynearm::still {

/// A border by what the maker watches: the volume collected reaches, the spout's strength falls
/// to, or the head's temperature rises to, this. The kind of quantity says which.
using Border = std::variant<units::Volume, units::VolumeStrength, units::Temperature>;

struct Borders {
  Border foreshots_end;
  Border hearts_begin;  ///< heads lie before
  Border hearts_end;    ///< tails lie after
};

/// What runs between two moments.
struct Fraction {
  spirit::Lot lot;
  units::Volume volume;            ///< at 20 °C
  units::VolumeStrength strength;  ///< zero when empty
  units::Volume pure_alcohol;
  Point from, to;
  [[nodiscard]] units::Duration duration() const {
    return to.since_boiling - from.since_boiling;
  }
};

struct Cuts {
  Fraction foreshots, heads, hearts, tails;
};

/// The moment of a border.
///
/// field      named in the error
/// throws     InputError(field) when the run does not reach it, with what the run does reach
[[nodiscard]] Point moment(const Run& run, const Border& border, std::string_view field);

/// What runs from one moment to a later one.
[[nodiscard]] Fraction fraction(const Point& from, const Point& to);

/// Parts a run at its borders. Two borders at one moment leave an empty fraction.
///
/// throws     InputError "cuts.foreshots_end", "cuts.hearts_begin" or "cuts.hearts_end"
///            when the run does not reach it, or when it comes before the one ahead of it
/// accuracy   the four lots sum to the distillate to rounding (1e-12 of it)
[[nodiscard]] Cuts cut(const Run& run, const Borders& borders);

/// A run caught in jars of one size, in order; the last may be part full.
///
/// each       above 0, at most 10,000 jars; else InputError("jar")
[[nodiscard]] std::vector<Fraction> into_jars(const Run& run, units::Volume each);

}  // namespace lynearm::still
