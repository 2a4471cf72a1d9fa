// The strips and the spirit run in text: what is charged, how long it takes, and what the maker
// sees at the spout and at the head as it runs.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/plan_text_parts.hpp"
#include "spirit/lot.hpp"

namespace lynearm::cli::planned {
namespace {

// Rows beside those of the borders, and how near to a border one may stand.
constexpr int steps_between = 8;
constexpr double least_part_of_a_step = 0.25;

std::vector<Line> heating_lines(const Batch& batch, const plan::RunPlan& one) {
  const still::Point& end = one.run.last();
  return {
      {"Boils at", batch.print(one.heat_up.boiling), "",
       fmt::format("after {} at {}; it has swollen to {}", batch.print(one.heat_up.duration),
                   batch.print(batch.kit.still.boiler.power), batch.print(one.volume_at_boil))},
      {"Coolant", batch.print(one.coolant.flow), "",
       fmt::format("at least {}; in at {}, out at {}; {} a run",
                   batch.print(one.coolant.cooling.least_flow),
                   batch.print(batch.kit.still.coolant_inlet), batch.print(one.coolant.leaving),
                   batch.print(one.coolant.water))},
      {"First drops", batch.print(one.run.first().spout), "",
       fmt::format("head at {}", batch.print(one.run.first().head_temperature))},
      {"Then it runs", batch.print(end.since_start - one.run.first().since_start), "",
       fmt::format("at {}", batch.print(one.power))}};
}

std::string left_in_pot(const Batch& batch) {
  const units::Volume element = batch.kit.still.boiler.element_covered_above;
  return element > units::Volume{}
             ? fmt::format("hot; the element needs {} over it", batch.print(element))
             : std::string("hot");
}

std::string run_cautions(const Batch& batch) {
  std::string text;
  for (const sheet::Caution& caution : {sheet::cautions::heat, sheet::cautions::outlet,
                                        sheet::cautions::vapour, sheet::cautions::hot_pot}) {
    text += caution_of(caution, batch.look);
  }
  return text;
}

Line lot_line(const Batch& batch, std::string name, const spirit::Lot& lot,
              std::string remark = "") {
  std::string at = fmt::format("at {}", batch.print(spirit::strength(lot)));
  if (!remark.empty()) at += fmt::format(", {}", remark);
  return {std::move(name), batch.print(spirit::volume(lot)), "", std::move(at)};
}

std::string charge_lines(const Batch& batch) {
  const plan::SpiritPlan& spirit = batch.plan.spirit;
  const double runs = std::max(1, spirit.runs);
  std::vector<Line> rows = {
      lot_line(batch, "Low wines in", spirit.low_wines_in * (1.0 / runs))};
  if (something(spirit.feints_in)) {
    rows.push_back(lot_line(batch, "Feints in", spirit.feints_in * (1.0 / runs)));
  }
  if (spirit.water > units::Mass::grams(1.0)) {
    rows.push_back({"Water in", batch.print(spirit.water / runs), "", "by mass"});
  }
  rows.push_back(
      {"Charge", batch.print(spirit.one.charge_volume), "",
       fmt::format("at {}; the boiler takes {}", batch.print(spirit.one.charge_strength),
                   batch.print(spirit.fill_limit))});
  if (something(spirit.low_wines_kept)) {
    rows.push_back(
        lot_line(batch, "Low wines kept", spirit.low_wines_kept, "for the next batch"));
  }
  for (Line& line : heating_lines(batch, spirit.one)) rows.push_back(std::move(line));
  rows.push_back(
      {"Left in the pot", batch.print(spirit.one.left_in_pot), "", left_in_pot(batch)});
  return lines(rows);
}

struct Cue {
  std::string name;
  still::Point at;
};

// A step that a measuring glass shows, near to `step`.
units::Volume round_step(units::Volume step, units::System system) {
  const units::Volume unit = system == units::System::us ? units::Volume::us_fluid_ounces(1.0)
                                                         : units::Volume::millilitres(1.0);
  const double wanted = step / unit;
  const double decade = std::pow(10.0, std::floor(std::log10(wanted)));
  double nearest = decade;
  for (const double figure : {1.0, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 8.0, 10.0}) {
    if (std::abs(figure * decade - wanted) < std::abs(nearest - wanted)) {
      nearest = figure * decade;
    }
  }
  return unit * nearest;
}

// The borders, and in between the run at even steps; a step next to a border is left out.
std::vector<Cue> cues_of(const plan::SpiritPlan& spirit, units::System system) {
  std::vector<Cue> cues = {{"first drops", spirit.foreshots.from},
                           {"foreshots end", spirit.foreshots.to},
                           {"HEARTS BEGIN", spirit.hearts.from},
                           {"HEARTS END", spirit.hearts.to},
                           {"tails end", spirit.tails.to}};
  const units::Volume all = spirit.one.run.last().collected;
  const units::Volume step = round_step(all / (steps_between + 1), system);
  for (int i = 1; step * i < all; ++i) {
    const units::Volume at = step * i;
    const bool near = std::any_of(cues.begin(), cues.end(), [&](const Cue& cue) {
      return !cue.name.empty() &&
             std::abs((cue.at.collected - at).litres()) < least_part_of_a_step * step.litres();
    });
    if (!near) cues.push_back({"", still::point_at_volume(spirit.one.run, at)});
  }
  std::stable_sort(cues.begin(), cues.end(),
                   [](const Cue& a, const Cue& b) { return a.at.collected < b.at.collected; });
  return cues;
}

// What runs at a moment: seconds for a small glass.
std::string pace_at(const still::Run& run, const still::Point& at, units::Volume glass) {
  const units::Volume last = run.last().collected;
  const units::Volume from = std::min(at.collected, last - std::min(glass, last));
  const units::Volume to = std::min(from + glass, last);
  if (to <= from) return {};
  const units::Duration taken = still::point_at_volume(run, to).since_boiling -
                                still::point_at_volume(run, from).since_boiling;
  return fmt::format("{:.0f} s", taken.seconds() * (glass / (to - from)));
}

std::string cue_table(const Batch& batch) {
  const plan::SpiritPlan& spirit = batch.plan.spirit;
  const bool us = batch.look.units == units::System::us;
  const units::Volume glass =
      us ? units::Volume::us_fluid_ounces(4.0) : units::Volume::millilitres(100.0);
  std::vector<std::vector<std::string>> rows;
  for (const Cue& cue : cues_of(spirit, batch.look.units)) {
    rows.push_back({cue.name, batch.in_the_glass(cue.at.collected),
                    batch.print(cue.at.since_boiling), batch.print(cue.at.spout),
                    batch.print(cue.at.head_temperature),
                    pace_at(spirit.one.run, cue.at, glass)});
  }
  return grid({{"", Side::left},
               {"collected"},
               {"after"},
               {"spout"},
               {"head"},
               {us ? "for 4 fl oz" : "for 100 mL"}},
              rows);
}

std::string fraction_table(const Batch& batch) {
  const plan::SpiritPlan& spirit = batch.plan.spirit;
  std::vector<std::vector<std::string>> rows;
  const auto fraction = [&](const char* name, const still::Fraction& part, const char* goes) {
    if (part.volume < units::Volume::millilitres(0.5)) return;
    rows.push_back({name, batch.in_the_jar(part.volume), batch.print(part.strength),
                    batch.in_the_jar(part.pure_alcohol), batch.print(part.duration()), goes});
  };
  fraction("foreshots", spirit.foreshots, "poured away, in a bottle that says so");
  fraction("heads", spirit.heads,
           batch.recipe.spirit_run.keep_heads ? "feints, for the next batch" : "away");
  fraction("hearts", spirit.hearts, "to be reduced");
  fraction("tails", spirit.tails, "feints, for the next batch");
  return grid({{"Fraction", Side::left},
               {"volume"},
               {"strength"},
               {"pure alcohol"},
               {"in"},
               {"goes to", Side::left}},
              rows);
}

}  // namespace

std::string strip_part(const Batch& batch) {
  const plan::StripPlan& strip = batch.plan.strip;
  const plan::RunPlan& one = strip.one;
  std::vector<Line> rows = {
      {"Charges", fmt::format("{}", strip.runs), "",
       fmt::format("of {} at {}; the boiler takes {} of this wash",
                   batch.print(one.charge_volume, 1), batch.print(one.charge_strength),
                   batch.print(strip.fill_limit))}};
  for (Line& line : heating_lines(batch, one)) rows.push_back(std::move(line));
  rows.push_back({"Stop at the spout", batch.print(batch.recipe.strip.stop), "",
                  fmt::format("head at {}", batch.print(one.run.last().head_temperature))});
  rows.push_back(principal(batch, "strip_run_hours", "One strip, cold to end"));
  rows.push_back({"Low wines of one", batch.print(spirit::volume(one.collected)), "",
                  fmt::format("at {}", batch.print(spirit::strength(one.collected)))});
  rows.push_back({"Left in the pot", batch.print(one.left_in_pot), "", left_in_pot(batch)});
  rows.push_back(principal(batch, "low_wines_volume_L_20C", "Low wines of all"));
  rows.push_back(principal(batch, "low_wines_percent_vol", "their strength"));
  if (strip.left_over_volume > units::Volume::millilitres(5.0)) {
    rows.push_back({"Wash left over", batch.print(strip.left_over_volume)});
  }
  std::string text = heading("Strip", batch.look) + run_cautions(batch) + lines(rows);
  if (strip.foams) {
    text +=
        paragraph("This wash foams: bring it up gently, and run the first quarter hour low.");
  }
  return text + paragraph(
                    "Degas the wash first: stir it until it is still. Coolant runs before the "
                    "heat goes on. Take every charge to the same strength.");
}

std::string spirit_part(const Batch& batch) {
  const plan::SpiritPlan& spirit = batch.plan.spirit;
  std::string text = heading("Spirit run", batch.look);
  text += paragraph(
      "Caution: as at the strips. Never leave a heated still; outlet open; coolant failing: "
      "heat off "
      "first; nothing is charged into a hot pot; spirit above 40 °C (104 °F) at the spout: "
      "vapour "
      "may be escaping.");
  text += caution_of(sheet::cautions::fire, batch.look);
  text += caution_of(sheet::cautions::foreshots, batch.look);
  if (spirit.runs > 1) {
    text += paragraph(fmt::format("{} equal runs; each:", spirit.runs));
  }
  text += charge_lines(batch);
  text += "\n";
  text += cue_table(batch);
  text += paragraph(
      "Strengths are at 20 °C: bring what the alcoholmeter shows to 20 °C before you compare "
      "(lynearm gauge). Nose and palate decide the borders; these figures say when to begin.");
  text += "\n";
  text += fraction_table(batch);
  text += "\n";
  const char* all = spirit.runs > 1 ? "Hearts of all runs" : "Hearts";
  text += lines(
      {principal(batch, "hearts_volume_L_20C", all, "less what clings and escapes"),
       principal(batch, "hearts_percent_vol", "their strength"),
       principal(batch, "hearts_pure_alcohol_L", "pure alcohol in them"),
       principal(batch, "feints_kept_volume_L_20C", "Feints kept",
                 something(spirit.feints_kept)
                     ? fmt::format("at {}", batch.print(spirit::strength(spirit.feints_kept)))
                     : std::string()),
       principal(batch, "spirit_run_hours", "The run, cold to end")});
  text += paragraph(
      "Let the jars air for a day under a cloth, away from any flame. Then gauge them again, "
      "nose "
      "them, and decide what goes to the hearts.");
  return text + caution_of(sheet::cautions::blue_or_green, batch.look) +
         caution_of(sheet::cautions::tasting, batch.look);
}

}  // namespace lynearm::cli::planned
