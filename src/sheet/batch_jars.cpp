// The jars on paper: what each should hold, and room for what it does, how it smells, and where
// it goes.
#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "sheet/batch_parts.hpp"
#include "still/run.hpp"

namespace lynearm::sheet {
namespace {

constexpr double greatest_count_of_jars = 24.0;
constexpr int greatest_count_of_tables = 3;

// Jars that are on people's shelves.
units::Volume jar_size(units::Volume all, units::System system) {
  constexpr std::array metric_mL{50.0,  100.0, 200.0, 250.0, 350.0, 500.0,
                                 700.0, 1e3,   2e3,   5e3,   10e3,  25e3};
  constexpr std::array us_fl_oz{2.0, 4.0, 8.0, 16.0, 32.0, 64.0, 128.0, 640.0};
  if (system == units::System::us) {
    for (const double size : us_fl_oz) {
      const units::Volume jar = units::Volume::us_fluid_ounces(size);
      if (all / jar <= greatest_count_of_jars) return jar;
    }
  }
  for (const double size : metric_mL) {
    const units::Volume jar = units::Volume::millilitres(size);
    if (all / jar <= greatest_count_of_jars) return jar;
  }
  return all / greatest_count_of_jars;
}

struct Jar {
  std::string name;
  still::Fraction holds;
  std::string goes;
};

// The cuts that a jar lies in: "heads", or "heads/hearts" for one that a border runs through.
std::string goes_to(const plan::SpiritPlan& spirit, const still::Fraction& jar) {
  const units::Volume sliver = jar.volume * 0.02;
  std::string names;
  const auto in = [&](const char* name, const still::Fraction& cut) {
    const units::Volume from = std::max(cut.from.collected, jar.from.collected);
    const units::Volume to = std::min(cut.to.collected, jar.to.collected);
    if (to - from > sliver) names += fmt::format("{}{}", names.empty() ? "" : "/", name);
  };
  in("heads", spirit.heads);
  in("hearts", spirit.hearts);
  in("tails", spirit.tails);
  return names;
}

std::vector<Jar> jars_of(const plan::SpiritPlan& spirit, units::Volume size) {
  const still::Run& run = spirit.one.run;
  std::vector<Jar> jars;
  if (spirit.foreshots.volume > units::Volume::millilitres(0.5)) {
    jars.push_back({"F", spirit.foreshots, "foreshots"});
  }
  still::Point from = spirit.foreshots.to;
  const units::Volume end = spirit.tails.to.collected;
  // The last jar takes a little more rather than that one more is begun for a few drops.
  for (int number = 1; end - from.collected > units::Volume::millilitres(0.5); ++number) {
    const bool last = end - from.collected < size * 1.1;
    const still::Point to =
        last ? spirit.tails.to : still::point_at_volume(run, from.collected + size);
    const still::Fraction holds = still::fraction(from, to);
    jars.push_back({fmt::format("{}", number), holds, goes_to(spirit, holds)});
    from = to;
  }
  return jars;
}

Html jar_table(const Batch& batch, const std::vector<Jar>& jars, std::string caption) {
  const units::System system = batch.system;
  Table shelf{.caption = std::move(caption),
              .columns = {{"Jar", Align::centre, 5},
                          {"in all", Align::right},
                          {"strength", Align::right},
                          {"planned to", Align::left},
                          {glass_unit(system), Align::left, 9},
                          {strength_unit(system), Align::left, 8},
                          {temperature_unit(system), Align::left, 7},
                          {"nose", Align::left, 16},
                          {"palate", Align::left, 16},
                          {"goes to", Align::left, 11}},
              .rows = {},
              .room_to_write = true};
  for (const Jar& jar : jars) {
    shelf.rows.push_back(
        {jar.name, in_one_unit(jar.holds.to.collected, jars.back().holds.to.collected, system),
         cell(jar.holds.strength, system), jar.goes, "", "", "", "", "", ""});
  }
  return table(shelf);
}

}  // namespace

Html jars_part(const Batch& batch) {
  const plan::SpiritPlan& spirit = batch.plan.spirit;
  const units::Volume size =
      jar_size(spirit.tails.to.collected - spirit.foreshots.to.collected, batch.system);
  const std::vector<Jar> jars = jars_of(spirit, size);
  Html part = heading("Jars") + framed(cautions::tasting);
  part += small_print(fmt::format(
      "Jars of {}, numbered as they fill; smaller ones near the borders serve better. In all "
      "and "
      "strength are the forecast: collected when the jar is full, and the strength within it. "
      "Gauge again after a day under a cloth, and write where each millilitre goes.",
      in_the_glass(size, batch.system)));
  for (int i = 1; i <= std::min(spirit.runs, greatest_count_of_tables); ++i) {
    part += jar_table(
        batch, jars,
        spirit.runs > 1 ? fmt::format("Run {} of {}", i, spirit.runs) : std::string{});
  }
  if (spirit.runs > greatest_count_of_tables) {
    part += small_print(fmt::format("Copy the table for runs {} to {}.",
                                    greatest_count_of_tables + 1, spirit.runs));
  }
  return part + lines_to_write("Why the borders stand where they stand", 3);
}

}  // namespace lynearm::sheet
