// Why jars poured together give what they give, and why these were proposed for the hearts: the
// jars as gauged and where each goes, the mixing of masses, and how little is known of the
// congeners of jars that no laboratory saw.
#include <fmt/format.h>

#include <array>
#include <string>
#include <utility>

#include "wire/whys.hpp"

namespace lynearm::wire {
namespace {

constexpr const char* nose = "An estimate: nose and palate decide, and it clears no spirit";

// "400 mL to the hearts, 100 mL apart".
std::string parts_of(const still::Poured& poured) {
  const std::array<std::pair<units::Volume, const char*>, 4> all = {
      {{poured.foreshots, "to the foreshots"},
       {poured.hearts, "to the hearts"},
       {poured.feints, "to the feints"},
       {poured.apart, "apart"}}};
  std::string text;
  for (const auto& [volume, where] : all) {
    if (volume < units::Volume::millilitres(0.5)) continue;
    text +=
        fmt::format("{}{:.0f} mL {}", text.empty() ? "" : ", ", volume.millilitres(), where);
  }
  return text.empty() ? "nothing" : text;
}

std::string marks_of(const std::vector<still::Jar>& jars) {
  std::string text;
  for (const still::Jar& jar : jars) {
    if (!(jar.fault > 0.0)) continue;
    text += fmt::format("{}jar {}: {:.3g}", text.empty() ? "" : ", ", jar.label, jar.fault);
  }
  return text.empty() ? "no fault noted" : text + "; 0 nothing found, 10 spoiled";
}

std::pair<std::string, std::string> left_in_pot(const ShelfJars& shelf) {
  return {"Left in the pot",
          fmt::format("{:.0f} % of the charge's alcohol, {}", shelf.alcohol_left.percent(),
                      shelf.left_assumed ? "as is usual: the jars' strengths do not tell it"
                                         : "by the strengths of the first and the last jar")};
}

constexpr const char* loads_model =
    " Congeners, where no run was computed and no laboratory asked: those of a usual charge, "
    "leaving the pot by Lord Rayleigh's law with one volatility for each group.";
constexpr const char* loads_source =
    "volatilities of the congeners from memory, their amounts in a usual charge our estimate";
constexpr const char* loads_band =
    "congeners to within a factor of two at best, told as 80 % bands; compared with no "
    "measured jar";

}  // namespace

Why why_poured(const ShelfJars& shelf, const still::Allotment& allotment) {
  Why why;
  why.what = "Jars poured together as allotted, at 20 °C";
  for (std::size_t i = 0; i < shelf.jars.size(); ++i) {
    const still::Jar& jar = shelf.jars[i];
    why.inputs.emplace_back("Jar " + jar.label,
                            fmt::format("{:.3f} L at {:.1f} %vol; {}", jar.volume.litres(),
                                        jar.strength.percent(), parts_of(allotment[i])));
  }
  for (const auto& [number, strength] : shelf.misread) {
    why.inputs.emplace_back(
        fmt::format("Jar {}, left out", number),
        fmt::format("gauged at {:.1f} %vol, which no still gives", strength.percent()));
  }
  why.inputs.push_back(left_in_pot(shelf));
  why.model = std::string(added_masses) + loads_model;
  why.source = fmt::format("{}; {}", density_source, loads_source);
  why.band = fmt::format("{}; {}", gauging_doubt(shelf.glass), loads_band);
  return why;
}

Why why_cuts(const ShelfJars& shelf, const still::Purpose& purpose,
             const still::CutProposal& proposal) {
  const still::Weights& weights = purpose.weights;
  Why why;
  why.what = "Which jars make the hearts, as proposed";
  why.inputs = {
      {"Wanted", std::string(purpose.words)},
      {"Jars gauged", std::to_string(shelf.jars.size())},
      {"The nose's marks", marks_of(shelf.jars)},
      {"Weights", fmt::format("volume {:g}, strength {:g}, early {:g}, late {:g}, fault {:g}",
                              weights.volume, weights.strength, weights.early, weights.late,
                              weights.fault)},
      {"Held against",
       fmt::format("early {:.0f}, late {:.0f} g/hL of pure alcohol: twice what the middle drop "
                   "of these jars carries",
                   still::grams_per_hectolitre(proposal.yardstick.early),
                   still::grams_per_hectolitre(proposal.yardstick.late))},
      left_in_pot(shelf)};
  const auto planned = [&](const char* name, const std::optional<units::Volume>& end) {
    if (end) why.inputs.emplace_back(name, fmt::format("to {:.0f} mL", end->millilitres()));
  };
  planned("Foreshots, by the plan", shelf.foreshots_end);
  planned("Heads, by the plan", shelf.heads_end);
  why.model =
      "Jars begun before the plan's foreshots end (foreshots, or feints where a quarter of "
      "them "
      "or less runs into the jar), and jars that mostly ran before its heads "
      "end, are kept out of the hearts. Of all ways to divide the others the one of most "
      "worth: the hearts' pure alcohol, less "
      "what water, early and late congeners (each by its square) and the nose's marks take off "
      "it. The others have a tenth of its pure alcohol less or more, each with the least load "
      "there is for that.";
  why.source = fmt::format("the worth is our convention, no source; {}; {}", density_source,
                           loads_source);
  why.band = fmt::format("{}; {}", nose, loads_band);
  return why;
}

}  // namespace lynearm::wire
