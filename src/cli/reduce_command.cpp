// lynearm reduce: the water that brings a spirit down to a strength, by mass and by volume.
#include <fmt/format.h>

#include "cli/commands.hpp"
#include "cli/stated.hpp"
#include "cli/table.hpp"
#include "spirit/reduction.hpp"
#include "wire/spirit.hpp"

namespace lynearm::cli {
namespace {

std::string text(const spirit::Lot& before, const spirit::Reduction& reduction,
                 const Look& look) {
  const auto print = [&](auto quantity) { return units::print(quantity, look.units); };
  return headline(fmt::format("{} of water brings {} to {}.", print(reduction.water),
                              shown(before, look.units), shown(reduction.result, look.units)),
                  look) +
         table({{"water by mass", print(reduction.water), "weigh it: this is the exact one"},
                {"water by volume", print(reduction.water_at_20C), "at 20 °C"},
                {"result", print(reduction.volume_at_20C), "at 20 °C"},
                {"strength", shown(spirit::strength(reduction.result), look.units)},
                {"contraction", print(reduction.contraction), "lost on mixing"},
                {"pure alcohol", print(spirit::pure_alcohol(before)), "unchanged"}});
}

std::string run(Arguments& arguments, const Look& look) {
  const auto volume = arguments.required<units::Volume>("--volume");
  const auto from = arguments.required<units::StatedStrength>("--strength");
  const auto to = arguments.required<units::StatedStrength>("--to");
  arguments.keep_within("--volume", volume, least_volume, most_volume);
  // Weaker than this the water is beyond measure, and in the end beyond numbers.
  if (arguments.has("--to") && !arguments.refused("--to") &&
      spirit::volume_strength(to) < units::VolumeStrength::percent(0.01)) {
    arguments.refuse("--to", arguments.texts("--to").front(), "0.01 %vol or more");
  }
  arguments.settle();
  const spirit::Lot before = spirit::lot(volume, spirit::volume_strength(from));
  const spirit::Reduction reduction = spirit::reduce(before, spirit::volume_strength(to));
  return look.json ? wire::json(before, reduction) + "\n" : text(before, reduction, look);
}

}  // namespace

Command reduce_command() {
  return {"reduce",
          "water that brings a spirit down to a strength",
          {{"--volume", "VOLUME", "of the spirit at 20 °C: \"4 L\" or \"1 gal\""},
           {"--strength", "STRENGTH",
            "of the spirit: \"70 %vol\", \"62.4 %mass\" or \"140 proof\""},
           {"--to", "STRENGTH", "wanted, on any of the same scales"}},
          {R"(--volume "4 L" --strength "70 %vol" --to "55 %vol")",
           "1.14 kg of water brings 4.00 L at 70.0 %vol to 5.09 L at 55.0 %vol."},
          "By mass, so exact; volumes at 20 °C, with the contraction of mixing (OIML R 22).\n"
          "Add the water to the spirit slowly, let it rest, and gauge before the last of it.\n",
          run};
}

}  // namespace lynearm::cli
