// A quantity from text: "4.5 kg", "5 lb 4 oz", "66 °C", "1 h 30 min", "1.062".
//
// A figure, then a unit of the kind asked for; never a bare figure where there is a unit to
// mistake. The decimal mark is the point, whatever the locale; a comma is refused, because it
// means two things. A refusal says what would be accepted, and names the kind of a unit that
// belongs elsewhere. Says nothing about sensible sizes: ranges belong to the field.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>

#include "base/error.hpp"
#include "units/kind.hpp"

namespace lynearm::units {

/// A value, or what would have been accepted in its place.
template <class Q>
struct Parsed {
  std::optional<Q> value;
  std::string accepted;  ///< empty when there is a value

  explicit operator bool() const { return value.has_value(); }
};

/// The base value of `text` as a quantity of `kind`; the untyped kernel of try_parse().
[[nodiscard]] Parsed<double> parse_base_value(std::string_view text, const Kind& kind);

/// Reads `text` as a Q. Masses, volumes, durations and lengths may be sums of falling units;
/// a sign before a sum holds for all of it. Spaces are free. Does not throw.
template <class Q>
[[nodiscard]] Parsed<Q> try_parse(std::string_view text) {
  Parsed<double> base = parse_base_value(text, kind<Q>());
  if (!base) return {std::nullopt, std::move(base.accepted)};
  return {from_base_value<Q>(*base.value), {}};
}

/// Reads `text` as a Q.
/// throws     InputError with an empty field path, the text, and what is accepted
template <class Q>
[[nodiscard]] Q parse(std::string_view text) {
  Parsed<Q> parsed = try_parse<Q>(text);
  if (!parsed) throw base::InputError("", std::string(text), std::move(parsed.accepted));
  return *std::move(parsed.value);
}

/// How a strength is stated. % by volume depends on the temperature at which both volumes are
/// taken; 20 °C is meant where none is said.
enum class StrengthScale {
  percent_by_volume,      ///< at 20 °C
  percent_by_volume_15C,  ///< at 15 °C
  percent_by_volume_60F,  ///< at 60 °F (15.56 °C)
  percent_by_mass,
  us_proof,  ///< at 60 °F
};

/// A strength as it was stated. Turning proof or mass into a strength by volume is physics:
/// see spirit/strength.hpp.
struct StatedStrength {
  double value = 0.0;  ///< figure on the scale: 55 for "55 %vol", 110 for "110 proof"
  StrengthScale scale = StrengthScale::percent_by_volume;

  friend bool operator==(const StatedStrength&, const StatedStrength&) = default;
};

/// "55 %vol", "55 % vol", "55 % by volume", "55 %ABV", "55 %vol at 60 F", "55 %vol 15 °C",
/// "47.2 %mass", "110 proof".
/// Refuses a figure outside 0 to 100 % or 0 to 200 proof, and a bare "%", which is ambiguous.
template <>
[[nodiscard]] Parsed<StatedStrength> try_parse<StatedStrength>(std::string_view text);

/// A volume of spirit and its strength.
struct StatedLot {
  Volume volume;
  StatedStrength strength;
};

/// "5 L @ 55 %vol" or "5 L at 110 proof". Refuses a negative volume.
template <>
[[nodiscard]] Parsed<StatedLot> try_parse<StatedLot>(std::string_view text);

/// A lot as it stands in a vessel: how much was measured, at which temperature, how strong.
struct StatedPart {
  std::variant<Volume, Mass> amount;
  StatedStrength strength;
  std::optional<Temperature> at;  ///< of a volume; 20 °C is meant where none is said
};

/// "1.2 L @ 74 %vol", "1.2 L @ 74 %vol, 27 °C", "940 g @ 120 proof". Refuses a negative amount.
template <>
[[nodiscard]] Parsed<StatedPart> try_parse<StatedPart>(std::string_view text);

/// What a price is for.
enum class PricedBy { kilogram, litre, kilowatt_hour, piece };

/// A price in the currency of the recipe, which is not part of it.
struct Price {
  double amount = 0.0;  ///< zero or more, for one of `by`
  PricedBy by = PricedBy::kilogram;

  friend bool operator==(const Price&, const Price&) = default;
};

/// "1.20 / kg", "0.28 / kWh", "3 / L", "0.9 each", "2 per lb". A price by another unit of mass,
/// volume or energy is turned into one by the kilogram, litre or kilowatt hour.
template <>
[[nodiscard]] Parsed<Price> try_parse<Price>(std::string_view text);

/// A value known to within a band: four times in five it lies within `half_width_80`.
template <class Q>
struct Spread {
  Q median{};
  Change<Q> half_width_80{};
};

/// The untyped kernel of try_parse_spread(): base values of median and half width.
[[nodiscard]] Parsed<std::pair<double, std::optional<double>>> parse_base_spread(
    std::string_view text, const Kind& kind, const Kind& change);

/// "75 % +/- 4 %", "75 % ± 4 %", "75 ± 4 %", "66 °C ± 1 K", or a plain "75 %", whose half width
/// is then `otherwise`. Does not throw.
template <class Q>
[[nodiscard]] Parsed<Spread<Q>> try_parse_spread(std::string_view text,
                                                 Change<Q> otherwise = {}) {
  auto base = parse_base_spread(text, kind<Q>(), kind<Change<Q>>());
  if (!base) return {std::nullopt, std::move(base.accepted)};
  const auto& [median, half_width] = *base.value;
  return {Spread<Q>{from_base_value<Q>(median),
                    half_width ? from_base_value<Change<Q>>(*half_width) : otherwise},
          {}};
}

}  // namespace lynearm::units
