#include "mash/drain.hpp"

#include <algorithm>

#include "mash/heat.hpp"
#include "mash/limits.hpp"

namespace lynearm::mash {
namespace {

/// What runs off when the solids keep `kept_kg` of water and the liquor gives up its extract
/// with a share `mixing` of evenness. Takes it out of `liquor`.
wort::Wort run_off(wort::Wort& liquor, units::Mass kept, double mixing) {
  const units::Mass out = std::max(units::Mass(), liquor.water - kept);
  if (out == units::Mass()) return {};
  const wort::Wort run{out, liquor.extract * (mixing * (out / liquor.water))};
  liquor = liquor - run;
  return run;
}

}  // namespace

units::Mass held_water(const Bill& bill, units::Share wet_moisture, units::Mass raw_starch) {
  within("drain.moisture", wet_moisture.percent(), 30.0, 90.0, "%");
  within("drain.raw_starch", raw_starch.kilograms(), 0.0, 1e4, "kg");
  const Potential potential = extract_potential(bill);
  units::Mass holding = raw_starch * clinging_factor;
  for (std::size_t i = 0; i < bill.size(); ++i) {
    switch (bill[i].ingredient.absorption) {
      case Absorption::none:
        break;
      case Absorption::husked:
        holding += potential.lines[i].insoluble;
        break;
      case Absorption::clinging:
        holding += potential.lines[i].insoluble * clinging_factor;
        break;
    }
  }
  return holding * (wet_moisture.fraction() / (1.0 - wet_moisture.fraction()));
}

units::Volume spirit_worth(units::Mass extract, units::Share fermentable) {
  return units::Volume::litres(0.606 * extract.kilograms() * fermentable.fraction());
}

Drained drain(const Bill& bill, const wort::Wort& liquor, units::Mass raw_starch,
              std::span<const units::Mass> sparges, const Draining& draining,
              units::Share fermentable) {
  within("drain.mixing", draining.mixing.percent(), 1.0, 100.0, "%");
  within("drain.dead_volume", draining.dead_volume.litres(), 0.0, 1e4, "L");
  within("ferment.fermentable", fermentable.percent(), 0.0, 100.0, "%");
  within("mash.water", liquor.water.kilograms(), 1e-6, 1e6, "kg");
  within("mash.extract", liquor.extract.kilograms(), 0.0, 1e6, "kg");
  const units::Mass dead = units::Mass::kilograms(draining.dead_volume.litres() *
                                                  wort::water_at_20C.grams_per_millilitre());
  const units::Mass kept = held_water(bill, draining.drained_moisture, raw_starch) + dead;

  Drained drained;
  wort::Wort rest = liquor;
  const auto take = [&](RunOffKind kind, units::Mass keeps, double mixing) {
    RunOff run;
    run.kind = kind;
    run.wort = run_off(rest, keeps, mixing);
    run.volume = wort::volume(run.wort);
    run.gained = units::Share::fraction(
        liquor.extract > units::Mass() ? run.wort.extract / liquor.extract : 0.0);
    run.gravity = wort::plato(run.wort);
    run.spirit = spirit_worth(run.wort.extract, fermentable);
    drained.collected = drained.collected + run.wort;
    drained.run_offs.push_back(run);
  };

  take(RunOffKind::first_runnings, kept, 1.0);
  for (const units::Mass& water : sparges) {
    within("sparge.water", water.kilograms(), 0.0, 1e6, "kg");
    rest.water += water;
    take(RunOffKind::sparge, kept, draining.mixing.fraction());
  }
  if (draining.squeezed_moisture) {
    within("drain.squeezed_moisture", draining.squeezed_moisture->percent(), 30.0,
           draining.drained_moisture.percent(), "%");
    take(RunOffKind::squeeze, held_water(bill, *draining.squeezed_moisture, raw_starch) + dead,
         1.0);
  }
  drained.kept = rest;
  drained.volume = wort::volume(drained.collected);
  drained.efficiency = units::Share::fraction(
      liquor.extract > units::Mass() ? drained.collected.extract / liquor.extract : 0.0);
  return drained;
}

OnTheGrain on_the_grain(const Bill& bill, const wort::Wort& liquor, units::Mass raw_starch) {
  within("drain.raw_starch", raw_starch.kilograms(), 0.0, 1e4, "kg");
  OnTheGrain whole;
  whole.liquor = liquor;
  whole.solids = extract_potential(bill).insoluble + raw_starch;
  whole.volume = wort::volume(liquor) +
                 units::Volume::litres(whole.solids.kilograms() * grain_displacement_L_per_kg);
  return whole;
}

units::Share slow_draining(const Bill& bill) {
  const Potential potential = extract_potential(bill);
  if (!(potential.grain > units::Mass())) return units::Share();
  units::Mass slow;
  for (const GristLine& line : bill) {
    if (line.ingredient.drains_slowly) slow += line.mass;
  }
  return units::Share::fraction(slow / potential.grain);
}

}  // namespace lynearm::mash
