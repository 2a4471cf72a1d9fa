// The days of a batch on paper: what comes when, how long, and whether hands are needed.
#include <fmt/format.h>

#include "sheet/batch_parts.hpp"

namespace lynearm::sheet {
namespace {

const char* words(plan::Attention attention) {
  switch (attention) {
    case plan::Attention::hands_on:
      return "hands on";
    case plan::Attention::watch:
      return "watch";
    case plan::Attention::wait:
      return "wait";
  }
  return "";
}

// "day 8 14:26" in two parts.
std::pair<std::string, std::string> day_and_time(units::Duration at) {
  const std::string both = plan::clock(at);
  const std::size_t space = both.rfind(' ');
  return {tight(both.substr(0, space)), both.substr(space + 1)};
}

}  // namespace

Html days_part(const Batch& batch) {
  Table days{.caption = "",
             .columns = {{"Day", Align::left},
                         {"time", Align::right},
                         {"for", Align::right},
                         {"how", Align::left},
                         {"what", Align::left, 57},
                         {"done at", Align::left, 9}},
             .rows = {}};
  std::string last_day;
  for (const plan::Step& step : batch.plan.timeline.steps) {
    const auto at = day_and_time(step.start);
    days.rows.push_back({at.first == last_day ? std::string(no_figure) : at.first, at.second,
                         cell(step.length, batch.system), tight(words(step.attention)),
                         step.beside ? step.what + " (beside)" : step.what, ""});
    last_day = at.first;
  }
  return heading("The days") +
         small_print(
             "Watch: heat is on or spirit runs, someone stays. Beside: runs next to the "
             "step before it.") +
         table(days);
}

}  // namespace lynearm::sheet
