// The log of a run comes from a spreadsheet, a logger or a hand. Whatever it is, it is read or
// told: every row gives one reading with figures an instrument can show, or faults at its line;
// and however the text was cut into pieces, the answer is the same.
#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "record/clock.hpp"
#include "record/run_csv.hpp"
#include "record/run_key.hpp"
#include "still/reading.hpp"

namespace {

using namespace lynearm;

void hold(bool holds) {
  if (!holds) std::abort();  // libFuzzer keeps the text that led here
}

record::RunRows in_pieces(record::RunCsv& csv, std::string_view text, std::size_t size) {
  record::RunRows all;
  const auto take = [&](const record::RunRows& rows) {
    all.readings.insert(all.readings.end(), rows.readings.begin(), rows.readings.end());
    all.faults.insert(all.faults.end(), rows.faults.begin(), rows.faults.end());
  };
  for (std::size_t i = 0; i < text.size(); i += size) take(csv.feed(text.substr(i, size)));
  take(csv.finish());
  return all;
}

void as_table(const std::string& text) {
  record::RunCsv whole("run.csv");
  const record::RunRows rows = in_pieces(whole, text, text.size() + 1);
  hold(rows.readings.size() + whole.failed() == whole.rows());
  hold(rows.faults.size() >= whole.failed());
  const auto lines = 1 + std::count(text.begin(), text.end(), '\n');
  for (const still::Reading& reading : rows.readings) {
    hold(still::faults_of(reading).empty());
    hold(std::isfinite(reading.at.seconds()));
    hold(reading.line >= 2 && reading.line <= lines);
  }
  for (const base::Fault& fault : rows.faults) {
    hold(!fault.accepted.empty() && fault.file == "run.csv");
    hold(fault.line >= 1 && fault.line <= lines);
  }
  record::RunCsv cut("run.csv");
  const record::RunRows again = in_pieces(cut, text, 7);
  hold(again.readings == rows.readings && again.faults == rows.faults);
  const record::RunRead read =
      record::read_run_csv(text, "run.csv", units::Duration::hours(22.0));
  hold(read.record.readings.size() + read.faults.size() >= rows.readings.size());
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  as_table(text);
  as_table("minutes,power_W,pot_temperature_C,head_temperature_F,spout_proof\n" + text);
  as_table("clock,spout,spout_temperature,collected,coolant_flow,event,note\n" + text);
  (void)record::RunKey::find(text);
  hold(!record::accepted_names(text.substr(0, 64)).empty());
  const auto time = record::clock_time(text);
  hold(!time || (*time >= units::Duration{} && *time < units::Duration::days(1.0)));
  return 0;
}
