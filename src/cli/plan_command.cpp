// lynearm plan: a recipe carried through a kit, from mash bill to bottle, as text, as JSON and
// as a sheet to print.
#include <fmt/format.h>

#include <cstdint>
#include <filesystem>
#include <limits>
#include <optional>

#include "cli/commands.hpp"
#include "cli/plan_text.hpp"
#include "cli/stated.hpp"
#include "cli/text_file.hpp"
#include "cli/threads.hpp"
#include "plan/backward.hpp"
#include "plan/figures.hpp"
#include "plan/plan.hpp"
#include "recipe/read_pair.hpp"
#include "sheet/batch_sheet.hpp"
#include "wire/plan_json.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* option_recipe = "RECIPE";
constexpr const char* option_kit = "--kit";
constexpr const char* option_for = "--for";
constexpr const char* option_gravity = "--gravity";
constexpr const char* option_scale = "--scale-to-kit";
constexpr const char* option_sheet = "--sheet";
constexpr const char* option_paper = "--paper";

// Enough that the ends of a band hold to about a tenth of its width (10th and 90th percentile
// of 500 draws), and still under the time one waits for.
constexpr int default_members = 500;
constexpr std::uint64_t default_seed = 1;

struct Asked {
  std::string recipe_path, kit_path;
  std::string recipe_text, kit_text;
  std::optional<units::StatedLot> wanted;
  std::optional<units::SpecificGravity> gravity;
  bool scale_to_kit = false;
  int members = 0;
  std::uint64_t seed = 0;
  int threads = 1;
  std::optional<std::string> sheet_path;
  sheet::Paper paper = sheet::Paper::a4;
  bool why = false;
};

void ask_for_changes(Arguments& arguments, Asked& asked) {
  asked.scale_to_kit = arguments.has(option_scale);
  asked.wanted = arguments.optional<units::StatedLot>(option_for);
  asked.gravity = arguments.optional<units::SpecificGravity>(option_gravity);
  if (asked.gravity) {
    arguments.keep_within(option_gravity, *asked.gravity, units::SpecificGravity::ratio(1.005),
                          units::SpecificGravity::ratio(1.150));
  }
  if (!asked.wanted || arguments.refused(option_for)) return;
  const std::string& text = arguments.texts(option_for).front();
  if (asked.scale_to_kit) {
    arguments.refuse(option_for, text, "either --for or --scale-to-kit, not both");
  } else if (!(asked.wanted->volume >= least_volume && asked.wanted->volume <= most_volume)) {
    arguments.refuse(option_for, text,
                     fmt::format("a volume of {} to {}", units::concise(least_volume),
                                 units::concise(most_volume)));
  } else if (spirit::volume_strength(asked.wanted->strength) <
             units::VolumeStrength::percent(10.0)) {
    arguments.refuse(option_for, text, "a spirit of 10 %vol or more");
  }
}

void ask_for_sheet(Arguments& arguments, Asked& asked) {
  if (arguments.has(option_sheet)) {
    asked.sheet_path = arguments.required_text(option_sheet, "the path of a file to write");
  }
  if (!arguments.has(option_paper)) return;
  const std::string& paper = arguments.texts(option_paper).front();
  if (paper == "Letter" || paper == "letter") {
    asked.paper = sheet::Paper::letter;
  } else if (paper != "A4" && paper != "a4") {
    arguments.refuse(option_paper, paper, "A4 or Letter");
  } else if (!asked.sheet_path) {
    arguments.refuse(option_paper, paper, "the paper of a batch sheet: give --sheet as well");
  }
}

Asked read(Arguments& arguments, const Look& look) {
  Asked asked;
  asked.recipe_path =
      arguments.required_text(option_recipe, "the path of a recipe file, such as recipe.toml");
  asked.kit_path =
      arguments.required_text(option_kit, "the path of a kit file, such as kit.toml");
  ask_for_changes(arguments, asked);
  ask_for_sheet(arguments, asked);
  asked.members = arguments.whole_number("--members", 0, 100000, default_members);
  asked.seed = arguments.whole_number<std::uint64_t>(
      "--seed", 0, std::numeric_limits<std::uint64_t>::max(), default_seed);
  asked.threads = arguments.whole_number("--threads", 1, 1024, all_cores());
  asked.why = arguments.has("--why");
  if (asked.why && look.json) {
    arguments.refuse("--why", "asked for with --json", "--why with the text only");
  }
  if (!asked.recipe_path.empty()) {
    asked.recipe_text = read_file(arguments, option_recipe, asked.recipe_path, "a recipe file");
  }
  if (!asked.kit_path.empty()) {
    asked.kit_text = read_file(arguments, option_kit, asked.kit_path, "a kit file");
  }
  return asked;
}

void note(plan::Recipe& recipe, const std::string& says) {
  recipe.remark += fmt::format("{}{}", recipe.remark.empty() ? "" : " ", says);
}

// The batch for a lot, when its hearts are strong enough: the plan leaves weaker ones as they
// are, which is not what was asked for.
plan::Solved to_spirit(const plan::Recipe& recipe, const plan::Kit& kit,
                       const units::StatedLot& wanted) {
  const units::VolumeStrength strength = spirit::volume_strength(wanted.strength);
  plan::Solved solved = plan::for_spirit(recipe, kit, wanted.volume, strength);
  const units::VolumeStrength reached = plan::make(solved.recipe, kit).finish.reduce.strength;
  if (reached < strength - units::VolumeStrength::percent(1e-6)) {
    throw base::InputError(
        "for", "",
        fmt::format("a strength up to {:.1f} %vol, that of this recipe's hearts",
                    reached.percent()));
  }
  return solved;
}

