// A column of readings corrected as its text comes in: rows of a table in, the same rows with
// their true strength behind them out. Pure: knows no file and prints nothing.
//
// Model: each row is one gauging, reading and temperature by spirit::true_mass_fraction(); a
// volume or mass beside it was measured at that temperature. A row with a fault has no output,
// and the others are not touched by it. Leaves out obscured spirit (sugar, wood).
#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "cli/gauge_columns.hpp"
#include "delimited/reader.hpp"
#include "spirit/hydrometer.hpp"

namespace lynearm::cli {

/// Told with a temperature that is too high: at the spout it is more than a fault of the input.
inline constexpr std::string_view too_warm_caution =
    "; spirit above 40 °C at the spout means vapour may be escaping: heat off first, then let "
    "the sample cool in a closed jar";

/// What a piece of text was answered with.
struct GaugedRows {
  std::string csv;                  ///< whole lines; the head line comes with the first piece
  std::vector<base::Fault> faults;  ///< with file and line, in the order of the rows
};

class GaugeRows {
 public:
  /// file       what the faults call the text
  explicit GaugeRows(const std::string& file, const spirit::Hydrometer& hydrometer = {});

  /// The rows that are whole with this text, each as a line: its own cells, then
  /// strength_percent_vol_20C, strength_percent_mass, us_proof, density_kg_m3_20C; where the
  /// table has a volume or mass also volume_L_20C and pure_alcohol_L_20C, empty where the row
  /// has none. Ten significant digits, as in the JSON of wire/.
  ///
  /// throws     InputError (file, line) where the head line will not do; see gauge_columns()
  [[nodiscard]] GaugedRows feed(std::string_view text);
  /// The same for the last row, when no more text comes.
  [[nodiscard]] GaugedRows finish();

  [[nodiscard]] std::size_t rows() const { return rows_; }      ///< under the head, so far
  [[nodiscard]] std::size_t failed() const { return failed_; }  ///< of them
  [[nodiscard]] std::size_t held() const { return reader_.held(); }

 private:
  GaugedRows take();
  void begin(const delimited::Head& head, std::string& csv);
  void gauge(const delimited::Row& row, GaugedRows& answer);

  std::string file_;
  spirit::Hydrometer hydrometer_;
  delimited::Reader reader_;
  std::optional<GaugeColumns> columns_;
  std::size_t rows_ = 0;
  std::size_t failed_ = 0;
};

}  // namespace lynearm::cli
