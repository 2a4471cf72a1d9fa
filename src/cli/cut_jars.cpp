#include "cli/cut_jars.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <set>
#include <utility>

#include "base/error.hpp"
#include "cli/gauge_columns.hpp"
#include "delimited/reader.hpp"
#include "spirit/hydrometer.hpp"
#include "spirit/scale_in_name.hpp"
#include "spirit/stated.hpp"
#include "spirit/strength.hpp"
#include "spirit/vessel.hpp"

namespace lynearm::cli {
namespace {

using still::Jar;
using still::Load;
using units::Mass;
using units::Volume;

std::string trimmed(std::string_view text) {
  const auto blank = [](char c) { return c == ' ' || c == '\t'; };
  while (!text.empty() && blank(text.front())) text.remove_prefix(1);
  while (!text.empty() && blank(text.back())) text.remove_suffix(1);
  return std::string(text);
}

// A column of true strengths.
struct StrengthColumn {
  std::size_t place = 0;
  std::string head;
  bool bare = false;  // the head states the scale
  units::StrengthScale scale = units::StrengthScale::percent_by_volume;

  [[nodiscard]] units::Parsed<units::StatedStrength> read(std::string_view cell) const {
    if (!bare) return units::try_parse<units::StatedStrength>(cell);
    auto figure = units::bare_number(cell);
    if (!figure) return {std::nullopt, std::move(figure.accepted)};
    const double most = scale == units::StrengthScale::us_proof ? 200.0 : 100.0;
    if (!(*figure.value >= 0.0 && *figure.value <= most))
      return {std::nullopt, fmt::format("a number from 0 to {:.0f}", most)};
    return {units::StatedStrength{*figure.value, scale}, {}};
  }
};

// The scale of strengths that a scale of instruments is, when it is one.
std::optional<units::StrengthScale> strength_scale(spirit::Scale scale) {
  switch (scale) {
    case spirit::Scale::percent_vol:
      return units::StrengthScale::percent_by_volume;
    case spirit::Scale::percent_vol_15C:
      return units::StrengthScale::percent_by_volume_15C;
    case spirit::Scale::percent_vol_60F:
      return units::StrengthScale::percent_by_volume_60F;
    case spirit::Scale::percent_mass:
      return units::StrengthScale::percent_by_mass;
    case spirit::Scale::us_proof:
      return units::StrengthScale::us_proof;
    default:
      return std::nullopt;
  }
}

std::optional<StrengthColumn> strength_column(const std::string& head, std::size_t place) {
  const auto word = units::unit_behind("strength", head);
  if (!word) return std::nullopt;
  if (word->empty()) return StrengthColumn{place, head};
  const spirit::ScaleInName* const found = spirit::scale_in_name(*word);
  if (found == nullptr) return std::nullopt;
  const auto scale = strength_scale(found->scale);
  if (!scale) return std::nullopt;
  return StrengthColumn{place, head, true, *scale};
}

struct Column {
  std::size_t place = 0;
  std::string head;
};

struct Columns {
  std::optional<Column> jar, use, fault;
  std::optional<QuantityColumn<Volume>> volume;
  std::optional<StrengthColumn> strength;
  std::optional<GaugeColumns> gauged;  // in place of `strength`
  std::array<std::optional<QuantityColumn<Mass>>, 3> loads;
};
constexpr std::array<const char*, 3> groups{"early", "middle", "late"};

class Reading {
 public:
  Reading(std::string_view text, const std::string& file) : file_(file), reader_(file) {
    reader_.feed(text);
    reader_.finish();
  }

  std::vector<Jar> jars() {
    find_columns(*reader_.head());
    while (const auto row = reader_.next()) {
      if (row->fault) {
        faults_.push_back(*row->fault);
      } else {
        read(*row);
      }
    }
    // What cannot be read and what cannot be are told together, by line; a cell once.
    if (faults_.empty() || !jars_.empty()) check();
    if (!faults_.empty()) {
      std::stable_sort(
          faults_.begin(), faults_.end(),
          [](const base::Fault& a, const base::Fault& b) { return a.line < b.line; });
      throw base::InputError(std::move(faults_));
    }
    return std::move(jars_);
  }

