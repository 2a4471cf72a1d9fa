#include "wire/vapour.hpp"

#include <gtest/gtest.h>

#include <nlohmann/json.hpp>

#include "spirit/strength.hpp"

namespace lynearm::wire {
namespace {

using Json = nlohmann::ordered_json;

TEST(BoilingJson, isTheMixtureItWasMadeFrom) {
  const auto p = units::Pressure::kilopascals(95.0);
  const vapour::BoilingMixture mixture =
      vapour::boiling_mixture(units::MoleFraction::fraction(0.1), p);
  const vapour::Azeotrope azeotrope = vapour::azeotrope(p);
  const Json object = Json::parse(boiling_json(mixture, azeotrope));
  const auto expect = [&](const char* key, double value) {
    EXPECT_NEAR(object[key].get<double>(), value, 1e-9 * (1.0 + value)) << key;
  };
  const auto by_mass = [](units::MoleFraction x) { return spirit::mass_fraction(x).percent(); };
  const auto by_volume = [](units::MoleFraction x) {
    return spirit::volume_strength(spirit::mass_fraction(x)).percent();
  };
  expect("bubble_temperature_C", mixture.temperature.celsius());
  expect("vapour_mole_fraction", mixture.vapour.fraction());
  expect("liquid_percent_vol", by_volume(mixture.liquid));
  expect("vapour_percent_vol", by_volume(mixture.vapour));
  expect("liquid_mole_fraction", 0.1);
  expect("liquid_percent_mass", by_mass(mixture.liquid));
  expect("vapour_percent_mass", by_mass(mixture.vapour));
  expect("relative_volatility", mixture.relative_volatility);
  expect("activity_coefficient_ethanol", mixture.activity.ethanol);
  expect("activity_coefficient_water", mixture.activity.water);
  expect("liquid_enthalpy_kJ_per_kg",
         vapour::kilojoules_per_kilogram(mixture.liquid_enthalpy, mixture.liquid));
  expect("vapour_enthalpy_kJ_per_kg",
         vapour::kilojoules_per_kilogram(mixture.vapour_enthalpy, mixture.vapour));
  expect("heat_of_vaporisation_kJ_per_kg",
         vapour::kilojoules_per_kilogram(mixture.heat_of_vaporisation, mixture.liquid));
  expect("azeotrope_mole_fraction", azeotrope.ethanol.fraction());
  expect("azeotrope_percent_vol", by_volume(azeotrope.ethanol));
  expect("azeotrope_temperature_C", azeotrope.temperature.celsius());
  expect("pressure_kPa", 95.0);
}

}  // namespace
}  // namespace lynearm::wire
