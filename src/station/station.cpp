#include "station/station.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

#include "base/error.hpp"
#include "journal/questions.hpp"
#include "recipe/read_kit.hpp"
#include "spirit/strength.hpp"
#include "station/against_kit.hpp"
#include "station/air.hpp"
#include "station/gas_pitched.hpp"
#include "units/print.hpp"

namespace lynearm::station {
namespace {

// A mark read 2 % high, twice its error, is no fuller pot (our choice).
constexpr double over_the_fill = 1.02;
// Mains a tenth high drive an element at a fifth more; beyond a quarter more it is another
// heat, or a slip (our choice).
constexpr double over_the_heat = 1.25;
// Common practice, no source.
constexpr auto too_strong = units::VolumeStrength::percent(40.0);

// The charge and the heat of a run, against what the plan's boiler takes and gives.
std::vector<std::string> beyond_boiler(const journal::RunState& run, const PlanMade& made) {
  std::vector<std::string> against;
  const plan::Boiler& boiler = made.pair.kit.still.boiler;
  const units::Volume fill = run.kind == journal::RunKind::strip ? made.plan.strip.fill_limit
                                                                 : made.plan.spirit.fill_limit;
  // Of what went in and of what the pot was told to hold the greater is the danger.
  const bool by_parts = journal::cannot_be(run.put_in, run.charge_told);
  const units::Volume held =
      by_parts ? std::max(run.charge_volume, run.put_in) : run.charge_volume;
  if (held > boiler.total) {
    const auto [charge, brim] = units::print_apart(held, boiler.total);
    against.push_back(fmt::format(
        "The charge is {}{}, and the boiler holds {} to its brim: leave the heat "
        "off and take some out, or correct the charge.",
        charge,
        by_parts
            ? fmt::format(" by what went into it ({} as told)", units::print(run.charge_told))
            : std::string{},
        brim));
  } else if (held > fill * over_the_fill) {
    const auto [charge, safe] = units::print_apart(held, fill);
    against.push_back(fmt::format(
        "The charge is {}, and this boiler may be filled to {} with it: more can boil "
        "over and block the condenser. Leave the heat off and take some out, or "
        "correct the charge.",
        charge, safe));
  }
  if (run.charge_known && run.charge.mass() > units::Mass{} &&
      spirit::strength(run.charge) > too_strong) {
    against.push_back(fmt::format(
        "The charge is at {:.0f} %vol: above {:.0f} %vol it burns readily and leaves the "
        "element "
        "bare at the end. Leave the heat off and thin it with water to 30 %vol or less, or "
        "correct the charge.",
        spirit::strength(run.charge).percent(), too_strong.percent()));
  }
  std::optional<units::Power> most = run.power;
  for (const journal::RunPoint& point : run.readings) {
    const std::optional<units::Power>& power = point.reading.power;
    if (power) most = std::max(most.value_or(*power), *power);
  }
  if (most && *most > boiler.power * over_the_heat) {
    const auto [told, gives] = units::print_apart(*most, boiler.power);
    against.push_back(fmt::format(
        "The power is told as {}, and the kit's heat gives {} at most: correct the power, or "
        "the kit.",
        told, gives));
  }
  return against;
}

}  // namespace

Station::Station(store::House& house, const numeric::Executor& executor,
                 std::function<journal::Moment()> now, std::size_t members)
    : house_(house),
      executor_(executor),
      now_(std::move(now)),
      members_(members),
      planned_(executor),
      followed_(executor, members),
      fermenting_(executor) {}

std::vector<store::Kept> Station::keep(std::span<const journal::Entry> entries) {
  return house_.journal().keep(entries, now_());
}

std::vector<store::Kept> Station::take_in(std::span<const journal::Entry> entries) {
  return house_.journal().keep(entries, std::nullopt);
}

std::shared_ptr<const Seen> Station::seen() {
  const store::Sequence asked_for = house_.journal().last();
  const std::lock_guard lock(folding_);
  // Pages ask all together: who waited for another's fold often finds in it what was kept.
  if (seen_ && seen_->sequence >= asked_for) return seen_;
  for (;;) {
    std::vector<store::Numbered> more = house_.journal().since(read_to_);
    if (more.empty()) break;
    for (store::Numbered& one : more) {
      entries_.push_back(std::move(one.entry));
      read_to_ = one.sequence;
    }
  }
  if (!seen_ || seen_->sequence != read_to_) {
    seen_.reset();  // unless somebody still reads it: a long run fills megabytes
    seen_ = std::make_shared<Seen>(Seen{read_to_, journal::fold(entries_)});
  }
  return seen_;
}

void Station::was_read(std::chrono::microseconds took) {
  // A long one counts at once, and is forgotten over the next few.
  const std::int64_t before = reading_us_.load();
  reading_us_.store(std::max(took.count(), before - before / 4));
}

std::shared_ptr<const PlanMade> Station::plan(const std::string& recipe, const std::string& kit,
                                              int members) {
  return planned_.of(recipe, kit, members);
}

wire::RunForecast Station::forecast(const journal::BatchState& batch,
                                    const journal::RunState& run) {
  return forecast_by(followed_, batch, run);
}

wire::RunForecast Station::forecast_by(Followed& by, const journal::BatchState& batch,
                                       const journal::RunState& run) {
  if (!batch.plan) {
    throw base::InputError("batch", batch.name, "a batch with a plan: its kit tells the still");
  }
  const std::shared_ptr<const PlanMade> made = plan(batch.plan->recipe, batch.plan->kit, 0);
  const std::shared_ptr<const Seen> now = seen();
  if (run.charge_known) {
    wire::RunForecast told = followed(by, now->house, batch, run, *made, nullptr);
    told.of_charge = against_charge(now->house, batch, run, *made);
    return told;
  }
  // A charge that nobody gauged is taken to be as strong as the plan has it.
  const units::VolumeStrength strength = run.kind == journal::RunKind::strip
                                             ? made->plan.strip.one.charge_strength
                                             : made->plan.spirit.one.charge_strength;
  journal::RunState by_plan = run;
  by_plan.charge = spirit::lot(run.charge_volume, strength);
  wire::RunForecast told = followed(by, now->house, batch, by_plan, *made, nullptr);
  told.charge_by_plan = strength;
  told.of_charge = against_charge(now->house, batch, run, *made);
  return told;
}

wire::ByKit Station::by_kit(const journal::BatchState& batch) {
  wire::ByKit told;
  const bool begun = batch.ferment.pitch || !batch.mash.worts.empty() || !batch.runs.empty();
  if (!batch.plan || !begun) return told;
  try {
    const std::shared_ptr<const PlanMade> made = plan(batch.plan->recipe, batch.plan->kit, 0);
    for (const journal::RunState& run : batch.runs) {
      std::vector<std::string> against = beyond_boiler(run, *made);
      if (!against.empty()) told.against.emplace(run.told.entry, std::move(against));
    }
    told.asked = station::asked_by_kit(*made, batch);
    told.gas = gas_pitched(*made, batch);
  } catch (const base::InputError&) {
    // A plan that cannot be made has no kit to speak of; its page says why.
  } catch (const base::NotConverged&) {
  }
  return told;
}

journal::Questions Station::asked_by_kit(const journal::HouseState& house) const {
  journal::Questions all;
  for (const auto& [id, batch] : house.batches) {
    if (!batch.plan) continue;
    const auto made = planned_.ready(batch.plan->recipe, batch.plan->kit);
    if (!made) continue;
    std::vector<journal::Puzzle> asked = station::asked_by_kit(*made, batch);
    if (!asked.empty()) all.emplace(id, std::move(asked));
  }
  return all;
}

std::vector<std::string> Station::against_charge(const journal::HouseState& house,
                                                 const journal::BatchState& batch,
                                                 const journal::RunState& run,
                                                 const PlanMade& made) {
  std::vector<std::string> against = beyond_boiler(run, made);
  for (journal::Puzzle& asked : journal::questions(house, batch.id, glass(house, batch.id))) {
    if (asked.entry == run.told.entry) against.push_back(std::move(asked.why));
  }
  const std::optional<journal::WashState>& wash = batch.ferment.wash;
  if (!run.wash || run.charge_gauged || !run.charge_known || !wash) return against;
  try {
    const std::shared_ptr<const wire::FermentForecast> of = ferment(batch);
    const bool doubted =
        std::any_of(of->followed.doubts.begin(), of->followed.doubts.end(),
                    [&](const ferment::DoubtedGravity& doubt) {
                      return of->readings.at(doubt.reading) == wash->told.entry;
                    });
    if (doubted) {
      against.push_back(
          fmt::format("The strength of the wash in this charge is reckoned by a gravity of "
                      "{:.4f} that is not "
                      "believed: read the charge's strength, or correct that gravity.",
                      wash->gravity.ratio()));
    }
  } catch (const base::InputError&) {
    // A ferment that cannot be followed doubts nothing.
  } catch (const base::NotConverged&) {
  }
  return against;
}

wire::RunForecast Station::followed(Followed& by, const journal::HouseState& house,
                                    const journal::BatchState& batch,
                                    const journal::RunState& run, const PlanMade& made,
                                    const numeric::Executor* executor) {
  const std::optional<units::Pressure> read = air_of_run(house.airs, batch.airs, run);
  plan::Kit kit = made.pair.kit;
  std::string text = batch.plan->kit;
  if (read) {
    kit.place.pressure = *read;
    text += fmt::format("\n{}", read->hectopascals());
  }
  wire::RunForecast told = executor != nullptr
                               ? by.of(made.pair.recipe, kit, text, run, *executor)
                               : by.of(made.pair.recipe, kit, text, run);
  told.air = kit.place.pressure;
  told.air_read = read.has_value();
  return told;
}

std::optional<plan::Instruments> Station::instruments_of(const std::string& kit) {
  constexpr std::size_t most = 64;  // kits that a house goes by; beyond, read again
  const std::lock_guard lock(kit_);
  const auto known = instruments_.find(kit);
  if (known != instruments_.end()) return known->second;
  std::optional<plan::Instruments> read;
  try {
    read = recipe::read_kit(kit, "kit").instruments;
  } catch (const base::InputError&) {
    // A kit that does not read names no instrument.
  }
  if (instruments_.size() >= most) instruments_.clear();
  return instruments_.emplace(kit, read).first->second;
}

plan::Instruments Station::instruments() {
  const std::shared_ptr<const Seen> now = seen();
  if (!now->house.kit) return {};
  return instruments_of(now->house.kit->kit).value_or(plan::Instruments{});
}

journal::Glass Station::glass(const journal::HouseState& house,
                              const std::optional<journal::Id>& batch) {
  std::optional<plan::Instruments> kit;
  if (batch) {
    const auto of = house.batches.find(*batch);
    if (of != house.batches.end() && of->second.plan) {
      kit = instruments_of(of->second.plan->kit);
    }
  }
  if (!kit && house.kit) kit = instruments_of(house.kit->kit);
  return kit ? journal::glass_of(*kit) : journal::Glass{};
}

std::shared_ptr<const wire::FermentForecast> Station::ferment(
    const journal::BatchState& batch) {
  if (!batch.plan) {
    throw base::InputError("batch", batch.name,
                           "a batch with a plan: it tells sugar and vessel");
  }
  if (!batch.ferment.pitch) {
    throw base::InputError("batch", batch.name, "a batch whose yeast was pitched");
  }
  const std::shared_ptr<const PlanMade> made = plan(batch.plan->recipe, batch.plan->kit, 0);
  return fermenting_.of(*made, batch.plan->recipe + batch.plan->kit, batch);
}

sheet::Followed Station::readings_followed(const journal::BatchState& batch) {
  sheet::Followed told;
  wire::ByKit by_kit = this->by_kit(batch);
  told.against = std::move(by_kit.against);
  told.asked = std::move(by_kit.asked);
  told.gas = std::move(by_kit.gas);
  const auto or_without = [&](const std::string& what, const auto& follow) {
    try {
      follow();
    } catch (const base::InputError& error) {
      told.without.push_back(
          fmt::format("{} ({})", what, base::sentence(error.faults().front())));
    } catch (const base::NotConverged&) {
      told.without.push_back(what + " (its forecast does not come out)");
    }
  };
  const bool gravities =
      std::any_of(batch.ferment.points.begin(), batch.ferment.points.end(),
                  [](const journal::FermentPoint& one) { return one.gravity.has_value(); });
  if (gravities && batch.ferment.pitch) {
    or_without("the ferment", [&] {
      const std::shared_ptr<const wire::FermentForecast> of = ferment(batch);
      for (const ferment::DoubtedGravity& doubt : of->followed.doubts) {
        told.doubts.push_back({of->readings.at(doubt.reading), doubt});
        // By what is not believed no wash is said to have come to stand.
        const auto& wash = batch.ferment.wash;
        if (told.gas && told.gas->standing == plan::GasStanding::stands && wash &&
            wash->told.entry == of->readings.at(doubt.reading)) {
          told.gas->standing = plan::GasStanding::racked;
        }
      }
    });
  }
  int strips = 0;
  int spirits = 0;
  for (const journal::RunState& run : batch.runs) {
    const bool strip = run.kind == journal::RunKind::strip;
    const int number = strip ? ++strips : ++spirits;
    if (run.readings.empty() && run.jars.empty()) continue;
    or_without(fmt::format("{} {}", strip ? "strip" : "spirit run", number), [&] {
      Followed once(executor_, members_);
      const bool kept = followed_.begun(run.told.entry);
      const wire::RunForecast of = forecast_by(kept ? followed_ : once, batch, run);
      for (const still::Doubt& doubt : of.doubts) {
        told.doubts.push_back({of.readings.at(doubt.reading), doubt});
      }
      for (const wire::Refused& refused : of.refused) {
        told.doubts.push_back({refused.entry, refused.why});
      }
    });
  }
  return told;
}

wire::NextStep Station::next(const journal::HouseState& house,
                             const journal::BatchState& batch) const {
  const auto made = batch.plan ? planned_.ready(batch.plan->recipe, batch.plan->kit) : nullptr;
  const auto told = fermenting_.ready(batch.id);
  return next_step(house, batch, made.get(), told.get());
}

std::map<journal::Id, wire::NextStep> Station::next_steps(
    const journal::HouseState& house) const {
  std::map<journal::Id, wire::NextStep> all;
  for (const auto& [id, batch] : house.batches) all.emplace(id, next(house, batch));
  return all;
}

bool Station::warm(const numeric::Executor& executor) {
  bool made = false;
  const std::shared_ptr<const Seen> now = seen();
  for (const auto& [id, batch] : now->house.batches) {
    if (batch.closed || !batch.plan) continue;
    try {
      if (!planned_.ready(batch.plan->recipe, batch.plan->kit)) {
        (void)plan(batch.plan->recipe, batch.plan->kit, 0);
        made = true;
      }
      if (batch.ferment.pitch && !batch.ferment.racked) {
        const auto before = fermenting_.ready(id);
        made |= ferment(batch) != before;
      }
      for (const journal::RunState& run : batch.runs) {
        const bool open = run.standing != journal::RunStanding::ended;
        if (!open || !run.charge_known || followed_.begun(run.told.entry)) continue;
        const auto with = plan(batch.plan->recipe, batch.plan->kit, 0);
        (void)followed(followed_, now->house, batch, run, *with, &executor);
        made = true;
      }
    } catch (const base::InputError&) {
      // Told to whoever asks.
    } catch (const base::NotConverged&) {
    }
  }
  return made;
}

}  // namespace lynearm::station
