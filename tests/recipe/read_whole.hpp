// A made-up recipe and its kit in which every key stands once, save those that shut each other
// out: strip.charge against charges, wood.cask against staves, place.pressure against altitude,
// a cooling_test against loss_lid_on.
#pragma once

namespace lynearm::recipe {

inline constexpr const char* whole_recipe = R"(name = "Whole"
remark = "every key"

[[mash_bill]]
ingredient = "maize-cracked"
mass = "9 kg"
use = "cook"
price = "0.95 / kg"

[[mash_bill]]
ingredient = "barley-malt-distillers"
mass = "5.5 kg"
use = "dough-in"
extract = "81 %"
moisture = "4 %"
diastatic_power = "200 Lintner"
fermentable = "79 %"

[[mash_bill]]
ingredient = "sugar"
mass = "6.5 kg"
use = "boil"

[mash]
vessel = "mash tub"
water = "12 L"
water_temperature = "30 degC"
rest_temperature = "65.5 degC"
rest_time = "95 min"
squeeze = false
cool_by = "coil"
on_the_grain = false

[mash.cook]
vessel = "boiling pot"
water = "40 L"
time = "60 min"
boil_off = "1.5 L/h"

[[mash.sparge]]
water = "18 L"
temperature = "75 degC"

[[mash.sparge]]
water = "15 L"
temperature = "77 degC"

[sugar_boil]
vessel = "boiling pot"
water = "8 L"
time = "20 min"
boil_off = "3 L/h"

[ferment]
vessel = "fermenter"
fill_to = "110 L"
pitch_temperature = "25 degC"
yeast = "ale"
pitch = "0.6 g/L"
held = true
rest_after_dry = "4 days"
nutrient_nitrogen = "50 mg/L"
gravity_by = "water"
yeast_price = "18 / kg"

[strip]
stop = "11 %vol"
charges = 5
spout_temperature = "22 degC"

[spirit_run]
feints = "2.5 L @ 32 %vol"
charge_at_most = "28 %vol"
surplus = "second run"
foreshots_end = "150 mL"
heads_end = "800 mL"
hearts_end = "56 %vol"
tails_end = "98 degC"
heads = "away"
spout_temperature = "23 degC"

[reduce]
maturing_strength = "54 %vol"
water_temperature = "13 degC"

[wood]
staves = "for the time"
species = "cherry"
toast = "light"
time = "6 months"
temperature = "14 degC"

[bottle]
strength = "46 %vol"
size = "500 mL"
filter_loss = "0.5 %"

[prices]
currency = "crowns"
energy = "0.28 / kWh"
water = "0.004 / L"
bottle = "1.10 each"
wood = 12.0
)";

inline constexpr const char* whole_kit = R"(name = "Whole house"

[place]
altitude = "120 m"
ambient = "17 degC"
ferment_room = "60 m3"
air_changes_per_hour = 0.7
humidity = "72 %"

[liquor]
cold = "11 degC"
hot = "88 degC"

[[vessel]]
name = "boiling pot"
total = "60 L"
working = "53 L"
wall = "copper"
wall_mass = "8 kg"
loss_lid_on = "8 W/K"
loss_open = "17 W/K"
dead_volume = "0.4 L"
heat = "6 kW"
heat_efficiency = "55 %"
heated_from_below = true
cooling_coil = "70 W/K"

[[vessel]]
name = "mash tub"
total = "90 L"
wall_mass = "6 kg"

[[vessel]]
name = "fermenter"
total = "140 L"
wall = "plastic"
wall_mass = "6 kg"

[boiler]
total = "45 L"
wash_fill = "66 %"
grain_fill = "55 %"
spirit_fill = "71 %"
wall = "stainless steel"
wall_mass = "14 kg"
loss = "7 W/K"
power = "4 kW"
heat_efficiency = "97 %"
heat = "element"
power_adjustable = true
element_covered_above = "6 L"

[head]
reflux_strip = "3.5 % +/- 1 %"
reflux_spirit = "11 % +/- 3 %"
wall_mass = "2.5 kg"
plates = 2
plate_efficiency = "55 %"
spirit_power = "55 %"

[condenser]
coolant_inlet = "10 degC"
greatest_flow = "4 L/min"
holds = "60 mL"
parrot = "150 mL"

[[cask]]
name = "little cask"
volume = "10 L"
stave_thickness = "18 mm"
used = true

[staves]
length = "300 mm"
width = "25 mm"
thickness = "10 mm"
count = 40

[instruments]
thermometer = "0.4 K"
alcoholmeter = "0.3 %vol"

[constants]
conversion = "96 % +/- 2 %"
drained_moisture = "79 % +/- 3 %"
squeezed_moisture = "71 % +/- 4 %"
sparge_mixing = "88 % +/- 5 %"
fermentable_factor = "99 % +/- 6 %"
alcohol_yield = "91 % +/- 1.5 %"
ferment_vigour = "110 % +/- 25 %"
lees = "2.5 % +/- 0.5 %"
still_loss = "1.2 % +/- 0.4 %"
transfer_loss = "0.4 % +/- 0.1 %"
heat_loss_factor = "105 % +/- 7 %"
evaporation_factor = "110 % +/- 8 %"
)";

}  // namespace lynearm::recipe
