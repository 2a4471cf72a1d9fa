#include "wire/wood_forecast.hpp"

#include <fmt/format.h>

#include "wire/entry_fields.hpp"
#include "wire/figure.hpp"
#include "wire/on_wood.hpp"
#include "wire/plan_parts.hpp"
#include "wire/why.hpp"
#include "wood/evaporation.hpp"
#include "wood/extraction.hpp"

namespace lynearm::wire {
namespace {

template <class Q, class Number>
Json band(const Likely<Q>& of, const Number& number) {
  return {{"low", figure(number(of.low))},
          {"median", figure(number(of.median))},
          {"high", figure(number(of.high))}};
}

double share_number(units::Share share) { return share.fraction(); }

Json point(const WoodPoint& of) {
  const auto litres = [](units::Volume v) { return v.litres(); };
  Json json;
  json["days"] = figure(of.at.days());
  json["extract_fraction"] = band(of.extract, share_number);
  if (of.like_cask_years) json["of_200L_cask_years"] = figure(of.like_cask_years->years());
  json["evaporated_L_20C"] = band(of.evaporated, litres);
  json["volume_L_20C"] = band(of.volume, litres);
  json["strength_percent_vol"] =
      band(of.strength, [](units::VolumeStrength s) { return s.percent(); });
  return json;
}

std::string laid(const WoodForecast& of) {
  return fmt::format("{:.2f} L at 20 °C, {:.1f} %vol", of.laid.litres(), of.strength.percent());
}

std::string used(int times) {
  switch (times) {
    case 0:
      return "new";
    case 1:
      return "used once before";
    case 2:
      return "used twice before";
    default:
      return fmt::format("used {} times before", times);
  }
}

std::string how_much(const WoodForecast& of, const WoodSet& set) {
  if (!set.cask.empty()) return fmt::format("{}, {:.0f} L", set.cask, of.cask->litres());
  return fmt::format("{} {}", set.staves, set.staves == 1 ? "stave" : "staves");
}

// A line for each wood that it lies on.
template <class Line>
void each_wood(Why& why, const WoodForecast& of, const Line& line) {
  for (const WoodSet& set : of.woods) {
    why.inputs.emplace_back(set.cask.empty() ? "Staves" : "Cask", line(set));
  }
}

std::string named(const journal::OnWood& on) {
  std::string name = on.in;
  if (!on.species.empty()) name += ", " + on.species;
  if (!on.toast.empty()) name += ", " + on.toast;
  return name;
}

double per_cent(units::Share share) { return 100.0 * share.fraction(); }

Why why_surface(const WoodForecast& of) {
  Why why;
  why.what = "Wood that a litre of the spirit meets, and that over a 200 L cask's";
  why.inputs = {{"Laid on it", laid(of)}};
  each_wood(why, of, [&](const WoodSet& set) {
    return fmt::format("{}, {:.0f} cm²/L", how_much(of, set),
                       set.surface.square_centimetres_per_litre());
  });
  if (of.cask) {
    why.model =
        "96 cm² to a litre in a cask of 200 L; with the cube root, more in a smaller one.";
  }
  if (of.staves > 0) {
    if (of.cask) why.model += " ";
    why.model += "All six faces of the kit's staves over the volume they were laid into.";
  }
  if (of.woods.size() > 1) why.model += " All the wood in the vessel, added.";
  why.source = "Geometry; the cask's constant is our estimate";
  why.band = "10 % either way over the usual shapes of casks";
  return why;
}

Why why_extract(const WoodForecast& of) {
  Why why;
  why.what =
      "Colour and extract, as a share of what a new charred 200 L cask gives in eight years; "
      "extraction only, never age";
  why.inputs = {{"Laid on it", laid(of)},
                {"Rests at", fmt::format("{:.1f} °C, by the recipe", of.resting.celsius())}};
  each_wood(why, of, [&](const WoodSet& set) {
    return fmt::format("{}, {}, {}, {}, {:.0f} cm²/L; gives {:.1f} % by now", how_much(of, set),
                       set.species, set.toast, used(set.used_times),
                       set.surface.square_centimetres_per_litre(), per_cent(set.given));
  });
  for (const WoodLeft& one : of.before) {
    why.inputs.emplace_back(
        "Before", fmt::format("{}, {:.0f} days, came off with {:.1f} %", named(one.on),
                              one.days.days(), per_cent(one.extract)));
  }
  if (of.carried.median > units::Share{}) {
    why.inputs.emplace_back("Had when laid here",
                            fmt::format("{:.1f} %", per_cent(of.carried.median)));
  }
  why.model =
      "A pool at the surface that goes in weeks, and one in the wood that diffuses out: with "
      "the square root of time, until the wood is spent; scaled by the colour that this wood "
      "gives after its heating, and by what use has left in it (new 1, then 0.45, 0.25, 0.15). "
      "Woods add. What it took of other wood before stays in it; what it is topped up with "
      "thins it. The pools of lactone, tannin and vanillin are not told apart.";
  why.source =
      "Diffusion out of a slab; its diffusivity and pools our estimates, the quickening with "
      "warmth from memory; held to the yearly averages of whiskey casks of Crampton and Tolman "
      "(1908), from memory";
  why.band = fmt::format("{:.0f} % of the amount either way, our estimate",
                         wood::extraction_doubt.percent());
  return why;
}

Why why_air(const WoodForecast& of) {
  Why why;
  why.what = "What goes to the air, what is left in the vessel, and its strength";
  why.inputs = {{"Laid on it", laid(of)}};
  each_wood(why, of, [&](const WoodSet& set) {
    return fmt::format("{}, {}", how_much(of, set), used(set.used_times));
  });
  if (of.cask) {
    why.inputs.emplace_back("Cellar", fmt::format("{:.1f} °C, {:.0f} % humidity",
                                                  of.resting.celsius(), of.humidity.percent()));
  }
  why.inputs.emplace_back("The wood drinks", fmt::format("{:.2f} L", of.soaked.litres()));
  why.model = of.cask
                  ? "Water and ethanol pass the staves, each by its own vapour pressure less "
                    "that of the cellar's air: dry air raises the strength, damp air lowers it."
                  : fmt::format(
                        "Nothing passes glass; the closure loses {:.1f} % a year, and "
                        "the strength stays.",
                        wood::good_closure.percent());
  why.model +=
      " What was drawn or topped up since is taken off or mixed in on its day, and it goes on "
      "from the last gauging; what is to come is not.";
  why.source =
      of.cask ? "Permeation of water and ethanol, our calibration to 2 % a year of a 200 L "
                "cask (62.5 %vol, 15 °C, 65 % humidity); what new wood drinks is from "
                "memory"
              : "Our estimate of a closure; what wood drinks is from memory";
  why.band = "the kit's doubt of its evaporation";
  return why;
}

Json wood_set(const WoodSet& set) {
  Json json;
  if (!set.cask.empty()) json["cask"] = set.cask;
  if (set.staves > 0) json["staves"] = set.staves;
  json["species"] = set.species;
  json["toast"] = set.toast;
  json["used_times"] = set.used_times;
  json["surface_cm2_per_L"] = figure(set.surface.square_centimetres_per_litre());
  json["given_fraction"] = figure(set.given.fraction());
  return json;
}

Json forecast(const WoodForecast& of) {
  Json json;
  json["in"] = of.in;
  if (of.staves > 0) json["staves"] = of.staves;
  json["woods"] = Json::array();
  for (const WoodSet& set : of.woods) json["woods"].push_back(wood_set(set));
  if (of.cask) json["cask_L"] = figure(of.cask->litres());
  json["surface_cm2_per_L"] = figure(of.surface.square_centimetres_per_litre());
  json["times_a_200L_cask_ratio"] = figure(of.times_a_200L_cask);
  json["carried_fraction"] = band(of.carried, share_number);
  json["before"] = Json::array();
  for (const WoodLeft& one : of.before) {
    json["before"].push_back({{"wood", on_wood_json(one.on)},
                              {"days", figure(one.days.days())},
                              {"extract_fraction", figure(one.extract.fraction())}});
  }
  json["soaked_L_20C"] = figure(of.soaked.litres());
  if (of.planned) json["planned_days"] = figure(of.planned->days());
  if (of.ready) {
    json["usually_ready_days"] = band(*of.ready, [](units::Duration d) { return d.days(); });
  }
  json["now"] = point(of.now);
  if (of.end) json["end"] = point(*of.end);
  json["course"] = Json::array();
  for (const WoodPoint& one : of.course) json["course"].push_back(point(one));
  json["findings"] = findings_part(of.findings);
  json["why_surface"] = why_json(why_surface(of));
  json["why_extract"] = why_json(why_extract(of));
  json["why_air"] = why_json(why_air(of));
  return json;
}

}  // namespace

std::string wood_forecasts_json(const std::vector<WoodForecast>& lots) {
  Json json;
  json["caution"] = wood::extraction_caution;
  json["lots"] = Json::array();
  for (const WoodForecast& of : lots) {
    Json one;
    one["lot"] = {
        {"entry", print(of.lot.entry)},
        {"kind", std::string(fields::lot_kinds[static_cast<std::size_t>(of.lot.kind)])}};
    one["filled"] = print(of.filled);
    if (of.untold.empty()) {
      one["forecast"] = forecast(of);
    } else {
      one["untold"] = of.untold;
    }
    json["lots"].push_back(std::move(one));
  }
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace lynearm::wire
