#include "still/run_state.hpp"

#include <cmath>

#include "spirit/density_kernel.hpp"
#include "spirit/strength.hpp"

namespace lynearm::still {
namespace {

const spirit::DensityAt& density_20C() {
  static const spirit::DensityAt density(20.0);
  return density;
}

double pure_kgm3() {
  static const double density = density_20C()(1.0).density_kgm3;
  return density;
}

double strength_of(const spirit::Lot& lot, double litres) {
  return lot.ethanol.kilograms() / pure_kgm3() * 1e3 / litres;
}

}  // namespace

double strength_of_mole_fraction(double x) {
  const double e = x * spirit::ethanol_molar_mass_g_per_mol;
  const double p = e / (e + (1.0 - x) * spirit::water_molar_mass_g_per_mol);
  return p * density_20C()(p).density_kgm3 / pure_kgm3();
}

double litres_20C(const spirit::Lot& lot) {
  const double kg = lot.mass().kilograms();
  return kg > 0.0 ? kg / density_20C()(lot.ethanol.kilograms() / kg).density_kgm3 * 1e3 : 0.0;
}

spirit::Lot distilled(const Charge& charge, double n0_mol, double u, double x) {
  if (u <= 0.0) return {};
  const double n_mol = n0_mol * std::exp(-u);
  const spirit::Lot left = lot(Moles{vapour::AmountOfSubstance::moles(n_mol * x),
                                     vapour::AmountOfSubstance::moles(n_mol * (1.0 - x))});
  const spirit::Lot gone = charge.spirit - left;
  // Rounding may leave -1e-17 kg of a part that was never there.
  return {units::Mass::kilograms(std::fmax(gone.ethanol.kilograms(), 0.0)),
          units::Mass::kilograms(std::fmax(gone.water.kilograms(), 0.0))};
}

Point shown(const Charge& charge, double n0_mol, const RunState& state) {
  Point point;
  point.distillate = distilled(charge, n0_mol, state.u, state.pot_x);
  const double litres = litres_20C(point.distillate);
  point.collected = units::Volume::litres(litres);
  point.spout = units::VolumeStrength::fraction(strength_of_mole_fraction(state.spout_y));
  // Of nothing yet, the strength is that of the first drop.
  point.cumulative =
      litres > 0.0 ? units::VolumeStrength::fraction(strength_of(point.distillate, litres))
                   : point.spout;
  point.pure_alcohol =
      units::Volume::litres(point.distillate.ethanol.kilograms() / pure_kgm3() * 1e3);
  point.pot = units::VolumeStrength::fraction(strength_of_mole_fraction(state.pot_x));
  point.pot_temperature = units::Temperature::kelvins(state.pot_K);
  point.head_temperature = units::Temperature::kelvins(state.head_K);
  point.pot_ethanol = units::MoleFraction::fraction(state.pot_x);
  point.rising_ethanol = units::MoleFraction::fraction(state.rising_y);
  point.reflux_ethanol = units::MoleFraction::fraction(state.reflux_x);
  point.spout_ethanol = units::MoleFraction::fraction(state.spout_y);
  point.in_pot = vapour::AmountOfSubstance::moles(n0_mol * std::exp(-state.u));
  point.into_pot = units::Energy::joules(state.into_pot_J);
  point.head_heat = units::Energy::joules(state.head_heat_J);
  return point;
}

}  // namespace lynearm::still
