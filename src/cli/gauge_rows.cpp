#include "cli/gauge_rows.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iterator>

#include "cli/stated.hpp"
#include "delimited/writer.hpp"
#include "spirit/density.hpp"
#include "spirit/lot.hpp"
#include "spirit/strength.hpp"
#include "units/print.hpp"

namespace lynearm::cli {
namespace {

constexpr std::array<std::string_view, 4> figure_heads{
    "strength_percent_vol_20C", "strength_percent_mass", "us_proof", "density_kg_m3_20C"};
constexpr std::array<std::string_view, 2> amount_heads{"volume_L_20C", "pure_alcohol_L_20C"};

constexpr units::Mass least_mass = units::Mass::grams(1.0);
constexpr units::Mass most_mass = units::Mass::kilograms(1e5);

void append_figure(std::string& csv, double value) {
  base::ensure(std::isfinite(value), "a figure that leaves the engine is finite");
  constexpr double noise = 1e-12;  // as in JSON: what is left of a rounding is nothing
  csv += ',';
  fmt::format_to(std::back_inserter(csv), "{:.10g}", std::abs(value) < noise ? 0.0 : value);
}

// One row on its way: its cells as quantities, every fault found in them, and the mixture.
class Gauging {
 public:
  Gauging(const delimited::Row& row, const GaugeColumns& columns, const std::string& file,
          std::vector<base::Fault>& faults)
      : row_(row), columns_(columns), file_(file), faults_(faults) {}

  // False where a cell will not do; the others have been read all the same.
  bool read() {
    const std::size_t before = faults_.size();
    const auto reading = parsed(columns_.reading);
    const auto at = parsed(columns_.temperature);
    if (reading) reading_ = *reading;
    if (at) at_ = *at;
    const bool has_volume = columns_.volume && !is_blank(cell(*columns_.volume));
    const bool has_mass = columns_.mass && !is_blank(cell(*columns_.mass));
    if (has_volume && has_mass) {
      tell(*columns_.mass,
           fmt::format("nothing where column {} is filled", columns_.volume->head));
    } else if (has_volume) {
      volume_ = parsed_between(*columns_.volume, least_volume, most_volume);
    } else if (has_mass) {
      mass_ = parsed_between(*columns_.mass, least_mass, most_mass);
    }
    return faults_.size() == before;
  }

  // False where no spirit reads so, or the temperature is out of range.
  bool correct(const spirit::Hydrometer& hydrometer) {
    try {
      ethanol_ = spirit::true_mass_fraction(reading_, at_, hydrometer);
    } catch (const base::InputError& error) {
      for (const base::Fault& fault : error.faults()) refuse(fault);
      return false;
    } catch (const base::NotConverged& error) {
      tell(columns_.reading, fmt::format("a reading that has an answer ({})", error.what()));
      return false;
    }
    if (volume_) {
      const units::Density density = spirit::density(ethanol_, at_);
      mass_ =
          units::Mass::kilograms(density.kilograms_per_cubic_metre() * volume_->cubic_metres());
    }
    return true;
  }

  void append_to(std::string& csv) const {
    append_figure(csv, spirit::volume_strength(ethanol_).percent());
    append_figure(csv, ethanol_.percent());
    append_figure(csv, spirit::proof(ethanol_).degrees());
    const units::Density density = spirit::density(ethanol_, spirit::reference_20C);
    append_figure(csv, density.kilograms_per_cubic_metre());
    if (!columns_.volume && !columns_.mass) return;
    if (!mass_) {
      csv += ",,";
      return;
    }
    append_figure(csv, 1e3 * mass_->kilograms() / density.kilograms_per_cubic_metre());
    const spirit::Lot lot{*mass_ * ethanol_.fraction(), *mass_ * (1.0 - ethanol_.fraction())};
    append_figure(csv, spirit::pure_alcohol(lot).litres());
  }

 private:
  static bool is_blank(std::string_view text) {
    return text.find_first_not_of(" \t") == std::string_view::npos;
  }

