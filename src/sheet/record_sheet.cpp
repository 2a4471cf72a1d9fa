#include "sheet/record_sheet.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "sheet/batch_parts.hpp"
#include "sheet/record_parts.hpp"

namespace lynearm::sheet {
namespace {

using journal::Stage;

Html mash_and_wort(const Batch& batch) { return mash_part(batch) + wort_part(batch); }

bool ran(const journal::BatchState& batch, journal::RunKind kind) {
  return std::any_of(batch.runs.begin(), batch.runs.end(),
                     [&](const journal::RunState& run) { return run.kind == kind; });
}

bool jars_stand(const journal::BatchState& batch) {
  return std::any_of(batch.runs.begin(), batch.runs.end(),
                     [](const journal::RunState& run) { return !run.jars.empty(); });
}

bool fermented(const journal::BatchState& batch) {
  const journal::FermentState& ferment = batch.ferment;
  return ferment.pitch || !ferment.points.empty() || ferment.racked;
}

bool mashed(const journal::BatchState& batch) {
  const journal::MashState& mash = batch.mash;
  return !mash.temperatures.empty() || !mash.waters.empty() || !mash.checks.empty() ||
         !mash.worts.empty() || !batch.steps.empty() || batch.ferment.pitch;
}

}  // namespace

bool has_begun(const journal::BatchState& batch) {
  return mashed(batch) || fermented(batch) || !batch.additions.empty() || !batch.runs.empty() ||
         batch.closed;
}

std::string record_sheet(const Recorded& recorded, Paper paper) {
  const Record record{recorded,
                      {recorded.recipe, recorded.kit, recorded.plan, nullptr, recorded.system},
                      recorded.batch,
                      recorded.system,
                      journal::standings(recorded.entries)};
  const journal::BatchState& batch = recorded.batch;
  Html body = record_front(record);
  body += record_steps(record) + record_alcohol(record) + record_kit(record);
  body += mashed(batch) ? record_mash(record)
                        : ahead(record, {Stage::mash_bill, Stage::mash}, mash_and_wort, "Mash");
  body += fermented(batch) ? record_ferment(record)
                           : ahead(record, {Stage::ferment}, ferment_part, "Ferment");
  body += ran(batch, journal::RunKind::strip)
              ? record_strips(record)
              : ahead(record, {Stage::strip}, strip_part, "Strip");
  body += ran(batch, journal::RunKind::spirit)
              ? record_spirit(record)
              : ahead(record, {Stage::spirit_run}, spirit_part, "Spirit run");
  body +=
      jars_stand(batch) ? record_jars(record) : ahead(record, {Stage::jars}, jars_part, "Jars");
  body += record_finish(record) + record_lots(record) + record_ledger(record);
  body += record_doubts(record) + record_corrections(record);
  Writer out;
  out.open("div", {{"class", "record"}}).html(body).close();
  const std::string title = fmt::format("{}: the record", batch.name);
  return page({.title = title,
               .subtitle = recorded.kit.name,
               .running_head = title,
               .running_foot = fmt::format("Lynearm · {}", recorded.kit.name),
               .paper = paper},
              out.finish());
}

}  // namespace lynearm::sheet
