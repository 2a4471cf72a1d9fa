// The account of pure alcohol: planned beside measured through each stage, step by step as it
// was measured, and what is unaccounted for.
#include <fmt/format.h>

#include <map>

#include "journal/account.hpp"
#include "numeric/normal.hpp"
#include "sheet/record_flow.hpp"
#include "sheet/record_parts.hpp"

namespace lynearm::sheet {
namespace {

using journal::LotKind;
using journal::LotState;

int decimals_of(units::System system) { return system == units::System::us ? 3 : 2; }

// As it is read off the paper: what parts printed figures is reckoned of these.
double printed(units::Volume pure, units::System system, int decimals) {
  return as_printed(system == units::System::us ? pure.us_gallons() : pure.litres(), decimals);
}
double printed(units::Volume pure, units::System system) {
  return printed(pure, system, decimals_of(system));
}

std::string figure_text(double amount, int decimals) {
  return with_minus(units::fixed(amount, decimals));
}

std::string amount(units::Volume pure, units::System system) {
  return figure_text(printed(pure, system), decimals_of(system));
}

spirit::Lot bottled(const Record& record) {
  spirit::Lot sum;
  for (const LotState* lot : lots_of(record, LotKind::bottles)) {
    if (lot->bottles) {
      sum = sum + spirit::lot(lot->bottles->size * static_cast<double>(lot->bottles->bottles),
                              lot->bottles->strength);
    }
  }
  return sum;
}

// Pure alcohol through each stage of the plan, and as it was measured.
Html stages(const Record& record, const journal::BatchAccount& account) {
  const units::System system = record.system;
  struct Through {
    std::optional<units::Volume> in, out;
  };
  std::map<std::string, Through, std::less<>> measured;
  const auto add = [](std::optional<units::Volume>& to, units::Volume more) {
    to = to.value_or(units::Volume{}) + more;
  };
  if (record.batch.ferment.wash) {
    measured["Ferment"].out = record.batch.ferment.wash->pure_alcohol;
  }
  for (const journal::AccountStep& step : account.steps) {
    if (step.stage == journal::Stage::strip) {
      add(measured["Strip"].in, step.in.value);
      add(measured["Strip"].out, step.out.value);
    } else if (step.stage == journal::Stage::spirit_run) {
      add(measured["Spirit run"].in, step.in.value);
    }
  }
  const auto hearts = lots_of(record, LotKind::hearts);
  if (!hearts.empty()) measured["Spirit run"].out = spirit::pure_alcohol(sum_made(hearts));
  const auto passed = [&](const char* stage, const Passed& lots) {
    if (lots.in) add(measured[stage].in, spirit::pure_alcohol(*lots.in));
    if (lots.out) add(measured[stage].out, spirit::pure_alcohol(*lots.out));
  };
  passed("Reduce", through_reduce(record));
  passed("Wood", through_wood(record));
  for (const LotState* lot : lots_of(record, LotKind::bottles)) {
    add(measured["Bottle"].in, spirit::pure_alcohol(lot->made));
  }
  if (measured.count("Bottle") > 0) {
    measured["Bottle"].out = spirit::pure_alcohol(bottled(record));
  }
  Table through{.caption = fmt::format("Through each stage, {}", volume_unit(system)),
                .columns = {{"Stage", Align::left},
                            {"in, planned", Align::right},
                            {"measured", Align::right},
                            {"through, planned", Align::right},
                            {"measured", Align::right},
                            {"less or more than planned", Align::right}},
                .rows = {}};
  const std::string none(no_figure);
  for (const plan::StageYield& stage : record.planned.plan.ledger.stages) {
    const auto at = measured.find(stage.stage);
    const Through found = at == measured.end() ? Through{} : at->second;
    // Of the mash nobody measures alcohol, nor what goes into a ferment.
    const bool never_in = stage.stage == "Mash" || stage.stage == "Ferment";
    const bool never_out = stage.stage == "Mash";
    std::string by = none;
    // Of a batch in hand the rest may still lie on wood, or wait for bottles.
    const bool may_come =
        !record.batch.closed && (stage.stage == "Wood" || stage.stage == "Bottle");
    if (found.out && may_come) {
      by = "so far";
    } else if (found.out) {
      by = less_or_more(printed(*found.out, system) - printed(stage.out, system),
                        decimals_of(system));
    }
    through.rows.push_back({stage.stage, amount(stage.in, system),
                            found.in   ? amount(*found.in, system)
                            : never_in ? none
                                       : open_cell(record),
                            amount(stage.out, system),
                            found.out   ? amount(*found.out, system)
                            : never_out ? none
                                        : open_cell(record),
                            std::move(by)});
    if (stage.stage != "Strip") continue;
    // Else the strips take in less than the ferment gave, and nothing says where the rest is.
    const auto held = [&](const char* name, const journal::WashHeld& wash) {
      if (!(wash.volume > units::Volume{})) return;
      through.rows.push_back({fmt::format("{}, {}", name, cell(wash.volume, system)), none,
                              amount(wash.pure_alcohol, system), none, none, none});
    };
    held(record.batch.closed ? "Wash not charged" : "Wash waiting in its vessel",
         account.waiting);
    held(record.batch.closed ? "Wash in runs never measured" : "Wash in runs not measured yet",
         account.in_stills);
  }
  return table(through);
}

// What is missed is small against what goes through: it shows a place further on.
struct Fine {
  units::System system = units::System::metric;
  int decimals = decimals_of(system) + 1;

