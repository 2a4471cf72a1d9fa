// What an officer writes of a lot: volume at the reference temperature, mass and weight, and
// the alcohol in it. Europe counts litres of pure alcohol at 20 °C; the United States count
// proof gallons, gallons at 60 °F of 100 proof. The same ethanol swells between the two
// temperatures, so they convert through its mass, and not by halving a gallon.
//
// Both follow from OIML R 22 and the definitions. What a house must record, and by which
// tables, its own law says.
#pragma once

#include "spirit/buoyancy.hpp"
#include "spirit/density.hpp"
#include "spirit/lot.hpp"
#include "spirit/strength.hpp"
#include "units/quantity.hpp"

namespace lynearm::spirit {

/// Pure alcohol as a volume of its own at 20 °C.
class PureAlcohol : public units::Amount<PureAlcohol> {
 public:
  constexpr PureAlcohol() = default;
  static constexpr PureAlcohol raw(double v) { return PureAlcohol(v); }
  static constexpr PureAlcohol litres(double v) { return PureAlcohol(v); }
  constexpr double litres() const { return base_; }

 private:
  constexpr explicit PureAlcohol(double v) : Amount<PureAlcohol>(v) {}
};

/// United States proof gallons (27 CFR 30.11): a gallon (231 cubic inches) at 60 °F of 100
/// proof. One holds 1.500977 kg of ethanol, which is 1.901803 litres of pure alcohol at 20 °C;
/// at 60 °F it is half a gallon, 1.892706 L. A litre of pure alcohol is 0.525817 proof gallons.
class ProofGallons : public units::Amount<ProofGallons> {
 public:
  constexpr ProofGallons() = default;
  static constexpr ProofGallons raw(double v) { return ProofGallons(v); }
  static constexpr ProofGallons gallons(double v) { return ProofGallons(v); }
  constexpr double gallons() const { return base_; }

 private:
  constexpr explicit ProofGallons(double v) : Amount<ProofGallons>(v) {}
};

/// Mass of ethanol in an amount of alcohol, and the amounts of a mass of ethanol. Exact by
/// definition; each pair undoes the other to rounding.
[[nodiscard]] units::Mass ethanol_in(PureAlcohol alcohol);
[[nodiscard]] units::Mass ethanol_in(ProofGallons alcohol);
[[nodiscard]] PureAlcohol litres_of_alcohol(units::Mass ethanol);
[[nodiscard]] ProofGallons proof_gallons(units::Mass ethanol);
/// From one to the other through the mass.
[[nodiscard]] PureAlcohol litres_of_alcohol(ProofGallons alcohol);
[[nodiscard]] ProofGallons proof_gallons(PureAlcohol alcohol);

/// A lot as it is written down.
struct Account {
  units::Mass mass;
  units::Mass weight;  ///< in air, as a scale shows it without vessel
  units::Volume volume_20C;
  units::Volume volume_60F;  ///< its us_gallons() are wine gallons
  units::VolumeStrength strength;
  Proof proof;
  PureAlcohol alcohol;
  ProofGallons proof_gallons;
};

/// What is written of a lot.
///
/// lot          zero or more of each; an empty lot is zero in every column
/// weighed_at   the spirit's temperature on the scale, -20 to 40 °C; the US tables weigh at
///              60 °F. Ten degrees move the weight by 1e-5
/// air          conventional unless told
/// throws     InputError ("lot", "temperature", "air") outside
/// accuracy   27 CFR 30.64 and 30.66, 190 and 141 proof: worst 5.2e-5 of the printed figure,
///            from the older density table, its air and its rounded factors
///            (tests/published/cfr_27_30_test.cpp)
/// source     OIML R 22; 27 CFR 30.11
[[nodiscard]] Account account(const Lot& lot, units::Temperature weighed_at = reference_60F,
                              const Air& air = {});

/// A hundred volumes of spirit at 60 °F as the alcohol and the water that make them. The two
/// add to more than a hundred: spirit and water shrink together.
struct Parts {
  double alcohol;  ///< volumes at 60 °F
  double water;    ///< volumes at 60 °F
};

/// accuracy   27 CFR 30.66 (Gauging Manual Table 6), 100, 188 and 191 proof: worst 0.007 parts
///            (tests/published/cfr_27_30_test.cpp)
[[nodiscard]] Parts parts_at_60F(units::MassFraction ethanol);

}  // namespace lynearm::spirit
