#include "recipe/read_recipe.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "ferment/yeast.hpp"
#include "mash/ingredient.hpp"
#include "recipe/read_value.hpp"
#include "wood/species.hpp"

namespace lynearm::recipe {
namespace {

using namespace units;

// Ranges that several keys share. They keep out slips of the pen and what the models refuse;
// what is merely unwise is for the plan's findings.
constexpr auto zero_litres = Volume::litres(0);
constexpr auto most_litres = Volume::litres(2000);
constexpr auto little_water = Volume::millilitres(100);
const auto some_water = between(little_water, most_litres);
const auto a_boil = between(Duration::minutes(0), Duration::hours(24));
const auto a_boil_off =
    between(VolumeFlow::litres_per_hour(0), VolumeFlow::litres_per_minute(8));
const auto whole_share = between(Share::percent(0), Share::percent(100));
const auto at_the_spout = between(Temperature::celsius(5), Temperature::celsius(60));
const auto liquid_water = between(Temperature::celsius(1), Temperature::celsius(100));

Strength vol(double percent) { return {VolumeStrength::percent(percent)}; }

// The ids of one of the engine's tables, as a choice.
template <class Rows>
Names<std::string> ids(const Rows& rows) {
  Names<std::string> names;
  for (const auto& row : rows) names.emplace_back(std::string(row.id), std::string(row.id));
  return names;
}

template <PricedBy By>
std::optional<double> price(Section& in, std::string_view key, std::string_view about) {
  const auto found = in.maybe<PriceBy<By>>(key, about);
  return found ? std::optional(found->amount) : std::nullopt;
}

// Where a line goes that does not say: grain into the mash, sugar into the boil or the
// fermenter.
plan::Use usual_use(const std::string& ingredient, bool sugar_boil) {
  if (ingredient.empty() || mash::is_grain(mash::ingredient(ingredient))) {
    return plan::Use::dough_in;
  }
  return sugar_boil ? plan::Use::boil : plan::Use::ferment;
}

plan::BillLine bill_line(Section& in, bool sugar_boil) {
  plan::BillLine line;
  line.ingredient = in.required<IngredientId>("ingredient", "the ingredient, by its id").id;
  line.mass = in.required("mass", "its mass, as it comes",
                          between(Mass::grams(1), Mass::kilograms(1000)));
  line.use = in.maybe<plan::Use>("use",
                                 "where it comes in; left out, grain goes to the dough-in, "
                                 "sugar to the boil or, without [sugar_boil], the fermenter")
                 .value_or(usual_use(line.ingredient, sugar_boil));
  line.analysis.extract =
      in.maybe<Share>("extract", "this lot's extract: fine grind, dry basis; of a sugar, as is",
                      between(Share::percent(1), Share::percent(100)));
  line.analysis.moisture = in.maybe<Share>("moisture", "this lot's moisture",
                                           between(Share::percent(0), Share::percent(30)));
  line.analysis.diastatic_power = in.maybe<DiastaticPower>(
      "diastatic_power", "this lot's diastatic power",
      between(DiastaticPower::lintner(0), DiastaticPower::lintner(400)));
  line.analysis.fermentable = in.maybe<Share>(
      "fermentable", "this lot's fermentable share of the extract", whole_share);
  line.price_per_kg = price<PricedBy::kilogram>(in, "price", "its price");
  return line;
}

plan::Cook cook(Section& in) {
  return {.vessel = in.required<std::string>("vessel", "the pot, by its name in the kit"),
          .water = in.required("water", "cold water in the pot", some_water),
          .time = in.required("time", "time at the boil", a_boil),
          .boil_off = in.optional("boil_off", "steam lost at the boil; none under a lid",
                                  a_boil_off, VolumeFlow{})};
}

plan::Sparge sparge(Section& in) {
  return {.water = in.required("water", "water poured over the grain", some_water),
          .temperature = in.required("temperature", "its temperature", liquid_water)};
}

plan::MashStep mash_step(Section& in) {
  plan::MashStep step;
  step.vessel = in.required<std::string>("vessel", "the mash vessel, by its name in the kit");
  step.cook = in.maybe_inside("cook", "boiling the raw grain before the malts", cook);
  step.water = in.optional("water", "water straight into the mash vessel",
                           between(zero_litres, most_litres), zero_litres);
  step.water_temperature = in.maybe<Temperature>(
      "water_temperature",
      "of that water beside a cook, cold when left out; without a cook the plan computes it",
      liquid_water);
  step.rest_temperature =
      in.required("rest_temperature", "where the mash settles after dough-in",
                  between(Temperature::celsius(40), Temperature::celsius(80)));
  step.rest_time = in.required("rest_time", "length of the rest",
                               between(Duration::minutes(5), Duration::hours(24)));
  step.sparges = in.each("sparge", "a water poured over the drained grain", sparge);
  step.squeeze = in.optional("squeeze", "whether the grain is squeezed", step.squeeze);
  step.cool_by = in.choice("cool_by", "how a cook cools to the dough-in temperature",
                           Names<plan::CoolBy>{{"lid on", plan::CoolBy::lid_on},
                                               {"lid off", plan::CoolBy::lid_off},
                                               {"coil", plan::CoolBy::coil}},
                           step.cool_by);
  step.on_the_grain = in.optional(
      "on_the_grain", "whether it ferments and is stripped undrained", step.on_the_grain);
  return step;
}

plan::SugarBoil sugar_boil(Section& in) {
  return {.vessel = in.required<std::string>("vessel", "the pot, by its name in the kit"),
          .water = in.required("water", "cold water in the pot", some_water),
          .time = in.required("time", "time at the boil", a_boil),
          .boil_off = in.optional("boil_off", "steam lost at the boil; none under a lid",
                                  a_boil_off, VolumeFlow{})};
}

plan::FermentStep ferment_step(Section& in) {
  plan::FermentStep step;
  step.vessel = in.required<std::string>("vessel", "the fermenter, by its name in the kit");
  step.fill_to = in.maybe<Volume>("fill_to",
                                  "topped up with water to this volume; not at all when left "
                                  "out",
                                  between(Volume::litres(1), most_litres));
  step.pitch_temperature =
      in.required("pitch_temperature", "temperature at which the yeast goes in",
                  between(Temperature::celsius(5), Temperature::celsius(42)));
  step.yeast =
      in.choice("yeast", "the yeast, by the use it is sold for", ids(ferment::yeasts()));
  step.pitch = in.optional(
      "pitch", "dry yeast to a litre of wort",
      between(MassConcentration::grams_per_litre(0.05), MassConcentration::grams_per_litre(5)),
      step.pitch);
  step.held = in.optional("held", "whether it is kept at the pitching temperature", step.held);
  step.rest_after_dry =
      in.optional("rest_after_dry", "wait for clearing once it is dry",
                  between(Duration::days(0), Duration::days(60)), step.rest_after_dry);
  step.nutrient_nitrogen =
      in.optional("nutrient_nitrogen", "assimilable nitrogen stirred in, to a litre of wort",
                  between(MassConcentration{}, MassConcentration::grams_per_litre(1)),
                  step.nutrient_nitrogen);
  step.gravity_by = in.choice("gravity_by", "what mends a gravity that is not the wanted one",
                              Names<plan::GravityBy>{{"sugar", plan::GravityBy::sugar},
                                                     {"water", plan::GravityBy::water}},
                              step.gravity_by);
  step.yeast_price_per_kg = price<PricedBy::kilogram>(in, "yeast_price", "price of the yeast");
  return step;
}

plan::StripStep strip_step(Section& in) {
  plan::StripStep step;
  step.stop = in.required("stop", "strength at the spout where a strip ends",
                          between(vol(0.5), vol(60)))
                  .by_volume;
  step.charges = in.maybe<int>(
      "charges", "number of strips; as many as the wash needs when left out", between(1, 50));
  step.charge = in.maybe<Volume>(
      "charge", "wash in one strip, in place of charges; the boiler's fill when left out",
      between(Volume::litres(1), most_litres));
  step.spout_temperature = in.optional("spout_temperature", "temperature of the spirit",
                                       at_the_spout, step.spout_temperature);
  return step;
}

plan::SpiritRunStep spirit_run_step(Section& in) {
  plan::SpiritRunStep step;
  step.feints = in.maybe<plan::SpiritLot>("feints", "feints of earlier batches in this charge");
  step.charge_at_most =
      in.optional("charge_at_most", "strength to which the charge is watered down",
                  between(vol(10), vol(40)), Strength{step.charge_at_most})
          .by_volume;
  step.surplus = in.choice("surplus", "what is done with low wines beyond one charge",
                           Names<plan::Surplus>{{"keep", plan::Surplus::keep},
                                                {"second run", plan::Surplus::second_run}},
                           step.surplus);
  const auto border = [&in](std::string_view key, std::string_view about, plan::Border& to) {
    to = in.optional(key, about, to);
  };
  step.foreshots_end = in.maybe<plan::Border>(
      "foreshots_end", "end of the foreshots, poured away; 0.5 % of the charge when left out");
  step.heads_end = in.maybe<plan::Border>(
      "heads_end", "end of the heads, start of the hearts; 2.5 % of the charge when left out");
  border("hearts_end", "end of the hearts, start of the tails", step.hearts_end);
  border("tails_end", "end of the run", step.tails_end);
  step.keep_heads = in.choice("heads", "whether the heads go to the feints",
                              Names<bool>{{"keep", true}, {"away", false}}, step.keep_heads);
  step.spout_temperature = in.optional("spout_temperature", "temperature of the spirit",
                                       at_the_spout, step.spout_temperature);
  return step;
}

plan::ReduceStep reduce_step(Section& in, bool wood) {
  plan::ReduceStep step;
  const Strength maturing = in.required(
      "maturing_strength", "strength for the wood, or for standing", between(vol(20), vol(96)));
  // Outside 20 to 80 %vol nothing is known of how wood gives.
  if (wood && vol(80) < maturing) {
    in.refuse("maturing_strength", "at most 80 %vol for a spirit that goes into wood");
  }
  step.maturing = maturing.by_volume;
  const auto room = between(Temperature::celsius(0), Temperature::celsius(40));
  step.water_temperature =
      in.optional("water_temperature", "of the water", room, step.water_temperature);
  return step;
}

plan::WoodStep wood_step(Section& in) {
  plan::WoodStep step;
  const auto staves = in.maybe<plan::Staves>(
      "staves", "staves in glass or steel, as many as the time needs or a number");
  const auto cask = in.maybe<std::string>("cask", "a cask, by its name in the kit");
  if (in.has("staves") && in.has("cask")) {
    in.refuse("cask", "either staves or a cask, not both");
  } else if (!in.has("staves") && !in.has("cask")) {
    in.refuse("staves", "either staves (\"for the time\" or a number) or cask = \"its name\"");
  }
  if (cask) {
    step.in = *cask;
  } else if (staves) {
    step.in = *staves;
  }
  step.species =
      in.choice("species", "the wood, by its id", ids(wood::species()), step.species);
  step.toast = in.choice("toast", "how the wood was heated", ids(wood::toasts()), step.toast);
  step.time =
      in.required("time", "time in the wood", between(Duration::days(7), Duration::years(50)));
  step.temperature =
      in.optional("temperature", "mean temperature of the cellar",
                  between(Temperature::celsius(0), Temperature::celsius(40)), step.temperature);
  return step;
}

plan::BottleStep bottle_step(Section& in) {
  plan::BottleStep step;
  step.strength =
      in.required("strength", "strength in the bottle", between(vol(10), vol(96))).by_volume;
  step.size = in.optional("size", "what a bottle holds",
                          between(Volume::millilitres(20), Volume::litres(50)), step.size);
  step.filter_loss =
      in.optional("filter_loss", "spirit left in the filter",
                  between(Share::percent(0), Share::percent(20)), step.filter_loss);
  return step;
}

plan::Prices prices(Section& in) {
  constexpr double litres_in_m3 = 1000.0;
  plan::Prices p;
  p.currency =
      in.maybe<std::string>("currency", "what all prices of the recipe are in").value_or("");
  p.energy_per_kWh = price<PricedBy::kilowatt_hour>(in, "energy", "price of heat and power");
  p.water_per_m3 = price<PricedBy::litre>(in, "water", "price of water and coolant");
  if (p.water_per_m3) *p.water_per_m3 *= litres_in_m3;
  p.bottle_each = price<PricedBy::piece>(in, "bottle", "price of an empty bottle");
  p.wood = in.maybe<double>("wood", "price of the wood for this batch", at_least(0.0));
  return p;
}

}  // namespace

plan::Recipe recipe_keys(Section& in) {
  plan::Recipe recipe;
  recipe.name = in.required<std::string>("name", "name of the batch");
  recipe.remark = in.maybe<std::string>("remark", "a word about it").value_or("");
  const bool boils_sugar = in.has("sugar_boil");
  recipe.bill = in.each(
      "mash_bill", "a line of the mash bill",
      [&](Section& line) { return bill_line(line, boils_sugar); }, 1);
  const auto mash =
      in.maybe_inside("mash", "the mash; needed unless the bill is of sugars only", mash_step);
  if (mash) recipe.mash = *mash;
  const bool grain =
      std::any_of(recipe.bill.begin(), recipe.bill.end(), [](const plan::BillLine& line) {
        return !line.ingredient.empty() && mash::is_grain(mash::ingredient(line.ingredient));
      });
  if (grain && !in.has("mash")) {
    in.refuse("mash",
              "a mash (vessel, rest_temperature, rest_time), because the bill has grain");
  }
  recipe.sugar_boil =
      in.maybe_inside("sugar_boil", "dissolving and boiling sugars apart", sugar_boil);
  recipe.ferment = in.inside("ferment", "the ferment", ferment_step);
  recipe.strip = in.inside("strip", "the stripping runs", strip_step);
  recipe.spirit_run = in.inside("spirit_run", "the spirit run", spirit_run_step);
  const bool wood = in.has("wood");
  recipe.reduce = in.inside("reduce", "reduction with water before the wood",
                            [wood](Section& section) { return reduce_step(section, wood); });
  recipe.wood = in.maybe_inside("wood", "maturing in wood; needs staves or cask", wood_step);
  recipe.bottle = in.inside("bottle", "bottling", bottle_step);
  recipe.prices = in.inside("prices", "prices, for the cost of the batch", prices);
  return recipe;
}

plan::Recipe read_recipe(std::string_view text, std::string file) {
  return read(text, std::move(file), recipe_keys);
}

Description describe_recipe() {
  return describe("recipe.toml", "A batch of grain spirit from mash bill to bottle",
                  recipe_keys);
}

}  // namespace lynearm::recipe
