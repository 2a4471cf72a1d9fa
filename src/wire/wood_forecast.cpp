#include "wire/wood_forecast.hpp"

#include <fmt/format.h>

#include "wire/entry_fields.hpp"
#include "wire/figure.hpp"
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

Json point(const WoodPoint& of) {
  const auto litres = [](units::Volume v) { return v.litres(); };
  Json json;
  json["days"] = figure(of.at.days());
  json["extract_fraction"] = band(of.extract, [](units::Share s) { return s.fraction(); });
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

std::string wood(const WoodForecast& of) {
  return of.cask ? fmt::format("{}, {:.0f} L, {}", of.in, of.cask->litres(),
                               of.used ? "filled before" : "new")
                 : fmt::format("{} of them", of.staves);
}

Why why_surface(const WoodForecast& of) {
  Why why;
  why.what = "Wood that a litre of the spirit meets, and that over a 200 L cask's";
  why.inputs = {{"Laid on it", laid(of)}, {of.cask ? "Cask" : "Staves", wood(of)}};
  why.model = of.cask
                  ? "96 cm² to a litre in a cask of 200 L; with the cube root, more in a "
                    "smaller one."
                  : "All six faces of the kit's staves over the volume they were laid into.";
  why.source = "Geometry; the cask's constant is our estimate";
  why.band = "10 % either way over the usual shapes of casks";
  return why;
}

Why why_extract(const WoodForecast& of) {
  Why why;
  why.what =
      "Colour and extract, as a share of what a new charred 200 L cask gives in eight years; "
      "extraction only, never age";
  why.inputs = {
      {"Laid on it", laid(of)},
      {of.cask ? "Cask" : "Staves", wood(of)},
      {"Wood", fmt::format("{}, {}", of.species, of.toast)},
      {"Surface", fmt::format("{:.0f} cm²/L", of.surface.square_centimetres_per_litre())},
      {"Rests at", fmt::format("{:.1f} °C, by the recipe", of.resting.celsius())}};
  why.model =
      "A pool at the surface that goes in weeks, and one in the wood that diffuses out: with "
      "the square root of time, until the wood is spent; scaled by the colour that this wood "
      "gives after its heating. The pools of lactone, tannin and vanillin are not told apart.";
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
  why.inputs = {{"Laid on it", laid(of)}, {of.cask ? "Cask" : "Staves", wood(of)}};
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
      " What was drawn since is taken off, and what it was topped up with is mixed in as if it "
      "lost nothing; samples to come are not taken off.";
  why.source =
      of.cask ? "Permeation of water and ethanol, our calibration to 2 % a year of a 200 L "
                "cask (62.5 %vol, 15 °C, 65 % humidity); what new wood drinks is from "
                "memory"
              : "Our estimate of a closure; what wood drinks is from memory";
  why.band = "the kit's doubt of its evaporation";
  return why;
}

Json forecast(const WoodForecast& of) {
  Json json;
  json["in"] = of.in;
  if (of.staves > 0) json["staves"] = of.staves;
  if (of.cask) json["cask_L"] = figure(of.cask->litres());
  json["surface_cm2_per_L"] = figure(of.surface.square_centimetres_per_litre());
  json["times_a_200L_cask_ratio"] = figure(of.times_a_200L_cask);
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
