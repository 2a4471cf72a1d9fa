#include "wire/run_whys.hpp"

#include <fmt/format.h>

#include <string>

namespace lynearm::wire {
namespace {

std::string readings_of(const RunForecast& run) {
  std::string text = std::to_string(run.readings.size());
  if (run.crowded > 0) {
    text +=
        fmt::format(", {} not weighed in full beside others of the same minute", run.crowded);
  }
  if (!run.doubts.empty()) {
    text += fmt::format(", figures not believed: {}", run.doubts.size());
  }
  if (!run.refused.empty()) text += fmt::format(", {} not taken", run.refused.size());
  return text;
}

}  // namespace

Why why_run(const RunForecast& run) {
  Why why;
  why.what = run.readings.empty()
                 ? "The run as planned: nothing is read yet"
                 : "The run as it stands and goes on, corrected by its readings";
  why.inputs = {{"Readings", readings_of(run)},
                {"As of", fmt::format("{:.0f} min of the run{}", run.now.at.minutes(),
                                      run.now.heated ? "" : ", heat off")}};
  why.inputs.emplace_back("Air pressure",
                          fmt::format("{:.0f} hPa, {}", run.air.hectopascals(),
                                      run.air_read ? "as it was read" : "by the kit"));
  for (const still::Learnt& learnt : run.constants) {
    const still::LearntWords says = still::words(learnt);
    why.inputs.emplace_back(
        std::string(still::words(learnt.constant)),
        says.now == says.before
            ? fmt::format("{}, by kit and charge", says.now)
            : fmt::format("{}; {} by kit and charge alone", says.now, says.before));
  }
  why.model =
      "Many possible stills, each with its whole run computed: heat balance, partial reflux in "
      "the head, differential distillation. Each reading weighs them by how well they explain "
      "it, with one figure in twenty taken as a slip; still, charge and instruments are drawn "
      "anew near those that fit.";
  why.source =
      "Lord Rayleigh's differential distillation; vapour and liquid by NRTL (Renon and "
      "Prausnitz), its parameters our regression of published sets; sequential Monte Carlo "
      "after "
      "Chopin (2002) and Cappé et al. (2004), from memory; how far kit and instruments may be "
      "off is the kit's own, else our estimate";
  why.band =
      "80 % of the weighed stills, wider for what the model leaves out (our estimates); over "
      "500 invented runs such bands held the truth about four times in five";
  return why;
}

}  // namespace lynearm::wire
