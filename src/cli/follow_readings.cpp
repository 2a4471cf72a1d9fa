#include "cli/follow_readings.hpp"

#include <fmt/format.h>

#include <string_view>

#include "cli/arriving.hpp"
#include "record/run_csv.hpp"
#include "wire/run_reading.hpp"

namespace lynearm::cli {
namespace {

/// Hands readings on and counts.
class Rows {
 public:
  Rows(std::string file, const TakeReading& take, const TellFaults& tell)
      : file_(std::move(file)), take_(take), tell_(tell), csv_(file_), json_(file_) {}

  void feed(std::string_view text) {
    if (kind_ == Kind::unknown) {
      begun_ += text;
      const std::size_t first = begun_.find_first_not_of(" \t\r\n\xef\xbb\xbf");
      if (first == std::string::npos) return;
      kind_ = begun_[first] == '{' ? Kind::json : Kind::csv;
      const std::string all = std::move(begun_);
      take_text(all);
      return;
    }
    take_text(text);
  }

  RowsTaken finish() {
    if (kind_ == Kind::csv) answer(csv_.finish());
    if (kind_ == Kind::json && !line_.empty()) take_line(line_);
    if (kind_ == Kind::csv && csv_.failed() > rows_.failed) rows_.failed = csv_.failed();
    return rows_;
  }

 private:
  enum class Kind { unknown, csv, json };

  void take_text(std::string_view text) {
    if (kind_ == Kind::csv) {
      answer(csv_.feed(text));
      return;
    }
    while (!text.empty()) {
      const std::size_t end = text.find('\n');
      line_ += text.substr(0, end);
      if (end == std::string_view::npos) return;
      take_line(line_);
      line_.clear();
      text.remove_prefix(end + 1);
    }
  }

  void take_line(const std::string& line) {
    const wire::ReadingLine read = json_.next(line);
    if (!read.faults.empty()) fail(read.faults);
    if (read.reading) take_reading(*read.reading);
  }

  void answer(const record::RunRows& rows) {
    if (!rows.faults.empty()) fail(rows.faults);
    for (const still::Reading& reading : rows.readings) take_reading(reading);
  }

  void take_reading(const still::Reading& reading) {
    try {
      take_(reading);
      ++rows_.taken;
    } catch (const base::InputError& error) {
      std::vector<base::Fault> faults = error.faults();
      for (base::Fault& fault : faults) {
        fault.file = file_;
        fault.line = reading.line;
      }
      fail(faults);
    }
  }

  void fail(const std::vector<base::Fault>& faults) {
    // Several faults of one line are one row.
    int line = -1;
    for (const base::Fault& fault : faults) {
      if (fault.line != line) ++rows_.failed;
      line = fault.line;
    }
    tell_(faults);
  }

  std::string file_;
  const TakeReading& take_;
  const TellFaults& tell_;
  record::RunCsv csv_;
  wire::ReadingLines json_;
  Kind kind_ = Kind::unknown;
  std::string begun_, line_;
  RowsTaken rows_;
};

}  // namespace

RowsTaken read_readings(const std::string& path, const std::string& option,
                        const TakeReading& take, const TellFaults& tell) {
  Arriving source(path, option, "a log of readings, CSV or JSON lines");
  Rows rows(source.name(), take, tell);
  for (std::string_view text = source.read(); !text.empty(); text = source.read()) {
    rows.feed(text);
  }
  return rows.finish();
}

}  // namespace lynearm::cli
