#include "still/charge.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"
#include "spirit/density.hpp"
#include "spirit/hot_water.hpp"
#include "spirit/strength.hpp"

namespace lynearm::still {
namespace {

// DIPPR 105, Perry 8th ed. Table 2-30, mol/m³ there.
double ethanol_kgm3(double t_C) {
  const double t_K = t_C + 273.15;
  const double mol_per_m3 =
      1628.8 / std::pow(0.27469, 1.0 + std::pow(1.0 - t_K / 514.0, 0.23178));
  return mol_per_m3 * spirit::ethanol_molar_mass_g_per_mol * 1e-3;
}

double unmixed_m3(const spirit::Lot& lot, double t_C) {
  const units::Density water = spirit::hot_water_density(units::Temperature::celsius(t_C));
  return lot.ethanol.kilograms() / ethanol_kgm3(t_C) +
         lot.water.kilograms() / water.kilograms_per_cubic_metre();
}

}  // namespace

units::Volume hot_volume(const spirit::Lot& lot, units::Temperature t) {
  if (t <= spirit::warmest) return spirit::volume(lot, t);
  if (!(t.celsius() <= 110.0)) {
    throw base::InputError("temperature", fmt::format("{:.4g} °C", t.celsius()),
                           "-20 to 110 °C");
  }
  if (lot.mass() <= units::Mass{}) return {};
  const double growth = unmixed_m3(lot, t.celsius()) / unmixed_m3(lot, 40.0);
  return spirit::volume(lot, spirit::warmest) * growth;
}

units::Volume volume(const Charge& charge, units::Temperature t) {
  return hot_volume(charge.spirit, t) +
         units::Volume::litres(charge.extract.kilograms() * extract_litres_per_kg);
}

units::HeatCapacity extract_heat(const Charge& charge) {
  return units::HeatCapacity::kilojoules_per_kelvin(charge.extract.kilograms() *
                                                    extract_kJ_per_kg_K);
}

units::MoleFraction Moles::fraction() const {
  if (total() <= vapour::AmountOfSubstance{}) return {};
  return units::MoleFraction::fraction(ethanol / total());
}

Moles moles(const spirit::Lot& lot) {
  return {
      vapour::AmountOfSubstance::moles(lot.ethanol.grams() /
                                       spirit::ethanol_molar_mass_g_per_mol),
      vapour::AmountOfSubstance::moles(lot.water.grams() / spirit::water_molar_mass_g_per_mol)};
}

spirit::Lot lot(const Moles& moles) {
  return {units::Mass::grams(moles.ethanol.moles() * spirit::ethanol_molar_mass_g_per_mol),
          units::Mass::grams(moles.water.moles() * spirit::water_molar_mass_g_per_mol)};
}

units::Temperature boiling_temperature(const Charge& charge,
                                       const vapour::BoilingCurve& curve) {
  const Moles in_pot = moles(charge.spirit);
  if (!(in_pot.total() > vapour::AmountOfSubstance{})) {
    throw base::InputError("charge.spirit", "nothing", "some wash or spirit");
  }
  return curve.temperature(in_pot.fraction());
}

void require_distillable(const Charge& charge) {
  const spirit::Lot& in = charge.spirit;
  const bool sound = in.ethanol >= units::Mass{} && in.water >= units::Mass{} &&
                     charge.extract >= units::Mass{} && std::isfinite(in.mass().kilograms()) &&
                     std::isfinite(charge.extract.kilograms());
  if (!sound) {
    throw base::InputError("charge.spirit", "a mass below zero", "masses of zero or more");
  }
  if (in.mass() <= units::Mass{}) {
    throw base::InputError("charge.spirit", "nothing", "some wash or spirit");
  }
  // Below this the strength itself is lost in rounding.
  if (in.ethanol / in.mass() < 1e-6) {
    throw base::InputError(
        "charge.spirit",
        fmt::format("{:.4g} % alcohol by mass", 100.0 * (in.ethanol / in.mass())),
        "a wash or spirit with alcohol in it");
  }
}

}  // namespace lynearm::still
