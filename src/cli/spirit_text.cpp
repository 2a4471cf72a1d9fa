#include "cli/spirit_text.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "cli/air_pressure.hpp"
#include "cli/page_text.hpp"
#include "cli/stated.hpp"
#include "cli/table.hpp"
#include "sheet/batch_cautions.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/strength.hpp"
#include "vapour/congener.hpp"

namespace lynearm::cli {
namespace {

// Rows of the course: enough to see the bend, few enough for a page.
constexpr int rows_of_course = 13;

class SpiritText {
 public:
  SpiritText(const still::ToldRun& told, const SpiritWords& words, const Look& look)
      : told_(told), words_(words), look_(look) {}

  [[nodiscard]] std::string all() const {
    std::string text = headline(first_line(), look_);
    for (const std::string& finding : words_.findings) text += caution(finding, look_);
    text += whole() + course();
    if (told_.cuts) text += cuts();
    if (!told_.jars.empty()) text += jars();
    if (words_.congeners) text += congeners();
    text += '\n';
    return text + cautions();
  }

 private:
  template <class Q>
  [[nodiscard]] std::string print(Q quantity) const {
    return units::print(quantity, look_.units);
  }
  [[nodiscard]] std::string strength(units::VolumeStrength s) const {
    return shown(s, look_.units);
  }
  // A temperature of the run as the maker reads it.
  [[nodiscard]] std::string read(units::Temperature truly) const {
    return print(words_.today ? words_.today->as_shown(truly) : truly);
  }
  [[nodiscard]] std::string time(units::Duration d) const {
    return fmt::format("{:.0f} min", d.minutes());
  }

  [[nodiscard]] std::string heading(std::string_view name) const {
    return cli::heading(name, look_);
  }

  [[nodiscard]] std::string first_line() const {
    const still::Point& end = told_.run.last();
    const std::string charge = shown(told_.run.charge.spirit, look_.units);
    if (still::most_escaping(told_) > units::Share{}) {
      return fmt::format("{} is not caught: with {} of coolant up to {} of its vapour escapes.",
                         charge, print(told_.coolant.flow), print(still::most_escaping(told_)));
    }
    if (!told_.cuts) {
      return fmt::format("{} gives {} at {}, with {} of its alcohol.", charge,
                         print(end.collected), strength(end.cumulative),
                         print(told_.run.recovered()));
    }
    const still::Fraction& hearts = told_.cuts->hearts;
    const double share = hearts.lot.ethanol / told_.run.charge.spirit.ethanol;
    return fmt::format("{} gives hearts of {} at {}, with {} of its alcohol.", charge,
                       print(hearts.volume), strength(hearts.strength),
                       print(units::Share::fraction(share)));
  }

  [[nodiscard]] std::string whole() const {
    const still::Run& run = told_.run;
    const still::Point& end = run.last();
    const still::RunSetting& setting = run.setting;
    std::vector<Row> rows = {
        {"collected", print(end.collected), "at " + strength(end.cumulative)},
        {"pure alcohol", print(end.pure_alcohol), "of it"},
        {"first drop", strength(run.first().spout),
         fmt::format("after {}; the pot boils after {}", time(run.first().since_start),
                     time(run.boiling))},
        {"last drop", strength(end.spout),
         fmt::format("after {}; {}", time(end.since_start), still::words(run.ending))},
        {"left in the pot", print(spirit::volume(run.left() - end.held)),
         "at " + strength(end.pot)},
        {"power", print(setting.heating.power), words_.still}};
    if (setting.head.fixed_reflux) {
      rows.push_back(
          {"head reflux", print(*setting.head.fixed_reflux), "of the rising vapour"});
    } else {
      const auto [least, most] = std::minmax_element(
          told_.curve.begin(), told_.curve.end(),
          [](const auto& a, const auto& b) { return a.point.back < b.point.back; });
      rows.push_back({"head loss", print(setting.head.loss),
                      fmt::format("sends back {} to {} of the rising vapour",
                                  print(least->point.back), print(most->point.back))});
    }
    if (setting.head.plates > 0) {
      rows.push_back({"plates", fmt::format("{}", setting.head.plates)});
    }
    rows.push_back({"coolant", print(told_.coolant.flow),
                    fmt::format("in at {}, out at up to {}", print(told_.coolant.inlet),
                                print(warmest_coolant()))});
    rows.push_back({"air pressure", print(told_.pressure)});
    if (words_.today) {
      rows.push_back({"thermometer",
                      offset_shown(words_.today->thermometer_offset, look_.units),
                      "shown less true; below, what it shows"});
    }
    std::string text = table(rows);
    if (words_.today) text += fmt::format("\n{}", paragraph(still::account(*words_.today)));
    return text;
  }

