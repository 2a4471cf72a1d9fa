#include "cli/table_input.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <string_view>
#include <utility>

#include "base/error.hpp"
#include "cli/stated.hpp"
#include "cli/table_ranges.hpp"
#include "spirit/marks.hpp"

namespace lynearm::cli {
namespace {

using spirit::Scale;
using spirit::TableKind;

struct Named {
  std::string_view name;
  TableKind kind;
};
constexpr std::array<Named, 6> kinds{{{"correction", TableKind::correction},
                                      {"showing", TableKind::showing},
                                      {"reduction", TableKind::reduction},
                                      {"volume", TableKind::volume},
                                      {"density", TableKind::density},
                                      {"mass", TableKind::mass}}};

std::string_view name_of(TableKind kind) {
  for (const Named& named : kinds) {
    if (named.kind == kind) return named.name;
  }
  throw base::BrokenInvariant("every kind of table has a name");
}

bool of_a_glass(TableKind kind) {
  return kind == TableKind::correction || kind == TableKind::showing;
}

void refuse(Arguments& arguments, const std::string& option, std::string accepted) {
  if (arguments.refused(option) || !arguments.has(option)) return;
  arguments.refuse(option, arguments.texts(option).front(), std::move(accepted));
}

std::optional<TableKind> asked_kind(Arguments& arguments) {
  constexpr const char* accepted = "correction, showing, reduction, volume, density or mass";
  const std::string name = arguments.required_text("--of", accepted);
  if (name.empty()) return std::nullopt;
  for (const Named& named : kinds) {
    if (named.name == name) return named.kind;
  }
  refuse(arguments, "--of", accepted);
  return std::nullopt;
}

// Options that say nothing in a table of this kind.
void refuse_idle(Arguments& arguments, TableKind kind) {
  std::vector<const char*> idle;
  if (!of_a_glass(kind)) idle.insert(idle.end(), {"--glass-true-at", "--glass-expansion"});
  if (!of_a_glass(kind) && kind != TableKind::reduction) idle.push_back("--in");
  if (kind != TableKind::reduction) idle.insert(idle.end(), {"--per", "--water"});
  if (kind != TableKind::volume) idle.push_back("--reference");
  if (kind == TableKind::mass) {
    idle.insert(idle.end(), {"--columns", "--columns-from", "--columns-to", "--columns-step"});
  }
  for (const char* option : idle) {
    refuse(arguments, option, fmt::format("nothing in a {} table", name_of(kind)));
  }
  if (!arguments.has("--columns")) return;
  for (const char* option : {"--columns-from", "--columns-to", "--columns-step"}) {
    refuse(arguments, option, "nothing beside --columns");
  }
}

// The scale of the rows: as said, or as the first row's figure tells, or the system's own.
Scale asked_row_scale(Arguments& arguments, units::System system) {
  if (const auto scale = asked_scale(arguments, "--scale")) return *scale;
  for (const char* option : {"--from", "--to"}) {
    if (!arguments.has(option)) continue;
    const auto reading = units::try_parse<spirit::Reading>(arguments.texts(option).front());
    if (reading) return reading.value->scale;
  }
  return system == units::System::us ? Scale::us_proof : Scale::percent_vol;
}

Scale usual_strength(units::System system) {
  return system == units::System::us ? Scale::us_proof : Scale::percent_vol;
}

Scale asked_figure_scale(Arguments& arguments, TableKind kind, Scale rows,
                         units::System system) {
  if (const auto scale = asked_scale(arguments, "--in")) return *scale;
  // A density tells a maker little: he wants the strength behind it.
  if (kind != TableKind::showing && spirit::of_density(rows)) return usual_strength(system);
  return rows;
}

double asked_expansion(Arguments& arguments) {
  if (!arguments.has("--glass-expansion")) return spirit::soda_lime_expansion_per_K;
  std::string_view text = arguments.texts("--glass-expansion").front();
  for (const std::string_view end : {"/K", "per K", "per kelvin", " "}) {
    if (text.ends_with(end)) text.remove_suffix(end.size());
  }
  while (text.ends_with(' ')) text.remove_suffix(1);
  double figure = 0.0;
  const char* last = text.data() + text.size();
  const std::from_chars_result read = std::from_chars(text.data(), last, figure);
  if (read.ec == std::errc{} && read.ptr == last && figure >= 0.0 && figure <= 1e-3) {
    return figure;
  }
  refuse(arguments, "--glass-expansion",
         "a cubic expansion such as \"25e-6 /K\", from 0 to 0.001");
  return spirit::soda_lime_expansion_per_K;
}

void ask_for_glass(Arguments& arguments, AskedTable& asked) {
  asked.glass.reference = arguments.optional<units::Temperature>("--glass-true-at");
  if (asked.glass.reference) {
    arguments.keep_within("--glass-true-at", *asked.glass.reference, spirit::coldest,
                          spirit::warmest);
  }
  asked.glass.glass_expansion_per_K = asked_expansion(arguments);
}

void ask_for_portion(Arguments& arguments, AskedTable& asked) {
  const bool us = asked.system == units::System::us;
  asked.portion = us ? units::Volume::us_gallons(1.0) : units::Volume::litres(1.0);
  asked.portion_text = us ? "1 gal" : "1 L";
  if (arguments.has("--per")) {
    const std::string& text = arguments.texts("--per").front();
    asked.portion_text = text;
    const auto mass = units::try_parse<units::Mass>(text);
    const auto volume = units::try_parse<units::Volume>(text);
    const auto most = units::Mass::kilograms(1e5);
    const auto least = units::Mass::grams(1.0);
    if (volume && *volume.value >= least_volume && *volume.value <= most_volume) {
      asked.portion = *volume.value;
    } else if (mass && *mass.value >= least && *mass.value <= most) {
      asked.portion = *mass.value;
    } else {
      refuse(arguments, "--per", R"(an amount of spirit such as "1 L", "10 L" or "1 kg")");
    }
  }
  constexpr std::array<std::pair<std::string_view, int>, 8> waters{{{"g", 0},
                                                                    {"kg", 3},
                                                                    {"lb", 2},
                                                                    {"oz", 1},
                                                                    {"mL", 0},
                                                                    {"L", 3},
                                                                    {"gal", 3},
                                                                    {"fl oz", 1}}};
  std::string wanted = us ? "lb" : "g";
  if (arguments.has("--water")) wanted = arguments.texts("--water").front();
  const auto* const found = std::find_if(
      waters.begin(), waters.end(), [&](const auto& each) { return each.first == wanted; });
  if (found == waters.end()) {
    refuse(arguments, "--water", "g, kg, lb, oz, mL, L, gal or \"fl oz\"");
  } else {
    asked.water = {wanted, found->second};
  }
}

void ask_for_columns(Arguments& arguments, AskedTable& asked) {
  if (asked.kind == TableKind::mass) return;
  if (asked.kind != TableKind::reduction) {
    const bool fahrenheit = asked.system == units::System::us ||
                            asked.rows.scale == Scale::us_proof ||
                            asked.rows.scale == Scale::percent_vol_60F ||
                            asked.rows.scale == Scale::specific_gravity_60F;
    asked.temperatures = asked_temperatures(arguments, fahrenheit);
    return;
  }
  if (arguments.has("--columns")) {
    asked.to = asked_list_of_strengths(arguments, "--columns", asked.figure_scale);
  } else if (arguments.has("--columns-from") || arguments.has("--columns-to") ||
             arguments.has("--columns-step")) {
    const std::vector<double> usual = usual_ends(asked.figure_scale);
    const double step = usual[1] - usual[0];
    asked.to = asked_strengths(arguments, "--columns-", asked.figure_scale,
                               {usual.front(), usual.back(), step});
  } else {
    asked.to = {usual_ends(asked.figure_scale), asked.figure_scale};
  }
}

// What is looked up by strength must be the strength of some mixture. Only the ends are tried:
// what lies between them is one too.
void check_mixtures(Arguments& arguments, const spirit::Strengths& strengths,
                    const std::string& low, const std::string& high, bool above_zero) {
  if (strengths.figures.empty()) return;
  const auto check = [&](double figure, const std::string& option) {
    try {
      const auto p = spirit::true_mass_fraction({figure, strengths.scale},
                                                spirit::reference_of(strengths.scale));
      constexpr double weakest = 1e-4;  // as reduce: weaker, and the water is beyond measure
      if (above_zero && !(p.fraction() >= weakest)) {
        refuse(arguments, option, "a strength of 0.01 % or more to reduce to");
      }
    } catch (const base::InputError& error) {
      const std::string& accepted = error.faults().front().accepted;
      if (arguments.has(option)) {
        refuse(arguments, option, accepted);
      } else {
        arguments.refuse(option, "", accepted);
      }
    }
  };
  check(strengths.figures.front(), low);
  if (strengths.figures.size() > 1) check(strengths.figures.back(), high);
}

void ask_for_rows(Arguments& arguments, AskedTable& asked) {
  asked.rows = asked_strengths(arguments, "--", asked.rows.scale,
                               usual_rows(asked.kind, asked.rows.scale));
  if (asked.kind != TableKind::correction) {
    check_mixtures(arguments, asked.rows, "--from", "--to", false);
  }
}

// More cells than a table may have are told of the longer side, and before they are made.
void check_size(Arguments& arguments, const AskedTable& asked) {
  const std::size_t rows = asked.rows.figures.size();
  const std::size_t columns = asked.kind == TableKind::mass ? 7
                              : asked.kind == TableKind::reduction
                                  ? asked.to.figures.size()
                                  : asked.temperatures.figures.size();
  if (rows == 0 || columns == 0) return;
  if (rows * columns <= spirit::most_cells) {
    if (asked.html_path && rows * columns > sheet::most_printed_cells) {
      refuse(
          arguments, "--html",
          fmt::format("at most {} cells on paper, and this table has {} x {}; --csv takes up "
                      "to {}",
                      sheet::most_printed_cells, rows, columns, spirit::most_cells));
    }
    return;
  }
  const std::string prefix = rows >= columns ? "--" : "--columns-";
  std::string option = prefix + "step";
  if (!arguments.has(option)) option = prefix + "to";
  if (!arguments.has(option)) option = prefix + "from";
  if (!arguments.has(option)) option = "--columns";
  refuse(arguments, option,
         fmt::format("at most {} cells in a table, and this one has {} x {}",
                     spirit::most_cells, rows, columns));
}

std::optional<double> asked_type_pt(Arguments& arguments) {
  if (!arguments.has("--type")) return std::nullopt;
  const std::string& text = arguments.texts("--type").front();
  double figure = 0.0;
  const char* last = text.data() + text.size();
  const std::from_chars_result read = std::from_chars(text.data(), last, figure);
  const std::string_view unit(read.ptr, static_cast<std::size_t>(last - read.ptr));
  const double points = unit == " mm" || unit == "mm" ? figure * sheet::points_per_mm : figure;
  const bool known = unit == "pt" || unit == " pt" || unit == "mm" || unit == " mm";
  if (read.ec == std::errc{} && known && points >= sheet::least_type_pt &&
      points <= sheet::largest_type_pt) {
    return points;
  }
  refuse(arguments, "--type", R"(a size of type from 6 to 30 pt, such as "16 pt" or "5 mm")");
  return std::nullopt;
}

void ask_for_paper(Arguments& arguments, AskedTable& asked, const Look& look) {
  asked.paper.system = asked.system;
  if (arguments.has("--name")) asked.paper.name = arguments.texts("--name").front();
  constexpr std::size_t longest_name = 200;
  if (asked.paper.name.size() > longest_name) {
    refuse(arguments, "--name", "a line of at most 200 bytes");
  }
  if (arguments.has("--html")) {
    asked.html_path = arguments.required_text("--html", "the path of a file to write, or -");
  }
  if (arguments.has("--csv")) {
    asked.csv_path = arguments.required_text("--csv", "the path of a file to write, or -");
  }
  if (const auto type = asked_type_pt(arguments)) asked.paper.least_pt = *type;
  if (arguments.has("--paper")) {
    const std::string& paper = arguments.texts("--paper").front();
    if (paper == "Letter" || paper == "letter") {
      asked.paper.paper = sheet::Paper::letter;
    } else if (paper != "A4" && paper != "a4") {
      refuse(arguments, "--paper", "A4 or Letter");
    }
  }
  for (const char* option : {"--paper", "--type", "--name"}) {
    if (!asked.html_path) refuse(arguments, option, "nothing without --html");
  }
  if (asked.html_path && asked.csv_path && *asked.html_path == *asked.csv_path) {
    refuse(arguments, "--csv", "another file than --html");
  }
  for (const char* option : {"--csv", "--html"}) {
    const bool standard_output =
        arguments.has(option) && arguments.texts(option).front() == "-";
    if (standard_output && look.json) {
      refuse(arguments, option, "a file, beside --json");
    }
  }
}

}  // namespace

std::vector<Option> table_options() {
  return {
      {"--of", "KIND", "correction, showing, reduction, volume, density or mass (below)"},
      {"--scale", "SCALE", "of the rows: %vol (default), %mass, proof, kg/m3, SG ..."},
      {"--in", "SCALE",
       "of the figures (correction), of the glass (showing), of the columns (reduction)"},
      {"--from", "STRENGTH", "the first row: \"40 %vol\""},
      {"--to", "STRENGTH", "the last row"},
      {"--step", "STRENGTH", "from row to row: \"0.5 %vol\""},
      {"--columns-from", "VALUE", "the first column: \"5 C\", \"50 F\" or a strength"},
      {"--columns-to", "VALUE", "the last column"},
      {"--columns-step", "VALUE", "from column to column: \"1 K\", \"2 F\""},
      {"--columns", "LIST", "instead of these three: \"40 %vol, 43 %vol, 46 %vol\""},
      {"--glass-true-at", "TEMPERATURE",
       "where the hydrometer is true, if not as its scale is"},
      {"--glass-expansion", "FIGURE", "of the hydrometer's glass: \"25e-6 /K\" (default)"},
      {"--reference", "TEMPERATURE", "of a volume table: 20 C (default), 60 F in US units"},
      {"--per", "AMOUNT", "of a reduction table: water for 1 L (default), \"10 L\", \"1 kg\""},
      {"--water", "UNIT", "of a reduction table: g (default), kg, lb, oz, mL, L, gal, fl oz"},
      {"--decimals", "NUMBER", "of the figures, 0 to 6"},
      {"--html", "FILE", "sheets to print and hang up; - is standard output"},
      {"--csv", "FILE", "the bare figures; - is standard output"},
      {"--paper", "PAPER", "of the sheets: A4 (default) or Letter"},
      {"--type", "SIZE",
       "least size of the figures: \"11 pt\" (default, read at arm's length)"},
      {"--name", "TEXT", "a line of your own on the sheets: the house, the glass's number"},
      {"--why", "", "adds how each figure comes about, and its source"},
  };
}

AskedTable asked_table(Arguments& arguments, const Look& look) {
  AskedTable asked;
  asked.system = look.units;
  const std::optional<TableKind> kind = asked_kind(arguments);
  ask_for_paper(arguments, asked, look);
  arguments.settle();  // without its kind, nothing else can be read
  asked.kind = *kind;
  refuse_idle(arguments, asked.kind);
  arguments.settle();

  asked.rows.scale = asked_row_scale(arguments, asked.system);
  asked.figure_scale =
      asked_figure_scale(arguments, asked.kind, asked.rows.scale, asked.system);
  ask_for_rows(arguments, asked);
  ask_for_columns(arguments, asked);
  if (asked.kind == TableKind::reduction) {
    const bool list = arguments.has("--columns");
    check_mixtures(arguments, asked.to, list ? "--columns" : "--columns-from",
                   list ? "--columns" : "--columns-to", true);
  }
  ask_for_glass(arguments, asked);
  ask_for_portion(arguments, asked);
  if (asked.system == units::System::us) asked.reference = spirit::reference_60F;
  if (const auto reference = arguments.optional<units::Temperature>("--reference")) {
    asked.reference = *reference;
    arguments.keep_within("--reference", *reference, spirit::coldest, spirit::warmest);
  }
  if (arguments.has("--decimals")) {
    const std::string& text = arguments.texts("--decimals").front();
    if (text.size() == 1 && text[0] >= '0' && text[0] <= '6') {
      asked.decimals = text[0] - '0';
    } else {
      refuse(arguments, "--decimals", "a whole number from 0 to 6");
    }
  }
  check_size(arguments, asked);
  arguments.settle();
  return asked;
}

}  // namespace lynearm::cli
