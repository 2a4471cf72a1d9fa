#include "recipe/renew_still.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <vector>

#include "base/error.hpp"
#include "recipe/read_kit.hpp"

namespace lynearm::recipe {
namespace {

using Entries = std::vector<std::pair<std::string, std::string>>;  // key and value

struct TableOf {
  std::string name;
  Entries set;
  std::vector<std::string> drop = {};
};

// Three digits: no constant of a still is known better.
std::string three_digits(double value, const char* unit) {
  const int whole = value >= 1.0 ? static_cast<int>(std::floor(std::log10(value))) + 1 : 1;
  return fmt::format("{:.{}f} {}", value, std::max(0, 3 - whole), unit);
}

std::vector<TableOf> tables(const StillKeys& keys) {
  TableOf boiler{"boiler", {}}, head{"head", {}}, condenser{"condenser", {}};
  if (keys.pot_loss) {
    boiler.set.emplace_back("loss", three_digits(keys.pot_loss->watts_per_kelvin(), "W/K"));
  }
  if (keys.heat_efficiency) {
    boiler.set.emplace_back(
        "heat_efficiency",
        fmt::format("{:.1f} %", std::min(keys.heat_efficiency->percent(), 100.0)));
  }
  if (keys.head_loss) {
    head.set.emplace_back(
        "loss",
        fmt::format("{} +/- {}", three_digits(keys.head_loss->median.watts_per_kelvin(), "W/K"),
                    three_digits(keys.head_loss->half_width_80.watts_per_kelvin(), "W/K")));
    head.drop = {"reflux_strip", "reflux_spirit"};
  }
  if (keys.coil) {
    condenser.set.emplace_back("holds", fmt::format("{:.0f} mL", keys.coil->millilitres()));
  }
  if (keys.parrot) {
    condenser.set.emplace_back("parrot", fmt::format("{:.0f} mL", keys.parrot->millilitres()));
  }
  std::vector<TableOf> all;
  for (TableOf& t : std::vector<TableOf>{boiler, head, condenser}) {
    if (!t.set.empty()) all.push_back(std::move(t));
  }
  return all;
}

std::string_view trimmed(std::string_view text) {
  const std::size_t first = text.find_first_not_of(" \t\r\n");
  if (first == std::string_view::npos) return {};
  return text.substr(first, text.find_last_not_of(" \t\r\n") - first + 1);
}

std::vector<std::string> lines_of(std::string_view text) {
  std::vector<std::string> lines;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size() - 1) + 1;
    lines.emplace_back(text.substr(0, end));
    text.remove_prefix(end);
  }
  return lines;
}

// "head" of "[head]  # copper"; empty for any other line, "[" for another kind of table.
std::string table_name(std::string_view line) {
  line = trimmed(line);
  if (!line.starts_with('[')) return {};
  const std::size_t end = line.find(']');
  if (line.starts_with("[[") || end == std::string_view::npos) return "[";
  return std::string(trimmed(line.substr(1, end - 1)));
}

std::string key_of(std::string_view line) {
  line = trimmed(line);
  const std::size_t equals = line.find('=');
  if (line.starts_with('#') || equals == std::string_view::npos) return {};
  return std::string(trimmed(line.substr(0, equals)));
}

// The line with another value: what stands before and after it is kept.
std::string with_value(const std::string& line, const std::string& value) {
  const std::size_t from = line.find_first_not_of(" \t", line.find('=') + 1);
  std::size_t to = from;
  if (from == std::string::npos) return line;
  if (line[from] == '"' || line[from] == '\'') {
    to = line.find(line[from], from + 1);
    to = to == std::string::npos ? line.size() : to + 1;
  } else {
    to = std::min(line.find_first_of("#\r\n", from), line.size());
    while (to > from && (line[to - 1] == ' ' || line[to - 1] == '\t')) --to;
  }
  return line.substr(0, from) + "\"" + value + "\"" + line.substr(to);
}

