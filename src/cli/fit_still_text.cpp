#include "cli/fit_still_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/page_text.hpp"
#include "cli/table.hpp"
#include "cli/visible.hpp"
#include "sheet/still_report.hpp"
#include "wire/still.hpp"

namespace lynearm::cli {
namespace {

using still::StillConstant;

std::string constants(const still::StillFit& fit) {
  std::vector<std::vector<std::string>> rows;
  for (const still::FittedConstant& c : fit.constants) {
    rows.push_back({still::name_of(c, fit.runs.size()), sheet::shown(c, c.value),
                    sheet::shown(c, c.low), sheet::shown(c, c.high),
                    sheet::shown(c, c.before.value), c.told ? "" : "not told"});
  }
  return grid({{"constant", Side::left},
               {"value"},
               {"80 % from"},
               {"to"},
               {"before"},
               {"", Side::left}},
              rows);
}

std::string instruments(const still::StillFit& fit) {
  std::vector<std::vector<std::string>> rows;
  for (const still::InstrumentFit& i : fit.instruments) {
    const auto in_unit = [&](double v) {
      return fmt::format("{:.2g} {}", v, still::unit_of(i.instrument));
    };
    rows.push_back({std::string(still::words(i.instrument)), std::to_string(i.readings),
                    std::to_string(i.outlying), in_unit(i.rms), in_unit(i.noise),
                    fmt::format("{:.0f}", std::fmax(i.count_as, 1.0))});
  }
  return grid({{"instrument", Side::left},
               {"readings"},
               {"far off"},
               {"RMS"},
               {"scatter"},
               {"count as"}},
              rows);
}

std::string outlying(const still::StillFit& fit, const AskedFit& asked) {
  std::vector<std::vector<std::string>> rows;
  for (const still::FittedReading& r : fit.readings) {
    if (!r.outlying) continue;
    const auto in_unit = [&](double v) {
      return fmt::format("{:.4g} {}", v, still::unit_of(r.seen.instrument));
    };
    const std::string& name = asked.runs[static_cast<std::size_t>(r.run)].name;
    rows.push_back({r.seen.line > 0 ? fmt::format("{}:{}", name, r.seen.line) : name,
                    fmt::format("{:.0f} min", r.seen.t_s / 60.0),
                    std::string(still::words(r.seen.instrument)), in_unit(r.seen.figure),
                    in_unit(r.expected)});
  }
  if (rows.empty()) return {};
  std::string out = "\nReadings far off\n";
  out += grid({{"line", Side::left},
               {"time"},
               {"instrument", Side::left},
               {"read, 20 °C"},
               {"expected"}},
              rows);
  return out;
}

std::string reasons() {
  std::string out = "\n";
  out += grounds(
      {{"model",
        "Each run is computed anew from its charge and its powers; the constants are "
        "those whose runs come nearest to all readings at once (least squares)."},
       {"mistypings",
        "A reading counts less the farther it lies off (Student's t with four degrees "
        "of freedom), and beyond four spreads hardly at all."},
       {"scatter",
        "Judged from the readings themselves, beginning from 0.2 K, 0.5 %vol, and 20 mL "
        "with 1 % of the volume. Times are taken as read to the minute."},
       {"allowance",
        "Readings count as half their number at most, and as fewer where they lean the "
        "same way: mains and draughts wander, droplets ride over. Set on invented runs "
        "with such physics, in which 80 % bands hold about that share."},
       {"believed",
        "Stated losses and hold-up within a factor of 1.7 to 2, efficiency 10 %, "
        "thermometers 0.5 K, hydrometer 0.5 %vol, charge 4 % of its strength and 3 % of "
        "its volume, all as one standard deviation; our estimates."},
       {"left out",
        "A pressure that changes on the day or is not that of the kit: it is found in "
        "the thermometers."}});
  return out;
}

}  // namespace

std::string text(const still::StillFit& fit, const AskedFit& asked, const std::string& section,
                 bool why, const Look& look) {
  const auto told = std::count_if(fit.constants.begin(), fit.constants.end(),
                                  [](const auto& c) { return c.told; });
  const auto far = std::count_if(fit.readings.begin(), fit.readings.end(),
                                 [](const auto& r) { return r.outlying; });
  std::string out = headline(
      fmt::format("{} {} of {} {} {} {} of {} constants; {} {} far off.", fit.readings.size(),
                  fit.readings.size() == 1 ? "reading" : "readings", fit.runs.size(),
                  fit.runs.size() == 1 ? "run" : "runs",
                  fit.readings.size() == 1 ? "tells" : "tell", told, fit.constants.size(), far,
                  far == 1 ? "lies" : "lie"),
      look);
  if (!fit.strange().empty()) {
    out += caution("a figure is not to be believed; see what is said below the table.", look);
  }
  out += "\n";
  out += constants(fit);
  const std::vector<std::string> said = still::account(fit);
  if (!said.empty()) out += "\n";
  for (const std::string& sentence : said) out += set_in_lines(sentence);
  out += "\n";
  out += instruments(fit);
  out += outlying(fit, asked);
  if (section.empty()) {
    out += "\nNothing for the kit: the runs tell none of its constants.\n";
  } else if (!asked.write_path.empty()) {
    out += fmt::format("\nWritten to {}: the keys below, all else as it was.\n{}",
                       visible(asked.write_path), section);
  } else {
    out += "\nFor the kit (--write FILE writes it)\n";
    out += section;
  }
  // A kit may not have both.
  if (!asked.kit.still.head_loss && fit.of(StillConstant::head_loss).told) {
    out += "reflux_strip and reflux_spirit give way to the head's loss.\n";
  }
  if (!asked.report_path.empty()) {
    out += fmt::format("\nReport written to {}.\n", visible(asked.report_path));
  }
  if (why) out += reasons();
  return out + caution(wire::still_caution, look);
}

}  // namespace lynearm::cli