 private:
  void check() {
    try {
      still::check(jars_);
    } catch (const base::InputError& error) {
      const std::vector<base::Fault> read = faults_;
      for (base::Fault fault : error.faults()) {
        place(fault);
        const bool told =
            fault.line > 0 && std::any_of(read.begin(), read.end(), [&](const auto& other) {
              return other.line == fault.line &&
                     (other.field == fault.field || incomplete_.contains(fault.line));
            });
        if (!told) faults_.push_back(std::move(fault));
      }
    }
  }

  void find_columns(const delimited::Head& head) {
    const auto keep = [&](auto& kept, auto found) {
      if (!found) return;
      if (kept) {
        faults_.push_back({"head", found->head,
                           fmt::format("one column of that kind; there is {} too", kept->head),
                           file_, head.line});
      } else {
        kept = std::move(found);
      }
    };
    bool reading = false;
    for (std::size_t i = 0; i < head.columns.size(); ++i) {
      const std::string name = trimmed(head.columns[i]);
      const auto plain = [&](const char* word) {
        return units::same_word(name, word) ? std::optional(Column{i, name}) : std::nullopt;
      };
      keep(columns_.jar, plain("jar"));
      keep(columns_.use, plain("use"));
      keep(columns_.fault, plain("fault"));
      keep(columns_.volume, quantity_column<Volume>("volume", name, i));
      keep(columns_.strength, strength_column(name, i));
      for (std::size_t g = 0; g < groups.size(); ++g)
        keep(columns_.loads[g], quantity_column<Mass>(groups[g], name, i));
      reading = reading || units::unit_behind("reading", name);
    }
    const auto miss = [&](const char* column, const char* accepted) {
      faults_.push_back({column, "", accepted, file_, head.line});
    };
    if (!columns_.jar) miss("column jar", R"(a column "jar" with a number or name for each)");
    if (!columns_.volume)
      miss("column volume", R"(a column "volume", "volume_mL" or "volume_L")");
    if (reading && columns_.strength) {
      faults_.push_back({"head", columns_.strength->head,
                         "either true strengths or readings with their temperature", file_,
                         head.line});
    } else if (reading) {
      columns_.gauged = gauge_columns(head, file_);
    } else if (!columns_.strength) {
      miss("column strength",
           R"(a column "strength" or "strength_percent_vol", or "reading" and "temperature")");
    }
    if (!faults_.empty()) throw base::InputError(std::move(faults_));
  }

  void tell(const std::string& head, std::string_view cell, std::string accepted) {
    faults_.push_back(
        {"column " + head, trimmed(cell), std::move(accepted), file_, lines_.back()});
  }

  template <class C>
  auto parsed(const C& column, const delimited::Row& row) {
    auto result = column.read(row.cells[column.place]);
    if (!result) tell(column.head, row.cells[column.place], std::move(result.accepted));
    return result.value;
  }

  void read(const delimited::Row& row) {
    lines_.push_back(row.line);
    Jar jar;
    jar.label = trimmed(row.cells[columns_.jar->place]);
    const auto volume = parsed(*columns_.volume, row);
    if (columns_.gauged) {
      gauge(jar, volume, row);
    } else {
      const auto strength = parsed(*columns_.strength, row);
      if (volume) jar.volume = *volume;
      if (strength) jar.strength = spirit::volume_strength(*strength);
    }
    if (columns_.use) read_use(jar, row);
    if (columns_.fault) read_fault(jar, row);
    std::optional<Load>* const loads[] = {&jar.early, &jar.middle, &jar.late};
    for (std::size_t g = 0; g < groups.size(); ++g) {
      if (!columns_.loads[g] || trimmed(row.cells[columns_.loads[g]->place]).empty()) continue;
      *loads[g] = read_load(*columns_.loads[g], row);
    }
    jars_.push_back(std::move(jar));
  }

  // A reading and the volume beside it, both at the spirit's temperature.
  void gauge(Jar& jar, const std::optional<Volume>& volume, const delimited::Row& row) {
    const auto reading = parsed(columns_.gauged->reading, row);
    const auto at = parsed(columns_.gauged->temperature, row);
    if (!reading || !at || !volume) {
      // Neither the jar's volume nor its strength is known.
      incomplete_.insert(row.line);
      return;
    }
    try {
      const units::MassFraction ethanol = spirit::true_mass_fraction(*reading, *at);
      jar.strength = spirit::volume_strength(ethanol);
      // A volume that cannot be is told with the others.
      jar.volume = *volume > Volume{}
                       ? spirit::volume(spirit::lot_at_mark(*volume, ethanol, *at))
                       : *volume;
    } catch (const base::InputError& error) {
      incomplete_.insert(row.line);
      for (const base::Fault& fault : error.faults()) {
        const bool warmth = fault.field == "at" || fault.field == "temperature";
        const auto place =
            warmth ? columns_.gauged->temperature.place : columns_.gauged->reading.place;
        tell(warmth ? columns_.gauged->temperature.head : columns_.gauged->reading.head,
             row.cells[place], fault.accepted);
      }
    }
  }