// Which lines stand inside a text of several lines: nothing is edited there.
std::vector<bool> inside_text(const std::vector<std::string>& lines) {
  std::vector<bool> inside;
  bool open = false;
  for (const std::string& line : lines) {
    inside.push_back(open);
    for (const char* mark : {"\"\"\"", "'''"}) {
      for (std::size_t at = line.find(mark); at != std::string::npos;
           at = line.find(mark, at + 3)) {
        open = !open;
      }
    }
  }
  return inside;
}

void renew(std::vector<std::string>& lines, const TableOf& table, const std::string& line_end) {
  const std::vector<bool> inside = inside_text(lines);
  std::vector<std::string> out;
  Entries missing = table.set;
  bool here = false, found = false;
  std::size_t after = 0;  // where a key that is missing goes
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const std::string& line = lines[i];
    const std::string name = inside[i] ? std::string() : table_name(line);
    if (!name.empty()) here = name == table.name;
    const std::string key = here && !inside[i] ? key_of(line) : std::string();
    const auto drop = std::find(table.drop.begin(), table.drop.end(), key);
    if (!key.empty() && drop != table.drop.end()) continue;
    const auto set = std::find_if(missing.begin(), missing.end(),
                                  [&](const auto& entry) { return entry.first == key; });
    out.push_back(set == missing.end() ? line : with_value(line, set->second));
    if (set != missing.end()) missing.erase(set);
    if (here && (!name.empty() || !key.empty() || inside[i])) {
      found = true;
      after = out.size();
    }
  }
  if (!found) {
    if (!out.empty() && !out.back().ends_with('\n')) out.back() += line_end;
    out.push_back(line_end);
    out.push_back("[" + table.name + "]" + line_end);
    after = out.size();
  }
  if (!missing.empty() && after > 0 && !out[after - 1].ends_with('\n')) {
    out[after - 1] += line_end;
  }
  for (const auto& [key, value] : missing) {
    out.insert(out.begin() + static_cast<std::ptrdiff_t>(after++),
               fmt::format("{} = \"{}\"{}", key, value, line_end));
  }
  lines = std::move(out);
}

bool near(double a, double b) { return std::abs(a - b) <= 6e-3 * std::abs(b) + 1e-9; }

void check(const StillKeys& keys, const plan::Still& still, const std::string& file) {
  const auto refuse = [&](const std::string& table) {
    throw base::InputError({base::Fault{table, "",
                                        fmt::format("a table [{}] of its own with each key on "
                                                    "its own line, so that it can be renewed",
                                                    table),
                                        file, 0, 0}});
  };
  if ((keys.pot_loss &&
       !near(still.boiler.loss.watts_per_kelvin(), keys.pot_loss->watts_per_kelvin())) ||
      (keys.heat_efficiency && !near(still.boiler.heat_efficiency.fraction(),
                                     std::min(keys.heat_efficiency->fraction(), 1.0)))) {
    refuse("boiler");
  }
  if (keys.head_loss && !(still.head_loss && near(still.head_loss->median.watts_per_kelvin(),
                                                  keys.head_loss->median.watts_per_kelvin()))) {
    refuse("head");
  }
  const auto off = [](units::Volume a, units::Volume b) {
    return std::abs((a - b).millilitres()) > 0.51;
  };
  if ((keys.coil && off(still.coil_holds, *keys.coil)) ||
      (keys.parrot && off(still.parrot_holds, *keys.parrot))) {
    refuse("condenser");
  }
}

}  // namespace

std::string still_section(const StillKeys& keys) {
  std::string text;
  for (const TableOf& table : tables(keys)) {
    if (!text.empty()) text += "\n";
    text += "[" + table.name + "]\n";
    for (const auto& [key, value] : table.set) text += fmt::format("{} = \"{}\"\n", key, value);
  }
  return text;
}

std::string renew_still(std::string_view text, const StillKeys& keys, const std::string& file) {
  std::vector<std::string> lines = lines_of(text);
  const std::string line_end =
      !lines.empty() && lines.front().ends_with("\r\n") ? "\r\n" : "\n";
  for (const TableOf& table : tables(keys)) renew(lines, table, line_end);
  std::string renewed;
  for (const std::string& line : lines) renewed += line;
  check(keys, read_kit(renewed, file).still, file);
  return renewed;
}

}  // namespace lynearm::recipe
