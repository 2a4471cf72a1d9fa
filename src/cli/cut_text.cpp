#include "cli/cut_text.hpp"

#include <fmt/format.h>

#include "cli/page_text.hpp"
#include "cli/stated.hpp"
#include "cli/table.hpp"

namespace lynearm::cli {
namespace {

using still::grams_per_hectolitre;
using units::Volume;

// "53 (21 to 130)": grams per hectolitre are known to two figures at best.
std::string with_band(const still::Burden& burden) {
  const auto figure = [](units::MassConcentration c) {
    const double g = grams_per_hectolitre(c);
    return units::fixed(g, g < 10.0 ? 1 : 0);
  };
  if (burden.low == burden.high) return figure(burden.value);
  return fmt::format("{} ({} to {})", figure(burden.value), figure(burden.low),
                     figure(burden.high));
}

std::string print(const still::Vessel20C& vessel, const Look& look) {
  return vessel.volume > Volume{} ? shown(vessel.lot, look.units) : "none";
}

// Millilitres, as a jar is poured; a dash where nothing goes.
std::string poured(Volume volume, const Look& look) {
  if (!(volume >= Volume::millilitres(0.05))) return "-";
  if (look.units == units::System::metric) return units::fixed(volume.millilitres(), 0) + " mL";
  return units::print(volume, look.units);
}

std::string alternatives(const wire::CutReport& report, const Look& look) {
  std::vector<std::vector<std::string>> rows;
  const auto& list = report.proposal.alternatives;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const still::Vessel20C& hearts = list[i].outcome.hearts;
    rows.push_back({i == report.proposal.recommended ? fmt::format("{} *", i + 1)
                                                     : fmt::format("{}  ", i + 1),
                    units::print(hearts.volume, look.units), shown(hearts.strength, look.units),
                    units::print(hearts.pure_alcohol, look.units),
                    with_band(hearts.per_alcohol(hearts.early)),
                    with_band(hearts.per_alcohol(hearts.late)),
                    print(list[i].outcome.feints, look)});
  }
  return grid({{"", Side::left},
               {"hearts"},
               {"strength"},
               {"pure alcohol"},
               {"early g/hL"},
               {"late g/hL"},
               {"feints"}},
              rows);
}

std::string jars(const wire::CutReport& report, const Look& look) {
  std::vector<std::vector<std::string>> rows;
  const auto& best = report.proposal.alternatives[report.proposal.recommended];
  for (const std::size_t i : still::running_order(report.filled.jars)) {
    const still::Jar& jar = report.filled.jars[i];
    const still::Poured& p = best.allotment[i];
    rows.push_back({jar.label, poured(jar.volume, look), shown(jar.strength, look.units),
                    poured(p.foreshots, look), poured(p.hearts, look), poured(p.feints, look),
                    poured(p.apart, look)});
  }
  return grid({{"jar", Side::left},
               {"holds"},
               {"strength"},
               {"foreshots"},
               {"hearts"},
               {"feints"},
               {"apart"}},
              rows);
}

struct Counted {
  std::size_t whole = 0, part = 0;
};
Counted count(const wire::CutReport& report) {
  Counted counted;
  const auto& best = report.proposal.alternatives[report.proposal.recommended];
  for (std::size_t i = 0; i < report.filled.jars.size(); ++i) {
    const Volume hearts = best.allotment[i].hearts;
    if (!(hearts >= Volume::millilitres(0.05))) continue;
    const bool all = report.filled.jars[i].volume - hearts < Volume::millilitres(0.05);
    (all ? counted.whole : counted.part) += 1;
  }
  return counted;
}

std::string standing(const wire::CutReport& report) {
  if (!report.filled.any_estimated()) return "";
  std::string groups;
  const auto add = [&](bool estimated, const char* name) {
    if (estimated) groups += fmt::format("{}{}", groups.empty() ? "" : ", ", name);
  };
  add(report.filled.early_estimated, "early");
  add(report.filled.middle_estimated, "middle");
  add(report.filled.late_estimated, "late");
  return set_in_lines(fmt::format(
      "No jar states its congeners ({}): they are estimated from strengths and order, with no "
      "source better than our own. The order of the alternatives holds better than their "
      "figures.",
      groups));
}

}  // namespace

