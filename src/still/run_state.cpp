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

spirit::Lot lot_of(double ethanol_mol, double water_mol) {
  return lot(Moles{vapour::AmountOfSubstance::moles(ethanol_mol),
                   vapour::AmountOfSubstance::moles(water_mol)});
}

}  // namespace

double strength_of_mole_fraction(double x) {
  const double e = x * spirit::ethanol_molar_mass_g_per_mol;
  const double p = e / (e + (1.0 - x) * spirit::water_molar_mass_g_per_mol);
  return p * density_20C()(p).density_kgm3 / pure_kgm3();
}

double litres_20C(double ethanol_mol, double water_mol) {
  const double ethanol_g = ethanol_mol * spirit::ethanol_molar_mass_g_per_mol;
  const double g = ethanol_g + water_mol * spirit::water_molar_mass_g_per_mol;
  return g > 0.0 ? g / density_20C()(ethanol_g / g).density_kgm3 : 0.0;
}

double litres_20C(const spirit::Lot& lot) {
  const double kg = lot.mass().kilograms();
  return kg > 0.0 ? kg / density_20C()(lot.ethanol.kilograms() / kg).density_kgm3 * 1e3 : 0.0;
}

spirit::Lot distilled(const Charge& charge, const RunState& state) {
  const spirit::Lot gone =
      charge.spirit - lot_of(state.pot_ethanol_mol + state.held_ethanol_mol,
                             state.pot_water_mol + state.held_water_mol);
  // Rounding may leave -1e-17 kg of a part that was never there.
  return {units::Mass::kilograms(std::fmax(gone.ethanol.kilograms(), 0.0)),
          units::Mass::kilograms(std::fmax(gone.water.kilograms(), 0.0))};
}

Point shown(const Charge& charge, double boiling_s, const RunState& state) {
  Point point;
  point.distillate = distilled(charge, state);
  const double litres = litres_20C(point.distillate);
  point.collected = units::Volume::litres(litres);
  point.spout = units::VolumeStrength::fraction(strength_of_mole_fraction(state.spout_z));
  // Of nothing yet, the strength is that of the first drop.
  point.cumulative =
      litres > 1e-12 ? units::VolumeStrength::fraction(strength_of(point.distillate, litres))
                     : point.spout;
  point.pure_alcohol =
      units::Volume::litres(point.distillate.ethanol.kilograms() / pure_kgm3() * 1e3);
  point.held = lot_of(state.held_ethanol_mol, state.held_water_mol);
  const double n_mol = state.pot_mol();
  const double x = n_mol > 0.0 ? state.pot_ethanol_mol / n_mol : 0.0;
  point.pot = units::VolumeStrength::fraction(strength_of_mole_fraction(x));
  point.pot_temperature = units::Temperature::kelvins(state.pot_K);
  point.head_temperature = units::Temperature::kelvins(state.head_K);
  point.pot_ethanol = units::MoleFraction::fraction(x);
  point.rising_ethanol = units::MoleFraction::fraction(state.rising_y);
  point.reflux_ethanol = units::MoleFraction::fraction(state.reflux_x);
  point.leaving_ethanol = units::MoleFraction::fraction(state.leaving_y);
  point.spout_ethanol = units::MoleFraction::fraction(state.spout_z);
  point.back = units::Share::fraction(state.back_share);
  point.over_mol_per_s = state.on_mol_s;
  point.flow = units::VolumeFlow::litres_per_second(
      litres_20C(state.on_mol_s * state.spout_z, state.on_mol_s * (1.0 - state.spout_z)));
  point.in_pot = vapour::AmountOfSubstance::moles(n_mol);
  point.into_pot = units::Energy::joules(state.into_pot_J);
  point.head_heat = units::Energy::joules(state.head_heat_J);
  point.carried = units::Energy::joules(state.carried_J);
  point.drawn = units::Energy::joules(state.drawn_J);
  point.since_start = units::Duration::seconds(state.t_s);
  point.since_boiling = units::Duration::seconds(state.t_s - boiling_s);
  return point;
}

RunState state_of(const Point& point) {
  const Moles held = moles(point.held);
  const double n_mol = point.in_pot.moles();
  RunState s;
  s.t_s = point.since_start.seconds();
  s.pot_ethanol_mol = n_mol * point.pot_ethanol.fraction();
  s.pot_water_mol = n_mol - s.pot_ethanol_mol;
  s.held_ethanol_mol = held.ethanol.moles();
  s.held_water_mol = held.water.moles();
  s.spout_z = point.spout_ethanol.fraction();
  s.rising_y = point.rising_ethanol.fraction();
  s.reflux_x = point.reflux_ethanol.fraction();
  s.leaving_y = point.leaving_ethanol.fraction();
  s.back_share = point.back.fraction();
  s.on_mol_s = point.over_mol_per_s;
  s.pot_K = point.pot_temperature.kelvins();
  s.head_K = point.head_temperature.kelvins();
  s.drawn_J = point.drawn.joules();
  s.into_pot_J = point.into_pot.joules();
  s.head_heat_J = point.head_heat.joules();
  s.carried_J = point.carried.joules();
  return s;
}

}  // namespace lynearm::still
