#include "spirit/account.hpp"

#include <fmt/format.h>

#include <limits>

#include "base/error.hpp"
#include "spirit/density.hpp"

namespace lynearm::spirit {
namespace {

// A volume of pure ethanol at 60 °F: half of each proof gallon is one.
units::Density pure_60F() {
  static const units::Density pure = density(units::MassFraction::fraction(1.0), reference_60F);
  return pure;
}

units::Mass ethanol_in_a_proof_gallon() {
  const units::Volume half = units::Volume::us_gallons(0.5);
  return units::Mass::kilograms(pure_60F().kilograms_per_cubic_metre() * half.cubic_metres());
}

void check(const Lot& lot) {
  if (!(lot.ethanol >= units::Mass{} && lot.water >= units::Mass{} &&
        lot.mass().kilograms() < std::numeric_limits<double>::infinity())) {
    throw base::InputError("lot",
                           fmt::format("{:.4f} kg ethanol, {:.4f} kg water",
                                       lot.ethanol.kilograms(), lot.water.kilograms()),
                           "zero or more of each");
  }
}

}  // namespace

units::Mass ethanol_in(PureAlcohol alcohol) {
  return ethanol_in(units::Volume::litres(alcohol.litres()));
}

units::Mass ethanol_in(ProofGallons alcohol) {
  return ethanol_in_a_proof_gallon() * alcohol.gallons();
}

PureAlcohol litres_of_alcohol(units::Mass ethanol) {
  return PureAlcohol::litres(pure_alcohol(Lot{ethanol, {}}).litres());
}

ProofGallons proof_gallons(units::Mass ethanol) {
  return ProofGallons::gallons(ethanol / ethanol_in_a_proof_gallon());
}

PureAlcohol litres_of_alcohol(ProofGallons alcohol) {
  return litres_of_alcohol(ethanol_in(alcohol));
}

ProofGallons proof_gallons(PureAlcohol alcohol) { return proof_gallons(ethanol_in(alcohol)); }

Account account(const Lot& lot, units::Temperature weighed_at, const Air& air) {
  check(lot);
  const units::MassFraction p = mass_fraction(lot);
  return {.mass = lot.mass(),
          .weight = weight_in_air(lot.mass(), density(p, weighed_at), air),
          .volume_20C = volume(lot, reference_20C),
          .volume_60F = volume(lot, reference_60F),
          .strength = volume_strength(p),
          .proof = proof(p),
          .alcohol = litres_of_alcohol(lot.ethanol),
          .proof_gallons = proof_gallons(lot.ethanol)};
}

Parts parts_at_60F(units::MassFraction ethanol) {
  const units::Density spirit = density(ethanol, reference_60F);
  const units::Density water = density(units::MassFraction{}, reference_60F);
  return {100.0 * ethanol.fraction() * (spirit / pure_60F()),
          100.0 * (1.0 - ethanol.fraction()) * (spirit / water)};
}

}  // namespace lynearm::spirit
