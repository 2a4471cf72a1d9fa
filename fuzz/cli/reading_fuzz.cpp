// What an instrument showed is typed by hand, alone or as a row of a table. It must be read or
// refused with a reason; what was read is finite, prints and reads back, and gives a mixture or
// a refusal. Of a table each row is answered by one line of finite figures, or by faults.
#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>
#include <variant>

#include "base/error.hpp"
#include "cli/gauge_rows.hpp"
#include "delimited/reader.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/reading.hpp"
#include "units/parse.hpp"

namespace {

using namespace lynearm;

void hold(bool holds) {
  if (!holds) std::abort();  // libFuzzer keeps the text that led here
}

template <class Q>
void one_answer(const units::Parsed<Q>& parsed) {
  hold(parsed.value.has_value() == parsed.accepted.empty());
}

void as_reading(std::string_view text) {
  const auto parsed = units::try_parse<spirit::Reading>(text);
  one_answer(parsed);
  if (!parsed) return;
  const spirit::Reading reading = *parsed.value;
  hold(std::isfinite(reading.figure) && reading.figure >= 0.0);
  const auto back = units::try_parse<spirit::Reading>(print(reading, 12));
  hold(back && back.value->scale == reading.scale &&
       std::abs(back.value->figure - reading.figure) <= 1e-11);
  for (const double t_C : {-20.0, 20.0, 40.0}) {
    try {
      const double p =
          spirit::true_mass_fraction(reading, units::Temperature::celsius(t_C)).fraction();
      hold(p >= 0.0 && p <= 1.0);
    } catch (const base::InputError&) {
      continue;  // no spirit shows that at this temperature
    }
  }
}

void as_part(std::string_view text) {
  const auto parsed = units::try_parse<units::StatedPart>(text);
  one_answer(parsed);
  if (!parsed) return;
  const units::StatedPart& part = *parsed.value;
  hold(std::isfinite(part.strength.value) && part.strength.value >= 0.0);
  hold(std::visit(
      [](auto q) { return std::isfinite(units::base_value(q)) && q >= decltype(q){}; },
      part.amount));
  hold(!part.at || std::isfinite(part.at->kelvins()));
}

// The figures behind each row of an answer: four, and two more where there may be an amount.
void figures_are_sound(const std::string& csv, std::size_t ours) {
  delimited::Reader reader("answer");
  reader.feed(csv);
  reader.finish();
  hold(reader.head() != nullptr);
  while (const auto row = reader.next()) {
    hold(!row->fault);
    for (std::size_t i = 0; i < ours; ++i) {
      const std::string_view cell = row->cells[row->cells.size() - ours + i];
      if (cell.empty()) {
        hold(i >= 4);
        continue;
      }
      double value = 0.0;
      const auto [end, error] = std::from_chars(cell.data(), cell.data() + cell.size(), value);
      hold(error == std::errc{} && end == cell.data() + cell.size());
      constexpr std::array<double, 6> most{100.0, 100.0, 200.0, 999.0, 2e5, 2e5};
      hold(value >= 0.0 && value <= most.at(i) * (1.0 + 1e-9));
    }
  }
}

void as_table(std::string_view head, const std::string& text, std::size_t ours) {
  cli::GaugeRows rows("table.csv");
  cli::GaugedRows answer = rows.feed(std::string(head) + text);
  const cli::GaugedRows rest = rows.finish();
  answer.csv += rest.csv;
  answer.faults.insert(answer.faults.end(), rest.faults.begin(), rest.faults.end());
  hold(answer.faults.size() >= rows.failed());
  const auto lines = 1 + std::count(text.begin(), text.end(), '\n');
  for (const base::Fault& fault : answer.faults) {
    hold(!fault.accepted.empty() && fault.file == "table.csv");
    hold(fault.line >= 2 && fault.line <= 1 + lines);
  }
  delimited::Reader reader("answer");
  reader.feed(answer.csv);
  reader.finish();
  std::size_t written = 0;
  while (reader.next()) ++written;
  hold(written + rows.failed() == rows.rows());
  figures_are_sound(answer.csv, ours);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  as_reading(text);
  as_part(text);
  as_table("reading,temperature,volume,mass\n", text, 6);
  as_table("reading_percent_vol,temperature_C,note\n", text, 4);
  as_table("reading_density_g_mL,temperature_F\n", text, 4);
  // The head is anything too.
  try {
    cli::GaugeRows rows("table.csv");
    (void)rows.feed(text);
    (void)rows.finish();
  } catch (const base::InputError& error) {
    hold(!error.faults().empty());
  }
  return 0;
}