  [[nodiscard]] units::Temperature warmest_coolant() const {
    units::Temperature warmest = told_.coolant.inlet;
    for (const still::Step& step : told_.curve) {
      warmest = std::max(warmest, step.spout.exchange.coolant);
    }
    return warmest;
  }

  // A glass of the units that are shown: a proof hydrometer where they are US units.
  [[nodiscard]] std::string glass(const still::Step& step) const {
    const units::Temperature t = step.spout.exchange.spirit;
    if (!step.spout.shown) return fmt::format("spirit at {}", print(t));
    const double figure =
        look_.units == units::System::us
            ? spirit::shown(spirit::mass_fraction(step.point.spout), t, spirit::Scale::us_proof)
                  .figure
            : step.spout.shown->figure;
    // A hydrometer's scale ends at nought.
    if (figure < 0.0) return fmt::format("under 0 at {}", print(t));
    return fmt::format("{:.1f} at {}", figure, print(t));
  }

  [[nodiscard]] std::string course() const {
    std::vector<std::vector<std::string>> rows;
    const std::size_t last = told_.curve.size() - 1;
    for (int i = 0; i < rows_of_course; ++i) {
      const auto at = static_cast<std::size_t>(
          std::lround(static_cast<double>(last) * i / (rows_of_course - 1)));
      const still::Step& step = told_.curve[at];
      const still::Point& p = step.point;
      rows.push_back({print(p.collected), time(p.since_start), strength(p.spout), glass(step),
                      strength(p.cumulative), strength(p.pot), read(p.pot_temperature),
                      read(p.head_temperature)});
    }
    return heading("Course") + grid({{"collected"},
                                     {"after"},
                                     {"spout"},
                                     {"glass shows"},
                                     {"so far"},
                                     {"pot"},
                                     {words_.today ? "pot shows" : "pot at"},
                                     {words_.today ? "head shows" : "head at"}},
                                    rows);
  }

  [[nodiscard]] std::string cuts() const {
    std::vector<std::vector<std::string>> rows;
    for (const still::Part& part : told_.parts) {
      const still::Fraction& f = part.fraction;
      std::vector<std::string> row = {
          part.name,          print(f.volume),      strength(f.strength),
          time(f.duration()), strength(f.to.spout), print(f.to.head_temperature)};
      if (words_.today) row.push_back(read(f.to.head_temperature));
      if (part.congeners) {
        const still::Groups groups = still::groups_of(*part.congeners);
        for (const double g : {groups.early_g, groups.middle_g, groups.late_g}) {
          row.push_back(fmt::format("{:.2f} g", g));
        }
      }
      rows.push_back(std::move(row));
    }
    std::vector<Column> heads = {{"", Side::left}, {"volume"}, {"strength"},
                                 {"lasts"},        {"to"},     {"head"}};
    if (words_.today) heads.push_back({"head shows"});
    for (const char* group : {"early", "middle", "late"}) heads.push_back({group});
    return heading("Cuts") + grid(heads, rows);
  }

  [[nodiscard]] std::string jars() const {
    std::vector<std::vector<std::string>> rows;
    const auto band = [](const std::optional<still::Load>& load) {
      return load ? fmt::format("{:.2f} ({:.2f} to {:.2f})", load->mass.grams(),
                                load->low.grams(), load->high.grams())
                  : std::string();
    };
    for (const still::JarRow& row : told_.jars) {
      rows.push_back({row.jar.label, print(row.jar.volume), strength(row.jar.strength),
                      time(row.to.since_start - row.from.since_start),
                      read(row.to.head_temperature), band(row.jar.early), band(row.jar.middle),
                      band(row.jar.late)});
    }
    return heading("Jars") + grid({{"jar"},
                                   {"volume"},
                                   {"strength"},
                                   {"lasts"},
                                   {words_.today ? "head shows" : "head"},
                                   {"early, g"},
                                   {"middle, g"},
                                   {"late, g"}},
                                  rows);
  }

