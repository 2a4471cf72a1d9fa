#include "cli/feints_text.hpp"

#include <fmt/format.h>

#include "cli/page_text.hpp"
#include "cli/stated.hpp"
#include "cli/table.hpp"
#include "units/print.hpp"
#include "wire/still.hpp"

namespace lynearm::cli {
namespace {

std::string per_litre(units::MassConcentration c) {
  return fmt::format("{:.3f}", c.grams_per_litre());
}

class FeintsText {
 public:
  FeintsText(const still::ToldFeints& told, const Look& look)
      : told_(told), bleeding_(told.bleeding), look_(look) {}

  [[nodiscard]] std::string all(bool amounts_usual) const {
    std::string text = headline(first_line(), look_);
    text += course();
    text += "\n";
    text += unbled() + bled();
    text += paragraph(
        "Higher alcohols (to the litre of pure alcohol) come over before most alcohol does and "
        "thin out as feints return; what comes late (phenylethanol, furfural, acids) builds "
        "up.");
    if (amounts_usual) {
      text += paragraph(
          "Congeners in the amounts of usual low wines (from memory, within a factor of two): "
          "look at how they change, not at how much there is.");
    }
    text += "\n";
    text += caution(wire::still_caution, look_);
    text += caution(wire::foreshots_caution, look_);
    return text;
  }

 private:
  [[nodiscard]] std::string volume(const spirit::Lot& lot) const {
    return units::print(spirit::volume(lot), look_.units);
  }
  [[nodiscard]] std::string strength(const spirit::Lot& lot) const {
    return shown(spirit::strength(lot), look_.units);
  }

  [[nodiscard]] std::string first_line() const {
    const still::Settling& end = bleeding_.unbled;
    if (bleeding_.from) {
      return fmt::format("From generation {} on bleed off {} of the feints.", *bleeding_.from,
                         units::print(bleeding_.share));
    }
    if (!end.steady) {
      return fmt::format("The feints have not come to rest after {} generations.",
                         end.last.number);
    }
    return fmt::format("The feints come to rest at {} of {}: nothing need be bled off.",
                       volume(end.last.feints.lot), strength(end.last.feints.lot));
  }

  [[nodiscard]] std::string course() const {
    std::vector<std::vector<std::string>> rows;
    for (const still::Generation& g : told_.generations) {
      const still::Oils charge = still::oils(g.charge), hearts = still::oils(g.hearts);
      rows.push_back({fmt::format("{}", g.number), volume(g.charge.lot), strength(g.charge.lot),
                      volume(g.hearts.lot), volume(g.feints.lot), strength(g.feints.lot),
                      per_litre(charge.higher), per_litre(charge.late),
                      per_litre(hearts.higher), per_litre(hearts.late)});
    }
    return heading("Generations", look_) +
           paragraph(
               told_.recycling.bled > units::Share{}
                   ? fmt::format(
                         "Each charge: the same low wines and the feints of the run "
                         "before, of which {} are bled off. Oils in g/L of pure alcohol.",
                         units::print(told_.recycling.bled))
                   : "Each charge: the same low wines and all feints of the run before. Oils "
                     "in "
                     "g/L of pure alcohol.") +
           grid({{"run"},
                 {"charge"},
                 {"at"},
                 {"hearts"},
                 {"feints"},
                 {"at"},
                 {"charge: higher"},
                 {"late"},
                 {"hearts: higher"},
                 {"late"}},
                rows);
  }

  [[nodiscard]] std::string unbled() const {
    const still::Settling& end = bleeding_.unbled;
    if (bleeding_.volume) {
      return paragraph(fmt::format(
          "With all feints returned the charge of generation {} is {}, over the {} that this "
          "boiler is filled to.",
          *bleeding_.from, volume(end.last.charge.lot),
          units::print(*told_.limit.greatest_charge, look_.units)));
    }
    std::string text = paragraph(fmt::format(
        "With all feints returned: {} of feints at {}, a charge of {} at {}{}.",
        volume(end.last.feints.lot), strength(end.last.feints.lot), volume(end.last.charge.lot),
        strength(end.last.charge.lot),
        end.steady ? fmt::format(", within 1 % from generation {} on", end.generation)
                   : std::string(", and not at rest")));
    text += paragraph(fmt::format(
        "The hearts' oils are then at most {:.2f} times those of the first generation; {:.2f} "
        "times is the limit{}.",
        end.oils_multiple(), told_.limit.oils_multiple,
        bleeding_.oils ? fmt::format(", passed in generation {}", *bleeding_.from) : ""));
    return text;
  }

  [[nodiscard]] std::string bled() const {
    if (!bleeding_.from) return "";
    const still::Settling& end = bleeding_.bled;
    return paragraph(fmt::format(
        "With {} of each run's feints bled off: {} of feints at {}, a charge of {}, hearts "
        "with "
        "{:.2f} times the oils of the first. What is bled off goes into a strip, or away.",
        units::print(bleeding_.share), volume(end.last.feints.lot),
        strength(end.last.feints.lot), volume(end.last.charge.lot), end.oils_multiple()));
  }

  const still::ToldFeints& told_;
  const still::Bleeding& bleeding_;
  const Look& look_;
};

}  // namespace

std::string feints_text(const still::ToldFeints& told, bool amounts_usual, const Look& look) {
  return FeintsText(told, look).all(amounts_usual);
}

}  // namespace lynearm::cli