// What stops the search on its way to a gravity is told of the gravity: the recipe by itself
// may be sound.
plan::Solved to_gravity(const plan::Recipe& recipe, const plan::Kit& kit,
                        units::SpecificGravity gravity) {
  try {
    return plan::for_gravity(recipe, kit, gravity);
  } catch (const base::InputError& error) {
    const base::Fault& fault = error.faults().front();
    if (fault.field == "gravity") throw;
    throw base::InputError(
        "gravity", "",
        fmt::format("a gravity that this recipe comes to; on the way to this "
                    "one {} would have to be {}",
                    fault.field, fault.accepted));
  }
}

// The recipe as the wishes change it: gravity first, then size. What was changed is added to
// its remark, so that every surface says it.
plan::Recipe changed(const plan::Recipe& given, const plan::Kit& kit, const Asked& asked) {
  plan::Recipe recipe = given;
  const auto take = [&recipe](plan::Solved solved) {
    recipe = std::move(solved.recipe);
    note(recipe, solved.says);
  };
  if (asked.gravity) take(to_gravity(recipe, kit, *asked.gravity));
  if (asked.scale_to_kit) take(plan::scale_to_kit(recipe, kit));
  if (asked.wanted) take(to_spirit(recipe, kit, *asked.wanted));
  return recipe;
}

std::string output(const plan::Recipe& given, const plan::Kit& kit, const Asked& asked,
                   const Look& look) {
  const plan::Recipe recipe = changed(given, kit, asked);
  const plan::Plan plan = plan::make(recipe, kit);
  std::optional<plan::Bands> bands;
  if (asked.members > 0) {
    bands = plan::bands(recipe, kit, plan, asked.members, asked.seed,
                        on_threads(asked.threads, told_on_terminal()));
  }
  const plan::Bands* drawn = bands ? &*bands : nullptr;
  std::string text = look.json ? wire::plan_json(recipe, kit, plan, drawn) + "\n"
                               : plan_text(recipe, kit, plan, drawn, look);
  if (asked.why) text += why_text(recipe, kit, plan, look);
  if (asked.sheet_path) {
    // A slip of the hand must not put a page over what the maker wrote.
    for (const std::string& input : {asked.recipe_path, asked.kit_path}) {
      std::error_code ignored;
      if (std::filesystem::equivalent(*asked.sheet_path, input, ignored)) {
        throw base::InputError("sheet", *asked.sheet_path,
                               "a file that is neither the recipe nor the kit");
      }
    }
    write_file(*asked.sheet_path,
               sheet::batch_sheet(recipe, kit, plan, drawn, look.units, asked.paper));
    if (!look.json) {
      text += fmt::format("\nThe batch sheet, to print and write on, is in {}.\n",
                          *asked.sheet_path);
    }
  }
  return text;
}

std::string run(Arguments& arguments, const Look& look) {
  const Asked asked = read(arguments, look);
  arguments.settle();
  const recipe::NamedText recipe{asked.recipe_text, asked.recipe_path};
  const recipe::NamedText kit{asked.kit_text, asked.kit_path};
  const recipe::Pair pair = recipe::read_pair(recipe, kit);
  try {
    return output(pair.recipe, pair.kit, asked, look);
  } catch (const base::InputError& error) {
    throw base::InputError(recipe::placed(error.faults(), recipe, kit));
  }
}

}  // namespace

Command plan_command() {
  return {
      "plan",
      "a batch from mash bill to bottle, from a recipe and a kit",
      {{option_recipe, "FILE", "path of the recipe file"},
       {option_kit, "FILE", "path of the kit file: vessels, still, place"},
       {option_gravity, "GRAVITY",
        "change sugar or water (ferment.gravity_by) so that the wort starts at \"1.062\""},
       {option_scale, "", "the largest batch that fits the kit"},
       {option_for, "LOT", "the batch that gives this for the wood: \"5 L @ 55 %vol\""},
       {"--why", "", "with models, sources and the constants of the house"},
       {option_sheet, "FILE", "write a batch sheet to print as well, as HTML"},
       {option_paper, "PAPER", "of the sheet: A4 (default) or Letter"},
       {"--members", "NUMBER", "of the ensemble behind the bands: 500 (default); 0 for none"},
       {"--seed", "NUMBER", "of the ensemble: 1 (default)"},
       {"--threads", "NUMBER", "to reckon on; all cores by default, the result is the same"}},
      {"examples/tern-8/recipe.toml --kit examples/tern-8/kit.toml",
       "Tern 8: 19 bottles of 700 mL at 46.0 %vol, from 22.0 kg of grain and sugar."},
      "Every stage is a physical model: heat and mass balances, enzymes, fermentation, batch\n"
      "distillation, wood (--why lists them). Figures in brackets: four batches in five lie\n"
      "between. What does not fit comes first. Flavour and congeners are left out.\n"
      "Caution: a plan is a forecast and no permission; local law, fire code and licensed\n"
      "practice decide. Nothing in it says that a spirit is safe.\n",
      run};
}

}  // namespace lynearm::cli
