#include "station/left_over.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>

#include "spirit/lot.hpp"
#include "spirit/strength.hpp"

namespace lynearm::station {
namespace {

using journal::LotKind;
using units::Volume;

Volume left_of(const journal::LotState& lot) {
  return lot.left.mass() > units::Mass{} ? spirit::volume(lot.left) : Volume{};
}

std::string numbered(std::string_view what, int number, int of) {
  return of > 0 ? fmt::format("{} {} of {}", what, number, of)
                : fmt::format("{} {}", what, number);
}

}  // namespace

bool went_on(const journal::LotState& lot) {
  constexpr std::array<std::string_view, 5> on = {"blend", "wood", "bottles", "charge",
                                                  "topping up"};
  return std::any_of(lot.uses.begin(), lot.uses.end(), [&](const journal::LotUse& use) {
    return std::find(on.begin(), on.end(), use.where) != on.end();
  });
}

std::string another_run(const journal::HouseState& house, const journal::BatchState& batch,
                        const PlanMade* made) {
  if (made == nullptr && batch.plan) return "";
  int strips = 0, spirits = 0;
  Volume wash_run, greatest_wash, greatest_charge;
  for (const journal::RunState& run : batch.runs) {
    if (run.kind == journal::RunKind::strip) {
      ++strips;
      const Volume wash = run.wash.value_or(run.charge_volume);
      wash_run = wash_run + wash;
      greatest_wash = std::max(greatest_wash, wash);
    } else {
      ++spirits;
      greatest_charge = std::max(greatest_charge, run.charge_volume);
    }
  }
  const int planned_spirits = made == nullptr ? 0 : made->plan.spirit.runs;
  Volume low_wines;
  for (const journal::LotState& lot : house.lots) {
    if (lot.batch == batch.id && lot.name.kind == LotKind::low_wines) {
      low_wines = low_wines + left_of(lot);
    }
  }
  if (spirits > 0 && low_wines > greatest_charge * share_of_a_charge &&
      (made == nullptr || spirits < planned_spirits)) {
    return numbered("spirit run", spirits + 1, planned_spirits);
  }
  const int planned_strips = made == nullptr ? 0 : made->plan.strip.runs;
  if (strips > 0 && batch.ferment.racked &&
      batch.ferment.racked->clear - wash_run > greatest_wash * share_of_a_charge &&
      (made == nullptr || strips < planned_strips)) {
    return numbered("strip", strips + 1, planned_strips);
  }
  return "";
}

KeptBack kept_back(const journal::HouseState& house, const journal::BatchState& batch) {
  KeptBack kept;
  for (const journal::LotState& lot : house.lots) {
    if (lot.batch != batch.id) continue;
    if (lot.bottles) kept.bottle = lot.bottles->size;
    if (lot.name.kind != LotKind::hearts && lot.name.kind != LotKind::spirit) continue;
    const Volume left = left_of(lot);
    if (left >= worth_naming && went_on(lot)) kept.volume = kept.volume + left;
  }
  return kept;
}

}  // namespace lynearm::station
