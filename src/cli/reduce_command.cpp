// lynearm reduce: the water that brings a spirit down to a strength, by mass, by volume and by
// the scale; and the same question asked backwards.
#include "cli/commands.hpp"
#include "cli/reduce_input.hpp"
#include "cli/reduce_text.hpp"
#include "wire/reduction.hpp"

namespace lynearm::cli {
namespace {

std::string run(Arguments& arguments, const Look& look) {
  if (arguments.has("--found")) {
    const AskedCheck asked =
        with_names({{"shown", arguments.has("--found-weight") ? "found_weight" : "weight"}},
                   [&] { return asked_check(arguments); });
    return look.json ? wire::json(asked.correction, asked.mistake) + "\n" : text(asked, look);
  }
  for (const char* option : {"--found-volume", "--found-weight"}) {
    if (arguments.has(option)) {
      arguments.refuse(option, arguments.texts(option).front(), "only beside --found");
    }
  }
  const AskedReduction asked =
      with_names({{"shown", "weight"},
                  {"water", arguments.has("--had-water") ? "had_water" : "water"},
                  {"volume", arguments.has("--make") ? "make" : "volume"}},
                 [&] { return asked_reduction(arguments); });
  if (look.json) return wire::json(asked.report) + "\n";
  return text(asked, look) + (arguments.has("--why") ? why(asked, look) : std::string());
}

std::vector<Option> options() {
  std::vector<Option> all = reduction_options();
  all.push_back({"--why", "", "adds the balance, the densities and their source"});
  return all;
}

}  // namespace

Command reduce_command() {
  return {
      "reduce",
      "water that brings a spirit down to a strength, and the way back",
      options(),
      {R"(--volume "4 L" --strength "70 %vol" --to "55 %vol")",
       "1.14 kg of water brings 4.00 L at 70.0 %vol to 5.09 L at 55.0 %vol."},
      "By mass, so exact; volumes with the contraction of mixing (OIML R 22). Strengths are\n"
      "true ones: gauge first. Away from flame, add the water to the spirit slowly, let it\n"
      "rest, and gauge before the last of it: --found then tells what is still missing.\n"
      "\n"
      "More worked lines\n"
      "  lynearm reduce --volume \"4 L\" --at \"27 C\" --strength \"70 %vol\" --to \"55 %vol\" "
      "--water-at \"12 C\"\n"
      "  lynearm reduce --weight \"5.8 kg\" --tare \"2.1 kg\" --strength \"70 %vol\" --to \"46 "
      "%vol\" --steps 4\n"
      "  lynearm reduce --make \"5 L\" --strength \"140 proof\" --to \"100 proof\"\n"
      "  lynearm reduce --volume \"4 L\" --strength \"70 %vol\" --water \"1 L\"\n"
      "  lynearm reduce --volume \"5 L\" --strength \"55 %vol\" --had-water \"1.1 kg\"\n"
      "  lynearm reduce --volume \"4 L\" --strength \"70 %vol\" --to \"55 %vol\" --weaker "
      "\"0.5 L "
      "@ 20 %vol\"\n"
      "  lynearm reduce --volume \"4 L\" --strength \"62 %vol\" --to \"46 %vol\" --residue "
      "\"1.5 "
      "g/L\" --tea \"0.3 L @ 0 %vol\" --tea-residue \"8 g/L\"\n"
      "  lynearm reduce --volume \"4 L\" --strength \"70 %vol\" --to \"55 %vol\" --found "
      "\"54.2 "
      "%vol\"\n",
      run};
}

}  // namespace lynearm::cli
