#include "record/run_csv.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <iterator>
#include <utility>

namespace lynearm::record {
namespace {

bool is_space(char c) { return c == ' ' || c == '\t' || c == '\n' || c == '\r'; }

std::string_view trimmed(std::string_view text) {
  while (!text.empty() && is_space(text.front())) text.remove_prefix(1);
  while (!text.empty() && is_space(text.back())) text.remove_suffix(1);
  return text;
}

}  // namespace

RunCsv::RunCsv(std::string file, std::optional<units::Duration> heat_on)
    : file_(std::move(file)), reader_(file_), clock_(heat_on) {}

RunRows RunCsv::feed(std::string_view text) {
  reader_.feed(text);
  return take();
}

RunRows RunCsv::finish() {
  reader_.finish();
  return take();
}

RunRows RunCsv::take() {
  RunRows answer;
  if (!usable_) return answer;
  try {
    if (!begun_) {
      const delimited::Head* const head = reader_.head();
      if (head == nullptr) return answer;
      begun_ = true;
      begin(*head, answer.faults);
    }
  } catch (const base::InputError& error) {
    answer.faults = error.faults();
    usable_ = false;
  }
  if (!usable_) return answer;
  while (const std::optional<delimited::Row> row = reader_.next()) {
    ++rows_;
    if (row->fault) {
      answer.faults.push_back(*row->fault);
    } else if (auto reading = read(*row, answer.faults)) {
      answer.readings.push_back(std::move(*reading));
      continue;
    }
    ++failed_;
  }
  return answer;
}

void RunCsv::begin(const delimited::Head& head, std::vector<base::Fault>& faults) {
  const auto tell = [&](std::string field, std::string value, std::string accepted) {
    faults.push_back(
        {std::move(field), std::move(value), std::move(accepted), file_, head.line});
  };
  if (head.columns.size() == 1 &&
      head.columns.front().find_first_of(";\t") != std::string::npos) {
    tell("head line", head.columns.front(), "columns parted by commas");
    usable_ = false;
    return;
  }
  // A table with hundreds of unknown names is another table; each is compared with all of ours.
  constexpr std::size_t most_told = 20;
  std::size_t unknown = 0;
  for (std::size_t i = 0; i < head.columns.size(); ++i) {
    const std::string name(trimmed(head.columns[i]));
    const auto key = RunKey::find(name);
    if (!key) {
      if (++unknown > most_told) continue;
      const std::string field = name.empty() ? fmt::format("head of column {}", i + 1) : "head";
      tell(field, name, accepted_names(name));
      continue;
    }
    const auto same = std::find_if(columns_.begin(), columns_.end(), [&](const Column& column) {
      return column.key.about() == key->about();
    });
    if (same != columns_.end()) {
      tell("head", name, fmt::format("one column of that kind; there is {} too", same->head));
      // Which of two times holds cannot be guessed; of other figures the first one serves.
      if (key->about() == "at") usable_ = false;
      continue;
    }
    columns_.push_back({i, name, *key});
  }
  if (unknown > most_told) {
    tell("head", fmt::format("{} more unknown names", unknown - most_told),
         "names of the run log");
  }
  const auto time = std::find_if(columns_.begin(), columns_.end(), [](const Column& column) {
    return column.key.about() == "at";
  });
  if (time == columns_.end()) {
    tell("column of time", "", R"(a column "minutes", "hours" or "clock")");
    usable_ = false;
    return;
  }
  std::rotate(columns_.begin(), time, time + 1);
}

std::optional<still::Reading> RunCsv::read(const delimited::Row& row,
                                           std::vector<base::Fault>& faults) {
  const std::size_t before = faults.size();
  still::Reading reading;
  reading.line = row.line;
  units::Duration time_of_day;
  const auto tell = [&](const Column& column, std::string accepted) {
    faults.push_back({"column " + column.head, std::string(trimmed(row.cells[column.place])),
                      std::move(accepted), file_, row.line});
  };
  for (const Column& column : columns_) {
    const std::string_view cell = trimmed(row.cells[column.place]);
    if (column.key.is_clock()) {
      const auto time = clock_time(cell);
      if (!time) {
        tell(column, std::string(clock_words));
        continue;
      }
      time_of_day = *time;
      reading.at = clock_.since_heat_on(*time);
    } else if (!cell.empty()) {
      std::string accepted = column.key.put(reading, cell);
      if (!accepted.empty()) tell(column, std::move(accepted));
    } else if (column.key.about() == "at") {
      tell(column, "the time since the heat was turned on");
    }
  }
  for (base::Fault& fault : still::faults_of(reading)) {
    const auto column = std::find_if(columns_.begin(), columns_.end(), [&](const Column& c) {
      return c.key.about() == fault.field;
    });
    base::ensure(column != columns_.end(), "a fault is of a figure that was read");
    tell(*column, std::move(fault.accepted));
  }
  if (faults.size() > before) return std::nullopt;
  if (columns_.front().key.is_clock()) {
    std::optional<bool> stopped;
    if (reading.event) stopped = *reading.event == still::Event::stopped;
    clock_.pass(reading.at, time_of_day, stopped);
  }
  return reading;
}

RunRead read_run_csv(std::string_view text, const std::string& file,
                     std::optional<units::Duration> heat_on) {
  RunCsv csv(file, heat_on);
  RunRead whole;
  for (RunRows part : {csv.feed(text), csv.finish()}) {
    std::move(part.readings.begin(), part.readings.end(),
              std::back_inserter(whole.record.readings));
    std::move(part.faults.begin(), part.faults.end(), std::back_inserter(whole.faults));
  }
  for (base::Fault& fault : still::faults_of(whole.record)) {
    fault.file = file;
    whole.faults.push_back(std::move(fault));
  }
  return whole;
}

}  // namespace lynearm::record
