#include "sheet/record_lots_flow.hpp"

#include <algorithm>
#include <map>
#include <set>

namespace lynearm::sheet {
namespace {

using journal::LotKind;
using journal::LotState;
using journal::LotUse;

// Of what came to a place so small a rest is a remainder: nobody goes on with it.
constexpr double remainder_share = 0.05;

double pure(const spirit::Lot& lot) { return spirit::pure_alcohol(lot).litres(); }

bool makes(const LotUse& use) {
  static const std::set<std::string, std::less<>> all = {"blend", "wood", "off the wood",
                                                         "bottles"};
  return all.count(use.where) > 0;
}

enum class Place { hearts, reduced, on_wood, off_wood, bottles };

const char* stage_of(Place place) {
  switch (place) {
    case Place::hearts:
    case Place::reduced:
      return "Reduce";
    case Place::on_wood:
      return "Wood";
    case Place::off_wood:
    case Place::bottles:
      break;
  }
  return "Bottle";
}

class Lots {
 public:
  explicit Lots(const Record& record) : house_(record.from.house) {
    for (const LotState& lot : house_.lots) {
      if (lot.batch != record.batch.id) continue;
      if (const auto place = place_of(record, lot)) here_.emplace(&lot, *place);
    }
  }

  LotsFlow flow() {
    for (const LotState& lot : house_.lots) {
      const auto at = here_.find(&lot);
      if (at != here_.end()) tell(lot, at->second);
    }
    remainders();
    return std::move(flow_);
  }

 private:
  [[nodiscard]] bool here(const LotState* lot) const { return here_.count(lot) > 0; }

  // Lots are in the order of their making, so that parents have their place already.
  [[nodiscard]] std::optional<Place> place_of(const Record& record, const LotState& lot) const {
    switch (lot.name.kind) {
      case LotKind::hearts: {
        const auto& runs = record.batch.runs;
        const bool cut = std::any_of(runs.begin(), runs.end(), [&](const auto& run) {
          return run.allotted && run.allotted->entry == lot.name.entry;
        });
        return cut ? std::optional(Place::hearts) : std::nullopt;
      }
      case LotKind::spirit:
        break;
      case LotKind::bottles:
        return Place::bottles;
      default:
        return std::nullopt;
    }
    if (lot.wood) return Place::on_wood;
    const bool wooded =
        std::any_of(lot.parents.begin(), lot.parents.end(), [&](const auto& of) {
          const auto at = here_.find(journal::lot_named(house_, of));
          return at != here_.end() &&
                 (at->second == Place::on_wood || at->second == Place::off_wood);
        });
    return wooded ? Place::off_wood : Place::reduced;
  }

  // The lot that an entry made of what it took, or topped up with it.
  [[nodiscard]] const LotState* made_by(const LotUse& use) const {
    for (const LotState& lot : house_.lots) {
      if (use.where == "topping up") {
        for (const LotUse& other : lot.uses) {
          if (other.told.entry == use.told.entry && other.where == journal::topped_up) {
            return &lot;
          }
        }
      } else if (lot.name.entry == use.told.entry &&
                 (lot.name.kind == LotKind::spirit || lot.name.kind == LotKind::bottles)) {
        return &lot;
      }
    }
    return nullptr;
  }
  // How much an entry took out of lots that are counted here.
  [[nodiscard]] double taken_by(const journal::Id& entry, bool topping) const {
    double sum = 0.0;
    for (const auto& [lot, place] : here_) {
      for (const LotUse& use : lot->uses) {
        if (use.told.entry == entry && (topping ? use.where == "topping up" : makes(use))) {
          sum += pure(use.lot);
        }
      }
    }
    return sum;
  }

  void exit(Place place, std::string name, double litres, Course course) {
    flow_.exits.push_back({stage_of(place), std::move(name), litres, course});
  }