  void read_use(Jar& jar, const delimited::Row& row) {
    const std::string word = trimmed(row.cells[columns_.use->place]);
    if (word.empty() || word == "open") return;
    if (word == "foreshots") {
      jar.use = still::Use::foreshots;
    } else if (word == "feints") {
      jar.use = still::Use::feints;
    } else if (word == "apart") {
      jar.use = still::Use::apart;
    } else {
      tell(columns_.use->head, word, "open (or nothing), foreshots, feints or apart");
    }
  }

  void read_fault(Jar& jar, const delimited::Row& row) {
    const std::string cell = trimmed(row.cells[columns_.fault->place]);
    if (cell.empty()) return;
    auto mark = units::bare_number(cell);
    if (!mark) return tell(columns_.fault->head, cell, std::move(mark.accepted));
    jar.fault = *mark.value;
  }

  // "3.2 g ± 0.5 g", "3.2 g", or a bare number under a head with its unit. Without a band it is
  // taken as it stands.
  std::optional<Load> read_load(const QuantityColumn<Mass>& column, const delimited::Row& row) {
    if (column.unit != nullptr) {
      const auto mass = parsed(column, row);
      return mass ? std::optional(Load{*mass, *mass, *mass}) : std::nullopt;
    }
    const std::string_view cell = row.cells[column.place];
    auto spread = units::try_parse_spread<Mass>(cell);
    if (!spread) {
      tell(column.head, cell, std::move(spread.accepted));
      return std::nullopt;
    }
    const Mass median = spread.value->median;
    const Mass half = spread.value->half_width_80;
    return Load{median, std::max(Mass{}, median - half), median + half};
  }

  // A fault of the engine's at the row and column that it is about.
  void place(base::Fault& fault) const {
    for (std::size_t i = 0; i < jars_.size(); ++i) {
      const std::string prefix = fmt::format("jars[{}].", i);
      if (!fault.field.starts_with(prefix)) continue;
      const std::string field = fault.field.substr(prefix.size());
      fault.field = "column " + head_of(field);
      fault.file = file_;
      fault.line = lines_[i];
      return;
    }
  }

  [[nodiscard]] std::string head_of(const std::string& field) const {
    if (field == "label") return columns_.jar->head;
    if (field == "volume") return columns_.volume->head;
    if (field == "strength")
      return columns_.gauged ? columns_.gauged->reading.head : columns_.strength->head;
    if (field == "fault" && columns_.fault) return columns_.fault->head;
    for (std::size_t g = 0; g < groups.size(); ++g) {
      if (field == groups[g] && columns_.loads[g]) return columns_.loads[g]->head;
    }
    return field;
  }

  const std::string& file_;
  delimited::Reader reader_;
  Columns columns_;
  std::vector<int> lines_;    // of each jar
  std::set<int> incomplete_;  // lines whose jar is not known
  std::vector<Jar> jars_;
  std::vector<base::Fault> faults_;
};

}  // namespace

std::vector<still::Jar> jars_of(std::string_view text, const std::string& file) {
  return Reading(text, file).jars();
}

std::string jars_help() {
  return R"(The file is comma-separated text (UTF-8) with a head line; "-" is standard input. Columns:
  jar        a number or a name, each once; numbers are the order they ran
  volume     with its unit in each cell, or volume_mL, volume_L, volume_gal
  strength   true, at 20 °C: "72.4 %vol" in each cell, or strength_percent_vol, _us_proof;
             in its place reading and temperature as for "lynearm gauge --batch": the volume
             is then the one at that temperature
and, where you have them:
  early, middle, late   grams of congeners in the jar: "0.21 g", "0.21 g ± 0.05 g", or early_g
  fault      what nose and palate found, 0 (nothing) to 10 (spoiled)
  use        open, foreshots, feints (never in the hearts), apart (nor in the next charge)
Every other column is left alone. The first jar is foreshots unless one says that it is.
)";
}

}  // namespace lynearm::cli
