// The log of a run as a table of comma-separated text, reading by reading as it comes in.
//
// Model: a head line of names (run_key.hpp) in any order, one reading a row, an empty cell is
// "not read". A row with a fault gives no reading, and the others are not touched by it; a
// column of an unknown name is told once and passed over. Readings keep the order in which they
// came and the time they state. Leaves out whether a figure fits the run.
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "delimited/reader.hpp"
#include "record/clock.hpp"
#include "record/run_key.hpp"
#include "still/reading.hpp"

namespace lynearm::record {

/// What a piece of text was answered with.
struct RunRows {
  std::vector<still::Reading> readings;
  std::vector<base::Fault> faults;  ///< with file and line, in the order of the rows
};

class RunCsv {
 public:
  /// file       what the faults call the text
  /// heat_on    time of day when the heat was turned on, for a column "clock"; empty: at the
  ///            first row
  explicit RunCsv(std::string file, std::optional<units::Duration> heat_on = std::nullopt);

  /// The rows that are whole with this text. Does not throw: a head line that will not do (no
  /// time, two of them) is a fault, told once, and gives no readings.
  [[nodiscard]] RunRows feed(std::string_view text);
  /// The same for the last row, when no more text comes.
  [[nodiscard]] RunRows finish();

  [[nodiscard]] std::size_t rows() const { return rows_; }      ///< under the head, so far
  [[nodiscard]] std::size_t failed() const { return failed_; }  ///< of them
  [[nodiscard]] std::size_t held() const { return reader_.held(); }

 private:
  struct Column {
    std::size_t place = 0;
    std::string head;
    RunKey key;
  };
  RunRows take();
  void begin(const delimited::Head& head, std::vector<base::Fault>& faults);
  std::optional<still::Reading> read(const delimited::Row& row,
                                     std::vector<base::Fault>& faults);

  std::string file_;
  delimited::Reader reader_;
  Clock clock_;
  std::vector<Column> columns_;  ///< time first
  bool begun_ = false;
  bool usable_ = true;
  std::size_t rows_ = 0;
  std::size_t failed_ = 0;
};

/// A whole text: what it holds and every fault in it, those of the record as a whole last.
struct RunRead {
  still::Record record;
  std::vector<base::Fault> faults;
};
[[nodiscard]] RunRead read_run_csv(std::string_view text, const std::string& file,
                                   std::optional<units::Duration> heat_on = std::nullopt);

}  // namespace lynearm::record
