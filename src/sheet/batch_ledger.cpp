// Where the pure alcohol went, and what the batch used, on paper.
#include <fmt/format.h>

#include "sheet/batch_parts.hpp"
#include "spirit/account.hpp"

namespace lynearm::sheet {
namespace {

std::string amount(units::Volume pure_alcohol, units::System system) {
  return with_minus(system == units::System::us ? units::fixed(pure_alcohol.us_gallons(), 3)
                                                : units::fixed(pure_alcohol.litres(), 2));
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

Html entries(const Batch& batch) {
  const plan::Ledger& ledger = batch.plan.ledger;
  Table table_of{.caption = fmt::format("Pure alcohol at 20 °C, {}", volume_unit(batch.system)),
                 .columns = {{"Stage", Align::left},
                             {"", Align::left, 40},
                             {"in", Align::right, 8},
                             {"lost", Align::right, 9},
                             {"kept", Align::right, 9},
                             {"out", Align::right, 9},
                             {"measured", Align::left, 16}},
                 .rows = {}};
  std::string stage;
  for (const plan::LedgerEntry& entry : ledger.entries) {
    if (entry.pure_alcohol < units::Volume::millilitres(0.5)) continue;
    std::vector<std::string> row(7, std::string(no_figure));
    if (entry.stage != stage) row[0] = tight(entry.stage);
    stage = entry.stage;
    row[1] = entry.name;
    row[6].clear();
    row[column_of(entry.flow)] = amount(entry.pure_alcohol, batch.system);
    table_of.rows.push_back(std::move(row));
  }
  table_of.rows.push_back({std::string(no_figure), "together",
                           amount(ledger.total(plan::Flow::in), batch.system),
                           amount(ledger.total(plan::Flow::lost), batch.system),
                           amount(ledger.total(plan::Flow::kept), batch.system),
                           amount(ledger.total(plan::Flow::out), batch.system), ""});
  if (batch.system != units::System::metric) {
    table_of.rows.push_back({std::string(no_figure), "in US proof gallons",
                             proof_gallons(ledger.total(plan::Flow::in)),
                             proof_gallons(ledger.total(plan::Flow::lost)),
                             proof_gallons(ledger.total(plan::Flow::kept)),
                             proof_gallons(ledger.total(plan::Flow::out)), ""});
  }
  return table(table_of);
}

Html stages(const Batch& batch) {
  Table table_of{.caption = fmt::format("Through each stage, {}", volume_unit(batch.system)),
                 .columns = {{"Stage", Align::left},
                             {"in", Align::right, 14},
                             {"through", Align::right, 14},
                             {"share", Align::right, 14},
                             {"measured in", Align::left, 18},
                             {"measured through", Align::left, 18}},
                 .rows = {}};
  for (const plan::StageYield& stage : batch.plan.ledger.stages) {
    const std::string share =
        stage.in > units::Volume{}
            ? tight(fmt::format("{:.1f} %", 100.0 * (stage.out / stage.in)))
            : std::string{};
    table_of.rows.push_back({stage.stage, amount(stage.in, batch.system),
                             amount(stage.out, batch.system), share, "", ""});
  }
  return table(table_of);
}

Html costs(const Batch& batch) {
  const plan::Uses& uses = batch.plan.uses;
  if (uses.costs.empty()) return {};
  Table table_of{
      .caption = "",
      .columns = {{"Cost", Align::left},
                  {batch.recipe.prices.currency.empty() ? "amount"
                                                        : batch.recipe.prices.currency,
                   Align::right},
                  {"paid", Align::left, 26}},
      .rows = {}};
  for (const plan::CostLine& line : uses.costs) {
    table_of.rows.push_back({line.what, units::fixed(line.amount, 2), ""});
  }
  table_of.rows.push_back({"together", units::fixed(uses.cost, 2), ""});
  if (uses.cost_per_bottle) {
    table_of.rows.push_back({"a bottle", units::fixed(*uses.cost_per_bottle, 2), ""});
  }
  return table(table_of);
}

}  // namespace

Html ledger_part(const Batch& batch) {
  Html text = heading("Ledger") + entries(batch) + stages(batch);
  if (batch.system != units::System::metric) {
    text = text + small_print(
                      "A US proof gallon is a gallon at 60 °F that holds half its volume of "
                      "alcohol (27 CFR 30.11).");
  }
  return text + small_print(
                    "The plan closes to rounding; what is measured never does. What stays "
                    "unaccounted for, write here: ________________");
}

Html uses_part(const Batch& batch) {
  const plan::Uses& uses = batch.plan.uses;
  Table table_of{.caption = "",
                 .columns = {{"Used", Align::left},
                             {"planned", Align::right, 26},
                             {"measured", Align::left, 26}},
                 .rows = {}};
  const auto put = [&](const char* what, const auto& quantity) {
    table_of.rows.push_back({what, cell(quantity, batch.system), ""});
  };
  put("Energy, mash", uses.mash);
  put("Energy, strips", uses.strip);
  put("Energy, spirit run", uses.spirit_run);
  put("Energy, all", uses.energy());
  put("Water into the batch", uses.process_water);
  put("Coolant", uses.coolant);
  const Html used = table(table_of);
  const Html paid = costs(batch);
  return subheading("Energy, water, cost") + (paid.text.empty() ? used : beside(used, paid));
}

}  // namespace lynearm::sheet
