// lynearm blend: volume and strength of lots mixed together. Water is a part of 0 %vol.
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/stated.hpp"
#include "cli/table.hpp"
#include "spirit/reduction.hpp"
#include "wire/spirit.hpp"

namespace lynearm::cli {
namespace {

std::string text(const std::vector<spirit::Lot>& parts, const spirit::Blend& blend,
                 const Look& look) {
  const auto print = [&](auto quantity) { return units::print(quantity, look.units); };
  std::vector<Row> rows;
  for (const spirit::Lot& part : parts) {
    rows.push_back({fmt::format("part {}", rows.size() + 1), print(spirit::volume(part)),
                    "at " + shown(spirit::strength(part), look.units)});
  }
  rows.push_back(
      {"blend", print(blend.volume_at_20C), "at " + shown(blend.strength, look.units)});
  rows.push_back({"contraction", print(blend.contraction), "lost on mixing"});
  rows.push_back({"pure alcohol", print(spirit::pure_alcohol(blend.result))});
  rows.push_back({"mass", print(blend.result.mass())});
  return headline(
             fmt::format("{} parts make {}.", parts.size(), shown(blend.result, look.units)),
             look) +
         table(rows);
}

std::string run(Arguments& arguments, const Look& look) {
  const auto stated = arguments.each<units::StatedLot>("--part");
  const auto& texts = arguments.texts("--part");
  for (std::size_t i = 0; i < stated.size(); ++i) {
    const units::Volume volume = stated[i].volume;
    if (!arguments.refused("--part") && !(volume >= least_volume && volume <= most_volume)) {
      arguments.refuse("--part", texts[i],
                       fmt::format("a volume of {} to {}", units::concise(least_volume),
                                   units::concise(most_volume)));
    }
  }
  if (stated.size() == 1 && !arguments.refused("--part")) {
    arguments.refuse("--part", texts.front(), "two or more, each with its own --part");
  }
  arguments.settle();
  std::vector<spirit::Lot> parts;
  for (const units::StatedLot& lot : stated) {
    parts.push_back(spirit::lot(lot.volume, spirit::volume_strength(lot.strength)));
  }
  const spirit::Blend blend = spirit::blend(parts);
  return look.json ? wire::json(parts, blend) + "\n" : text(parts, blend, look);
}

}  // namespace

Command blend_command() {
  return {"blend",
          "volume and strength of lots mixed together",
          {{"--part", "LOT",
            "one lot at 20 °C: \"1.2 L @ 74 %vol\"; once for each, water is "
            "\"1 L @ 0 %vol\"",
            true}},
          {R"(--part "1.2 L @ 74 %vol" --part "2 L @ 61 %vol")",
           "2 parts make 3.20 L at 65.9 %vol."},
          "By mass, so exact; volumes at 20 °C, with the contraction of mixing (OIML R 22).\n",
          run};
}

}  // namespace lynearm::cli
