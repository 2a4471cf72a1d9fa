// Legal classes on paper: what the spirit could carry with its conditions, then the others,
// each with the first rule that stands against it: the page and the plan's text have them all.
#include <fmt/format.h>

#include "plan/class_findings.hpp"
#include "sheet/batch_parts.hpp"

namespace lynearm::sheet {
namespace {

std::string worded(const plan::RuleFinding& rule) {
  std::string text = rule.demands;
  if (!rule.says.empty()) text += fmt::format(" ({})", rule.says);
  if (!rule.at.empty()) text += fmt::format(" [{}]", rule.at);
  return text;
}

std::string joined(const plan::ClassFinding& found, plan::Ruling ruling) {
  std::string text;
  for (const plan::RuleFinding& rule : found.rules) {
    if (rule.ruling != ruling) continue;
    text += text.empty() ? "" : ". ";
    text += worded(rule);
  }
  return text;
}

std::string first_broken(const plan::ClassFinding& found) {
  std::string text;
  int more = 0;
  for (const plan::RuleFinding& rule : found.rules) {
    if (rule.ruling != plan::Ruling::breaks) continue;
    if (text.empty()) {
      text = fmt::format("Breaks this rule: {}", worded(rule));
    } else {
      ++more;
    }
  }
  return more == 0 ? text : fmt::format("{}; and {} more", text, more);
}

std::string said(const plan::ClassFinding& found) {
  switch (found.ruling) {
    case plan::Ruling::kept:
      return fmt::format("Could carry it, if these hold. {}",
                         joined(found, plan::Ruling::condition));
    case plan::Ruling::cannot_tell:
      return fmt::format("Cannot be told. {}. And if these hold. {}",
                         joined(found, plan::Ruling::cannot_tell),
                         joined(found, plan::Ruling::condition));
    case plan::Ruling::breaks:
    case plan::Ruling::condition:
      break;
  }
  return first_broken(found);
}

}  // namespace

Html classes_part(const Batch& batch) {
  const std::vector<plan::ClassFinding> all =
      plan::class_findings(batch.recipe, batch.kit, batch.plan);
  Table table_of{.caption = "",
                 .columns = {{"Class", Align::left, 23},
                             {"Text", Align::left, 30},
                             {"This batch", Align::left}},
                 .rows = {}};
  for (const plan::Ruling ruling :
       {plan::Ruling::kept, plan::Ruling::cannot_tell, plan::Ruling::breaks}) {
    for (const plan::ClassFinding& found : all) {
      if (found.ruling != ruling) continue;
      table_of.rows.push_back(
          {fmt::format("{}, {}", found.of->name, found.of->jurisdiction),
           fmt::format("{}, {}", found.of->cited.source.document, found.of->cited.place),
           said(found)});
    }
  }
  return heading("Legal classes") + table(table_of) + paragraph(plan::no_permission);
}

}  // namespace lynearm::sheet
