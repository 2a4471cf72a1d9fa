// A made-up text for the tests of the reader: every shape of key once.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "recipe/reader.hpp"

namespace lynearm::recipe::made_up {

enum class Head { pot, plates };

struct Grain {
  std::string name;
  units::Mass mass;
  std::optional<units::Price> price;
};

struct Rest {
  units::Temperature temperature;
  units::Duration time;
};

struct Mash {
  units::Spread<units::Share> efficiency;
  Rest rest;
};

struct Batch {
  std::string name;
  Head head = Head::pot;
  units::SpecificGravity gravity;
  units::StatedStrength strength;
  int jars = 0;
  double reflux = 0.0;
  bool peated = false;
  std::vector<units::Temperature> steps;
  std::vector<Grain> bill;
  Mash mash;
  std::optional<Rest> second_rest;
};

inline Rest rest(Section& in) {
  using namespace units;
  return {
      .temperature = in.required("temperature", "temperature of the rest",
                                 between(Temperature::celsius(40), Temperature::celsius(80))),
      .time = in.optional("time", "length of the rest", at_least(Duration::minutes(0)),
                          Duration::minutes(90))};
}

inline Mash mash(Section& in) {
  using namespace units;
  return {.efficiency = in.spread("efficiency", "extract won, of what is there",
                                  between(Share::percent(20), Share::percent(100)),
                                  Spread<Share>{Share::percent(75), Share::percent(4)}),
          .rest = in.inside("rest", "the rest for conversion", rest)};
}

inline Grain grain(Section& in) {
  using namespace units;
  return {.name = in.required<std::string>("grain", "name of the grain"),
          .mass = in.required("mass", "mass of the grain",
                              between(Mass::grams(1), Mass::kilograms(200))),
          .price = in.maybe<Price>("price", "price of the grain")};
}

inline Batch batch(Section& in) {
  using namespace units;
  Batch out{
      .name = in.required<std::string>("name", "name of the batch"),
      .head = in.choice("head", "head of the still",
                        Names<Head>{{"pot", Head::pot}, {"plates", Head::plates}}, Head::pot),
      .gravity = in.optional("gravity", "gravity to aim at",
                             between(SpecificGravity::ratio(1.0), SpecificGravity::ratio(1.15)),
                             SpecificGravity::ratio(1.062)),
      .strength = in.optional("strength", "strength in the bottle",
                              StatedStrength{40.0, StrengthScale::percent_by_volume}),
      .jars = in.optional("jars", "number of jars", between(1, 40), 12),
      .reflux = in.optional("reflux", "share of vapour returned", between(0.0, 0.9), 0.0),
      .peated = in.optional("peated", "whether the malt is peated", false),
      .steps = in.list<Temperature>("steps", "temperatures of the steps"),
      .bill = in.each("mash_bill", "a grain of the bill", grain, 1),
      .mash = in.inside("mash", "the mash", mash),
      .second_rest = in.maybe_inside("second_rest", "a second rest", rest)};
  if (out.head == Head::plates && !in.has("reflux")) {
    in.refuse("reflux", "a reflux, since the head has plates");
  }
  return out;
}

inline constexpr const char* good_text = R"(# a made-up batch
name = "Tern 8"
head = "plates"
gravity = 1.07
strength = "110 proof"
jars = 14
reflux = 0.25
peated = true
steps = ["50 °C", "66 °C"]

[mash]
efficiency = "72 % +/- 5 %"

[mash.rest]
temperature = "150 °F"
time = "1 h 30 min"

[[mash_bill]]
grain = "rye"
mass = "4.5 kg"

[[mash_bill]]
grain = "barley malt"
mass = "2 lb 4 oz"
price = "1.20 / kg"
)";

}  // namespace lynearm::recipe::made_up
