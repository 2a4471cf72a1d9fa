#include "spirit/obscuration_rule.hpp"

#include <fmt/format.h>

#include "base/error.hpp"

namespace lynearm::spirit {

UsGauging us_gauging(units::MassConcentration residue) {
  if (!(residue >= units::MassConcentration{})) {
    throw base::InputError("residue", fmt::format("{:.3f} g/L", residue.grams_per_litre()),
                           "zero or more");
  }
  if (residue <= us_hydrometer_alone) return UsGauging::hydrometer;
  return residue <= us_computed ? UsGauging::hydrometer_and_obscuration : UsGauging::distil;
}

std::string_view words(UsGauging gauging) {
  switch (gauging) {
    case UsGauging::hydrometer:
      return "the hydrometer's proof stands";
    case UsGauging::hydrometer_and_obscuration:
      return "add the computed obscuration to the hydrometer's proof";
    case UsGauging::distil:
      return "distil a sample and gauge the distillate";
  }
  return "";
}

Proof obscuration(units::MassConcentration residue) {
  if (!(residue >= units::MassConcentration{} && residue <= us_computed)) {
    throw base::InputError("residue", fmt::format("{:.3f} g/L", residue.grams_per_litre()),
                           "0 to 6 g/L (600 mg/100 mL); above it a sample is distilled");
  }
  constexpr double proof_per_g_per_L = 0.4;
  return Proof::degrees(proof_per_g_per_L * residue.grams_per_litre());
}

Proof true_proof(const ObscuredLot& lot, double solids_mL_per_g) {
  // density() refuses the empty lot.
  const units::Density mixed = density(lot, reference_60F, solids_mL_per_g);
  const units::Density pure = density(units::MassFraction::fraction(1.0), reference_60F);
  const double share = lot.spirit.ethanol / lot.mass();
  return Proof::degrees(200.0 * share * (mixed / pure));
}

Proof apparent_proof(const ObscuredLot& lot, double solids_mL_per_g) {
  const units::Density mixed = density(lot, reference_60F, solids_mL_per_g);
  constexpr double rounding = 1e-9;
  if (!(mixed.kilograms_per_cubic_metre() <=
        density(units::MassFraction{}, reference_60F).kilograms_per_cubic_metre() + rounding)) {
    throw base::InputError("spirit",
                           fmt::format("{:.3f} kg/m³", mixed.kilograms_per_cubic_metre()),
                           "a spirit lighter than water: in this one a hydrometer shows "
                           "nothing");
  }
  return proof(mass_fraction_at(mixed, reference_60F));
}

}  // namespace lynearm::spirit
