#include "recipe/read_kit.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

#include "mash/cooling.hpp"
#include "mash/heat.hpp"
#include "plan/process.hpp"
#include "plan/still_setting.hpp"
#include "recipe/read_value.hpp"
#include "vapour/atmosphere.hpp"

namespace lynearm::recipe {
namespace {

using namespace units;

// A heat loss that may have a spread, without a usual one behind it.
struct LossWithin {
  HeatLoss median;
  std::optional<HeatLoss> half_width_80;

  friend auto operator<=>(const LossWithin&, const LossWithin&) = default;
};

}  // namespace

template <>
struct Field<LossWithin> {
  static Parsed<LossWithin> read(const Node& node) {
    if (node.type != Node::Type::text) {
      return {std::nullopt, Field<HeatLoss>::read(node).accepted};
    }
    const HeatLoss none = HeatLoss::watts_per_kelvin(-1.0);
    auto parsed = try_parse_spread<HeatLoss>(node.entered, none);
    if (!parsed) return {std::nullopt, std::move(parsed.accepted)};
    const auto& [median, half_width] = *parsed.value;
    if (half_width < HeatLoss{}) return {LossWithin{median, std::nullopt}, {}};
    return {LossWithin{median, half_width}, {}};
  }
  static std::string show(const LossWithin& value) { return concise(value.median); }
  static void describe(Description& note) {
    describe_spread(note, kind<HeatLoss>(), kind<HeatLoss>());
  }
};

namespace {

constexpr auto least_vessel = Volume::litres(0.5);
constexpr auto most_vessel = Volume::litres(5000);
const auto a_vessel = between(least_vessel, most_vessel);
const auto up_to_a_vessel = between(Volume{}, most_vessel);
const auto a_heat_loss =
    between(HeatLoss::watts_per_kelvin(0.1), HeatLoss::watts_per_kelvin(1000));
const auto a_wall = between(Mass{}, Mass::kilograms(2000));
const auto an_efficiency = between(Share::percent(5), Share::percent(100));
const auto a_water = between(Temperature::celsius(1), Temperature::celsius(100));
constexpr auto coldest_start = Temperature::celsius(20);
constexpr Share working_share = Share::percent(90);  // common practice
constexpr double open_over_lidded = 2.5;             // our estimate: steam from the surface
constexpr double stated_loss_half_width = 0.2;       // our estimate, of a head's stated loss

Names<plan::Material> materials() {
  return {{"stainless steel", plan::Material::stainless_steel},
          {"copper", plan::Material::copper},
          {"aluminium", plan::Material::aluminium},
          {"glass", plan::Material::glass},
          {"plastic", plan::Material::plastic},
          {"wood", plan::Material::wood}};
}

// A name that no other table of the list has.
std::string own_name(Section& in, std::string_view about, std::vector<std::string>& taken) {
  std::string name = in.required<std::string>("name", about);
  if (!name.empty() && std::find(taken.begin(), taken.end(), name) != taken.end()) {
    in.refuse("name", "a name that no other in the list has");
  }
  taken.push_back(name);
  return name;
}

plan::Place place(Section& in) {
  plan::Place p;
  const auto altitude =
      in.maybe<Length>("altitude", "height above the sea, for the standard pressure there",
                       between(Length::metres(-400), Length::metres(4500)));
  const auto pressure =
      in.maybe<Pressure>("pressure", "air pressure, in place of altitude",
                         between(Pressure::kilopascals(55), Pressure::kilopascals(108)));
  if (in.has("altitude") && in.has("pressure")) {
    in.refuse("pressure", "either altitude or pressure, not both; neither is sea level");
  }
  p.pressure = pressure.value_or(vapour::standard_pressure(altitude.value_or(Length{})));
  p.ambient = in.required("ambient", "temperature of the room",
                          between(Temperature::celsius(-10), Temperature::celsius(45)));
  p.ferment_room =
      in.maybe<Volume>("ferment_room", "air in the room with the fermenter",
                       between(Volume::cubic_metres(1), Volume::cubic_metres(1e5)));
  p.air_changes_per_hour =
      in.optional("air_changes_per_hour", "how often an hour that air is renewed",
                  between(0.0, 100.0), p.air_changes_per_hour);
  p.humidity = in.optional("humidity", "humidity of the air where spirit matures",
                           between(Share::percent(0), Share::percent(100)), p.humidity);
  return p;
}

plan::Liquor liquor(Section& in) {
  plan::Liquor waters;
  waters.cold = in.required("cold", "temperature of the cold water", a_water);
  waters.hot = in.required("hot", "temperature of the hottest water at hand", a_water);
  // A stand-in is the low end of the range; after that mistake there is nothing to compare.
  if (*a_water.low < waters.hot && waters.hot <= waters.cold) {
    in.refuse("hot", fmt::format("warmer than liquor.cold, {}", concise(waters.cold)));
  }
  return waters;
}

// A lidded vessel of hot water that was left to cool: its heat loss, or nothing after a
// mistake.
std::optional<HeatLoss> cooling_test(Section& in, const plan::Vessel& vessel,
                                     Temperature ambient) {
  const auto start = in.required("start", "temperature of the water at first",
                                 between(coldest_start, Temperature::celsius(100)));
  const auto end = in.required("end", "temperature of the water at last",
                               between(Temperature::celsius(1), Temperature::celsius(100)));
  const auto time = in.required("time", "time between the two",
                                between(Duration::minutes(1), Duration::days(4)));
  const auto contents = in.required("contents", "water in the vessel", a_vessel);
  const bool whole = in.has("start") && in.has("end") && in.has("time") && in.has("contents");
  if (!whole || start == coldest_start) return std::nullopt;
  if (!(ambient < end && end < start)) {
    in.refuse("end", fmt::format("between place.ambient, {}, and start, {}", concise(ambient),
                                 concise(start)));
    return std::nullopt;
  }
  if (vessel.total > least_vessel && contents > vessel.total) {
    in.refuse("contents", fmt::format("at most the vessel's total, {}", concise(vessel.total)));
    return std::nullopt;
  }
  const HeatCapacity body =
      mash::heat_capacity(mash::water(contents, start)) + vessel.wall_heat_capacity();
  return mash::heat_loss_from_test(start, end, time, body, ambient);
}

void vessel_losses(Section& in, plan::Vessel& vessel, Temperature ambient) {
  const auto stated = in.maybe<HeatLoss>(
      "loss_lid_on",
      "heat lost with the lid on, to a degree above the room; estimated from total when "
      "neither it nor a cooling_test is given",
      a_heat_loss);
  const auto tested = in.maybe_inside(
      "cooling_test", "hot water left to cool with the lid on, in place of loss_lid_on",
      [&](Section& test) { return cooling_test(test, vessel, ambient); });
  if (in.has("loss_lid_on") && in.has("cooling_test")) {
    in.refuse("loss_lid_on", "either loss_lid_on or a cooling_test, not both");
  }
  vessel.loss_lid_on = stated                ? *stated
                       : (tested && *tested) ? **tested
                                             : mash::bare_heat_loss(vessel.total);
  const auto open = in.maybe<HeatLoss>(
      "loss_open", "the same with the lid off; 2.5 times loss_lid_on when left out",
      between(HeatLoss::watts_per_kelvin(0.1), HeatLoss::watts_per_kelvin(2500)));
  if (open && *open < vessel.loss_lid_on) {
    in.refuse("loss_open", fmt::format("at least the loss with the lid on, {}",
                                       concise(vessel.loss_lid_on)));
  }
  vessel.loss_open = open.value_or(vessel.loss_lid_on * open_over_lidded);
}

plan::Vessel vessel(Section& in, std::vector<std::string>& taken, Temperature ambient) {
  plan::Vessel v;
  v.name = own_name(in, "its name, by which the recipe calls it", taken);
  v.total = in.required("total", "what it holds to the brim", a_vessel);
  const bool known = in.has("total") && v.total > least_vessel;
  const auto working = in.maybe<Volume>(
      "working", "as full as it may safely be; 90 % of total when left out", a_vessel);
  if (known && working && *working > v.total) {
    in.refuse("working", fmt::format("at most its total, {}", concise(v.total)));
  }
  v.working = working.value_or(v.total * working_share.fraction());
  v.wall = in.choice("wall", "what it is made of", materials(), v.wall);
  v.wall_mass = in.required("wall_mass", "its mass when empty", a_wall);
  vessel_losses(in, v, ambient);
  v.dead_volume =
      in.optional("dead_volume", "what cannot be drained", up_to_a_vessel, v.dead_volume);
  if (known && v.dead_volume >= v.working) {
    in.refuse("dead_volume", fmt::format("less than it works with, {}", concise(v.working)));
  }
  v.heat = in.optional("heat", "power of its heat; none when left out",
                       between(Power{}, Power::kilowatts(100)), v.heat);
  v.heat_efficiency = in.optional("heat_efficiency", "share of that heat that gets in",
                                  an_efficiency, v.heat_efficiency);
  v.heated_from_below = in.optional(
      "heated_from_below", "whether a flame or plate heats its bottom", v.heated_from_below);
  v.cooling_coil =
      in.optional("cooling_coil", "heat its coil takes, to a degree above the cold water",
                  between(HeatLoss{}, HeatLoss::watts_per_kelvin(20000)), v.cooling_coil);
  return v;
}

plan::Boiler boiler(Section& in) {
  plan::Boiler b;
  b.total = in.required("total", "what the boiler holds to the brim", a_vessel);
  const bool known = in.has("total") && b.total > least_vessel;
  const auto a_fill = between(Share::percent(20), Share::percent(90));
  b.wash_fill = in.optional("wash_fill", "share filled with a clear wash", a_fill, b.wash_fill);
  b.grain_fill = in.optional("grain_fill", "share filled with a wash that foams or has grain",
                             a_fill, b.grain_fill);
  b.spirit_fill =
      in.optional("spirit_fill", "share filled with low wines", a_fill, b.spirit_fill);
  b.wall = in.choice("wall", "what it is made of", materials(), b.wall);
  b.wall_mass = in.required("wall_mass", "mass of boiler and head when empty", a_wall);
  b.loss = in.maybe<HeatLoss>("loss",
                              "heat lost to a degree above the room; estimated from total when "
                              "left out",
                              a_heat_loss)
               .value_or(mash::bare_heat_loss(b.total));
  b.power = in.required("power", "power of its heat",
                        between(Power::watts(100), Power::kilowatts(100)));
  b.heat_efficiency = in.optional("heat_efficiency", "share of that heat that gets in",
                                  an_efficiency, b.heat_efficiency);
  b.heat = in.choice("heat", "how it is heated",
                     Names<plan::BoilerHeat>{{"element", plan::BoilerHeat::element},
                                             {"plate", plan::BoilerHeat::plate},
                                             {"flame", plan::BoilerHeat::flame},
                                             {"steam jacket", plan::BoilerHeat::steam_jacket},
                                             {"water bath", plan::BoilerHeat::water_bath}},
                     b.heat);
  b.power_adjustable = in.optional("power_adjustable", "whether its heat can be turned down",
                                   b.power_adjustable);
  b.element_covered_above =
      in.optional("element_covered_above", "what must stay in the pot to cover the element",
                  up_to_a_vessel, b.element_covered_above);
  if (b.element_covered_above > Volume{} && b.heat != plan::BoilerHeat::element) {
    in.refuse("element_covered_above", "0 L, or heat = \"element\"");
  } else if (known && b.element_covered_above >= b.total) {
    in.refuse("element_covered_above",
              fmt::format("less than the boiler's total, {}", concise(b.total)));
  }
  return b;
}

// What the head sends back: two fixed shares, or what its heat loss is worth.
void head_reflux(Section& in, plan::Still& still) {
  const auto a_reflux = between(Share::percent(0), Share::percent(60));
  const plan::ProcessDefaults& usual = plan::process_defaults();
  const auto loss = in.maybe<LossWithin>(
      "loss",
      "heat lost by head and lyne arm to a degree above the room, which makes a gentler fire "
      "send more vapour back; estimated from the boiler's total, to 40 %, when no share is "
      "given "
      "either; to 20 % when it stands without a spread",
      between(LossWithin{HeatLoss{}, {}},
              LossWithin{HeatLoss::watts_per_kelvin(1000), HeatLoss::watts_per_kelvin(1000)}));
  still.head_reflux_strip = in.spread(
      "reflux_strip",
      "in place of loss: share of the vapour that runs back on a fast run, whatever the "
      "fire; the usual one when only the other share is given",
      a_reflux, usual.head_reflux_strip);
  still.head_reflux_spirit = in.spread("reflux_spirit", "the same on a gentle run", a_reflux,
                                       usual.head_reflux_spirit);
  still.head_cooling =
      in.optional("cooling", "heat taken by the water of a cooled head; none when left out",
                  between(Power{}, Power::kilowatts(100)), still.head_cooling);
  const bool shares = in.has("reflux_strip") || in.has("reflux_spirit");
  for (const char* key : {"reflux_strip", "reflux_spirit"}) {
    if (in.has("loss") && in.has(key)) {
      in.refuse(key,
                "either loss, by which a gentler fire sends more back, or fixed shares, not "
                "both");
    }
  }
  if (shares && in.has("cooling")) {
    in.refuse("cooling",
              "cooling beside loss, or neither: fixed shares already say what runs back");
  }
  if (loss) {
    still.head_loss = Spread<HeatLoss>{
        loss->median, loss->half_width_80.value_or(loss->median * stated_loss_half_width)};
  } else if (!shares) {
    still.head_loss = plan::estimated_head_loss(still.boiler.total);
  }
}

void head(Section& in, plan::Still& still) {
  head_reflux(in, still);
  still.head_mass = in.optional("wall_mass",
                                "of the boiler's wall_mass, the metal of head and lyne arm, "
                                "which is hot only once vapour passes",
                                a_wall, still.head_mass);
  if (in.has("wall_mass") && still.head_mass > still.boiler.wall_mass) {
    in.refuse("wall_mass", fmt::format("at most boiler.wall_mass, {}, which counts the head in",
                                       concise(still.boiler.wall_mass)));
  }
  still.plates = in.optional("plates", "plates between pot and lyne arm",
                             between(0, plan::most_plates), still.plates);
  still.plate_efficiency = in.optional(
      "plate_efficiency", "how far a plate brings the vapour towards that of its liquid",
      between(Share::percent(5), Share::percent(100)), still.plate_efficiency);
  if (in.has("plate_efficiency") && still.plates == 0) {
    in.refuse("plate_efficiency", "plates of 1 or more beside it");
  }
  still.spirit_power = in.optional(
      "spirit_power", "share of the boiler's power on a spirit run, where adjustable",
      between(Share::percent(5), Share::percent(100)), still.spirit_power);
}

void condenser(Section& in, plan::Still& still, Temperature cold) {
  still.coolant_inlet =
      in.maybe<Temperature>("coolant_inlet",
                            "temperature of the coolant coming in; that of the cold water when "
                            "left out",
                            between(Temperature::celsius(-10), Temperature::celsius(45)))
          .value_or(cold);
  still.greatest_coolant_flow = in.required(
      "greatest_flow", "most coolant that can be had",
      between(VolumeFlow::litres_per_minute(0.05), VolumeFlow::litres_per_minute(1000)));
  const auto held = between(Volume{}, Volume::litres(50));
  still.coil_holds = in.optional("holds", "spirit that clings in coil and pipe while it runs",
                                 held, still.coil_holds);
  still.parrot_holds =
      in.optional("parrot", "spirit in the glass at the spout that the alcoholmeter floats in",
                  held, still.parrot_holds);
}

plan::Cask cask(Section& in, std::vector<std::string>& taken) {
  plan::Cask c;
  c.name = own_name(in, "its name, by which the recipe calls it", taken);
  c.volume =
      in.required("volume", "what it holds", between(Volume::litres(1), Volume::litres(700)));
  c.stave_thickness =
      in.optional("stave_thickness", "thickness of its staves",
                  between(Length::millimetres(5), Length::millimetres(60)), c.stave_thickness);
  c.used = in.optional("used", "whether it was filled before", c.used);
  return c;
}

plan::StaveStock staves(Section& in) {
  plan::StaveStock s;
  const auto a_side = between(Length::millimetres(1), Length::metres(2));
  s.length = in.required("length", "length of a stave", a_side);
  s.width = in.required("width", "width of a stave", a_side);
  s.thickness = in.required("thickness", "thickness of a stave",
                            between(Length::millimetres(1), Length::millimetres(60)));
  s.count = in.optional("count", "how many there are; 0 when as many as needed can be had",
                        between(0, 10000), s.count);
  return s;
}

plan::Instruments instruments(Section& in) {
  plan::Instruments i;
  i.thermometer =
      in.optional("thermometer", "how far off a reading may be, four times in five",
                  between(TemperatureChange{}, TemperatureChange::kelvins(10)), i.thermometer);
  i.alcoholmeter =
      in.optional("alcoholmeter", "the same of the alcoholmeter",
                  between(VolumeStrength{}, VolumeStrength::percent(5)), i.alcoholmeter);
  using Class = plan::AlcoholmeterClass;
  i.alcoholmeter_class = in.choice("alcoholmeter_class",
                                   "its class of OIML R 44, where it is certified; what is "
                                   "gauged is taken as read on it",
                                   Names<Class>{{"I", Class::one},
                                                {"II", Class::two},
                                                {"III", Class::three},
                                                {"uncertified", Class::uncertified}},
                                   i.alcoholmeter_class);
  i.certificate =
      in.optional("certificate", "its certificate: number, office, date", std::string());
  return i;
}

plan::Constants constants(Section& in) {
  plan::Constants c = plan::process_defaults().constants;
  const auto own = [&in](std::string_view key, std::string_view about, double least_percent,
                         double most_percent, Spread<Share>& value) {
    value =
        in.spread(key, about,
                  between(Share::percent(least_percent), Share::percent(most_percent)), value);
  };
  own("conversion", "extract dissolved, of what the enzymes free", 10, 100, c.conversion);
  own("drained_moisture", "water in the wet grain, drained only", 35, 90, c.drained_moisture);
  own("squeezed_moisture", "water in the wet grain, squeezed", 35, 90, c.squeezed_moisture);
  own("sparge_mixing", "share of the held liquor that a sparge reaches", 5, 100,
      c.sparge_mixing);
  own("fermentable_factor", "factor on the fermentable share of the wort", 50, 120,
      c.fermentable_factor);
  own("alcohol_yield", "alcohol made, of the theory", 50, 100, c.alcohol_yield);
  own("ferment_vigour", "factor on the pace of the ferment", 20, 400, c.ferment_vigour);
  own("lees", "wash left with the yeast", 0, 30, c.lees);
  own("still_loss", "alcohol lost in a run, of the alcohol charged", 0, 20, c.still_loss);
  own("transfer_loss", "spirit lost at a move from vessel to vessel", 0, 10, c.transfer_loss);
  own("heat_loss_factor", "factor on every heat loss of the kit", 20, 300, c.heat_loss_factor);
  own("evaporation_factor", "factor on the loss from cask or closure", 10, 400,
      c.evaporation_factor);
  return c;
}

}  // namespace

plan::Kit kit_keys(Section& in) {
  plan::Kit kit;
  kit.name = in.required<std::string>("name", "name of the house or the room");
  kit.place = in.inside("place", "where the house stands and what its air does", place);
  kit.liquor = in.inside("liquor", "the waters at hand", liquor);
  std::vector<std::string> vessel_names;
  kit.vessels = in.each(
      "vessel", "a pot, tub or fermenter",
      [&](Section& section) { return vessel(section, vessel_names, kit.place.ambient); }, 1);
  kit.still.boiler = in.inside("boiler", "the pot of the still", boiler);
  // inside() hands on what its function returns; these two fill in what is there.
  in.inside("head", "the head of the still", [&](Section& section) {
    head(section, kit.still);
    return true;
  });
  in.inside("condenser", "the condenser", [&](Section& section) {
    condenser(section, kit.still, kit.liquor.cold);
    return true;
  });
  std::vector<std::string> cask_names;
  kit.casks = in.each("cask", "a cask at hand",
                      [&](Section& section) { return cask(section, cask_names); });
  kit.staves = in.maybe_inside("staves", "staves at hand, all of one size", staves);
  kit.instruments = in.inside("instruments", "the yardsticks", instruments);
  kit.constants = in.inside(
      "constants", "what the house has learned about itself, each with its spread", constants);
  return kit;
}

plan::Kit read_kit(std::string_view text, std::string file) {
  return read(text, std::move(file), kit_keys);
}

Description describe_kit() {
  return describe("kit.toml", "What a still house has: vessels, still, place and waters",
                  kit_keys);
}

}  // namespace lynearm::recipe
