// A fit in plain words: what the runs told, what they left open, what was passed over.
#include <fmt/format.h>

#include <cmath>

#include "still/fit_still.hpp"

namespace lynearm::still {
namespace {

std::string joined(const std::vector<std::string>& names) {
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) text += i + 1 == names.size() ? " and " : ", ";
    text += names[i];
  }
  return text;
}

std::string capital(std::string text) {
  if (!text.empty() && text[0] >= 'a' && text[0] <= 'z') {
    text[0] = static_cast<char>(text[0] - 'a' + 'A');
  }
  return text;
}

// Whether the fire was at one power all the time spirit ran, in every run.
bool one_fire(const StillFit& fit) {
  for (const Run& run : fit.runs) {
    double power_W = run.setting.heating.power.watts();
    for (const PowerStep& step : run.setting.power_steps) {
      const auto* from = std::get_if<units::Duration>(&step.from);
      if (from == nullptr) return false;
      if (*from >= run.last().since_start) continue;
      const bool later = *from > run.first().since_start;
      if (later && step.power > units::Power{} &&
          std::abs(step.power.watts() / power_W - 1.0) > 0.1) {
        return false;
      }
      if (step.power > units::Power{}) power_W = step.power.watts();
    }
    if (std::abs(power_W / fit.runs.front().setting.heating.power.watts() - 1.0) > 0.1 &&
        fit.runs.size() > 1) {
      return false;
    }
  }
  return true;
}

std::string in_the_runs(const StillFit& fit) {
  return fit.runs.size() == 1 ? "this run" : "these runs";
}

}  // namespace

std::string name_of(const FittedConstant& constant, std::size_t runs) {
  const std::string name(words(constant.constant));
  return constant.run >= 0 && runs > 1 ? fmt::format("{} of run {}", name, constant.run + 1)
                                       : name;
}

std::vector<std::string> account(const StillFit& fit) {
  std::vector<std::string> said;
  for (const std::size_t i : fit.strange()) {
    const FittedConstant& c = fit.constants[i];
    const double off = c.spreads_off();
    said.push_back(fmt::format(
        "{} comes out {:.0f} times as far {} what was stated as such a statement may be off: "
        "{}",
        capital(name_of(c, fit.runs.size())), std::abs(off), off > 0.0 ? "above" : "below",
        is_of_a_run(c.constant)
            ? "the charge was stated wrongly, or the log is another run's. Nothing here is to "
              "be relied on until that is cleared up."
            : "check what the kit states, and that the log is of this still."));
  }
  double independent = 0.0;
  for (const InstrumentFit& i : fit.instruments) independent += i.count_as;
  if (independent < 4.0) {
    said.push_back(fmt::format(
        "{} {} too few to check each other: a constant is told only by more readings than "
        "constants.",
        fit.readings.size(), fit.readings.size() == 1 ? "reading is" : "readings are"));
  }
  std::vector<std::string> untold;
  for (const FittedConstant& c : fit.constants) {
    if (!c.told) untold.push_back(name_of(c, fit.runs.size()));
  }
  if (!untold.empty()) {
    said.push_back(fmt::format(
        "Not told by {}: {}. {} hardly better known than before: what stands there is mostly "
        "what was believed.",
        in_the_runs(fit), joined(untold), untold.size() == 1 ? "It is" : "They are"));
  }
  for (const Entangled& e : fit.entangled) {
    const FittedConstant& a = fit.constants[e.first];
    const FittedConstant& b = fit.constants[e.second];
    said.push_back(fmt::format(
        "{} and {} are not told apart (correlation {:.2f}): {} of the one with {} of the other "
        "fits {} nearly as well.",
        capital(name_of(a, fit.runs.size())), name_of(b, fit.runs.size()), e.correlation,
        "more", e.correlation > 0.0 ? "more" : "less", in_the_runs(fit)));
  }
  if (one_fire(fit) && fit.of(StillConstant::head_loss).left_open > 0.1) {
    said.emplace_back(
        "Spirit ran at one power throughout. A run whose fire is turned down or up part way "
        "tells the head's loss better: the head sends back the more the gentler the fire.");
  }
  if (fit.of(StillConstant::heating_efficiency).told &&
      fit.of(StillConstant::heating_efficiency).low > 1.0) {
    said.emplace_back(
        "More heat arrived than was drawn: the power read is too low, or the pot loses less "
        "than it seems. The kit takes no more than the whole.");
  }
  int outlying = 0;
  for (const FittedReading& r : fit.readings) outlying += r.outlying ? 1 : 0;
  if (outlying > 0) {
    said.push_back(fmt::format(
        "{} of {} {} {} more than {:.0f} spreads off and hardly {}; see the list.", outlying,
        fit.readings.size(), fit.readings.size() == 1 ? "reading" : "readings",
        outlying == 1 ? "lies" : "lie", outlying_from, outlying == 1 ? "counts" : "count"));
  }
  for (const InstrumentFit& i : fit.instruments) {
    if (i.count_as < 0.4 * i.readings && i.readings >= 8) {
      said.push_back(
          fmt::format("The {}'s deviations lean the same way for long: its {} readings count "
                      "as {:.0f}. The "
                      "model lacks something there, or the instrument lags.",
                      words(i.instrument), i.readings, std::fmax(i.count_as, 1.0)));
    }
  }
  // A log pasted twice into one file has as many of these as readings.
  constexpr std::size_t most_told = 5;
  for (std::size_t i = 0; i < fit.passed_over.size(); ++i) {
    if (i == most_told && fit.passed_over.size() > most_told + 1) {
      said.push_back(fmt::format("Passed over as well: {} more entries, the last on line {}.",
                                 fit.passed_over.size() - i, fit.passed_over.back().line));
      break;
    }
    const PassedOver& p = fit.passed_over[i];
    const std::string of_run =
        fit.runs.size() > 1 ? fmt::format(" of run {}", p.run + 1) : std::string();
    said.push_back(p.line > 0
                       ? fmt::format("Passed over, line {}{}: {}.", p.line, of_run, p.what)
                       : fmt::format("Passed over{}: {}.", of_run, p.what));
  }
  return said;
}

}  // namespace lynearm::still
