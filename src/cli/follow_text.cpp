#include "cli/follow_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>

#include "cli/stated.hpp"
#include "cli/table.hpp"
#include "wire/follow.hpp"
#include "wire/still.hpp"

namespace lynearm::cli {
namespace {

using Cells = std::vector<std::string>;

std::string minutes(const still::Likely<units::Duration>& in) {
  return fmt::format("{:.0f} min ({:.0f} to {:.0f})", in.median.minutes(), in.low.minutes(),
                     in.high.minutes());
}

const still::NextDecision* find(const still::Forecast& forecast, still::Decision decision) {
  const auto found =
      std::find_if(forecast.decisions.begin(), forecast.decisions.end(),
                   [decision](const auto& next) { return next.decision == decision; });
  return found == forecast.decisions.end() ? nullptr : &*found;
}

// The decision that the headline and the table tell: the end of the hearts, or what there is.
const still::NextDecision* first_wanted(const still::Forecast& forecast) {
  using still::Decision;
  for (const Decision d :
       {Decision::hearts_end, Decision::stop, Decision::tails_near, Decision::heads_end}) {
    if (const auto* next = find(forecast, d)) return next;
  }
  return nullptr;
}

std::string when(const still::NextDecision& next) {
  if (next.passed) {
    return next.at ? fmt::format("passed at {:.0f} min", next.at->median.minutes()) : "passed";
  }
  if (next.in) return "in " + minutes(*next.in);
  return still::why_no_time(next);
}

std::string right_aligned(const std::vector<Cells>& rows) {
  std::vector<std::size_t> widths(rows.front().size(), 0);
  for (const Cells& row : rows) {
    for (std::size_t c = 0; c < row.size(); ++c)
      widths[c] = std::max(widths[c], columns(row[c]));
  }
  std::string text;
  for (const Cells& row : rows) {
    std::string line;
    for (std::size_t c = 0; c < row.size(); ++c) {
      const std::string space(widths[c] - columns(row[c]), ' ');
      line += "  ";
      line += c + 1 == row.size() ? row[c] : space + row[c];
    }
    text += line + "\n";
  }
  return text;
}

Cells cells(const Replayed& row, const still::Forecast& forecast, const Look& look) {
  const bool us = look.units == units::System::us;
  const auto temperature = [us](const std::optional<units::Temperature>& t) {
    return t ? fmt::format("{:.1f}", us ? t->fahrenheit() : t->celsius()) : std::string("-");
  };
  const still::StillNow& now = row.update.now;
  const still::NextDecision* next = first_wanted(forecast);
  return {fmt::format("{:.1f}", row.reading.at.minutes()),
          temperature(row.reading.pot_temperature),
          temperature(row.reading.head_temperature),
          row.reading.spout ? spirit::print(*row.reading.spout) : "-",
          now.spout ? fmt::format("{:.1f}", now.spout->median.percent()) : "-",
          fmt::format("{:.0f}", now.collected.median.millilitres()),
          fmt::format("{:.1f}", now.pot.median.percent()),
          next == nullptr ? "-" : when(*next)};
}

}  // namespace

std::string follow_text(const std::vector<Replayed>& replayed, const Look& look) {
  const bool us = look.units == units::System::us;
  const Replayed& last = replayed.back();
  const still::NextDecision* wanted = first_wanted(last.forecast);
  std::string head =
      fmt::format("{} readings to {:.0f} min", replayed.size(), last.update.now.at.minutes());
  if (wanted != nullptr) {
    head += fmt::format(": {} {}", still::words(wanted->decision), when(*wanted));
    if (wanted->collected) {
      head +=
          fmt::format(", {} collected", units::print(wanted->collected->median, look.units));
    }
  }
  std::string text = headline(head + ".", look);
  const std::string degree = us ? "°F" : "°C";
  std::vector<Cells> rows = {
      {"min", "pot " + degree, "head " + degree, "spout read", "true %vol", "mL at 20 °C",
       "pot %vol", wanted == nullptr ? "" : std::string(still::words(wanted->decision))}};
  for (const Replayed& row : replayed) rows.push_back(cells(row, row.forecast, look));
  text += "\n" + right_aligned(rows);

  bool any = false;
  for (const Replayed& row : replayed) {
    for (const still::Doubt& doubt : row.update.doubts) {
      text += fmt::format("{}  {:.1f} min, {}: {} {}. Kept, not believed.\n",
                          any ? "" : "\nDoes not fit\n", row.reading.at.minutes(),
                          still::words(doubt.instrument), still::shown(doubt),
                          still::sentence(doubt));
      any = true;
    }
  }
  any = false;
  for (const Replayed& row : replayed) {
    for (const still::FireRemark& remark : row.update.remarks) {
      text += fmt::format("{}  {:.1f} min: {}.\n", any ? "" : "\nOf the fire\n",
                          row.reading.at.minutes(), still::sentence(remark));
      any = true;
    }
  }
  if (const std::string says = still::fire_words(last.update.now); !says.empty()) {
    text += fmt::format("\nAt {:.0f} min {}.\n", last.update.now.at.minutes(), says);
  }
  std::vector<Row> decisions, constants;
  for (const still::NextDecision& next : last.forecast.decisions) {
    decisions.push_back(
        {std::string(still::words(next.decision)),
         next.collected ? units::print(next.collected->median, look.units) : "-",
         (next.collected ? "collected; " : "") + when(next)});
  }
  if (!decisions.empty()) text += "\nDecisions\n" + table(decisions);
  for (const still::Learnt& learnt : last.update.constants) {
    if (!(learnt.before_sd > 0.0)) continue;  // the kit says that there is none
    constants.push_back({std::string(still::words(learnt.constant)), still::words(learnt).now,
                         "before " + still::words(learnt).before});
  }
  text += "\nWhat the run taught\n" + table(constants);
  std::set<std::string> told;  // each once, where it was first read
  for (const Replayed& row : replayed) {
    for (const std::string& hot : wire::follow_cautions(row.reading)) {
      if (!told.insert(hot).second) continue;
      text += caution(fmt::format("{:.0f} min: {}", row.reading.at.minutes(), hot), look);
    }
  }
  if (const std::string low = still::pot_caution(last.update.now); !low.empty()) {
    text += caution(fmt::format("{:.0f} min: {}", last.update.now.at.minutes(), low), look);
  }
  return text + caution(wire::still_caution, look);
}

std::string follow_why(const still::Follower& follower) {
  return grounds({
      {"model",
       fmt::format("{} possible stills, each with its whole run by heat and mass "
                   "balances; a reading weighs them by how well they fit it. When the "
                   "weights settle on a few, new ones are drawn near those and weighed "
                   "by all readings (importance sampling).",
                   follower.members())},
      {"readings",
       "Student's t with 5 degrees of freedom about what a still would show (pot "
       "0.20 K, head 0.25 K, hydrometer 0.4 %vol, jar 0.8 % and 10 mL), and one in "
       "twenty a slip. A figure counts by the time since the one before it on its "
       "instrument, over 15 min: what a still does otherwise than its constants say "
       "lasts about as long. Chosen by invented runs; our estimates."},
      {"known inputs",
       "power, heat off and on. A mistyped power is not found. A still that the fire no longer "
       "drives stands, and stays possible."},
      {"decisions",
       "strengths and temperatures are true ones, of what runs or of the vapour; "
       "the fire is taken to stay as it is."},
      {"bands",
       "80 %; with 2 % of the time and 3 % of the volume still to go for mains and "
       "draughts, chosen on invented runs."},
      {"left out",
       "coolant, entrained droplets, foam. Nothing here says that a spirit is "
       "safe."},
  });
}

}  // namespace lynearm::cli