  [[nodiscard]] double printed(units::Volume pure) const {
    return sheet::printed(pure, system, decimals);
  }
  [[nodiscard]] std::string text(units::Volume pure) const {
    return figure_text(printed(pure), decimals);
  }
  [[nodiscard]] std::string give_or_take(double value, units::Volume sd) const {
    return tight(
        fmt::format("{} ± {}", figure_text(value, decimals), text(sd * numeric::half_of_80)));
  }
  [[nodiscard]] std::string text(journal::PureVolume volume) const {
    return give_or_take(printed(volume.value), volume.sd);
  }
};

Html steps(const Record& record, const journal::BatchAccount& account) {
  if (account.steps.empty()) return {};
  const Fine fine{record.system};
  Table gaps{.caption = fmt::format("Step by step as measured, {}", volume_unit(record.system)),
             .columns = {{"Step", Align::left, 16},
                         {"in", Align::right, 12},
                         {"out", Align::right, 12},
                         {"gone, with a name", Align::left},
                         {"unaccounted for", Align::right, 13},
                         {"", Align::left, 17}},
             .rows = {}};
  journal::PureVolume all;
  double all_printed = 0.0;
  const std::string none(no_figure);
  for (const journal::AccountStep& step : account.steps) {
    std::string named;
    double gap = fine.printed(step.in.value) - fine.printed(step.out.value);
    for (const auto& [name, lost] : step.named) {
      named += fmt::format("{}{} {}", named.empty() ? "" : "; ", fine.text(lost.value), name);
      gap -= fine.printed(lost.value);
    }
    gaps.rows.push_back({step.what, fine.text(step.in), fine.text(step.out),
                         named.empty() ? none : named,
                         fine.give_or_take(gap, step.unaccounted.sd),
                         step.telling ? "more than gauging explains" : "within gauging"});
    all = all + step.unaccounted;
    all_printed += gap;
  }
  return table(gaps) +
         small_print(fmt::format(
             "Unaccounted for: in, less out, less what has a name; below nought: more came out "
             "than went in. Over these steps together {} {}. ±: half an 80 % band; within "
             "gauging is what two standard deviations explain, half as much again. A volume at "
             "a "
             "mark is read to {:.0f} %, one standard deviation, a strength by {}.",
             fine.give_or_take(all_printed, all.sd), volume_unit(record.system),
             100.0 * journal::volume_share_sd, journal::words(account.glass)));
}

}  // namespace

Html record_ledger(const Record& record) {
  const journal::BatchAccount account = journal::account(
      record.from.house, record.batch, journal::glass_of(record.from.kit.instruments));
  return heading("Ledger of pure alcohol, at 20 °C") + stages(record, account) +
         steps(record, account) + told_besides(record, journal::Stage::ledger);
}

}  // namespace lynearm::sheet
