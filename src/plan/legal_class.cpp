#include "plan/legal_class.hpp"

#include <fmt/format.h>

#include <algorithm>

namespace lynearm::plan {
namespace {

struct CerealIs {
  Cereal is = Cereal::any;
  base::Source source;
};

struct CerealRow {
  std::string_view id;
  CerealIs cereal;
};

const std::vector<CerealRow>& cereals() {
  static const std::vector<CerealRow> table = {
#include "plan/cereals.inc"
  };
  return table;
}

const char* word(Cereal cereal) {
  switch (cereal) {
    case Cereal::any:
      return "grain";
    case Cereal::maize:
      return "maize";
    case Cereal::barley:
      return "barley";
    case Cereal::wheat:
      return "wheat";
    case Cereal::rye:
      return "rye";
    case Cereal::oats:
      return "oats";
    case Cereal::rice:
      return "rice";
    case Cereal::not_known:
      return "unnamed grain";
  }
  return "";
}

const char* word(CaskKind cask) {
  switch (cask) {
    case CaskKind::wood:
      return "a cask of wood";
    case CaskKind::oak:
      return "a cask of oak";
    case CaskKind::used_oak:
      return "a used cask of oak";
    case CaskKind::new_charred_oak:
      return "a new charred cask of oak";
    case CaskKind::used_or_uncharred_oak:
      return "a used or an uncharred new cask of oak";
  }
  return "";
}

std::string grain_of(const ClassRule& rule) {
  const char* made = rule.made_as == MadeAs::malted     ? "malted "
                     : rule.made_as == MadeAs::unmalted ? "unmalted "
                                                        : "";
  return fmt::format("{}{}", made, word(rule.cereal));
}

std::string limit_of(const ClassRule& rule) {
  return fmt::format("{:g} {}", rule.limit.value, rule.limit.unit);
}

}  // namespace

const std::vector<LegalClass>& legal_classes() {
  static const std::vector<LegalClass> table = {
#include "plan/classes.inc"
  };
  return table;
}

const std::vector<ClassRule>& class_rules() {
  static const std::vector<ClassRule> table = {
#include "plan/class_rules.inc"
  };
  return table;
}

Cereal cereal_of(std::string_view ingredient) {
  const std::vector<CerealRow>& rows = cereals();
  const auto row = std::find_if(rows.begin(), rows.end(), [ingredient](const CerealRow& one) {
    return one.id == ingredient;
  });
  return row == rows.end() ? Cereal::any : row->cereal.is;
}

std::string demand(const ClassRule& rule) {
  switch (rule.kind) {
    case RuleKind::grain_alone:
      return "fermented from grain alone";
    case RuleKind::share_at_least:
      return rule.limit.value >= 100.0 ? fmt::format("all of the grain is {}", grain_of(rule))
                                       : fmt::format("{} is at least {} of the grain",
                                                     grain_of(rule), limit_of(rule));
    case RuleKind::share_at_most:
      return fmt::format("{} is at most {} of the grain", grain_of(rule), limit_of(rule));
    case RuleKind::malt:
      return fmt::format("malted {} is in the mash", word(rule.cereal));
    case RuleKind::distilled_under:
      return fmt::format("distilled under {}", limit_of(rule));
    case RuleKind::distilled_over:
      return fmt::format("distilled over {}", limit_of(rule));
    case RuleKind::distilled_at_most:
      return fmt::format("distilled at {} at most", limit_of(rule));
    case RuleKind::distilled_at_least:
      return fmt::format("distilled at {} at least", limit_of(rule));
    case RuleKind::pot_still:
      return "distilled in pot stills";
    case RuleKind::column_still:
      return "distilled in column stills";
    case RuleKind::entry_at_most:
      return fmt::format("put into the cask at {} at most", limit_of(rule));
    case RuleKind::cask:
      return fmt::format("stored in {}{}", word(rule.cask),
                         rule.if_in_wood ? ", if at all" : "");
    case RuleKind::cask_at_most:
      return fmt::format("the cask holds {} at most", limit_of(rule));
    case RuleKind::matured_at_least:
      return fmt::format("matured in the cask for {} at least", limit_of(rule));
    case RuleKind::bottled_at_least:
      return fmt::format("bottled at {} at least", limit_of(rule));
    case RuleKind::condition:
      return std::string(rule.words.substr(0, rule.words.size() - 1));
  }
  return "";
}

}  // namespace lynearm::plan
