#include "station/reducing.hpp"

#include <fmt/format.h>

#include "base/error.hpp"
#include "base/field_names.hpp"
#include "spirit/check_obscured.hpp"
#include "spirit/reduction_inverse.hpp"
#include "spirit/weaker_spirit.hpp"

namespace lynearm::station {
namespace {

spirit::Lot lot_of(const wire::PartAsked& part) {
  return spirit::lot(part.volume, part.strength);
}

const char* name_of_besides(const wire::ReduceAsked& asked) {
  return asked.tea ? "tea.volume_L_20C" : "weaker.volume_L_20C";
}

// Backward: at the strength wanted the alcohol of what is to be made is known, and what the
// spirit must bring of it. `litre` is of the spirit, `besides` what else brings alcohol.
template <class Lot>
Lot as_much_as_needed(const wire::ReduceAsked& asked, const Lot& litre, units::Mass litre_holds,
                      units::Mass besides) {
  const spirit::Lot wanted =
      base::with_names({{"volume", "make_L"}, {"strength", "to_percent_vol"}},
                       [&] { return spirit::lot(*asked.make, asked.to); });
  const units::Mass lacking = wanted.ethanol - besides;
  if (!(lacking > units::Mass{})) {
    throw base::InputError(
        name_of_besides(asked),
        fmt::format("{:.3f} L of pure alcohol", spirit::pure_alcohol({besides, {}}).litres()),
        fmt::format("less than the {:.3f} L that are in what is to be made",
                    spirit::pure_alcohol(wanted).litres()));
  }
  return litre * (lacking / litre_holds);
}

void with_weaker(const wire::ReduceAsked& asked, const spirit::MixingTemperatures& at,
                 wire::ReductionMade& made) {
  made.besides = lot_of(*asked.weaker);
  if (asked.make) {
    const spirit::Lot litre = spirit::lot(units::Volume::litres(1.0), asked.strength);
    made.spirit = as_much_as_needed(asked, litre, litre.ethanol, made.besides.ethanol);
  }
  const spirit::WeakerReduction with = base::with_names(
      {{"weaker", "weaker.volume_L_20C"}},
      [&] { return spirit::reduce_with(made.spirit, made.besides, asked.to); });
  spirit::Reduction by_mass;
  by_mass.water = with.water;
  by_mass.water_at_20C = spirit::water_volume(with.water, spirit::reference_20C);
  by_mass.result = with.result;
  by_mass.volume_at_20C = with.volume_at_20C;
  by_mass.contraction = with.contraction;
  made.measured = spirit::measured(made.spirit, by_mass, at);
}

spirit::ObscuredLot besides_of(const wire::ReduceAsked& asked) {
  if (asked.tea) {
    return base::with_names({{"volume", "tea.volume_L_20C"},
                             {"strength", "tea.strength_percent_vol"},
                             {"residue", "tea.residue_g_L"}},
                            [&] {
                              return spirit::obscured_lot(asked.tea->part.volume,
                                                          asked.tea->part.strength,
                                                          asked.tea->residue);
                            });
  }
  if (asked.weaker) return {lot_of(*asked.weaker), {}};
  return {};
}

spirit::ObscuredLot obscured_spirit(const wire::ReduceAsked& asked,
                                    const spirit::ObscuredLot& besides) {
  return base::with_names({{"residue", "residue_g_L"}}, [&] {
    if (!asked.make) {
      return spirit::obscured_lot(*asked.volume, asked.strength, asked.residue, asked.at);
    }
    const spirit::ObscuredLot litre =
        spirit::obscured_lot(units::Volume::litres(1.0), asked.strength, asked.residue);
    return as_much_as_needed(asked, litre, litre.spirit.ethanol, besides.spirit.ethanol);
  });
}

// Where something is dissolved, in the spirit or in tea that goes into it.
struct Dissolved {
  spirit::ObscuredLot spirit, besides;
};

Dissolved obscured(const wire::ReduceAsked& asked, const spirit::MixingTemperatures& at,
                   wire::ReductionMade& made) {
  Dissolved put;
  put.besides = besides_of(asked);
  put.spirit = obscured_spirit(asked, put.besides);
  const spirit::ObscuredReduction with = base::with_names(
      {{"tea", name_of_besides(asked)},
       {"spirit", asked.tea ? "tea.residue_g_L" : "residue_g_L"}},
      [&] { return spirit::reduce_with_tea(put.spirit, put.besides, asked.to); });
  made.spirit = put.spirit.spirit;
  made.besides = put.besides.spirit;
  spirit::Reduction& by_mass = made.measured.by_mass;
  by_mass.water = with.water;
  by_mass.water_at_20C = spirit::water_volume(with.water, spirit::reference_20C);
  by_mass.result = with.result.spirit;
  by_mass.volume_at_20C = with.volume_at_20C;
  by_mass.contraction = with.contraction;
  made.measured.spirit = spirit::volume(put.spirit, at.spirit);
  made.measured.water = spirit::water_volume(with.water, at.water);
  made.measured.result = spirit::volume(with.result, at.result);
  made.measured.contraction = by_mass.contraction;  // the page shows that at 20 °C
  made.obscured = with;
  return put;
}

// What a finding's refusals are called in the request.
template <class Answer>
auto with_found_names(const Answer& answer) {
  return base::with_names({{"found", "found.strength_percent_vol"},
                           {"wanted", "to_percent_vol"},
                           {"strong", "found.strength_percent_vol"},
                           {"spirit", "strength_percent_vol"}},
                          answer);
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
  return with_found_names([&] {
    check.correction = spirit::correct(check.found, asked.to, asked.strength, near_enough);
    check.mistake =
        spirit::mistake(made.spirit, made.measured.by_mass.water, check.found, made.besides);
    return check;
  });
}

// The residue is taken to be as planned: nobody dries a sample between.
wire::ReductionCheck obscured_check_of(const wire::ReduceAsked& asked,
                                       const wire::ReductionMade& made, const Dissolved& put) {
  const wire::FoundAsked& found = *asked.found;
  const spirit::ObscuredReduction& planned = *made.obscured;
  wire::ReductionCheck check;
  wire::ReductionCheck::Obscured lots;
  lots.found = base::with_names(
      {{"volume", "found.volume_L_20C"},
       {"mass", "found.mass_kg"},
       {"strength", "found.strength_percent_vol"},
       {"residue", "found.strength_percent_vol"}},
      [&] {
        if (found.volume) {
          return spirit::obscured_lot(*found.volume, found.strength, planned.residue);
        }
        return spirit::obscured_lot(found.mass.value_or(planned.result.mass()), found.strength,
                                    planned.residue);
      });
  return with_found_names([&] {
    const spirit::ObscuredCorrection mend =
        spirit::correct(lots.found, asked.to, put.spirit, near_enough);
    lots.spirit = mend.spirit;
    lots.result = mend.result;
    check.found = lots.found.spirit;
    check.correction = {mend.remedy, mend.water, mend.spirit.spirit, mend.result.spirit,
                        spirit::volume(mend.result)};
    check.mistake =
        spirit::mistake(put.spirit, put.besides, made.measured.by_mass.water, lots.found);
    check.obscured = lots;
    return check;
  });
}

wire::ReductionMade reckoned(const wire::ReduceAsked& asked) {
  const spirit::MixingTemperatures at{asked.at, asked.water_at, spirit::reference_20C};
  wire::ReductionMade made;
  if (asked.dissolved()) {
    const Dissolved put = obscured(asked, at, made);
    if (asked.found) made.check = obscured_check_of(asked, made, put);
    return made;
  }
  if (asked.volume) made.spirit = spirit::lot(*asked.volume, asked.strength, asked.at);
  if (asked.weaker) {
    with_weaker(asked, at, made);
  } else if (asked.make) {
    const spirit::SpiritNeeded needed = base::with_names({{"volume", "make_L"}}, [&] {
      return spirit::spirit_needed(*asked.make, asked.to, asked.strength);
    });
    made.spirit = needed.spirit;
    made.measured = spirit::measured(needed.spirit, needed.reduction, at);
  } else {
    made.measured = spirit::reduce(made.spirit, asked.to, at);
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