  [[nodiscard]] std::string congeners() const {
    std::vector<Column> columns = {{"g/hL of pure alcohol (share come)", Side::left}};
    columns.push_back({"charged"});
    for (const still::Part& part : told_.parts) columns.push_back({part.name});
    std::vector<std::vector<std::string>> rows;
    const double charge_hL = spirit::pure_alcohol(told_.run.charge.spirit).litres() / 100.0;
    for (std::size_t c = 0; c < vapour::congener_count; ++c) {
      const double charged = told_.run.charge.congeners->grams[c];
      std::vector<std::string> row = {std::string(vapour::congeners()[c].id),
                                      fmt::format("{:.2f}", charged / charge_hL)};
      for (const still::Part& part : told_.parts) {
        const double grams = part.congeners->grams[c];
        const double hL = part.fraction.pure_alcohol.litres() / 100.0;
        row.push_back(hL > 0.0 ? fmt::format("{:.2f} ({:.0f} %)", grams / hL,
                                             charged > 0.0 ? 100.0 * grams / charged : 0.0)
                               : std::string("none"));
      }
      rows.push_back(std::move(row));
    }
    return heading("Congeners") + grid(columns, rows) +
           paragraph(
               "Estimates: what a usual charge carries is known to a factor of two or three, "
               "and each volatility to the spread of its row (docs/rooms/vapour.md).");
  }

  [[nodiscard]] std::string cautions() const {
    std::string text;
    for (const sheet::Caution& one :
         {sheet::cautions::heat, sheet::cautions::outlet, sheet::cautions::vapour,
          sheet::cautions::fire, sheet::cautions::foreshots}) {
      text += caution_of(one, "here", look_);
    }
    return text;
  }

  const still::ToldRun& told_;
  const SpiritWords& words_;
  const Look& look_;
};

}  // namespace

std::string spirit_text(const still::ToldRun& told, const SpiritWords& words,
                        const Look& look) {
  return SpiritText(told, words, look).all();
}

std::string spirit_why(const still::ToldRun& told, const SpiritWords& words, const Look& look) {
  const still::RunSetting& setting = told.run.setting;
  std::vector<Ground> all = {
      {"Run",
       "a batch in time: heat less losses raises vapour, which leaves the pot in equilibrium "
       "with it (Lord Rayleigh's differential distillation), integrated with adaptive steps; "
       "dissolved solids and droplets carried over are left out"},
      {"Equilibrium",
       "ethanol and water by an activity model fitted to published measurements; enthalpies "
       "with the heat of mixing (docs/rooms/vapour.md)"}};
  if (setting.head.fixed_reflux) {
    all.push_back(
        {"Head", fmt::format("a share of {} of the rising vapour runs back, in equilibrium "
                             "with what leaves; the same at any fire",
                             units::print(*setting.head.fixed_reflux, look.units))});
  } else {
    all.push_back(
        {"Head", fmt::format("loses {} for each kelvin above the room and condenses what "
                             "that heat is worth, so a gentler fire sends more of the vapour "
                             "back. Unless stated, 12 W/(m² K) over the surface of a bare "
                             "copper head: our estimate, within 40 %",
                             units::print(setting.head.loss, look.units))});
  }
  all.push_back(
      {"Condenser", fmt::format("{:.0f} W/K, with which it keeps 10 and 5 K of approach at the "
                                "boiler's full power (common practice, no source); vapour "
                                "condenses at its dew point, then the liquid cools, counter to "
                                "the coolant",
                                told.conductance.watts_per_kelvin())});
  all.push_back(
      {"Glass", "a hydrometer true at 20 °C in spirit as warm as it runs (OIML R 22)"});
  if (words.amounts_usual) {
    all.push_back({"Congeners",
                   "traces with the volatility of data/congeners.toml; amounts of a usual "
                   "charge of low wines from grain, from memory, within a factor of two to "
                   "three. Copper, and what forms in the pot, are left out"});
  }
  if (words.foreshots_usual) {
    all.push_back({"Foreshots",
                   "a hundredth of the charge, since none were asked for: 0.5 to 1.5 % is "
                   "common practice, no source"});
  }
  return fmt::format("\n{}", grounds(all));
}

}  // namespace lynearm::cli
