#include "sheet/record_words.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstdlib>

#include "base/error.hpp"
#include "journal/meaning.hpp"
#include "journal/questions.hpp"
#include "spirit/strength.hpp"

namespace lynearm::sheet {

using journal::Moment;
using units::System;

namespace {

constexpr std::array<std::string_view, 12> months = {
    "January", "February", "March",     "April",   "May",      "June",
    "July",    "August",   "September", "October", "November", "December"};

// Year, month, day and the hour, by the record's clock.
struct Civil {
  std::string year, day, hour, second;
  std::string_view month;
};

// What the clock of the record was ahead of UTC at that moment.
int minutes_east(const Record& record, Moment at) {
  int minutes = record.from.minutes_east;
  for (const ClockTurn& turn : record.from.turns) {
    if (turn.at <= at) minutes = turn.minutes_east;
  }
  return minutes;
}

std::string clock_words(int minutes) {
  if (minutes == 0) return "UTC";
  const int size = std::abs(minutes);
  return tight(fmt::format("UTC {} {}:{:02}", minutes < 0 ? "−" : "+", size / 60, size % 60));
}

Civil civil(const Record& record, Moment at) {
  const std::string text =
      journal::print(Moment{at.milliseconds + std::int64_t{60'000} * minutes_east(record, at)});
  const auto month =
      static_cast<std::size_t>(text[5] - '0') * 10 + static_cast<std::size_t>(text[6] - '0');
  return {text.substr(0, 4), text[8] == '0' ? text.substr(9, 1) : text.substr(8, 2),
          text.substr(11, 5), text.substr(17, 2), months.at(month - 1)};
}

}  // namespace

std::string when(const Record& record, Moment at) {
  const Civil c = civil(record, at);
  return tight(fmt::format("{} {} {}", c.day, c.month.substr(0, 3), c.hour));
}

std::string when_to_the_second(const Record& record, Moment at) {
  return fmt::format("{}:{}", when(record, at), civil(record, at).second);
}

std::string day(const Record& record, Moment at) {
  const Civil c = civil(record, at);
  return tight(fmt::format("{} {} {}", c.day, c.month, c.year));
}

std::string hour(const Record& record, Moment at) { return civil(record, at).hour; }

std::string clock_words(const Record& record) {
  std::string text = clock_words(minutes_east(record, record.batch.first));
  for (const ClockTurn& turn : record.from.turns) {
    if (turn.at <= record.batch.first || turn.at > record.batch.last) continue;
    text += fmt::format("; from {} on {}", when(record, turn.at),
                        clock_words(minutes_east(record, turn.at)));
  }
  return text;
}

std::string told(const Record& record, const journal::Told& told) {
  std::string text = when(record, told.at);
  if (!told.who.empty()) text += fmt::format(", {}", told.who);
  if (told.corrections > 0) text += "; corrected";
  return text;
}

std::string by_whom(const std::vector<const journal::Told*>& all) {
  std::vector<std::string> names;
  for (const journal::Told* told : all) {
    if (!told->who.empty() && std::find(names.begin(), names.end(), told->who) == names.end()) {
      names.push_back(told->who);
    }
  }
  if (names.empty()) return "one who gave no name";
  return fmt::format("{}", fmt::join(names, ", "));
}

std::vector<journal::Puzzle> asked_of(const Record& record) {
  std::vector<journal::Puzzle> all = journal::questions(
      record.from.house, record.batch.id, journal::glass_of(record.from.kit.instruments));
  if (record.from.followed) {
    journal::ask_besides(all, record.from.followed->asked, record.batch);
  }
  return all;
}

std::string not_believed(const Record& record, const journal::Id& entry) {
  if (!record.from.followed) return {};
  std::vector<std::string> instruments;
  bool whole = false;
  for (const NotBelieved& one : record.from.followed->doubts) {
    if (one.entry != entry) continue;
    if (const auto* doubt = std::get_if<still::Doubt>(&one.what)) {
      instruments.emplace_back(still::words(doubt->instrument));
    } else {
      whole = true;
    }
  }
  if (whole) return "not believed";
  if (instruments.empty()) return {};
  return fmt::format("{} not believed", fmt::join(instruments, " and "));
}

std::string open_cell(const Record& record) {
  return record.batch.closed ? std::string("–") : std::string{};
}

std::string lot_words(const spirit::Lot& lot, System system) {
  if (lot.mass() <= units::Mass::grams(0.05)) return "nothing";
  return fmt::format("{} at {}", cell(spirit::volume(lot), system),
                     cell(spirit::strength(lot), system));
}

std::string shown(const journal::GravityRead& read, System system) {
  std::string figure;
  switch (read.scale) {
    case journal::GravityScale::specific_gravity:
      figure = units::fixed(read.figure, 4);
      break;
    case journal::GravityScale::plato:
      figure = units::fixed(read.figure, 1) + " °P";
      break;
    case journal::GravityScale::brix:
      figure = units::fixed(read.figure, 1) + " °Bx";
      break;
  }
  return tight(fmt::format("{} at {}", figure, units::print(read.at, system)));
}

std::string shown(const journal::StrengthRead& read, System system) {
  return fmt::format("{} at {}", tight(spirit::print(read.reading)), cell(read.at, system));
}

std::string shown(const journal::VolumeRead& read, System system) {
  return fmt::format("{} at {}", cell(read.volume, system), cell(read.at, system));
}

std::optional<units::VolumeStrength> true_spout(const still::Reading& reading) {
  // Nobody knows how warm it was: no true strength can be made of it.
  if (!reading.spout || !reading.spout_temperature) return std::nullopt;
  try {
    return journal::true_strength({*reading.spout, *reading.spout_temperature});
  } catch (const base::InputError&) {
    return std::nullopt;  // out of what spirit/ takes: a slip, told as it was read
  }
}

const char* words(journal::LotKind kind) {
  switch (kind) {
    case journal::LotKind::low_wines:
      return "low wines";
    case journal::LotKind::foreshots:
      return "foreshots";
    case journal::LotKind::feints:
      return "feints";
    case journal::LotKind::hearts:
      return "hearts";
    case journal::LotKind::apart:
      return "apart";
    case journal::LotKind::spirit:
      return "spirit";
    case journal::LotKind::bottles:
      return "bottles";
  }
  return "";
}

const char* words(journal::IodineColour colour) {
  switch (colour) {
    case journal::IodineColour::unchanged:
      return "iodine unchanged";
    case journal::IodineColour::reddish:
      return "iodine reddish";
    case journal::IodineColour::blue:
      return "iodine blue";
  }
  return "";
}

std::string label_of(const Record& record, const journal::LotName& name) {
  const journal::LotState* lot = journal::lot_named(record.from.house, name);
  return lot == nullptr ? fmt::format("{} that nobody told", words(name.kind)) : lot->label;
}

std::string parts_of(const Record& record, const std::vector<journal::LotPart>& parts) {
  std::string text;
  for (const journal::LotPart& part : parts) {
    text += fmt::format("{}{} of {}", text.empty() ? "" : "; ",
                        cell(part.volume, record.system), label_of(record, part.lot));
  }
  return text;
}

Html met_table(std::string caption, const std::vector<Met>& rows) {
  if (rows.empty()) return {};
  Table made{.caption = std::move(caption),
             .columns = {{"", Align::left, 28},
                         {"planned", Align::right, 21},
                         {"measured", Align::right, 20},
                         {"when, by whom", Align::left}},
             .rows = {}};
  for (const Met& row : rows) {
    made.rows.push_back({row.name, row.planned.empty() ? std::string(no_figure) : row.planned,
                         row.measured, row.when});
  }
  return table(made);
}

Html in_halves(Table whole, std::size_t alone) {
  if (whole.rows.empty()) return {};
  if (whole.rows.size() <= alone) return table(whole);
  Table left = whole;
  Table right = whole;
  const auto half = static_cast<std::ptrdiff_t>((whole.rows.size() + 1) / 2);
  left.rows.assign(whole.rows.begin(), whole.rows.begin() + half);
  right.rows.assign(whole.rows.begin() + half, whole.rows.end());
  if (!right.caption.empty()) right.caption = "and then";
  return beside(table(left), table(right));
}

Html cautions_box(std::initializer_list<Caution> cautions) {
  Writer out;
  out.open("div", {{"class", "caution cautions"}, {"role", "note"}});
  for (const Caution& one : cautions) {
    out.open("p").element("strong", {}, fmt::format("{}. ", one.word)).text(one.text).close();
  }
  out.close();
  return out.finish();
}

std::vector<const journal::LotState*> lots_of(const Record& record, journal::LotKind kind) {
  // What was brought in from outside is of the same kinds, and no fruit of this batch.
  const auto came_here = [&](const journal::LotState& lot) {
    if (kind == journal::LotKind::spirit || kind == journal::LotKind::bottles) return true;
    return std::any_of(
        record.batch.runs.begin(), record.batch.runs.end(), [&](const auto& run) {
          const auto& by = kind == journal::LotKind::low_wines ? run.ended : run.allotted;
          return by && by->entry == lot.name.entry;
        });
  };
  std::vector<const journal::LotState*> lots;
  for (const journal::LotState& lot : record.from.house.lots) {
    if (lot.batch == record.batch.id && lot.name.kind == kind && came_here(lot)) {
      lots.push_back(&lot);
    }
  }
  return lots;
}

spirit::Lot sum_made(const std::vector<const journal::LotState*>& lots) {
  spirit::Lot sum;
  for (const journal::LotState* lot : lots) sum = sum + lot->made;
  return sum;
}

}  // namespace lynearm::sheet
