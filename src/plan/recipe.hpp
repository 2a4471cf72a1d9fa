// The recipe: what the maker means to do, stage by stage, as plain values. A recipe file is
// read into it by recipe/read_recipe.hpp; every key there is a member here.
#pragma once

#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "units/quantity.hpp"

namespace lynearm::plan {

/// Where a line of the bill comes in.
enum class Use {
  cook,      ///< boiled before the malts
  dough_in,  ///< stirred in dry at the dough-in temperature
  boil,      ///< sugar or honey, dissolved and boiled apart
  ferment,   ///< stirred into the fermenter as it is
};

/// A lot's own analysis; what is absent is taken from the table of ingredients.
struct LotAnalysis {
  std::optional<units::Share> extract;  ///< fine grind, dry basis (sugars: as is)
  std::optional<units::Share> moisture;
  std::optional<units::DiastaticPower> diastatic_power;
  std::optional<units::Share> fermentable;  ///< of the extract, in the end
};

/// One line of the mash bill.
struct BillLine {
  std::string ingredient;  ///< id in the table of ingredients
  units::Mass mass;
  Use use = Use::dough_in;
  LotAnalysis analysis;
  std::optional<double> price_per_kg;
};

struct Cook {
  std::string vessel;
  units::Volume water;         ///< cold, from the liquor
  units::Duration time;        ///< at the boil
  units::VolumeFlow boil_off;  ///< zero under a lid
};

struct Sparge {
  units::Volume water;
  units::Temperature temperature;
};

/// How the cooked grain is brought down to the dough-in temperature.
enum class CoolBy { lid_on, lid_off, coil };

struct MashStep {
  std::string vessel;
  std::optional<Cook> cook;
  units::Volume water;  ///< straight into the mash vessel
  /// Of that water beside a cook; without a cook it is computed, the strike temperature.
  std::optional<units::Temperature> water_temperature;
  units::Temperature rest_temperature;
  units::Duration rest_time;
  std::vector<Sparge> sparges;
  bool squeeze = true;
  CoolBy cool_by = CoolBy::lid_on;
  bool on_the_grain = false;  ///< ferment (and strip) without draining
};

struct SugarBoil {
  std::string vessel;
  units::Volume water;   ///< cold, from the liquor
  units::Duration time;  ///< at the boil
  units::VolumeFlow boil_off;
};

/// What mends a gravity that misses the wanted one.
enum class GravityBy { sugar, water };

struct FermentStep {
  std::string vessel;
  std::optional<units::Volume> fill_to;  ///< topped up with water to this volume
  units::Temperature pitch_temperature;  ///< and to this temperature at once
  std::string yeast;                     ///< id in the table of yeasts
  units::MassConcentration pitch = units::MassConcentration::grams_per_litre(0.5);  ///< dry
  bool held = false;  ///< kept at the pitching temperature
  units::Duration rest_after_dry = units::Duration::days(3.0);
  units::MassConcentration nutrient_nitrogen;  ///< added, yeast-assimilable
  GravityBy gravity_by = GravityBy::sugar;     ///< for a wanted gravity
  std::optional<double> yeast_price_per_kg;
};

struct StripStep {
  units::VolumeStrength stop;           ///< strength at the spout, at 20 °C
  std::optional<int> charges;           ///< the number the maker means to run
  std::optional<units::Volume> charge;  ///< instead of the boiler's wash fill
  units::Temperature spout_temperature = units::Temperature::celsius(20.0);
};

/// A place in a spirit run: the first of its kind that the run comes to.
using Border = std::variant<units::Volume,          // collected so far in this run
                            units::VolumeStrength,  // spout falls to this
                            units::Temperature>;    // head rises to this

/// What is done with low wines beyond one spirit charge.
enum class Surplus { keep, second_run };

/// A lot of spirit from an earlier batch.
struct SpiritLot {
  units::Volume volume;
  units::VolumeStrength strength;
};

struct SpiritRunStep {
  std::optional<SpiritLot> feints;  ///< put into this charge
  units::VolumeStrength charge_at_most = units::VolumeStrength::percent(30.0);
  Surplus surplus = Surplus::keep;
  /// Left out: 0.5 % and 2.5 % of the charge by volume (100 mL and 400 to 650 mL of a 20 L
  /// charge: common practice, no source).
  std::optional<Border> foreshots_end;
  std::optional<Border> heads_end;
  Border hearts_end = units::VolumeStrength::percent(56.0);
  Border tails_end = units::VolumeStrength::percent(10.0);
  bool keep_heads = true;  ///< heads go to the feints, else away
  units::Temperature spout_temperature = units::Temperature::celsius(20.0);
};

struct ReduceStep {
  units::VolumeStrength maturing;
  units::Temperature water_temperature = units::Temperature::celsius(20.0);
};

/// Staves in glass or steel.
struct Staves {
  std::optional<int> count;  ///< fixed, or computed for the wanted time
};

struct WoodStep {
  std::variant<Staves, std::string> in =
      Staves{};  ///< staves, or the name of a cask of the kit
  std::string species = "american-oak";
  std::string toast = "medium";
  units::Duration time;  ///< wanted
  units::Temperature temperature = units::Temperature::celsius(15.0);
};

struct BottleStep {
  units::VolumeStrength strength;
  units::Volume size = units::Volume::millilitres(700.0);
  units::Share filter_loss = units::Share::percent(0.0);
};

struct Prices {
  std::string currency;
  std::optional<double> energy_per_kWh;
  std::optional<double> water_per_m3;
  std::optional<double> bottle_each;
  std::optional<double> wood;  ///< for the batch
};

struct Recipe {
  std::string name;
  std::string remark;
  std::vector<BillLine> bill;
  MashStep mash;
  std::optional<SugarBoil> sugar_boil;
  FermentStep ferment;
  StripStep strip;
  SpiritRunStep spirit_run;
  ReduceStep reduce;
  std::optional<WoodStep> wood;
  BottleStep bottle;
  Prices prices;
};

}  // namespace lynearm::plan
