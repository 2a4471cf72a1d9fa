#include "sheet/record_flow.hpp"

#include <algorithm>
#include <cmath>

namespace lynearm::sheet {
namespace {

using journal::LotKind;
using journal::LotState;
using journal::LotUse;

// Less than this is rounding, or a drop in a funnel.
constexpr units::Mass crumb = units::Mass::grams(1.0);

void add(std::optional<spirit::Lot>& to, const spirit::Lot& more) {
  if (more.mass() > units::Mass{}) to = to.value_or(spirit::Lot{}) + more;
}

class Flow {
 public:
  explicit Flow(const Record& record) : record_(record), house_(record.from.house) {}

  [[nodiscard]] Passed reduce() const {
    Passed passed;
    for (const LotState& lot : house_.lots) {
      if (!reduced(lot)) continue;
      add(passed.out, gauged_when_made(lot).value_or(lot.made) * (1.0 - wooded(lot)));
    }
    for (const LotState& lot : house_.lots) {
      if (!reduced(lot)) continue;
      for (const Poured& poured : poured_by(house_, lot.name.entry)) {
        const spirit::Lot part = poured.use->lot * (1.0 - wooded(*poured.from));
        if (reduced(*poured.from)) {
          if (passed.out) passed.out = *passed.out - part;
        } else {
          add(passed.in, part);
        }
      }
    }
    return passed;
  }

  [[nodiscard]] Passed wood() const {
    Passed passed;
    spirit::Lot off;
    spirit::Lot back;  // off the wood, and onto wood again
    const auto onto = [&](const journal::Id& entry, const spirit::Lot& filled) {
      const LotState* from = source(entry);
      const double share = from == nullptr ? 0.0 : wooded(*from);
      add(passed.in, filled * (1.0 - share));
      // Out of one cask into another it never was off the wood.
      if (from != nullptr && !from->wood) back = back + filled * share;
    };
    for (const LotState& lot : house_.lots) {
      if (!here(lot) || !lot.wood) continue;
      onto(lot.name.entry, lot.made);
      for (const LotUse& use : lot.uses) {
        if (use.where == journal::topped_up) {
          onto(use.told.entry, use.lot * -1.0);
        } else if (use.where == "off the wood" || use.where == "blend" ||
                   use.where == "bottles") {
          off = off + use.lot;
        }
      }
    }
    const spirit::Lot out = off - back;
    if (out.mass() > crumb) passed.out = out;
    return passed;
  }

  // Laid on wood without being poured together before.
  [[nodiscard]] spirit::Lot laid_as_it_ran() const {
    spirit::Lot sum;
    for (const LotState& lot : house_.lots) {
      if (!here(lot) || !lot.wood) continue;
      const LotState* from = source(lot.name.entry);
      if (from == nullptr || !here(*from) || mixed(house_, *from) || wooded(*from) > 0.0) {
        continue;
      }
      sum = sum + lot.made;
    }
    return sum;
  }

 private:
  [[nodiscard]] bool here(const LotState& lot) const { return lot.batch == record_.batch.id; }

  [[nodiscard]] const LotState* source(const journal::Id& entry) const {
    const std::vector<Poured> poured = poured_by(house_, entry);
    return poured.empty() ? nullptr : poured.front().from;
  }

  // The share of a lot that was on wood of this batch.
  [[nodiscard]] double wooded(const LotState& lot) const {
    if (!here(lot) || lot.name.kind != LotKind::spirit) return 0.0;
    if (lot.wood) return 1.0;
    const std::vector<Poured> parts = poured_by(house_, lot.name.entry);
    if (parts.empty()) return lot.parents.empty() ? 0.0 : 1.0;  // brought in, or off the wood
    double all = 0.0;
    double of_wood = 0.0;
    for (const Poured& part : parts) {
      const double alcohol = part.use->lot.ethanol.kilograms();
      all += alcohol;
      of_wood += alcohol * wooded(*part.from);
    }
    return all > 0.0 ? of_wood / all : 0.0;
  }

  [[nodiscard]] bool reduced(const LotState& lot) const {
    if (!here(lot) || lot.wood || !mixed(house_, lot)) return false;
    constexpr double rounding = 1e-9;
    return wooded(lot) < 1.0 - rounding && !brought_to_bottling(lot);
  }

  // Poured of what was poured together before, and nearer to bottling than to maturing.
  [[nodiscard]] bool brought_to_bottling(const LotState& lot) const {
    const std::vector<Poured> parts = poured_by(house_, lot.name.entry);
    const bool again = std::any_of(parts.begin(), parts.end(), [&](const Poured& part) {
      return here(*part.from) && mixed(house_, *part.from);
    });
    if (!again) return false;
    const double has = spirit::strength(gauged_when_made(lot).value_or(lot.made)).percent();
    const plan::Recipe& recipe = record_.planned.recipe;
    return std::abs(has - recipe.bottle.strength.percent()) <
           std::abs(has - recipe.reduce.maturing.percent());
  }

  const Record& record_;
  const journal::HouseState& house_;
};

}  // namespace

std::vector<Poured> poured_by(const journal::HouseState& house, const journal::Id& entry) {
  std::vector<Poured> all;
  for (const LotState& lot : house.lots) {
    for (const LotUse& use : lot.uses) {
      if (use.told.entry != entry) continue;
      if (use.where == "blend" || use.where == "wood" || use.where == "bottles" ||
          use.where == "topping up") {
        all.push_back({&lot, &use});
      }
    }
  }
  return all;
}

std::vector<Topping> toppings(const Record& record) {
  const journal::HouseState& house = record.from.house;
  const auto here = all_of<journal::WoodTopped>(record);
  std::vector<Topping> all;
  for (const LotState& lot : house.lots) {
    for (const LotUse& use : lot.uses) {
      if (use.where != journal::topped_up) continue;
      const bool told_here = std::any_of(here.begin(), here.end(), [&](const auto& one) {
        return one.standing->id == use.told.entry;
      });
      if (lot.batch != record.batch.id && !told_here) continue;
      const std::vector<Poured> from = poured_by(house, use.told.entry);
      all.push_back({&lot, &use, from.empty() ? nullptr : from.front().from});
    }
  }
  return all;
}

bool mixed(const journal::HouseState& house, const LotState& lot) {
  if (lot.name.kind != LotKind::spirit) return false;
  const std::vector<Poured> parts = poured_by(house, lot.name.entry);
  return std::any_of(parts.begin(), parts.end(),
                     [](const Poured& part) { return part.use->where == "blend"; });
}

Passed through_reduce(const Record& record) { return Flow(record).reduce(); }

Passed through_wood(const Record& record) { return Flow(record).wood(); }

std::optional<spirit::Lot> maturing(const Record& record) {
  const Flow flow(record);
  std::optional<spirit::Lot> sum = flow.reduce().out;
  add(sum, flow.laid_as_it_ran());
  return sum;
}

}  // namespace lynearm::sheet
