// Why the figures of a plan are what they are: for each stage the model, its source, and the
// constants of the house that it was reckoned with.
#include <fmt/format.h>

#include <cmath>
#include <vector>

#include "cli/plan_text.hpp"
#include "cli/plan_text_words.hpp"
#include "mash/ingredient.hpp"
#include "plan/process.hpp"

namespace lynearm::cli {
namespace {

using planned::Side;
using ShareSpread = units::Spread<units::Share>;

struct Constant {
  std::string_view id;  ///< in data/process.toml
  ShareSpread plan::Constants::*of;
};

struct Reason {
  const char* stage;
  const char* model;
  const char* source;
  std::vector<Constant> constants;
};

const std::vector<Reason>& reasons() {
  using C = plan::Constants;
  static const std::vector<Reason> all = {
      {"Mash bill",
       "Extract of each line: dry mass, times its fine-grind extract, times what a household "
       "grind gets of it. Enzyme power: mean degrees Lintner by mass.",
       "Ingredients: see below. 35 to 40 °Lintner convert, 60 to 70 with room to spare: common "
       "practice, no source.",
       {}},
      {"Mash",
       "Heat balances of grain, water and walls; cooling after Newton; starch split in the "
       "structure of Brandam et al. 2003 (Biochem. Eng. J. 13:43). Run-offs by a mass balance "
       "of "
       "the liquor that the grain holds.",
       "Specific heat of grain: Brewing Room Book 1984/85. Rates of the enzymes: our "
       "calibration. "
       "Steam off an open pot is known to its order only.",
       {{"conversion", &C::conversion},
        {"drained-moisture", &C::drained_moisture},
        {"squeezed-moisture", &C::squeezed_moisture},
        {"sparge-mixing", &C::sparge_mixing},
        {"heat-loss-factor", &C::heat_loss_factor}}},
      {"Ferment",
       "Stoichiometry of sugar to alcohol and gas, of which a share is reached; pace limited "
       "by "
       "nitrogen and by alcohol, coupled to the vessel's heat.",
       "Cramer et al. 2002 (Biotechnol. Bioeng. 77:49); Coleman, Fish and Block 2007 (Appl. "
       "Environ. Microbiol. 73:5875). Read a time as plus or minus 40 %.",
       {{"fermentable-factor", &C::fermentable_factor},
        {"alcohol-yield", &C::alcohol_yield},
        {"ferment-vigour", &C::ferment_vigour},
        {"lees", &C::lees}}},
      {"Strip and spirit run",
       "Differential distillation after Rayleigh with part of the vapour running back in the "
       "head; boiling mixtures by NRTL; heat and time from enthalpies. Congeners are left out.",
       "Vapour and liquid: Perry's Handbook, 8th ed.; held against five published sets of "
       "measurements (0.1 to 0.3 K). Volumes and strengths: OIML R 22 (1973).",
       {{"still-loss", &C::still_loss}}},
      {"Reduce and bottle",
       "Mass balance; the shrinking follows from the density of the mixture.",
       "OIML R 22 (1973).",
       {{"transfer-loss", &C::transfer_loss}}},
      {"Wood",
       "A pool at the surface and diffusion out of a slab, against a new charred 200 L cask; "
       "loss "
       "through wood by the vapour pressures of water and ethanol.",
       "Averages for whiskey barrels (Crampton and Tolman 1908, from memory); our calibration. "
       "Read times and amounts as plus or minus 30 to 50 %.",
       {{"evaporation-factor", &C::evaporation_factor}}},
  };
  return all;
}

const plan::ProcessConstant* default_of(std::string_view id) {
  for (const plan::ProcessConstant& constant : plan::process_constants()) {
    if (constant.id == id) return &constant;
  }
  return nullptr;
}

bool alike(units::Share a, units::Share b) {
  return std::abs(a.fraction() - b.fraction()) < 1e-9;
}

std::vector<std::string> constant_row(std::string_view id, const ShareSpread& used) {
  const plan::ProcessConstant* given = default_of(id);
  std::string name(given == nullptr ? id : given->name);
  std::string from = "the kit";
  if (given != nullptr && alike(given->value.value, used.median) &&
      alike((given->value.high - given->value.low) / 2.0, used.half_width_80)) {
    from = fmt::format("{}", base::words(given->value.source.standing));
  }
  return {units::print(used), std::move(from), std::move(name)};
}

std::string bill_sources(const plan::Plan& plan, const plan::Recipe& recipe) {
  std::vector<std::vector<std::string>> rows;
  for (std::size_t i = 0; i < plan.mash.bill.lines.size(); ++i) {
    const mash::Ingredient& ingredient = plan.mash.bill.lines[i].ingredient;
    const bool own = recipe.bill[i].analysis.extract.has_value();
    rows.push_back({ingredient.name, units::print(ingredient.extract.value),
                    own ? std::string("the recipe: the lot's own analysis")
                        : fmt::format("{} ({})", ingredient.extract.source.document,
                                      base::words(ingredient.extract.source.standing))});
  }
  return planned::grid({{"Extract of", Side::left}, {""}, {"from", Side::left}}, rows);
}

}  // namespace

std::string why_text(const plan::Recipe& recipe, const plan::Kit& kit, const plan::Plan& plan,
                     const Look& look) {
  std::string text = planned::heading("Why", look);
  text += planned::paragraph(
      "Constants of the house stand with their spread: four times in five the truth lies "
      "within. "
      "They are defaults until the kit states its own.");
  for (const Reason& reason : reasons()) {
    const bool wood = std::string_view(reason.stage) == "Wood";
    if (wood && !plan.finish.wood) continue;
    text += "\n";
    text += planned::paragraph(fmt::format("{}. {}", reason.stage, reason.model));
    text += planned::paragraph(fmt::format("Source: {}", reason.source));
    std::vector<std::vector<std::string>> rows;
    for (const Constant& constant : reason.constants) {
      rows.push_back(constant_row(constant.id, kit.constants.*constant.of));
    }
    if (!rows.empty() && std::string_view(reason.stage).starts_with("Strip")) {
      if (kit.still.head_loss) {
        rows.push_back({units::print(*kit.still.head_loss),
                        "the kit, or from its boiler's size", "heat lost by the head"});
      } else {
        rows.push_back(constant_row("head-reflux-strip", kit.still.head_reflux_strip));
        rows.push_back(constant_row("head-reflux-spirit", kit.still.head_reflux_spirit));
      }
    }
    if (!rows.empty()) {
      text += planned::grid({{"", Side::left}, {"", Side::left}, {"", Side::left}}, rows);
    }
    if (std::string_view(reason.stage) == "Mash bill") text += bill_sources(plan, recipe);
  }
  text += "\n";
  return text +
         planned::paragraph(fmt::format(
             "Readings are drawn too: the thermometer within {}, the alcoholmeter within "
             "{:.1f} %vol, four times in five; and each lot within its ingredient's usual "
             "range.",
             units::print(kit.instruments.thermometer, look.units),
             kit.instruments.alcoholmeter.percent()));
}

}  // namespace lynearm::cli
