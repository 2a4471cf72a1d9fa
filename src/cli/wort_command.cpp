// lynearm wort: extract and gravity of a wort or wash from a hydrometer, a refractometer or
// both; with the wort's original extract, how far it has fermented and the alcohol in it.
#include <fmt/format.h>

#include <optional>

#include "cli/commands.hpp"
#include "cli/stated.hpp"
#include "cli/table.hpp"
#include "wire/wort.hpp"
#include "wort/attenuation.hpp"
#include "wort/refractometer.hpp"
#include "wort/saccharometer.hpp"

namespace lynearm::cli {
namespace {

using units::Plato;
using units::SpecificGravity;
using units::Temperature;

constexpr auto coldest_wort = Temperature::celsius(0.0);
constexpr auto warmest_by_glass = Temperature::celsius(60.0);
constexpr auto warmest_by_refraction = Temperature::celsius(40.0);

constexpr const char* gravity_accepted =
    R"(a gravity or extract such as "1.058 SG", "1.058 SG 60/60" or "14.2 °P")";
constexpr const char* brix_accepted =
    R"(a refractometer's figure such as "14.6 Bx" or "1.3550 nD")";

// What a wort hydrometer shows, on one of its three scales.
struct GlassReading {
  std::optional<SpecificGravity> gravity;
  std::optional<spirit::SpecificGravity60F> gravity_60F;
  std::optional<Plato> plato;
};

bool cut_end(std::string_view& text, std::initializer_list<std::string_view> ends) {
  while (!text.empty() && text.back() == ' ') text.remove_suffix(1);
  for (const std::string_view end : ends) {
    if (!text.ends_with(end)) continue;
    text.remove_suffix(end.size());
    return true;
  }
  return false;
}

std::optional<GlassReading> glass_reading(std::string_view text) {
  if (const auto plato = units::try_parse<Plato>(text))
    return GlassReading{{}, {}, plato.value};
  const bool at_60F = cut_end(text, {"60/60 °F", "60/60"});
  if (!at_60F) cut_end(text, {"20/20 °C", "20/20"});
  const auto gravity = units::try_parse<SpecificGravity>(text);
  if (!gravity) return std::nullopt;
  if (at_60F)
    return GlassReading{{}, spirit::SpecificGravity60F::ratio(gravity.value->ratio()), {}};
  return GlassReading{gravity.value, {}, {}};
}

std::optional<wort::Brix> brix_reading(std::string_view text, Temperature t) {
  if (cut_end(text, {"°Bx", "Bx", "°Brix", "Brix"})) {
    const auto extract = units::try_parse<Plato>(std::string(text) + " °P");
    if (!extract) return std::nullopt;
    return wort::brix(*extract.value);
  }
  const auto index = units::try_parse<units::RefractiveIndex>(text);
  if (!index || text.find("nD") == std::string_view::npos) return std::nullopt;
  return wort::brix(*index.value, t);
}

SpecificGravity by_glass(Arguments& arguments, Temperature at) {
  const std::string& text = arguments.texts("--reading").front();
  const std::optional<GlassReading> reading = glass_reading(text);
  if (!reading) {
    arguments.refuse("--reading", text, gravity_accepted);
    return SpecificGravity::ratio(1.0);
  }
  if (!(at >= coldest_wort && at <= warmest_by_glass)) return SpecificGravity::ratio(1.0);
  wort::Saccharometer glass;
  if (const auto reference = arguments.optional<Temperature>("--glass-true-at")) {
    glass.reference = *reference;
    arguments.keep_within("--glass-true-at", *reference, coldest_wort, warmest_by_glass);
    if (reading->gravity_60F) {
      arguments.refuse("--glass-true-at", arguments.texts("--glass-true-at").front(),
                       "nothing: an SG 60/60 glass is true at 60 °F");
    }
  }
  if (arguments.refused("--glass-true-at")) return SpecificGravity::ratio(1.0);
  if (reading->gravity) return wort::true_gravity(*reading->gravity, at, glass);
  if (reading->gravity_60F) return wort::true_gravity(*reading->gravity_60F, at);
  return wort::true_gravity(*reading->plato, at, glass);
}

std::optional<Plato> asked_original(Arguments& arguments) {
  if (!arguments.has("--original")) return std::nullopt;
  const std::string& text = arguments.texts("--original").front();
  const std::optional<GlassReading> reading = glass_reading(text);
  if (!reading) {
    arguments.refuse("--original", text, gravity_accepted);
    return std::nullopt;
  }
  const Plato extract = reading->plato         ? *reading->plato
                        : reading->gravity_60F ? wort::plato(*reading->gravity_60F)
                                               : wort::plato(*reading->gravity);
  if (!(extract > Plato{} && extract <= wort::strongest)) {
    arguments.refuse("--original", text, "above 0 °P, to 40 °P (SG 1.178)");
    return std::nullopt;
  }
  return extract;
}

wort::BrixRefractometer asked_refractometer(Arguments& arguments) {
  wort::BrixRefractometer instrument;
  instrument.compensated = !arguments.has("--uncompensated");
  if (arguments.has("--factor")) {
    const auto factor = units::try_parse<SpecificGravity>(arguments.texts("--factor").front());
    if (factor && factor.value->ratio() >= 0.9 && factor.value->ratio() <= 1.2) {
      instrument.wort_factor = factor.value->ratio();
    } else {
      arguments.refuse("--factor", arguments.texts("--factor").front(),
                       "the refractometer's figure over the true extract of an unfermented "
                       "wort, 0.9 to 1.2");
    }
  }
  return instrument;
}

wire::WortReport by_two_readings(const wort::RefractedWash& wash) {
  wire::WortReport report;
  report.gravity = wash.gravity;
  report.fermented =
      wire::Fermented{wash.original, wash.real_extract, wash.alcohol_by_mass, wash.alcohol};
  return report;
}

wire::WortReport fermented(SpecificGravity gravity, Plato original) {
  wire::WortReport report;
  report.gravity = gravity;
  const Plato apparent = wort::plato(gravity);
  if (apparent > original) {
    throw base::InputError("reading", fmt::format("{:.2f} °P", apparent.degrees()),
                           "at most the original extract");
  }
  const Plato real = wort::real_extract(original, apparent);
  const Plato left = real < Plato{} ? Plato{} : real;
  const units::Share alcohol = wort::alcohol_by_mass(original, left);
  report.fermented =
      wire::Fermented{original, left, alcohol, wort::alcohol_by_volume(alcohol, gravity)};
  return report;
}

wire::WortReport answer(Arguments& arguments) {
  const auto at = arguments.optional<Temperature>("--at").value_or(Temperature::celsius(20.0));
  const bool refracted = arguments.has("--refraction");
  arguments.keep_within("--at", at, coldest_wort,
                        refracted ? warmest_by_refraction : warmest_by_glass);
  const std::optional<Plato> original = asked_original(arguments);
  const wort::BrixRefractometer instrument = asked_refractometer(arguments);
  if (!refracted) {
    for (const char* option : {"--factor", "--uncompensated"}) {
      if (arguments.has(option)) {
        arguments.refuse(option, "given", "only beside --refraction");
      }
    }
    if (!arguments.has("--reading")) arguments.refuse("--reading", "", gravity_accepted);
    SpecificGravity gravity = SpecificGravity::ratio(1.0);
    if (arguments.has("--reading") && !arguments.refused("--at")) {
      gravity = by_glass(arguments, at);
    }
    arguments.settle();
    if (original) return fermented(gravity, *original);
    wire::WortReport report;
    report.gravity = gravity;
    return report;
  }
  const std::string& text = arguments.texts("--refraction").front();
  if (arguments.refused("--at")) arguments.settle();
  const std::optional<wort::Brix> reading = brix_reading(text, at);
  if (!reading) arguments.refuse("--refraction", text, brix_accepted);
  if (arguments.has("--reading")) {
    if (original) {
      arguments.refuse("--original", arguments.texts("--original").front(),
                       "nothing beside both --reading and --refraction: they tell it");
    }
    const SpecificGravity gravity = by_glass(arguments, at);
    arguments.settle();
    return by_two_readings(wort::wash_of_gravity(gravity, *reading, at, instrument));
  }
  arguments.settle();
  if (original) {
    return by_two_readings(wort::wash_of_original(*original, *reading, at, instrument));
  }
  wire::WortReport report;
  report.gravity = wort::specific_gravity(wort::extract(*reading, at, instrument));
  return report;
}

std::string text(const wire::WortReport& report, const Look& look) {
  const Plato apparent = wort::plato(report.gravity);
  const std::string gravity = units::fixed(report.gravity.ratio(), 4);
  std::vector<Row> rows{
      {"gravity", gravity + " SG", "20/20 °C, in vacuum"},
      {"", units::fixed(wort::specific_gravity_60F(apparent).ratio(), 4) + " SG", "60/60 °F"},
      {"extract", units::fixed(apparent.degrees(), 2) + " °P",
       report.fermented ? "apparent: the alcohol hides some" : ""}};
  if (!report.fermented) {
    const double kgm3 =
        wort::density(apparent < Plato{} ? Plato{} : apparent, Temperature::celsius(20.0))
            .kilograms_per_cubic_metre();
    rows.push_back({"", units::fixed(apparent.degrees() / 100.0 * kgm3, 1) + " g/L",
                    "dissolved in a litre at 20 °C"});
    return headline(fmt::format("SG {} is {:.2f} °P.", gravity, apparent.degrees()), look) +
           table(rows);
  }
  const wire::Fermented& wash = *report.fermented;
  const units::Share real = wort::real_attenuation(wash.original, wash.real_extract);
  rows.push_back({"original", units::fixed(wash.original.degrees(), 2) + " °P",
                  "SG " + units::fixed(wort::specific_gravity(wash.original).ratio(), 4)});
  rows.push_back(
      {"real extract", units::fixed(wash.real_extract.degrees(), 2) + " °P", "truly left"});
  rows.push_back({"alcohol", units::print(wash.alcohol), "at 20 °C"});
  rows.push_back({"", units::fixed(wash.alcohol_by_mass.percent(), 1) + " %mass"});
  rows.push_back(
      {"fermented", units::fixed(real.percent(), 1) + " %", "of the extract, truly"});
  return headline(fmt::format("SG {} from {:.2f} °P holds {} of alcohol.", gravity,
                              wash.original.degrees(), units::print(wash.alcohol)),
                  look) +
         table(rows);
}

std::string because(const Arguments& arguments, const wire::WortReport& report) {
  std::vector<Ground> all{
      {"Extract",
       "sucrose by mass, NBS Circular 440 in its published cubic; a wort's own sugars are "
       "taken "
       "to weigh like sucrose, as the trade's tables do. °P, °Balling and Brix count the "
       "same."},
      {"Temperature",
       "the glass floats to the density at the wort's temperature, its own glass 25e-6 per "
       "kelvin; the wort shrinks to 20 °C as water does (Kell 1975), a little more with its "
       "extract (fitted to recalled tables)."}};
  if (arguments.has("--refraction")) {
    all.push_back(
        {"Refractometer",
         "refractions of water, ethanol and extract (Lorentz and Lorenz) add by mass; "
         "CRC Handbook, 102nd ed., and ICUMSA. The wort's factor is common practice: "
         "measure your own in an unfermented wort. Good to about 0.003 SG and 0.4 %vol "
         "in a fermented wash (our estimate)."});
  }
  if (report.fermented) {
    all.push_back(
        {"Alcohol",
         "Balling: 2.0665 g of extract give 1 g of alcohol, 0.9565 g of gas, 0.11 g of "
         "yeast (Cutaia et al. 2009, J. Inst. Brew. 115:318). Fitted to beer: plan and journal "
         "reckon a distiller's wash by the mass balance of its sugar instead, and find 5 to "
         "7 % more, as they count glycerol and acids as fermented."});
  }
  return grounds(all);
}

std::string run(Arguments& arguments, const Look& look) {
  const bool refracted = arguments.has("--refraction");
  const wire::WortReport report =
      with_names({{"reading", refracted ? "refraction" : "reading"},
                  {"gravity", "reading"},
                  {"temperature", "at"},
                  {"original_extract", arguments.has("--original") ? "original" : "refraction"},
                  {"extract", "refraction"}},
                 [&] { return answer(arguments); });
  if (look.json) return wire::json(report) + "\n";
  return text(report, look) +
         (arguments.has("--why") ? because(arguments, report) : std::string());
}

}  // namespace

Command wort_command() {
  return {
      "wort",
      "extract, gravity and alcohol of a wort or wash",
      {{"--reading", "GRAVITY",
        "what a hydrometer shows: \"1.058 SG\", \"1.058 SG 60/60\" or \"14.2 °P\""},
       {"--refraction", "FIGURE", "what a refractometer shows: \"14.6 Bx\" or \"1.3550 nD\""},
       {"--at", "TEMPERATURE", "of the sample (20 °C): to 60 °C, or 40 °C by refraction"},
       {"--original", "GRAVITY", "of the wort before it fermented: asks for the alcohol"},
       {"--glass-true-at", "TEMPERATURE", "where the hydrometer is true, if not at 20 °C"},
       {"--factor", "NUMBER", "of the wort by refractometer: figure over extract (1.04)"},
       {"--uncompensated", "", "the refractometer does not allow for temperature"},
       {"--why", "", "adds the models and their sources"}},
      {R"(--reading "1.058 SG" --at "30 C")", "SG 1.0609 is 14.97 °P."},
      "Degas and strain first: bubbles and grain lift the glass and blur the line. A\n"
      "refractometer sees alcohol too: in a fermented wash give --original, or --reading of\n"
      "a hydrometer beside it.\n"
      "\n"
      "More worked lines\n"
      "  lynearm wort --reading \"0.995 SG\" --original \"1.060 SG\"\n"
      "  lynearm wort --refraction \"6.2 Bx\" --original \"14.7 °P\"\n"
      "  lynearm wort --refraction \"6.2 Bx\" --reading \"0.998 SG\"\n",
      run};
}

}  // namespace lynearm::cli
