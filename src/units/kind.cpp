#include "units/kind.hpp"

#include <fmt/format.h>

#include <array>

namespace lynearm::units {
namespace {

using enum Shown;

constexpr double pound_kg = 0.45359237;
constexpr double gallon_L = 3.785411784;
constexpr double imperial_gallon_L = 4.54609;
constexpr double inch_m = 0.0254;
constexpr double cubic_foot_L = 28.316846592;
constexpr double mercury_mm_Pa = 133.322387415;
constexpr double btu_J = 1055.05585262;
constexpr double day_s = 86400.0;
constexpr double year_s = day_s * 365.2425;
constexpr double ice_point_K = 273.15;

constexpr Unit mass[] = {
    {"kg|kilogram|kilograms", 1.0, metric, 2},    {"g|gram|grams", 1e-3, metric, 1},
    {"mg|milligram|milligrams", 1e-6, metric, 1}, {"lb|lbs|pound|pounds", pound_kg, us, 2},
    {"oz|ounce|ounces", pound_kg / 16.0, us, 2},
};
constexpr Unit volume[] = {
    {"L|l|litre|litres|liter|liters", 1.0, metric, 2},
    {"mL|ml|millilitre|millilitres|milliliter|milliliters", 1e-3, metric, 1},
    {"cL|cl", 1e-2},
    {"hL|hl", 1e2},
    {"m3", 1e3},
    {"ft3", cubic_foot_L},
    {"gal|gallon|gallons|US gal|US gallon|US gallons", gallon_L, us, 2},
    {"imp gal|imp. gal|imperial gal|imperial gallon|imperial gallons", imperial_gallon_L},
    {"qt|quart|quarts", gallon_L / 4.0, us, 2},
    {"pt|pint|pints", gallon_L / 8.0},
    {"cup|cups", gallon_L / 16.0},
    {"fl oz|floz|fl. oz.", gallon_L / 128.0, us, 2},
};
constexpr Unit duration[] = {
    {"s|sec|second|seconds", 1.0, always, 0},
    {"min|mins|minute|minutes", 60.0, always, 0},
    {"h|hr|hrs|hour|hours", 3600.0, always, 0},
    {"d|day|days", day_s, always, 0},
    {"weeks|week|wk", 7.0 * day_s},
    {"months|month", year_s / 12.0, always, 1},
    {"years|year|yr|yrs", year_s, always, 1},
};
constexpr Unit temperature[] = {
    {"°C|degC|C|deg C|celsius|Celsius", 1.0, metric, 1, false, 0.0, ice_point_K},
    {"°F|degF|F|deg F|fahrenheit|Fahrenheit", 5.0 / 9.0, us, 1, false, 32.0, ice_point_K},
    {"K|kelvin|kelvins", 1.0, never, 1, false},
};
// A difference of 1 °C is 1 K; both words are in use for it.
constexpr Unit temperature_change[] = {
    {"K|°C|degC|C|deg C|kelvin|kelvins", 1.0, metric, 1, false},
    {"°F|degF|F|deg F", 5.0 / 9.0, us, 1, false},
};
constexpr Unit pressure[] = {
    {"hPa|mbar", 1e2, metric, 2},
    {"kPa", 1e3},
    {"Pa", 1.0},
    {"bar", 1e5},
    {"atm", 101325.0},
    {"mmHg", mercury_mm_Pa},
    {"inHg", 25.4 * mercury_mm_Pa, us, 3},
    {"psi", 6894.757293168},
};
constexpr Unit power[] = {
    {"kW", 1e3, always, 2},
    {"W|watt|watts", 1.0, always, 1},
    {"BTU/h|Btu/h|BTU/hr", btu_J / 3600.0},
};
constexpr Unit energy[] = {
    {"kWh", 3.6e6, always, 2},      {"Wh", 3.6e3, always, 1}, {"MJ", 1e6}, {"kJ", 1e3},
    {"J|joule|joules", 1.0, never}, {"BTU|Btu", btu_J},
};
constexpr Unit length[] = {
    {"m|metre|metres|meter|meters", 1.0, metric, 2},
    {"cm", 1e-2, metric, 2},
    {"mm", 1e-3, metric, 2},
    {"ft|foot|feet", 12.0 * inch_m, us, 2},
    {"in|inch|inches", inch_m, us, 2},
};
constexpr Unit area[] = {
    {"m2", 1.0, metric, 2},
    {"cm2", 1e-4, metric, 1},
    {"in2|sq in", inch_m* inch_m, us, 1},
    {"ft2|sq ft", 144.0 * inch_m* inch_m, us, 2},
};
constexpr Unit area_per_volume[] = {
    {"cm2/L|cm2/l", 1e-4, metric, 1},
    {"m2/L|m2/l", 1.0},
    {"in2/gal", inch_m* inch_m / gallon_L, us, 1},
};
constexpr Unit density[] = {
    {"kg/m3|g/L", 1.0, always, 1, false},
    {"g/mL|g/ml|kg/L|kg/l|g/cm3", 1e3},
};
constexpr Unit mass_concentration[] = {
    {"g/L|g/l", 1.0, always, 2},
    {"mg/L|mg/l", 1e-3, always, 1},
};
constexpr Unit volume_flow[] = {
    {"L/min|l/min", 1.0 / 60.0, metric, 2},
    {"L/h|l/h", 1.0 / 3600.0},
    {"L/s|l/s", 1.0},
    {"mL/min|ml/min", 1e-3 / 60.0, metric, 1},
    {"gal/min", gallon_L / 60.0, us, 2},
    {"gal/h", gallon_L / 3600.0, us, 2},
};
constexpr Unit heat_loss[] = {{"W/K|W/°C|W/degC|W/C", 1.0, always, 2}};
constexpr Unit heat_capacity[] = {
    {"kJ/K|kJ/°C|kJ/degC|kJ/C", 1e3, always, 2},
    {"J/K|J/°C|J/degC|J/C", 1.0, always, 1},
};
constexpr Unit share[] = {{"%|percent", 1e-2, always, 1, false}};
constexpr Unit mass_fraction[] = {{"%mass|% mass|% by mass", 1e-2, always, 1, false}};
constexpr Unit mole_fraction[] = {{"%mol|% mol", 1e-2, always, 1, false}};
constexpr Unit volume_strength[] = {
    {"%vol|% vol|% by volume|%ABV|% ABV", 1e-2, always, 1, false}};
constexpr Unit diastatic_power[] = {{"Lintner|°Lintner|lintner", 1.0, always, 0, false}};
constexpr Unit plato[] = {{"°P|P|Plato|degP|°Plato", 1.0, always, 1, false}};
constexpr Unit specific_gravity[] = {{"|SG", 1.0, always, 3, false}};
constexpr Unit refractive_index[] = {{"|nD", 1.0, always, 4, false}};

constexpr Kind mass_kind{"mass", "a", R"("4.5 kg" or "12 lb")", mass, true};
constexpr Kind volume_kind{"volume", "a", R"("20 L" or "5 gal")", volume, true};
constexpr Kind duration_kind{"duration", "a", R"("90 min" or "3 days")", duration, true};
constexpr Kind temperature_kind{"temperature", "a", R"("66 °C" or "150 °F")", temperature};
constexpr Kind temperature_change_kind{"temperature difference", "a", R"("2 K" or "4 °F")",
                                       temperature_change};
constexpr Kind pressure_kind{"pressure", "a", R"("1009 hPa" or "29.8 inHg")", pressure};
constexpr Kind power_kind{"power", "a", R"("3 kW" or "750 W")", power};
constexpr Kind energy_kind{"energy", "an", R"("4 kWh" or "15 MJ")", energy};
constexpr Kind length_kind{"length", "a", R"("250 mm" or "10 in")", length, true};
constexpr Kind area_kind{"area", "an", R"("300 cm2" or "46 in2")", area};
constexpr Kind area_per_volume_kind{"wood surface per volume", "a",
                                    R"("120 cm2/L" or "70 in2/gal")", area_per_volume};
constexpr Kind density_kind{"density", "a", R"("998.2 kg/m3" or "0.95 g/mL")", density};
constexpr Kind mass_concentration_kind{"concentration", "a", R"("0.5 g/L" or "50 mg/L")",
                                       mass_concentration};
constexpr Kind volume_flow_kind{"flow", "a", R"("4 L/min" or "1 gal/min")", volume_flow};
constexpr Kind heat_loss_kind{"heat loss", "a", R"("8 W/K")", heat_loss};
constexpr Kind heat_capacity_kind{"heat capacity", "a", R"("12 kJ/K")", heat_capacity};
constexpr Kind share_kind{"share", "a", R"("75 %")", share};
constexpr Kind mass_fraction_kind{"strength by mass", "a", R"("47.2 %mass")", mass_fraction};
constexpr Kind mole_fraction_kind{"mole fraction", "a", R"("25 %mol")", mole_fraction};
constexpr Kind volume_strength_kind{"strength by volume", "a", R"("55 %vol")", volume_strength};
constexpr Kind diastatic_power_kind{"diastatic power", "a", R"("50 Lintner")", diastatic_power};
constexpr Kind plato_kind{"extract by mass", "an", R"("15 °P")", plato};
constexpr Kind specific_gravity_kind{"specific gravity", "a",   R"("1.062")",
                                     specific_gravity,   false, true};
constexpr Kind refractive_index_kind{"refractive index", "a",   R"("1.3612")",
                                     refractive_index,   false, true};

constexpr std::array<const Kind*, 24> all_kinds{&mass_kind,
                                                &volume_kind,
                                                &duration_kind,
                                                &temperature_kind,
                                                &temperature_change_kind,
                                                &pressure_kind,
                                                &power_kind,
                                                &energy_kind,
                                                &length_kind,
                                                &area_kind,
                                                &area_per_volume_kind,
                                                &density_kind,
                                                &mass_concentration_kind,
                                                &volume_flow_kind,
                                                &heat_loss_kind,
                                                &heat_capacity_kind,
                                                &share_kind,
                                                &mass_fraction_kind,
                                                &mole_fraction_kind,
                                                &volume_strength_kind,
                                                &diastatic_power_kind,
                                                &plato_kind,
                                                &specific_gravity_kind,
                                                &refractive_index_kind};

}  // namespace

bool Unit::answers_to(std::string_view word) const {
  std::string_view rest = names;
  while (true) {
    const std::size_t bar = rest.find('|');
    if (rest.substr(0, bar) == word) return true;
    if (bar == std::string_view::npos) return false;
    rest.remove_prefix(bar + 1);
  }
}

std::string Kind::phrase() const {
  return fmt::format("{} {} such as {}", article, noun, examples);
}

const Unit* Kind::find(std::string_view word) const {
  for (const Unit& unit : units) {
    if (unit.answers_to(word)) return &unit;
  }
  return nullptr;
}

std::span<const Kind* const> kinds() { return all_kinds; }

template <>
const Kind& kind<Mass>() {
  return mass_kind;
}
template <>
const Kind& kind<Volume>() {
  return volume_kind;
}
template <>
const Kind& kind<Duration>() {
  return duration_kind;
}
template <>
const Kind& kind<Temperature>() {
  return temperature_kind;
}
template <>
const Kind& kind<TemperatureChange>() {
  return temperature_change_kind;
}
template <>
const Kind& kind<Pressure>() {
  return pressure_kind;
}
template <>
const Kind& kind<Power>() {
  return power_kind;
}
template <>
const Kind& kind<Energy>() {
  return energy_kind;
}
template <>
const Kind& kind<Length>() {
  return length_kind;
}
template <>
const Kind& kind<Area>() {
  return area_kind;
}
template <>
const Kind& kind<AreaPerVolume>() {
  return area_per_volume_kind;
}
template <>
const Kind& kind<Density>() {
  return density_kind;
}
template <>
const Kind& kind<MassConcentration>() {
  return mass_concentration_kind;
}
template <>
const Kind& kind<VolumeFlow>() {
  return volume_flow_kind;
}
template <>
const Kind& kind<HeatLoss>() {
  return heat_loss_kind;
}
template <>
const Kind& kind<HeatCapacity>() {
  return heat_capacity_kind;
}
template <>
const Kind& kind<Share>() {
  return share_kind;
}
template <>
const Kind& kind<MassFraction>() {
  return mass_fraction_kind;
}
template <>
const Kind& kind<MoleFraction>() {
  return mole_fraction_kind;
}
template <>
const Kind& kind<VolumeStrength>() {
  return volume_strength_kind;
}
template <>
const Kind& kind<DiastaticPower>() {
  return diastatic_power_kind;
}
template <>
const Kind& kind<Plato>() {
  return plato_kind;
}
template <>
const Kind& kind<SpecificGravity>() {
  return specific_gravity_kind;
}
template <>
const Kind& kind<RefractiveIndex>() {
  return refractive_index_kind;
}

}  // namespace lynearm::units
