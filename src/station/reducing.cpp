#include "station/reducing.hpp"

#include "base/field_names.hpp"
#include "spirit/reduction_inverse.hpp"
#include "spirit/weaker_spirit.hpp"

namespace lynearm::station {
namespace {

spirit::Lot lot_of(const wire::PartAsked& part) {
  return spirit::lot(part.volume, part.strength);
}

void with_weaker(const wire::ReduceAsked& asked, const spirit::MixingTemperatures& at,
                 wire::ReductionMade& made) {
  const spirit::WeakerReduction with = base::with_names(
      {{"weaker", "weaker.volume_L_20C"}},
      [&] { return spirit::reduce_with(made.spirit, lot_of(*asked.weaker), asked.to); });
  spirit::Reduction by_mass;
  by_mass.water = with.water;
  by_mass.water_at_20C = spirit::water_volume(with.water, spirit::reference_20C);
  by_mass.result = with.result;
  by_mass.volume_at_20C = with.volume_at_20C;
  by_mass.contraction = with.contraction;
  made.measured = spirit::measured(made.spirit, by_mass, at);
}

// Where something is dissolved, in the spirit or in tea that goes into it.
void obscured(const wire::ReduceAsked& asked, const spirit::MixingTemperatures& at,
              wire::ReductionMade& made) {
  const spirit::ObscuredLot before = base::with_names({{"residue", "residue_g_L"}}, [&] {
    return spirit::obscured_lot(*asked.volume, asked.strength, asked.residue, asked.at);
  });
  spirit::ObscuredReduction with;
  if (asked.tea) {
    const spirit::ObscuredLot tea = base::with_names(
        {{"volume", "tea.volume_L_20C"},
         {"strength", "tea.strength_percent_vol"},
         {"residue", "tea.residue_g_L"}},
        [&] {
          return spirit::obscured_lot(asked.tea->part.volume, asked.tea->part.strength,
                                      asked.tea->residue);
        });
    with = base::with_names({{"tea", "tea.volume_L_20C"}, {"spirit", "tea.residue_g_L"}},
                            [&] { return spirit::reduce_with_tea(before, tea, asked.to); });
  } else {
    with = base::with_names({{"spirit", "residue_g_L"}},
                            [&] { return spirit::reduce(before, asked.to); });
  }
  made.spirit = before.spirit;
  spirit::Reduction& by_mass = made.measured.by_mass;
  by_mass.water = with.water;
  by_mass.water_at_20C = spirit::water_volume(with.water, spirit::reference_20C);
  by_mass.result = with.result.spirit;
  by_mass.volume_at_20C = with.volume_at_20C;
  by_mass.contraction = with.contraction;
  made.measured.spirit = *asked.volume;
  made.measured.water = spirit::water_volume(with.water, at.water);
  made.measured.result = spirit::volume(with.result, at.result);
  made.measured.contraction = by_mass.contraction;  // the page shows that at 20 °C
  made.obscured = with;
}

wire::ReductionCheck check_of(const wire::ReduceAsked& asked, const wire::ReductionMade& made) {
  const wire::FoundAsked& found = *asked.found;
  wire::ReductionCheck check;
  if (found.volume) {
    check.found = spirit::lot(*found.volume, found.strength);
  } else {
    // What was weighed in is still there.
    check.found =
        spirit::lot(found.mass.value_or(made.measured.by_mass.result.mass()), found.strength);
  }
  return base::with_names(
      {{"found", "found.strength_percent_vol"},
       {"wanted", "to_percent_vol"},
       {"strong", "found.strength_percent_vol"},
       {"spirit", "strength_percent_vol"}},
      [&] {
        check.correction = spirit::correct(check.found, asked.to, asked.strength, near_enough);
        check.mistake = spirit::mistake(made.spirit, made.measured.by_mass.water, check.found);
        return check;
      });
}

wire::ReductionMade reckoned(const wire::ReduceAsked& asked) {
  const spirit::MixingTemperatures at{asked.at, asked.water_at, spirit::reference_20C};
  wire::ReductionMade made;
  if (asked.make) {
    const spirit::SpiritNeeded needed = base::with_names({{"volume", "make_L"}}, [&] {
      return spirit::spirit_needed(*asked.make, asked.to, asked.strength);
    });
    made.spirit = needed.spirit;
    made.measured = spirit::measured(needed.spirit, needed.reduction, at);
  } else if (asked.dissolved()) {
    obscured(asked, at, made);
  } else {
    made.spirit = spirit::lot(*asked.volume, asked.strength, asked.at);
    if (asked.weaker) {
      with_weaker(asked, at, made);
    } else {
      made.measured = spirit::reduce(made.spirit, asked.to, at);
    }
  }
  if (asked.found) made.check = check_of(asked, made);
  return made;
}

}  // namespace

wire::ReductionMade reduced(const wire::ReduceAsked& asked) {
  return base::with_names({{"to", "to_percent_vol"},
                           {"volume", "volume_L"},
                           {"strength", "strength_percent_vol"},
                           {"water_temperature", "water_at_C"},
                           {"temperature", "at_C"},
                           {"spirit_temperature", "at_C"}},
                          [&] { return reckoned(asked); });
}

}  // namespace lynearm::station