std::string text(const wire::CutReport& report, const Look& look) {
  const auto& best = report.proposal.alternatives[report.proposal.recommended];
  const Counted counted = count(report);
  std::string out =
      headline(fmt::format("{} of hearts from {} of {} jars, {} in part.",
                           shown(best.outcome.hearts.lot, look.units),
                           counted.whole + counted.part, report.filled.jars.size(),
                           counted.part == 0 ? "none" : fmt::format("{}", counted.part)),
               look);
  out += "Alternatives (* recommended), loads in grams per hectolitre of pure alcohol\n";
  out += alternatives(report, look);
  out += "Jar by jar, for the one recommended\n";
  out += jars(report, look);
  out += table({{"foreshots", print(best.outcome.foreshots, look), "set aside and discarded"},
                {"set apart", print(best.outcome.apart, look)},
                {"contraction", units::print(best.outcome.hearts.contraction, look.units),
                 "lost where the hearts are mixed"}});
  out += standing(report);
  out += fmt::format("This is {}\n", wire::cut_estimate);
  // The word alone is coloured, as caution() does; the sentence is longer than a line.
  std::string words = set_in_lines(fmt::format("Caution: {}", wire::cut_caution));
  constexpr std::string_view head = "Caution:";
  if (look.colour) words = fmt::format("\033[33m{}\033[0m{}", head, words.substr(head.size()));
  return out + words;
}

std::string why(const wire::CutReport& report) {
  const still::Weights& w = report.wishes.weights;
  const still::Yardstick& yardstick = report.proposal.yardstick;
  std::vector<Ground> all{
      {"Worth",
       fmt::format(
           "pure alcohol times (volume {:.3g} - strength {:.3g} W^2 - early {:.3g} E^2 - "
           "late {:.3g} L^2 - fault {:.3g} M). W is water against that of a spirit of "
           "{:.0f} %vol, E and L the loads against {:.3g} and {:.3g} g/hL (twice those "
           "of the middle drop), M the mean mark against {:.0f}. Our convention, no "
           "source.",
           w.volume, w.strength, w.early, w.late, w.fault, still::yardstick_strength.percent(),
           grams_per_hectolitre(yardstick.early), grams_per_hectolitre(yardstick.late),
           still::yardstick_fault)},
      {"Choice",
       "the least load for each amount of pure alcohol is a convex quadratic programme, so "
       "there "
       "is no better allotment; the recommended one is where the next drop costs what it is "
       "worth, or what was wished. The others have tenths more or less of its pure alcohol."},
      {"Mixing",
       "masses of ethanol and of water add exactly; volume and strength are asked of the sum "
       "(OIML R 22, 1973)."}};
  if (report.filled.any_estimated()) {
    all.push_back(
        {"Loads",
         fmt::format(
             "a trace beside ethanol leaves the pot as a power of the ethanol left: "
             "early {:.2g}, middle {:.2g}, late {:.2g} (relative volatilities, from "
             "memory, orders of magnitude); {:.0f}, {:.0f} and {:.0f} g/hL in the charge "
             "(our estimate, within a factor of two). {} of the charge's ethanol was "
             "left in the pot, {}.",
             still::usual_early().volatility.value, still::usual_middle().volatility.value,
             still::usual_late().volatility.value,
             grams_per_hectolitre(still::usual_early().in_charge.value),
             grams_per_hectolitre(still::usual_middle().in_charge.value),
             grams_per_hectolitre(still::usual_late().in_charge.value),
             units::print(report.filled.alcohol_left),
             report.filled.left_assumed ? "as is usual: the strengths do not tell it"
                                        : "by a balance over the jars")});
  }
  return grounds(all);
}

}  // namespace lynearm::cli
