// Where the pure alcohol went, what the batch uses and costs, and its days, in text.
#include <fmt/format.h>

#include "cli/plan_text_parts.hpp"
#include "spirit/account.hpp"
#include "units/restate.hpp"
namespace lynearm::cli::planned {
namespace {

std::string amount(units::Volume pure_alcohol, units::System system) {
  return system == units::System::us ? units::fixed(pure_alcohol.us_gallons(), 3)
                                     : units::fixed(pure_alcohol.litres(), 2);
}

std::string proof_gallons(units::Volume pure_alcohol) {
  const auto alcohol = spirit::PureAlcohol::litres(pure_alcohol.litres());
  return units::fixed(spirit::proof_gallons(alcohol).gallons(), 2);
}

std::size_t column_of(plan::Flow flow) {
  switch (flow) {
    case plan::Flow::in:
      return 2;
    case plan::Flow::lost:
      return 3;
    case plan::Flow::kept:
      return 4;
    case plan::Flow::out:
      break;
  }
  return 5;
}

std::string entries(const Batch& batch) {
  const plan::Ledger& ledger = batch.plan.ledger;
  const units::System system = batch.look.units;
  std::vector<std::vector<std::string>> rows;
  std::string last;
  for (const plan::LedgerEntry& entry : ledger.entries) {
    if (entry.pure_alcohol < units::Volume::millilitres(0.5)) continue;
    std::vector<std::string> row = {
        entry.stage == last ? std::string() : entry.stage, entry.name, "", "", "", ""};
    row[column_of(entry.flow)] = amount(entry.pure_alcohol, system);
    rows.push_back(std::move(row));
    last = entry.stage;
  }
  rows.push_back({"", "together", amount(ledger.total(plan::Flow::in), system),
                  amount(ledger.total(plan::Flow::lost), system),
                  amount(ledger.total(plan::Flow::kept), system),
                  amount(ledger.total(plan::Flow::out), system)});
  if (system != units::System::metric) {
    rows.push_back({"", "in US proof gallons", proof_gallons(ledger.total(plan::Flow::in)),
                    proof_gallons(ledger.total(plan::Flow::lost)),
                    proof_gallons(ledger.total(plan::Flow::kept)),
                    proof_gallons(ledger.total(plan::Flow::out))});
  }
  return grid({{"", Side::left}, {"", Side::left}, {"in"}, {"lost"}, {"kept"}, {"out"}}, rows);
}

std::string yields(const Batch& batch) {
  std::string text;
  for (const plan::StageYield& stage : batch.plan.ledger.stages) {
    if (!(stage.in > units::Volume{})) continue;
    text += fmt::format("{}{} {:.0f} %", text.empty() ? "" : ", ", stage.stage,
                        100.0 * (stage.out / stage.in));
  }
  return fmt::format("Of the pure alcohol that comes to a stage there goes on: {}.", text);
}

std::string uses(const Batch& batch) {
  const plan::Uses& uses = batch.plan.uses;
  std::string text = "\n";
  text += lines({{"Energy", batch.print(uses.energy()), "",
                  fmt::format("mash {}, strips {}, spirit run {}", batch.print(uses.mash),
                              batch.print(uses.strip), batch.print(uses.spirit_run))},
                 {"Water", batch.print(uses.process_water), "",
                  fmt::format("into the batch; {} of coolant", batch.print(uses.coolant))}});
  if (uses.costs.empty()) return text;
  const std::string& currency = batch.recipe.prices.currency;
  std::string costs;
  for (const plan::CostLine& line : uses.costs) {
    costs += fmt::format("{}{} {}", costs.empty() ? "" : ", ", line.what,
                         units::fixed(line.amount, 2));
  }
  std::string sum = fmt::format("Cost: {}{}{}", units::fixed(uses.cost, 2),
                                currency.empty() ? "" : " ", currency);
  if (uses.cost_per_bottle) {
    sum += fmt::format(", {} a bottle", units::fixed(*uses.cost_per_bottle, 2));
  }
  std::string unpriced;
  for (const std::string& what : uses.unpriced) {
    unpriced +=
        fmt::format("{}{}", unpriced.empty() ? " Without a price, and left out: " : ", ", what);
  }
  if (!unpriced.empty()) unpriced += ".";
  return text + paragraph(fmt::format("{}. In it: {}.{}", sum, costs, unpriced));
}

const char* words(plan::Attention attention) {
  switch (attention) {
    case plan::Attention::hands_on:
      return "hands on";
    case plan::Attention::watch:
      return "watch";
    case plan::Attention::wait:
      return "wait";
  }
  return "";
}

}  // namespace

std::string ledger_part(const Batch& batch) {
  std::string text = heading("Ledger", batch.look);
  text += paragraph(fmt::format(
      "Pure alcohol at 20 °C, {}. The plan closes; what is measured never quite does.",
      batch.look.units == units::System::us ? "gallons" : "litres"));
  text += entries(batch);
  if (batch.look.units != units::System::metric) {
    text += paragraph(
        "A US proof gallon is a gallon at 60 °F that holds half its volume of alcohol (27 CFR "
        "30.11).");
  }
  return text + paragraph(yields(batch)) + uses(batch);
}

std::string timeline_part(const Batch& batch) {
  std::vector<std::vector<std::string>> rows;
  std::string last_day;
  for (const plan::Step& step : batch.plan.timeline.steps) {
    const std::string both = plan::clock(step.start);  // "day 8 14:26"
    const std::size_t space = both.rfind(' ');
    const std::string day = both.substr(0, space);
    rows.push_back({day == last_day ? std::string() : day, both.substr(space + 1),
                    batch.print(step.length), words(step.attention),
                    units::restated(step.beside ? "meanwhile: " + step.what : step.what,
                                    batch.look.units)});
    last_day = day;
  }
  return heading("Timeline", batch.look) +
         grid({{"", Side::left}, {""}, {"for"}, {"", Side::left}, {"", Side::left}}, rows) +
         paragraph(
             "Watch: heat is on or spirit runs, and someone stays. Nothing that wants hands "
             "starts at night; a run that would end late waits for the morning.");
}

}  // namespace lynearm::cli::planned
