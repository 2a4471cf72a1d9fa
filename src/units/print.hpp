// A quantity as text: "4.50 kg (9.92 lb)", "66.0 °C", "1 h 10 min", "55.0 %vol", "1.062".
//
// Each kind is shown in one or two units of a system, the largest that is not less than one of
// it; about three figures, since few things in a shed are known better. Independent of locale;
// never "-0.0"; everything printed parses back (within the rounding shown).
#pragma once

#include <optional>
#include <string>
#include <utility>

#include "units/kind.hpp"
#include "units/parse.hpp"

namespace lynearm::units {

/// `value` with `decimals` decimals and a point; a zero has no sign. value: finite.
[[nodiscard]] std::string fixed(double value, int decimals);

/// The untyped kernels of print(), concise() and exact().
[[nodiscard]] std::string print_base_value(double base, const Kind& kind, System system,
                                           std::optional<int> decimals);
[[nodiscard]] std::string concise_base_value(double base, const Kind& kind);
[[nodiscard]] std::string exact_base_value(double base, const Kind& kind);

/// For people. Where both systems use the same unit, `both` prints it once.
/// decimals   of the figure; by default chosen by unit and size
/// throws     BrokenInvariant when the quantity is not finite
template <class Q>
[[nodiscard]] std::string print(Q quantity, System system = System::metric,
                                std::optional<int> decimals = std::nullopt) {
  return print_base_value(base_value(quantity), kind<Q>(), system, decimals);
}

/// Two that a sentence sets against each other: with as many decimals, up to 3, as tell them
/// apart; what even those do not, with `decimals`. throws as print() does
template <class Q>
[[nodiscard]] std::pair<std::string, std::string> print_apart(Q a, Q b,
                                                              System system = System::metric,
                                                              int decimals = 1) {
  for (int tried = decimals; tried <= 3; ++tried) {
    std::pair both{print(a, system, tried), print(b, system, tried)};
    if (both.first != both.second) return both;
  }
  return {print(a, system, decimals), print(b, system, decimals)};
}

/// For limits and defaults in messages and tables: metric, no trailing zeros, at most six
/// figures: "66 °C", "0.5 kg".
template <class Q>
[[nodiscard]] std::string concise(Q quantity) {
  return concise_base_value(base_value(quantity), kind<Q>());
}

/// For storing: the shortest figure in the base unit, which parses back to the same value to
/// the last bit (kinds written in percent: to one part in 10^15).
template <class Q>
[[nodiscard]] std::string exact(Q quantity) {
  return exact_base_value(base_value(quantity), kind<Q>());
}

/// A duration in its two largest units: "45 s", "2 min 30 s", "1 h 10 min", "3 d 4 h"; from 14
/// days "45 d", from 90 days "6.0 months", from two years "2.5 years".
[[nodiscard]] std::string print(Duration duration, System system = System::metric);

[[nodiscard]] inline std::string concise(Duration duration) { return print(duration); }

/// A strength with the proof that goes with it, which the caller has from spirit/:
/// "55.0 %vol (109.9 proof)".
[[nodiscard]] std::string print(VolumeStrength strength, double proof_degrees, System system,
                                int decimals = 1);

/// As it was stated: "55.0 %vol", "55.0 %vol at 60 °F", "47.2 %mass", "110.0 proof".
[[nodiscard]] std::string print(const StatedStrength& strength, int decimals = 1);

/// "1.20 / kg", "0.90 each".
[[nodiscard]] std::string print(const Price& price, int decimals = 2);

/// "75.0 % ± 4.0 %".
template <class Q>
[[nodiscard]] std::string print(const Spread<Q>& spread, System system = System::metric) {
  return print(spread.median, system) + " ± " + print(spread.half_width_80, system);
}

}  // namespace lynearm::units
