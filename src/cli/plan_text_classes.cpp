// Legal classes in text: what the spirit could carry and under which conditions, and for the
// others the rules that stand against them.
#include <fmt/format.h>

#include "cli/plan_text_parts.hpp"
#include "plan/class_findings.hpp"

namespace lynearm::cli::planned {
namespace {

constexpr std::size_t word_width = 14;

const char* word(plan::Ruling ruling) {
  switch (ruling) {
    case plan::Ruling::kept:
      return "could carry";
    case plan::Ruling::breaks:
      return "breaks a rule";
    case plan::Ruling::cannot_tell:
      return "cannot tell";
    case plan::Ruling::condition:
      break;
  }
  return "";
}

std::string beside_word(const std::string& word, const std::string& words) {
  std::string text;
  bool first = true;
  for (const std::string& line : wrapped(words, page_width - word_width - 2)) {
    const std::string lead = first ? word : std::string();
    text += fmt::format("  {}{}{}\n", lead, std::string(word_width - lead.size(), ' '), line);
    first = false;
  }
  return text;
}

std::string cited(const plan::RuleFinding& rule) {
  return rule.at.empty() ? std::string() : fmt::format(" [{}]", rule.at);
}

// "all of the grain is malted barley (it is 28.6 %) [reg. 3(2)]; ...".
std::string joined(const plan::ClassFinding& found, plan::Ruling ruling) {
  std::string text;
  for (const plan::RuleFinding& rule : found.rules) {
    if (rule.ruling != ruling) continue;
    text += fmt::format("{}{}{}{}", text.empty() ? "" : "; ", rule.demands,
                        rule.says.empty() ? "" : fmt::format(" ({})", rule.says), cited(rule));
  }
  return text;
}

std::string class_text(const plan::ClassFinding& found) {
  const std::string name = fmt::format("{}, {}", found.of->name, found.of->jurisdiction);
  if (found.ruling == plan::Ruling::breaks) {
    return beside_word(word(found.ruling),
                       fmt::format("{}: {}.", name, joined(found, plan::Ruling::breaks)));
  }
  std::string text =
      beside_word(word(found.ruling), fmt::format("{} [{}]", name, found.of->cited.place));
  const std::string open = joined(found, plan::Ruling::cannot_tell);
  if (!open.empty()) text += beside_word("", fmt::format("Open: {}.", open));
  for (const plan::RuleFinding& rule : found.rules) {
    if (rule.ruling == plan::Ruling::condition) {
      text += beside_word("", fmt::format("If: {}{}.", rule.demands, cited(rule)));
    }
  }
  return text;
}

// Which text each place in brackets is of.
std::string texts(const std::vector<plan::ClassFinding>& all) {
  std::string text;
  std::string_view before;
  for (const plan::ClassFinding& found : all) {
    const std::string_view document = found.of->cited.source.document;
    if (document == before) continue;
    before = document;
    text += fmt::format("{}{}: {}", text.empty() ? "Texts. " : "; ", found.of->jurisdiction,
                        document);
  }
  return text + ".";
}

}  // namespace

std::string classes_part(const Batch& batch) {
  std::string text = heading("Legal classes", batch.look);
  const std::vector<plan::ClassFinding> all =
      plan::class_findings(batch.recipe, batch.kit, batch.plan);
  for (const plan::Ruling ruling :
       {plan::Ruling::kept, plan::Ruling::cannot_tell, plan::Ruling::breaks}) {
    for (const plan::ClassFinding& found : all) {
      if (found.ruling == ruling) text += class_text(found);
    }
  }
  return text + paragraph(texts(all)) + paragraph(plan::no_permission);
}

}  // namespace lynearm::cli::planned
