// The days of a batch on paper: what comes when, how long, and whether hands are needed.
#include <string>
#include <utility>
#include <vector>

#include "sheet/batch_parts.hpp"
#include "units/restate.hpp"
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

// A figure is not parted from its unit at the end of a line.
std::string units_held(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const std::string_view after = text.substr(i + 1);
    const bool held = text[i] == ' ' && i > 0 && text[i - 1] >= '0' && text[i - 1] <= '9' &&
                      (after.starts_with("°") || after.starts_with("%") ||
                       after.starts_with("L") || after.starts_with("kg"));
    if (held) {
      out += no_figure;
    } else {
      out += text[i];
    }
  }
  return out;
}

// How many steps from `first` on are the same, each on another day: samples of the wood.
std::size_t alike_from(const std::vector<plan::Step>& steps, std::size_t first) {
  std::size_t count = 1;
  while (first + count < steps.size() && steps[first + count].beside &&
         steps[first + count].stage == steps[first].stage &&
         steps[first + count].what == steps[first].what) {
    ++count;
  }
  return count;
}

std::string on_days(const std::vector<plan::Step>& steps, std::size_t first,
                    std::size_t count) {
  std::string text = steps[first].what + " (beside), on days ";
  for (std::size_t i = 0; i < count; ++i) {
    const std::string day = day_and_time(steps[first + i].start).first;
    if (i > 0) text += i + 1 == count ? " and " : ", ";
    text += day.substr(std::string_view("day\u00a0").size());
  }
  return text;
}

}  // namespace

Html days_part(const Batch& batch) {
  Table days{.caption =
                 "Watch: heat is on or spirit runs, someone stays. Beside: runs next to "
                 "the step before it.",
             .columns = {{"Day", Align::left},
                         {"time", Align::right},
                         {"for", Align::right},
                         {"how", Align::left},
                         {"what", Align::left, 58},
                         {"done", Align::left, 10}},
             .rows = {}};
  const std::vector<plan::Step>& steps = batch.plan.timeline.steps;
  std::string last_day;
  for (std::size_t i = 0; i < steps.size();) {
    const plan::Step& step = steps[i];
    const std::size_t count = alike_from(steps, i);
    const auto at = day_and_time(step.start);
    std::string what = step.beside ? step.what + " (beside)" : step.what;
    if (count > 1) what = on_days(steps, i, count);
    days.rows.push_back({at.first == last_day ? std::string(no_figure) : at.first, at.second,
                         cell(step.length, batch.system), tight(words(step.attention)),
                         units_held(units::restated(what, batch.system)), ""});
    last_day = at.first;
    i += count;
  }
  return heading("The days") + table(days) +
         lines_to_write("What to do otherwise in the next batch", 6);
}

}  // namespace lynearm::sheet
