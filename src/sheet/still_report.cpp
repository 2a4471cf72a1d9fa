#include "sheet/still_report.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>

#include "sheet/letter.hpp"
#include "sheet/table.hpp"

namespace lynearm::sheet {
namespace {

// How a constant is printed: its figure times this, in that unit.
struct Print {
  double times;
  std::string unit;
  bool sign;
};

Print print_of(still::StillConstant constant) {
  using still::StillConstant;
  switch (constant) {
    case StillConstant::heating_efficiency:
      return {100.0, "%", false};
    case StillConstant::hold_up:
      return {1000.0, "mL", false};
    case StillConstant::charge_volume:
    case StillConstant::first_power:
      return {100.0, "%", false};
    case StillConstant::head_loss:
    case StillConstant::pot_loss:
      return {1.0, std::string(still::unit_of(constant)), false};
    default:
      return {1.0, std::string(still::unit_of(constant)), true};
  }
}

std::string figure_text(const still::FittedConstant& c, double value) {
  const Print print = print_of(c.constant);
  const double sd = c.sd * print.times;
  const int decimals =
      sd > 0.0 ? std::clamp(1 - static_cast<int>(std::floor(std::log10(sd))), 0, 3) : 2;
  const std::string text = fmt::format("{:.{}f}", value * print.times, decimals);
  // A correction that rounds to nothing has no sign.
  const bool nothing = text.find_first_of("123456789") == std::string::npos;
  if (nothing && text.starts_with('-')) return text.substr(1);
  return print.sign && value > 0.0 && !nothing ? "+" + text : text;
}

// A figure stays on one line with its unit, or a phone's narrow columns part them.
std::string unbroken(std::string text) {
  for (std::size_t at = text.find(' '); at != std::string::npos; at = text.find(' ', at)) {
    text.replace(at, 1, "\u00A0");
  }
  return text;
}

// A reading's figure, to the digits that such an instrument has.
std::string reading_text(still::LogInstrument instrument, double v) {
  const int decimals = instrument == still::LogInstrument::receiver  ? 2
                       : instrument == still::LogInstrument::coolant ? 0
                                                                     : 1;
  return with_minus(
      unbroken(fmt::format("{:.{}f} {}", v, decimals, still::unit_of(instrument))));
}

// Four columns: as many as a phone shows at once.
Html constants_table(const StillReport& report) {
  Table t;
  t.caption = "Constants";
  t.columns = {{"Constant"}, {"Value", Align::right}, {"80 % band"}, {"Before", Align::right}};
  for (const still::FittedConstant& c : report.fit.constants) {
    t.rows.push_back(
        {still::name_of(c, report.runs.size()) + (c.told ? "" : " (not told)"),
         with_minus(unbroken(shown(c, c.value))),
         with_minus(fmt::format("{} to {}", figure_text(c, c.low), figure_text(c, c.high))),
         with_minus(figure_text(c, c.before.value))});
  }
  return table(t);
}

Html instruments_table(const StillReport& report) {
  Table t;
  t.caption = "Instruments";
  t.columns = {{"Instrument"},
               {"Far off", Align::right},
               {"Count as", Align::right},
               {"RMS, scatter judged", Align::right}};
  for (const still::InstrumentFit& i : report.fit.instruments) {
    t.rows.push_back(
        {std::string(still::words(i.instrument)),
         unbroken(fmt::format("{} of {}", i.outlying, i.readings)),
         fmt::format("{:.0f}", std::fmax(i.count_as, 1.0)),
         fmt::format("{:.2g}, ", i.rms) +
             unbroken(fmt::format("{:.2g} {}", i.noise, still::unit_of(i.instrument)))});
  }
  return table(t);
}

Html outlying_table(const StillReport& report) {
  Table t;
  t.caption = "Readings far off, which hardly count";
  t.columns = {{"Time", Align::right},
               {"Instrument, line"},
               {"Read, at 20 °C", Align::right},
               {"Expected", Align::right}};
  for (const still::FittedReading& r : report.fit.readings) {
    if (!r.outlying) continue;
    const std::string& name = report.runs[static_cast<std::size_t>(r.run)];
    // One run has one log: its name stands at the top.
    const std::string line = report.runs.size() == 1 ? fmt::format("{}", r.seen.line)
                                                     : fmt::format("{}:{}", name, r.seen.line);
    t.rows.push_back({unbroken(fmt::format("{:.0f} min", r.seen.t_s / 60.0)),
                      fmt::format("{}, {}", still::words(r.seen.instrument), line),
                      reading_text(r.seen.instrument, r.seen.figure),
                      reading_text(r.seen.instrument, r.expected)});
  }
  return t.rows.empty() ? Html{} : table(t);
}

Html section_of_kit(const std::string& section) {
  Writer out;
  out.element("pre", {}, section);
  return out.finish();
}

}  // namespace

std::string shown(const still::FittedConstant& constant, double value) {
  const Print print = print_of(constant.constant);
  return fmt::format("{}{}{}", figure_text(constant, value), print.unit.empty() ? "" : " ",
                     print.unit);
}

std::string still_report(const StillReport& report) {
  const still::StillFit& fit = report.fit;
  Page paper;
  paper.title = "Constants of the still";
  paper.subtitle = fmt::format("{}, from {} {} with {} {}", report.kit, report.runs.size(),
                               report.runs.size() == 1 ? "run" : "runs", fit.readings.size(),
                               fit.readings.size() == 1 ? "reading" : "readings");
  paper.running_foot = paper.title;
  paper.paper = report.paper;
  Html body = constants_table(report);
  body += small_print(
      "A thermometer's and the hydrometer's figure is what it shows less what is true; a "
      "charge's "
      "is what is true less what was stated, its volume and the power before its first change "
      "in "
      "percent of that. Not told: the runs narrowed what was believed before by less than a "
      "fifth.");
  const std::vector<std::string> said = still::account(fit);
  if (!said.empty()) {
    body += heading("What the runs did not tell, and what was doubted");
    for (const std::string& sentence : said) body += paragraph(with_minus(sentence));
  }
  body += outlying_table(report);
  body += instruments_table(report);
  body += small_print(
      "Readings count as fewer where they lean the same way one after the other, and as half "
      "their number at most: a still does what a model leaves out.");
  if (!report.section.empty()) {
    body += kept_together(heading("For the kit") + section_of_kit(report.section));
  }
  for (std::size_t run = 0; run < report.runs.size(); ++run) {
    body += heading(report.runs[run]);
    std::set<still::LogInstrument> read;
    for (const still::FittedReading& r : fit.readings) {
      if (r.run == static_cast<int>(run)) read.insert(r.seen.instrument);
    }
    for (const still::LogInstrument instrument : read) {
      body +=
          kept_together(figure(residual_picture(fit, static_cast<int>(run), instrument),
                               fmt::format("{}: rings are readings, crosses those far off, at "
                                           "the edge where they lie outside; the line is the "
                                           "fitted run, the dashes two spreads.",
                                           still::words(instrument))));
    }
  }
  body +=
      caution("Caution",
              "Never leave a heated still. If the coolant fails: heat off first. A constant "
              "from a fit is an estimate; the still's own thermometers and the eye decide.");
  return page(paper, body);
}

}  // namespace lynearm::sheet
