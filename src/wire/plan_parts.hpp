// The parts of a plan's document, one a stage, and the small objects they share. For the
// sources of this room only, so that the JSON library stays in it.
#pragma once

#include <cstddef>
#include <functional>
#include <vector>

#include "plan/plan.hpp"
#include "wire/figure.hpp"

namespace lynearm::wire {

/// A lot by mass, volume at 20 °C, strength and pure alcohol.
[[nodiscard]] Json gauged(const spirit::Lot& lot);

/// A wash by its masses and its pure alcohol.
[[nodiscard]] Json masses(const wort::Wash& wash);

/// The places that stay of a curve of `count` points: evenly spread, the first and the last
/// among them, and each that `keep` asks for. At most curve_points as long as `keep` asks for
/// fewer.
[[nodiscard]] std::vector<std::size_t> thinned(
    std::size_t count, const std::function<bool(std::size_t)>& keep = {});

[[nodiscard]] Json mash_bill_part(const plan::Recipe& recipe, const plan::BillPlan& bill);
[[nodiscard]] Json mash_part(const plan::Recipe& recipe, const plan::MashPlan& mash);
[[nodiscard]] Json sugar_boil_part(const plan::Recipe& recipe, const plan::SugarPlan& sugar);
[[nodiscard]] Json wort_part(const plan::WortPlan& wort);
[[nodiscard]] Json cooling_part(const plan::CoolingPlan& cooling);
[[nodiscard]] Json ferment_part(const plan::Recipe& recipe, const plan::FermentPlan& ferment);
[[nodiscard]] Json run_part(const plan::RunPlan& run);
[[nodiscard]] Json strip_part(const plan::StripPlan& strip);
[[nodiscard]] Json spirit_run_part(const plan::SpiritPlan& spirit);
[[nodiscard]] Json reduce_part(const plan::ReducePlan& reduce);
[[nodiscard]] Json wood_part(const plan::Recipe& recipe, const plan::WoodPlan& wood);
[[nodiscard]] Json bottle_part(const plan::BottlePlan& bottle);
[[nodiscard]] Json ledger_part(const plan::Ledger& ledger);
[[nodiscard]] Json uses_part(const plan::Recipe& recipe, const plan::Uses& uses);
[[nodiscard]] Json timeline_part(const plan::Timeline& timeline);
[[nodiscard]] Json findings_part(const std::vector<plan::Finding>& findings);
[[nodiscard]] Json legal_classes_part(const plan::Recipe& recipe, const plan::Kit& kit,
                                      const plan::Plan& plan);

}  // namespace lynearm::wire
