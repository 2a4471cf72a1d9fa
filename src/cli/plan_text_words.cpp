#include "cli/plan_text_words.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"
#include "cli/table.hpp"
#include "spirit/strength.hpp"

namespace lynearm::cli::planned {
namespace {

using units::System;

// A figure of plan/figures.hpp in a system's unit.
struct Told {
  double value = 0.0;
  std::string_view unit;
  int decimals = 0;
};

Told told(const plan::Figure& figure, double value, System system) {
  if (system == System::us) {
    if (figure.unit == "kg") {
      return {units::Mass::kilograms(value).pounds(), "lb", figure.decimals};
    }
    if (figure.unit == "L") {
      return {units::Volume::litres(value).us_gallons(), "gal", figure.decimals + 1};
    }
    if (figure.unit == "°C") {
      return {units::Temperature::celsius(value).fahrenheit(), "°F", figure.decimals};
    }
    if (figure.unit == "%vol") {
      const auto strength = units::VolumeStrength::percent(value);
      return {spirit::proof(spirit::mass_fraction(strength)).degrees(), "proof", 1};
    }
  }
  return {value, figure.unit, figure.decimals};
}

std::string text(const Told& told) {
  const std::string figure = units::fixed(told.value, told.decimals);
  return told.unit.empty() ? figure : fmt::format("{} {}", figure, told.unit);
}

const plan::Figure& figure_of(std::string_view key) {
  const std::vector<plan::Figure>& all = plan::figures();
  const auto at = std::find_if(all.begin(), all.end(),
                               [key](const plan::Figure& figure) { return figure.key == key; });
  base::ensure(at != all.end(), "a principal figure is asked for by its key");
  return *at;
}

// Columns before the decimal point of the first figure.
std::size_t before_point(std::string_view figure) {
  return columns(figure.substr(0, figure.find_first_not_of("-0123456789")));
}

std::string padded(const std::string& text, std::size_t width, Side side) {
  const std::size_t has = columns(text);
  const std::string space(width > has ? width - has : 0, ' ');
  return side == Side::left ? text + space : space + text;
}

std::string without_trailing_spaces(std::string line) {
  line.erase(line.find_last_not_of(' ') + 1);
  return line;
}

}  // namespace

std::string Batch::in_the_glass(units::Volume volume) const {
  const std::string metric = fmt::format("{:.0f} mL", volume.millilitres());
  const std::string us = fmt::format("{:.1f} fl oz", volume.us_fluid_ounces());
  if (look.units == System::metric) return metric;
  return look.units == System::us ? us : fmt::format("{} ({})", metric, us);
}

std::string Batch::on_the_scale(units::Mass mass) const {
  const std::string metric = fmt::format("{:.0f} g", mass.grams());
  const std::string us = fmt::format("{:.1f} oz", mass.ounces());
  if (look.units == System::metric) return metric;
  return look.units == System::us ? us : fmt::format("{} ({})", metric, us);
}

Line principal(const Batch& batch, std::string_view key, std::string name, std::string remark) {
  const plan::Figure& figure = figure_of(key);
  const double value = figure.of(batch.plan);
  const System system = batch.look.units;
  std::string shown = text(told(figure, value, system));
  if (system == System::both) {
    const std::string us = text(told(figure, value, System::us));
    if (us != shown) shown += fmt::format(" ({})", us);
  }
  const std::string band = band_of(batch, key);
  return {std::move(name), std::move(shown), band.empty() ? band : band.substr(1),
          std::move(remark)};
}

std::string band_of(const Batch& batch, std::string_view key) {
  if (batch.bands == nullptr) return {};
  for (const plan::Banded& banded : batch.bands->figures) {
    if (banded.figure->key != key) continue;
    const Told low = told(*banded.figure, banded.band.low, batch.look.units);
    const Told high = told(*banded.figure, banded.band.high, batch.look.units);
    return fmt::format(" ({} to {})", units::fixed(low.value, low.decimals),
                       units::fixed(high.value, high.decimals));
  }
  return {};
}

std::vector<std::string> wrapped(std::string_view text, std::size_t width) {
  std::vector<std::string> made;
  std::string line;
  for (std::size_t at = 0; at < text.size();) {
    const std::size_t end = std::min(text.find(' ', at), text.size());
    const std::string word(text.substr(at, end - at));
    at = end + 1;
    if (!line.empty() && columns(line) + 1 + columns(word) > width) {
      made.push_back(std::move(line));
      line.clear();
    }
    line += (line.empty() ? "" : " ") + word;
  }
  made.push_back(std::move(line));
  return made;
}

std::string lines(const std::vector<Line>& rows) {
  std::size_t name = 0;
  std::size_t whole = 0;
  for (const Line& row : rows) {
    name = std::max(name, columns(row.name));
    whole = std::max(whole, before_point(row.figure));
  }
  const auto aligned = [whole](const std::string& figure) {
    return std::string(whole - before_point(figure), ' ') + figure;
  };
  std::size_t figure = 0;
  std::size_t band = 0;
  for (const Line& row : rows) {
    figure = std::max(figure, columns(aligned(row.figure)));
    band = std::max(band, columns(row.band));
  }
  std::string text;
  for (const Line& row : rows) {
    std::string line(2, ' ');
    line += padded(row.name, name + 2, Side::left);
    line += padded(aligned(row.figure), figure + 2, Side::left);
    if (band > 0) line += padded(row.band, band + 2, Side::left);
    const std::size_t indent = columns(line);
    const std::size_t room = indent + 20 < page_width ? page_width - indent : 20;
    const std::vector<std::string> remark = wrapped(row.remark, room);
    text += without_trailing_spaces(line + remark.front()) + '\n';
    for (std::size_t i = 1; i < remark.size(); ++i) {
      text += std::string(indent, ' ') + remark[i] + '\n';
    }
  }
  return text;
}

std::string grid(const std::vector<Column>& heads,
                 const std::vector<std::vector<std::string>>& rows) {
  std::vector<std::size_t> widths;
  for (std::size_t i = 0; i < heads.size(); ++i) {
    std::size_t width = columns(heads[i].head);
    for (const auto& row : rows) width = std::max(width, columns(row[i]));
    widths.push_back(width);
  }
  std::size_t before_last = 2;
  for (std::size_t i = 0; i + 1 < heads.size(); ++i) before_last += widths[i] + 2;
  const std::size_t room = before_last + 20 < page_width ? page_width - before_last : 20;
  const bool wraps = heads.back().side == Side::left && widths.back() > room;

  std::string text;
  const auto put = [&](const std::vector<std::string>& row) {
    std::string line(2, ' ');
    for (std::size_t i = 0; i + 1 < heads.size(); ++i) {
      line += padded(row[i], widths[i], heads[i].side);
      line += "  ";
    }
    const std::vector<std::string> last =
        wraps ? wrapped(row.back(), room)
              : std::vector<std::string>{padded(row.back(), widths.back(), heads.back().side)};
    text += without_trailing_spaces(line + last.front()) + '\n';
    for (std::size_t i = 1; i < last.size(); ++i) {
      text += std::string(before_last, ' ') + last[i] + '\n';
    }
  };
  std::vector<std::string> head;
  for (const Column& column : heads) head.push_back(column.head);
  if (std::any_of(head.begin(), head.end(), [](const auto& word) { return !word.empty(); })) {
    put(head);
  }
  for (const auto& row : rows) put(row);
  return text;
}

std::string heading(std::string_view name, const Look& look) {
  return look.colour ? fmt::format("\n\033[1m{}\033[0m\n", name) : fmt::format("\n{}\n", name);
}

std::string paragraph(std::string_view words) {
  std::string text;
  for (const std::string& line : wrapped(words, page_width - 2)) text += "  " + line + '\n';
  return text;
}

std::string caution_of(const sheet::Caution& caution, const Look& look) {
  std::string word(caution.word);
  if (word[0] >= 'A' && word[0] <= 'Z') word[0] = static_cast<char>(word[0] - 'A' + 'a');
  std::string text = fmt::format("Caution: {}. {}", word, caution.text);
  // The sentences are shared with the batch sheet, which calls itself one.
  for (std::size_t at = text.find("this sheet"); at != std::string::npos;
       at = text.find("this sheet")) {
    text.replace(at, std::string_view("this sheet").size(), "this plan");
  }
  std::string set = paragraph(text);
  if (look.colour) set.replace(2, 8, "\033[33mCaution:\033[0m");
  return set;
}

std::string count_of(int count, std::string_view one, std::string_view many) {
  return fmt::format("{} {}", count, count == 1 ? one : many);
}

bool something(const spirit::Lot& lot) { return lot.mass() > units::Mass::grams(1.0); }

}  // namespace lynearm::cli::planned
