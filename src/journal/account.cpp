#include "journal/account.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <utility>

#include "journal/pot_left.hpp"

namespace lynearm::journal {
namespace {

AccountStep closed(AccountStep step) {
  step.unaccounted = step.in - step.out;
  for (const auto& [name, lost] : step.named) step.unaccounted = step.unaccounted - lost;
  const auto gap = units::Volume::litres(std::abs(step.unaccounted.value.litres()));
  step.telling =
      worth_asking(gap, step.in.value) && gap > step.unaccounted.sd * telling_deviations;
  return step;
}

std::string numbered(std::string_view what, int number, int of) {
  return of > 1 ? fmt::format("{} {} of {}", what, number, of) : std::string(what);
}

int count(const BatchState& batch, RunKind kind) {
  return static_cast<int>(std::count_if(batch.runs.begin(), batch.runs.end(),
                                        [&](const RunState& run) { return run.kind == kind; }));
}

// What is reckoned of its parts is as sure as those: no one read its own volume, which may be a
// hundred times theirs where water went in.
PureVolume made_of(const HouseState& house, const LotState& lot, const Glass& glass) {
  const std::vector<spirit::Lot> parts = poured_in(house, lot);
  if (parts.empty()) return pure_in(lot.made, glass);
  PureVolume sum;
  for (const spirit::Lot& part : parts) sum = sum + pure_in(part, glass);
  return sum;
}

// What a run took of the batch's own wash: a strip of which nothing was named, all it holds.
units::Volume wash_in(const RunState& run) {
  if (run.wash) return *run.wash;
  const bool of_wash = run.kind == RunKind::strip && run.parts.empty();
  return of_wash ? run.charge_volume : units::Volume{};
}

// A jar that was filled but not gauged leaves the sum of the jars too small.
bool jars_gauged(const RunState& run) {
  return !run.jars.empty() && std::all_of(run.jars.begin(), run.jars.end(),
                                          [](const auto& jar) { return jar.second.lot; });
}

bool in_account(const RunState& run) {
  return run.charge_known && (jars_gauged(run) || run.collected);
}

void hold_wash(BatchAccount& account, const BatchState& batch) {
  if (!batch.ferment.wash) return;
  const WashState& wash = *batch.ferment.wash;
  units::Volume taken;
  for (const RunState& run : batch.runs) {
    taken += wash_in(run);
    if (!in_account(run)) account.in_stills.volume += wash_in(run);
  }
  if (wash.volume - taken > wash.volume * volume_share_sd) {
    account.waiting.volume = wash.volume - taken;
  }
  for (WashHeld* const held : {&account.waiting, &account.in_stills}) {
    held->pure_alcohol = held->volume * wash.strength.fraction();
  }
}

void add_run(BatchAccount& account, const RunState& run, const BatchState& batch, int number,
             int of) {
  if (!in_account(run)) return;
  const bool strips = run.kind == RunKind::strip;
  AccountStep step;
  step.stage = strips ? Stage::strip : Stage::spirit_run;
  step.what = numbered(strips ? "strip" : "spirit run", number, of);
  step.in = run.wash && run.parts.empty() && batch.ferment.wash
                ? pure_in_wash(*run.wash, batch.ferment.wash->strength)
                : pure_in(run.charge, account.glass);
  if (jars_gauged(run)) {
    for (const auto& [number_of_jar, jar] : run.jars)
      step.out = step.out + pure_in(*jar.lot, account.glass);
  } else {
    step.out = pure_in(*run.collected, account.glass);
  }
  if (run.left_lot) {
    step.named.emplace_back("left in the pot", pure_in(*run.left_lot, account.glass));
  } else if (const std::optional<PureVolume> reckoned = pot_left(run)) {
    step.named.emplace_back("left in the pot, by the spout's last strength", *reckoned);
  } else {
    step.out.sd = units::Volume::litres(std::hypot(
        step.out.sd.litres(),
        step.in.value.litres() * (strips ? strip_pot_share_sd : spirit_pot_share_sd)));
  }
  account.steps.push_back(closed(std::move(step)));
}

}  // namespace

BatchAccount account(const HouseState& house, const BatchState& batch, const Glass& glass) {
  BatchAccount result;
  result.glass = glass;
  int strips = 0;
  int spirits = 0;
  for (const RunState& run : batch.runs) {
    int& number = run.kind == RunKind::strip ? strips : spirits;
    add_run(result, run, batch, ++number, count(batch, run.kind));
  }
  hold_wash(result, batch);
  for (const LotState& lot : house.lots) {
    if (lot.batch != batch.id || (!lot.wood && lot.parents.empty())) continue;
    if (lot.name.kind != LotKind::spirit && lot.name.kind != LotKind::bottles) continue;
    AccountStep step;
    step.stage = lot.bottles ? Stage::bottle : lot.wood ? Stage::wood : Stage::reduce;
    step.what = lot.label;
    step.in = made_of(house, lot, glass);
    step.out = pure_in(lot.left, glass);
    bool moved = false;
    for (const LotUse& use : lot.uses) {
      if (use.where == "gauging") {
        moved = true;
      } else if (use.where == "soaked and evaporated") {
        step.named.emplace_back(use.where, PureVolume{spirit::pure_alcohol(use.lot), {}});
        moved = true;
      } else if (use.where == topped_up) {
        step.in = step.in + pure_in(use.lot * -1.0, glass);
      } else {
        step.out = step.out + PureVolume{spirit::pure_alcohol(use.lot), {}};
      }
    }
    if (moved) result.steps.push_back(closed(std::move(step)));
  }
  return result;
}

}  // namespace lynearm::journal