  void tell(const LotState& lot, Place place) {
    if (place == Place::hearts) {
      flow_.hearts_made += pure(lot.made);
    } else {
      exit(place, "other lots", pure(lot.made) - taken_by(lot.name.entry, false), Course::in);
    }
    came_[place] += pure(lot.made);
    double bottled = pure(lot.made);
    double laid = pure(lot.made);
    for (const LotUse& use : lot.uses) {
      const double litres = pure(use.lot);
      if (use.where == journal::topped_up) {
        laid -= litres;
        exit(place, "other lots", -litres - taken_by(use.told.entry, true), Course::in);
      } else if (use.where == "gauging") {
        exit(place, "", litres, Course::lost);
        bottled -= litres;
      } else if (place == Place::bottles) {
        continue;  // given, sold or tasted: bottled they were
      } else if (makes(use) || use.where == "topping up") {
        if (!here(made_by(use))) exit(place, "into another batch", litres, Course::kept);
      } else {
        gone(use, place, litres);
      }
    }
    switch (place) {
      case Place::hearts:
        flow_.hearts += pure(lot.left);
        break;
      case Place::reduced:
        flow_.reduced += pure(lot.left);
        break;
      case Place::on_wood:
        flow_.on_wood += pure(lot.left);
        if (pure(lot.left) > 0.0) flow_.laid_on_wood += laid;
        break;
      case Place::off_wood:
        flow_.off_wood += pure(lot.left);
        break;
      case Place::bottles:
        flow_.bottled += bottled;
        break;
    }
  }

  void gone(const LotUse& use, Place place, double litres) {
    if (use.where == "soaked and evaporated") {
      exit(place, "taken up, evaporated", litres, Course::lost);
    } else if (use.where == "spilt" || use.where == "destroyed") {
      exit(place, use.where, litres, Course::lost);
    } else if (use.where == "charge") {
      exit(place, "back to the still", litres, Course::kept);
    } else {
      exit(place, "samples", litres, Course::kept);
    }
  }

  void remainders() {
    double bottle_L = 0.0;  // once bottles were filled, what fills no other is a remainder
    for (const auto& [lot, place] : here_) {
      if (!lot->bottles) continue;
      bottle_L =
          std::max(bottle_L, lot->bottles->size.litres() * lot->bottles->strength.fraction());
    }
    const auto rest = [&](double& stands, Place place) {
      if (stands > remainder_share * came_[place] && stands >= bottle_L) return;
      exit(place, "remainder", stands, Course::kept);
      stands = 0.0;
    };
    rest(flow_.hearts, Place::hearts);
    rest(flow_.reduced, Place::reduced);
    rest(flow_.off_wood, Place::off_wood);
  }

  const journal::HouseState& house_;
  std::map<const LotState*, Place> here_;
  std::map<Place, double> came_;
  LotsFlow flow_;
};

}  // namespace

CutLots cut_lots(const Record& record) {
  CutLots cut;
  const auto sum = [&](LotKind kind) { return pure(sum_made(lots_of(record, kind))); };
  cut.hearts = sum(LotKind::hearts);
  cut.feints = sum(LotKind::feints);
  cut.apart = sum(LotKind::apart);
  cut.foreshots = sum(LotKind::foreshots);
  cut.some_uncut = std::any_of(
      record.batch.runs.begin(), record.batch.runs.end(), [](const journal::RunState& run) {
        return run.kind == journal::RunKind::spirit && run.ended && !run.allotted;
      });
  return cut;
}

LowWines low_wines(const Record& record) {
  // The account tells of a run with its charge known and what came over measured.
  const auto accounted = [](const journal::RunState& run) {
    const bool jars =
        !run.jars.empty() && std::all_of(run.jars.begin(), run.jars.end(),
                                         [](const auto& jar) { return jar.second.lot; });
    return run.charge_known && (jars || run.collected);
  };
  LowWines of;
  for (const LotState* lot : lots_of(record, LotKind::low_wines)) {
    of.left += pure(lot->left);
    for (const LotUse& use : lot->uses) {
      const journal::RunState* run = journal::run_named(record.batch, use.told.entry);
      if (use.where != "charge" || run == nullptr) continue;
      (accounted(*run) || run->allotted ? of.charged : of.running) += pure(use.lot);
    }
  }
  return of;
}

LotsFlow lots_flow(const Record& record) { return Lots(record).flow(); }

}  // namespace lynearm::sheet
