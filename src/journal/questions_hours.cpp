// By the clock: nothing is done with a lot before there is one; runs go one after another on
// one still; and what came over against the heat that it takes to drive it over.
#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <iterator>
#include <utility>

#include "journal/asking.hpp"
#include "spirit/strength.hpp"
#include "vapour/pure.hpp"

namespace lynearm::journal {
namespace {

using units::Duration;
using units::Energy;
using units::Power;
using units::Volume;

/// A pot is not emptied and charged, nor boiled, in less. Our choice.
constexpr Duration shortest = Duration::minutes(5.0);
/// A run of which nothing but its heat was told may go on for so long, and none of which
/// nothing was told for so many days. Our choice.
constexpr Duration stands_over_night = Duration::days(1.0);
constexpr Duration stands_at_most = Duration::days(7.0);
/// Of the least time by the heat that was told, as it may have been more: a preheated charge, a
/// flame read badly. Our choice.
constexpr double surely = 0.5;
/// The least that a charge is warmed by before it boils, and what a litre of any takes for a
/// kelvin: below the 4.0 kJ of a wash and the 3.4 of strong low wines. Our choice; common
/// practice, no source.
constexpr double least_warming_K = 18.0;
constexpr double kJ_per_L_K = 3.2;

// No liquid of a still takes less for a litre than ethanol does.
Energy least_heat(Volume charge, Volume came) {
  constexpr auto boil = units::Temperature::celsius(78.0);
  const double J_per_kg =
      vapour::latent_heat(vapour::Substance::ethanol, boil).joules_per_mole() /
      (spirit::ethanol_molar_mass_g_per_mol * 1e-3);
  return Energy::kilojoules(charge.litres() * kJ_per_L_K * least_warming_K) +
         Energy::joules(spirit::ethanol_in(came).kilograms() * J_per_kg);
}

// The most that was told of this run.
std::optional<Power> most_power(const RunState& run) {
  std::optional<Power> most = run.power;
  for (const RunPoint& point : run.readings) {
    if (point.reading.power) most = std::max(most.value_or(Power{}), *point.reading.power);
  }
  return most;
}

std::string_view name(const RunState& run) {
  return run.kind == RunKind::strip ? "strip" : "spirit run";
}

// Why so much cannot have come over so soon.
std::optional<std::string> too_soon(const RunState& run, Moment by, Volume came) {
  if (!(came > Volume{})) return std::nullopt;
  const Duration time = since(by, run.told.at);
  const bool before = time < Duration{};
  const auto at_least = [&](Power power) {
    return Duration::seconds(least_heat(run.charge_volume, came).joules() / power.watts());
  };
  // The power it began with is enough to tell nearly always: of readings there may be
  // thousands.
  const bool enough =
      run.power && *run.power > Power{} && time >= at_least(*run.power) * surely;
  if (enough && time >= shortest) return std::nullopt;
  const std::string much =
      fmt::format("{:.2f} L are told to have come over {} {} the heat went on", came.litres(),
                  how_long(before ? time * -1.0 : time), before ? "before" : "after");
  if (before) return much + ".";
  const std::optional<Power> power = most_power(run);
  if (power && *power > Power{} && time < at_least(*power) * surely) {
    return fmt::format(
        "{}: {:.1f} kW need some {} at the least to warm the charge and drive "
        "that over.",
        much, power->kilowatts(), how_long(at_least(*power)));
  }
  if (time < shortest) return much + ": no pot boils so soon.";
  return std::nullopt;
}

// The last that was told of a run before its end: heat, reading or jar.
const Told& last_told(const RunState& run) {
  const Told* last = &run.told;
  const auto look = [&](const Told& told) {
    if (told.at > last->at && !(told.at > run.ended->at)) last = &told;
  };
  const auto reading =
      std::find_if(run.readings.rbegin(), run.readings.rend(),
                   [&run](const RunPoint& point) { return !(point.told.at > run.ended->at); });
  if (reading != run.readings.rend()) look(reading->told);
  for (const auto& [number, jar] : run.jars) {
    if (jar.filled) look(*jar.filled);
  }
  return *last;
}

// Long after the last that was told of it, and the pot was charged anew in between, or for
// longer than any run stands: it is its end that was told wrongly.
void ask_of_its_end(const InOrder& house, const RunState& run, Asking& asking) {
  if (!house.ended_late(run)) return;
  asking.ask(run.ended->entry,
             fmt::format("The {} is told to have ended {} after the last that was told of it.",
                         name(run), how_long(since(run.ended->at, last_told(run).at))));
}

// By the run that went before on the same still; a house of several stills upholds it.
void ask_of_the_one_before(const InOrder& house, const RunState& run, Asking& asking) {
  const RunState* const before = house.before(run);
  if (before == nullptr || !before->ended || house.ended_late(*before)) return;
  const Duration pause = since(run.told.at, before->ended->at);
  if (pause < Duration{}) {
    asking.ask(run.told.entry,
               fmt::format("The heat went on {} before the {} begun earlier is told to have "
                           "ended.",
                           how_long(pause * -1.0), name(*before)));
  } else if (pause < shortest) {
    asking.ask(run.told.entry,
               fmt::format("The heat went on {} after the {} before is told to have ended: in "
                           "that time no pot is emptied and charged.",
                           how_long(pause), name(*before)));
  }
}

// How long before a thing was there it is told to have been used.
std::optional<Duration> too_early(const Told& use, const Told& made) {
  const Duration early = since(made.at, use.at);
  if (early > clocks_differ) return early;
  return std::nullopt;
}

std::string name(const LotState& lot) { return lot.label.empty() ? "the lot" : lot.label; }

void ask_of_the_charge(const InOrder& house, const RunState& run, Asking& asking) {
  for (const LotPart& part : run.parts) {
    const LotState* const of = house.lot(part.lot);
    // Stock may be written down once it was used.
    if (of == nullptr || of->brought || house.used_before(*of) != nullptr) continue;
    if (const auto early = too_early(run.told, house.made(*of))) {
      asking.ask(run.told.entry, fmt::format("The heat is told to have gone on {} before {}, "
                                             "which is in the charge, came to be.",
                                             how_long(*early), name(*of)));
    }
  }
}

void ask_of_the_cut(const InOrder& house, const RunState& run, Asking& asking) {
  if (!run.allotted) return;
  const auto ask = [&](Duration early, const std::string& what) {
    asking.ask(run.allotted->entry,
               fmt::format("The cut is told for a time {} before {}.", how_long(early), what));
  };
  if (run.ended && !house.ended_late(run)) {
    if (const auto early = too_early(*run.allotted, *run.ended)) {
      return ask(*early, "the run ended");
    }
  }
  for (const auto& [number, jar] : run.jars) {
    if (!jar.filled) continue;
    if (const auto early = too_early(*run.allotted, *jar.filled)) {
      return ask(*early, fmt::format("jar {} was filled", number));
    }
  }
}

// Of the jars once; where that was upheld, of the rest by itself.
void ask_of_heat(const InOrder& house, const RunState& run, Asking& asking) {
  Volume came;
  for (const auto& [number, jar] : run.jars) {
    if (!jar.filled) continue;
    came += jar.as_filled.value_or(Volume{});
    const auto why = too_soon(run, jar.filled->at, came);
    if (!why) continue;
    if (asking.ask(jar.filled->entry, *why)) break;
    came = {};
  }
  if (!run.ended || !run.collected_read) return;
  const auto why = too_soon(run, run.ended->at, run.collected_read->volume);
  if (!why) return;
  // Low wines may have been gauged later, by an entry of their own.
  const LotState* const low_wines = house.lot({run.ended->entry, LotKind::low_wines});
  asking.ask(low_wines != nullptr ? low_wines->told.entry : run.ended->entry, *why);
}

// What is told of a run for a time after its end: one entry is asked about itself; of several
// it is the end that was told wrongly, or a logger that was left on. Where the end was upheld,
// a jar is asked about itself: no logger fills it.
void ask_of_what_came_after(const RunState& run, Asking& asking) {
  if (!run.ended) return;
  struct Late {
    const Told* told;
    Puzzle of_itself;
    bool jar;
  };
  std::vector<Late> late;
  const auto look = [&](const Told& told, const std::string& what, bool jar) {
    const Duration after = since(told.at, run.ended->at);
    if (!(after > written_late)) return;
    Puzzle asked{told.entry, fmt::format("{} is told for a time {} after the end of its {}.",
                                         what, how_long(after), name(run))};
    if (!asking.upheld(asked)) late.push_back({&told, std::move(asked), jar});
  };
  for (const RunPoint& point : run.readings) look(point.told, "A reading", false);
  for (const auto& [number, jar] : run.jars) {
    if (jar.filled) look(*jar.filled, fmt::format("The filling of jar {}", number), true);
  }
  if (late.empty()) return;
  const auto first = std::min_element(
      late.begin(), late.end(),
      [](const Late& a, const Late& b) { return told_before(*a.told, *b.told); });
  const std::string begins = fmt::format("The {} is told to have ended ", name(run));
  constexpr std::string_view ends =
      " before more was told of it: its end is told wrongly, or a logger was left on.";
  const bool end_upheld = !asking.answer(run.ended->entry, begins, ends).empty();
  if (late.size() > 1 && !end_upheld) {
    asking.ask(
        run.ended->entry,
        fmt::format("{}{}{}", begins, how_long(since(first->told->at, run.ended->at)), ends));
    return;
  }
  for (const Late& one : late) {
    if (one.jar || !end_upheld) asking.ask(one.of_itself.entry, one.of_itself.why);
  }
}

// Of a run's entries those told for a time before its heat. Where they are several, and no
// fewer than those that came after it, it is the heat that was told late. returns    whether
// the heat was asked about
bool ask_of_what_came_before(const RunState& run, Asking& asking) {
  struct Early {
    const Told* told;
    std::string what;
    bool asked_by_heat;  ///< what came over before the heat is asked about as such
  };
  std::vector<Early> early;
  std::size_t later = run.readings.size();
  const auto look = [&](const Told& told, std::string what, bool asked_by_heat) {
    if (too_early(told, run.told)) {
      early.push_back({&told, std::move(what), asked_by_heat});
    } else {
      ++later;
    }
  };
  for (const Told& reading : run.before_heat) look(reading, "A reading", false);
  for (const auto& [number, jar] : run.jars) {
    if (jar.filled) {
      look(*jar.filled, fmt::format("The filling of jar {}", number),
           jar.as_filled.has_value());
    }
  }
  if (run.ended) look(*run.ended, "The end", run.collected_read.has_value());
  for (const auto& [number, jar] : run.jars) {
    if (jar.gauged && too_early(*jar.gauged, run.told)) {
      early.push_back({&*jar.gauged, fmt::format("The gauging of jar {}", number), false});
    }
  }
  if (early.empty()) return false;
  const auto first = std::min_element(
      early.begin(), early.end(),
      [](const Early& a, const Early& b) { return told_before(*a.told, *b.told); });
  if (early.size() > 1 && early.size() >= later) {
    const std::string begins = "The heat of the run is told to have gone on ";
    constexpr std::string_view ends =
        " after the first that was told of it: what was read before the heat is left out.";
    if (!asking.answer(run.told.entry, begins, ends).empty()) return true;
    asking.ask(
        run.told.entry,
        fmt::format("{}{}{}", begins, how_long(since(run.told.at, first->told->at)), ends));
    return true;
  }
  for (const Early& one : early) {
    if (one.asked_by_heat) continue;
    asking.ask(one.told->entry,
               fmt::format("{} is told for a time {} before the heat of its run went on.",
                           one.what, how_long(since(run.told.at, one.told->at))));
  }
  return false;
}

}  // namespace

InOrder::InOrder(const HouseState& house) {
  for (const LotState& lot : house.lots) lots.emplace(lot.name, &lot);
  for (const auto& [id, batch] : house.batches) {
    for (const RunState& run : batch.runs) runs.push_back(&run);
  }
  std::sort(runs.begin(), runs.end(),
            [](const RunState* a, const RunState* b) { return told_before(a->told, b->told); });
  for (const RunState* const run : runs) {
    if (!run->ended) continue;
    const bool late = is_ended_late(*run);
    if (late) ended_late_.insert(run);
    ends.emplace(run->ended->entry, late ? &last_told(*run) : &*run->ended);
  }
}

bool InOrder::is_ended_late(const RunState& run) const {
  const Moment end = run.ended->at;
  // Of a run that was going nearly all the while the readings need not be looked through.
  if (!(since(end, run.told.at) > written_late)) return false;
  const Told& last = last_told(run);
  const Duration untold = since(end, last.at);
  const Duration stands = &last == &run.told ? stands_over_night : written_late;
  if (!(untold > stands)) return false;
  if (untold > stands_at_most) return true;
  const auto next =
      std::upper_bound(runs.begin(), runs.end(), last.at,
                       [](const Moment& at, const RunState* one) { return at < one->told.at; });
  return next != runs.end() && (*next)->told.at < end;
}

const LotState* InOrder::lot(const LotName& name) const {
  const auto found = lots.find(name);
  return found == lots.end() ? nullptr : found->second;
}

const RunState* InOrder::before(const RunState& run) const {
  const auto found =
      std::lower_bound(runs.begin(), runs.end(), run.told.at,
                       [](const RunState* one, const Moment& at) { return one->told.at < at; });
  return found == runs.begin() ? nullptr : *std::prev(found);
}

const Told& InOrder::made(const LotState& lot) const {
  if (lot.name.kind != LotKind::low_wines) return lot.told;
  const auto end = ends.find(lot.name.entry);
  return end == ends.end() ? lot.told : *end->second;
}

const Told* InOrder::used_before(const LotState& lot) const {
  if (lot.brought) return nullptr;
  const Told& made_at = made(lot);
  const Told* first = nullptr;
  std::size_t early = 0;
  std::size_t all = 0;
  for (const LotUse& use : lot.uses) {
    if (use.told.entry == lot.told.entry) continue;  // gauged as it was made
    ++all;
    if (!too_early(use.told, made_at)) continue;
    ++early;
    if (first == nullptr || told_before(use.told, *first)) first = &use.told;
  }
  return early > 1 && 2 * early >= all ? first : nullptr;
}

void ask_of_its_time(const InOrder& house, const LotState& lot, Asking& asking) {
  const Told* const first = house.used_before(lot);
  if (first == nullptr) return;
  const Told& made = house.made(lot);
  const std::string begins = fmt::format("By its time, {} was made ", name(lot));
  constexpr std::string_view ends = " after it was first used: its making is told late.";
  if (!asking.answer(made.entry, begins, ends).empty()) return;
  asking.ask(made.entry,
             fmt::format("{}{}{}", begins, how_long(since(made.at, first->at)), ends));
}

void ask_of_parents(const InOrder& house, const LotState& lot, Asking& asking) {
  // What topped it up came later, and is asked about there.
  const auto only_topped = [&lot](const LotState& of) {
    const auto tops = [&lot](const LotUse& out) {
      return std::any_of(lot.uses.begin(), lot.uses.end(), [&out](const LotUse& in) {
        return in.where == topped_up && in.told.entry == out.told.entry;
      });
    };
    return std::any_of(of.uses.begin(), of.uses.end(), tops) &&
           std::none_of(of.uses.begin(), of.uses.end(),
                        [&lot](const LotUse& out) { return out.told.entry == lot.told.entry; });
  };
  for (const LotName& parent : lot.parents) {
    const LotState* const of = house.lot(parent);
    if (of == nullptr || of->brought || only_topped(*of)) continue;
    if (house.used_before(*of) != nullptr) continue;
    if (const auto early = too_early(house.made(lot), house.made(*of))) {
      asking.ask(lot.told.entry, fmt::format("{} is told for a time {} before {}, of which it "
                                             "is, came to be.",
                                             name(lot), how_long(*early), name(*of)));
    }
  }
}

void ask_of_use(const InOrder& house, const LotState& lot, const LotUse& use, Asking& asking) {
  // What was made or charged of it is asked about where that is told.
  constexpr std::array<std::string_view, 4> elsewhere = {"charge", "blend", "wood", "bottles"};
  if (lot.brought || house.used_before(lot) != nullptr) return;
  if (std::find(elsewhere.begin(), elsewhere.end(), use.where) != elsewhere.end()) return;
  if (const auto early = too_early(use.told, house.made(lot))) {
    asking.ask(use.told.entry,
               fmt::format("By its time, this was done with {} {} before that lot was made.",
                           name(lot), how_long(*early)));
  }
}

void ask_of_hours(const InOrder& house, const BatchState& batch, Asking& asking) {
  for (const RunState& run : batch.runs) {
    ask_of_the_one_before(house, run, asking);
    ask_of_the_charge(house, run, asking);
    ask_of_the_cut(house, run, asking);
    ask_of_its_end(house, run, asking);
    const bool of_the_heat = ask_of_what_came_before(run, asking);
    ask_of_what_came_after(run, asking);
    if (!of_the_heat) ask_of_heat(house, run, asking);
  }
}

}  // namespace lynearm::journal