  template <class Column>
  [[nodiscard]] std::string_view cell(const Column& column) const {
    return row_.cells[column.place];
  }

  template <class Column>
  void tell(const Column& column, std::string accepted) {
    const std::string_view text = cell(column);
    faults_.push_back({"column " + column.head, is_blank(text) ? "" : std::string(text),
                       std::move(accepted), file_, row_.line});
  }

  template <class Column>
  std::optional<typename Column::Value> parsed(const Column& column) {
    auto result = column.read(cell(column));
    if (!result) tell(column, std::move(result.accepted));
    return result.value;
  }

  template <class Q>
  std::optional<Q> parsed_between(const QuantityColumn<Q>& column, Q least, Q most) {
    const std::optional<Q> value = parsed(column);
    if (!value || (*value >= least && *value <= most)) return value;
    tell(column, fmt::format("a {} from {} to {}", units::kind<Q>().noun, units::concise(least),
                             units::concise(most)));
    return std::nullopt;
  }

  // A fault of the engine's, at the cell that it is about.
  void refuse(const base::Fault& fault) {
    if (fault.field != "at") return tell(columns_.reading, fault.accepted);
    std::string accepted = fault.accepted;
    if (at_ > spirit::warmest) accepted += too_warm_caution;
    tell(columns_.temperature, std::move(accepted));
  }

  const delimited::Row& row_;
  const GaugeColumns& columns_;
  const std::string& file_;
  std::vector<base::Fault>& faults_;
  spirit::Reading reading_;
  units::Temperature at_;
  units::MassFraction ethanol_;
  std::optional<units::Volume> volume_;  // at the row's temperature
  std::optional<units::Mass> mass_;      // given, or that of the volume
};

}  // namespace

GaugeRows::GaugeRows(const std::string& file, const spirit::Hydrometer& hydrometer)
    : file_(file), hydrometer_(hydrometer), reader_(file) {}

GaugedRows GaugeRows::feed(std::string_view text) {
  reader_.feed(text);
  return take();
}

GaugedRows GaugeRows::finish() {
  reader_.finish();
  return take();
}

GaugedRows GaugeRows::take() {
  GaugedRows answer;
  if (!columns_) {
    const delimited::Head* const head = reader_.head();
    if (head == nullptr) return answer;
    begin(*head, answer.csv);
  }
  while (const std::optional<delimited::Row> row = reader_.next()) {
    ++rows_;
    const std::size_t faults = answer.faults.size();
    if (row->fault) {
      answer.faults.push_back(*row->fault);
    } else {
      gauge(*row, answer);
    }
    if (answer.faults.size() > faults) ++failed_;
  }
  return answer;
}

// The head line of the answer. A column of ours that is there already would be there twice.
void GaugeRows::begin(const delimited::Head& head, std::string& csv) {
  columns_ = gauge_columns(head, file_);
  std::vector<std::string_view> heads(head.columns.begin(), head.columns.end());
  std::vector<std::string_view> ours(figure_heads.begin(), figure_heads.end());
  if (columns_->volume || columns_->mass) {
    ours.insert(ours.end(), amount_heads.begin(), amount_heads.end());
  }
  for (const std::string_view name : ours) {
    if (std::find(heads.begin(), heads.end(), name) != heads.end()) {
      throw base::InputError(
          {{"head", std::string(name), "a head that is not one of those written behind the row",
            file_, head.line}});
    }
  }
  heads.insert(heads.end(), ours.begin(), ours.end());
  delimited::append_row(csv, heads);
}

void GaugeRows::gauge(const delimited::Row& row, GaugedRows& answer) {
  Gauging gauging(row, *columns_, file_, answer.faults);
  if (!gauging.read() || !gauging.correct(hydrometer_)) return;
  for (std::size_t i = 0; i < row.cells.size(); ++i) {
    if (i > 0) answer.csv += ',';
    delimited::append_cell(answer.csv, row.cells[i]);
  }
  gauging.append_to(answer.csv);
  answer.csv += '\n';
}

}  // namespace lynearm::cli
