#include "wire/vapour.hpp"

#include "spirit/strength.hpp"
#include "wire/air_parts.hpp"
#include "wire/figure.hpp"

namespace lynearm::wire {
namespace {

Json percent_vol(units::MoleFraction ethanol) {
  return figure(spirit::volume_strength(spirit::mass_fraction(ethanol)).percent());
}

Json percent_mass(units::MoleFraction ethanol) {
  return figure(spirit::mass_fraction(ethanol).percent());
}

}  // namespace

std::string boiling_json(const vapour::BoilingMixture& mixture,
                         const vapour::Azeotrope& azeotrope,
                         const std::optional<still::TodaysAir>& air,
                         const std::vector<still::DaysCue>& cues) {
  using vapour::kilojoules_per_kilogram;
  Json object;
  object["bubble_temperature_C"] = figure(mixture.temperature.celsius());
  object["vapour_mole_fraction"] = figure(mixture.vapour.fraction());
  object["liquid_percent_vol"] = percent_vol(mixture.liquid);
  object["vapour_percent_vol"] = percent_vol(mixture.vapour);
  object["liquid_mole_fraction"] = figure(mixture.liquid.fraction());
  object["liquid_percent_mass"] = percent_mass(mixture.liquid);
  object["vapour_percent_mass"] = percent_mass(mixture.vapour);
  object["relative_volatility"] = figure(mixture.relative_volatility);
  object["activity_coefficient_ethanol"] = figure(mixture.activity.ethanol);
  object["activity_coefficient_water"] = figure(mixture.activity.water);
  object["liquid_enthalpy_kJ_per_kg"] =
      figure(kilojoules_per_kilogram(mixture.liquid_enthalpy, mixture.liquid));
  object["vapour_enthalpy_kJ_per_kg"] =
      figure(kilojoules_per_kilogram(mixture.vapour_enthalpy, mixture.vapour));
  object["heat_of_vaporisation_kJ_per_kg"] =
      figure(kilojoules_per_kilogram(mixture.heat_of_vaporisation, mixture.liquid));
  object["azeotrope_mole_fraction"] = figure(azeotrope.ethanol.fraction());
  object["azeotrope_percent_vol"] = percent_vol(azeotrope.ethanol);
  object["azeotrope_temperature_C"] = figure(azeotrope.temperature.celsius());
  object["pressure_kPa"] = figure(mixture.pressure.kilopascals());
  if (air) object["todays_air"] = air_json(*air, cues);
  return object.dump();
}

}  // namespace lynearm::wire
