#include "plan/bill_findings.hpp"

#include <fmt/format.h>

#include <cctype>
#include <string>

#include "mash/bill.hpp"
#include "mash/ingredient.hpp"

namespace lynearm::plan {
namespace {

const char* code_of(mash::Want want) {
  switch (want) {
    case mash::Want::enzymes:
    case mash::Want::more_enzymes:
      return "little-enzyme-power";
    case mash::Want::cooking:
      return "needs-cooking";
    case mash::Want::warmer_rest:
      return "needs-warmer-rest";
    case mash::Want::uncooked_malt:
      return "malt-cooked";
  }
  return "";
}

// What mends it; for enzymes how much of a strong malt would.
std::string remedy_of(mash::Want want, const mash::Bill& grain) {
  switch (want) {
    case mash::Want::enzymes:
    case mash::Want::more_enzymes: {
      const mash::Ingredient& malt = mash::ingredient("barley-malt-distillers");
      return fmt::format(
          "Give more or stronger malt at dough-in: {:.1f} kg more of {} convert it "
          "with ease.",
          mash::malt_to_reach(grain, malt, mash::comfortable_power).kilograms(), malt.name);
    }
    case mash::Want::cooking:
      return "Let it come in at the cook, or take it flaked.";
    case mash::Want::warmer_rest:
      return "Rest a little warmer, or cook it first.";
    case mash::Want::uncooked_malt:
      return "Let malts come in at dough-in, after the cook.";
  }
  return "";
}

std::string sentence(const std::string& words) {
  std::string text = words;
  if (!text.empty()) text.front() = static_cast<char>(std::toupper(text.front()));
  return text + ".";
}

}  // namespace

void bill_findings(const BillPlan& bill, std::vector<Finding>& findings) {
  for (const mash::Finding& found : bill.verdict.findings) {
    findings.push_back({Weight::caution, code_of(found.want), "Mash bill",
                        sentence(found.sentence), remedy_of(found.want, bill.grain)});
  }
}

std::vector<base::Fault> refusals(const BillPlan& bill) {
  std::vector<base::Fault> faults;
  for (const mash::Finding& found : bill.verdict.findings) {
    if (found.so != mash::Converts::no) continue;
    std::string remedy = remedy_of(found.want, bill.grain);
    remedy.pop_back();  // the surface ends the sentence
    faults.push_back(
        {"mash_bill", found.ingredient.empty() ? "the whole bill" : found.ingredient,
         fmt::format("a bill that converts; {}. {}", found.sentence, remedy), "", 0, 0});
  }
  return faults;
}

}  // namespace lynearm::plan
