#include "wire/run_reading.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <utility>

#include "record/run_key.hpp"
#include "units/print.hpp"
#include "wire/figure.hpp"

namespace lynearm::wire {
namespace {

constexpr int deepest = 8;  // nothing of ours is nested; keeps a parser's stack small
constexpr std::size_t most_bytes = 64U << 10U;

constexpr std::string_view an_object =
    R"(one JSON object, such as {"minutes":42,"head_temperature_C":88.4})";

std::string shortened(std::string_view text) {
  constexpr std::size_t most = 60;
  if (text.size() <= most) return std::string(text);
  std::size_t end = most;
  while (end > 0 && (static_cast<unsigned char>(text[end]) & 0xC0U) == 0x80U) --end;
  return std::string(text.substr(0, end)) + "...";
}

bool is_blank(std::string_view text) {
  return text.find_first_not_of(" \t\r\n") == std::string_view::npos;
}

// Whether `word`, in any case, stands within a few bytes of the 1-based place `byte`.
bool near(std::string_view text, std::size_t byte, std::string_view word) {
  const std::size_t from = byte > 6 ? byte - 6 : 0;
  const std::string_view window = text.substr(std::min(from, text.size()), 12);
  return std::search(window.begin(), window.end(), word.begin(), word.end(),
                     [](char a, char b) { return (a | 0x20) == b; }) != window.end();
}

// An object's names in their order, a name as often as it stands there.
struct Parsed {
  Json object;
  std::vector<std::string> twice;
};

// throws Json::parse_error
Parsed parsed(std::string_view line) {
  Parsed result;
  std::set<std::string> names;
  bool too_deep = false;
  const Json::parser_callback_t watch = [&](int depth, Json::parse_event_t event, Json& value) {
    if (depth > deepest) too_deep = true;
    if (event == Json::parse_event_t::key && depth == 1) {
      const auto& name = value.get_ref<const std::string&>();
      if (!names.insert(name).second) result.twice.push_back(name);
    }
    return !too_deep;
  };
  result.object = Json::parse(line.begin(), line.end(), watch);
  return result;
}

class LineReader {
 public:
  LineReader(const std::string& file, int line, const record::Clock& clock)
      : file_(file), clock_(clock) {
    reading.line = line;
  }

  void read(std::string_view text) {
    if (text.size() > most_bytes) {
      return tell("line", shortened(text), fmt::format("at most {} bytes", most_bytes));
    }
    Parsed found;
    try {
      found = parsed(text);
    } catch (const Json::parse_error& error) {
      // The byte at which reading stopped is the only thing taken from the parser's words.
      std::string accepted(an_object);
      if (near(text, error.byte, "nan") || near(text, error.byte, "inf")) {
        accepted += "; JSON has no such figure: leave out what was not read";
      }
      faults.push_back({"line", shortened(text), std::move(accepted), file_, reading.line,
                        static_cast<int>(error.byte)});
      return;
    } catch (const Json::out_of_range&) {
      return tell("line", shortened(text), "figures of a size that can be held");
    }
    if (!found.object.is_object()) {
      return tell("line", shortened(text), std::string(an_object));
    }
    for (const std::string& name : found.twice) tell(name, "there twice", "each name once");
    for (const auto& [name, value] : found.object.items()) entry(name, value);
    if (time_name_.empty()) {
      tell("time", "", R"("minutes", "hours" or "clock")");
    }
    for (const base::Fault& fault : still::faults_of(reading)) {
      if (fault.field == "at") {
        if (faults.empty()) tell(time_name_, fault.value, fault.accepted);
        continue;
      }
      const auto own = std::find_if(seen_.begin(), seen_.end(), [&](const auto& seen) {
        return seen.first == fault.field;
      });
      tell(own->second, fault.value, fault.accepted);
    }
  }

  still::Reading reading;
  std::vector<base::Fault> faults;
  std::optional<units::Duration> time_of_day;

 private:
  void tell(std::string field, std::string value, std::string accepted) {
    faults.push_back(
        {std::move(field), std::move(value), std::move(accepted), file_, reading.line});
  }

  void entry(const std::string& name, const Json& value) {
    const auto key = record::RunKey::find(name);
    if (!key) {
      return tell(shortened(name), "an unknown name", record::accepted_names(name));
    }
    if (value.is_null()) return;
    const std::string about(key->about());
    const auto same = std::find_if(seen_.begin(), seen_.end(),
                                   [&](const auto& seen) { return seen.first == about; });
    if (same != seen_.end()) {
      return tell(name, shortened(written(value)),
                  fmt::format("one of that kind; there is {} too", same->second));
    }
    seen_.emplace_back(about, name);
    if (about == "at") time_name_ = name;
    std::string accepted = put(*key, value);
    if (!accepted.empty()) tell(name, shortened(written(value)), std::move(accepted));
  }

  // What would be accepted, empty when `value` was.
  std::string put(const record::RunKey& key, const Json& value) {
    if (key.is_clock()) {
      if (value.is_string()) time_of_day = record::clock_time(value.get_ref<const Text&>());
      if (!time_of_day) return std::string(record::clock_words);
      reading.at = clock_.since_heat_on(*time_of_day);
      return "";
    }
    if (key.is_number()) {
      return value.is_number() ? key.put(reading, value.get<double>())
                               : "a number without quote marks, in the unit of the name";
    }
    if (value.is_string()) return key.put(reading, value.get_ref<const Text&>());
    const bool own_words = key.about() == "event" || key.about() == "note";
    return own_words ? "a text in quote marks" : "a text in quote marks that states its unit";
  }

  using Text = Json::string_t;
  static std::string written(const Json& value) {
    return value.is_string() ? value.get<std::string>()
                             : value.dump(-1, ' ', false, Json::error_handler_t::replace);
  }

  const std::string& file_;
  const record::Clock& clock_;
  std::string time_name_;
  std::vector<std::pair<std::string, std::string>> seen_;  ///< what about, under which name
};

const char* spout_name(spirit::Scale scale) {
  switch (scale) {
    case spirit::Scale::percent_vol:
      return "spout_percent_vol";
    case spirit::Scale::percent_vol_15C:
      return "spout_percent_vol_15C";
    case spirit::Scale::percent_vol_60F:
      return "spout_percent_vol_60F";
    case spirit::Scale::percent_mass:
      return "spout_percent_mass";
    case spirit::Scale::us_proof:
      return "spout_proof";
    default:
      return nullptr;
  }
}

}  // namespace

ReadingLine ReadingLines::next(std::string_view line) {
  ++line_;
  if (is_blank(line)) return {};
  LineReader reader(file_, line_, clock_);
  reader.read(line);
  if (!reader.faults.empty()) return {std::nullopt, std::move(reader.faults)};
  if (reader.time_of_day) {
    std::optional<bool> stopped;
    if (reader.reading.event) stopped = *reader.reading.event == still::Event::stopped;
    clock_.pass(reader.reading.at, *reader.time_of_day, stopped);
  }
  return {std::move(reader.reading), {}};
}

std::string reading_json(const still::Reading& reading) {
  Json object;
  const auto celsius = [&](const char* name, const std::optional<units::Temperature>& t) {
    if (t) object[name] = figure(t->celsius());
  };
  object["minutes"] = figure(reading.at.minutes());
  if (reading.power) object["power_W"] = figure(reading.power->watts());
  celsius("pot_temperature_C", reading.pot_temperature);
  celsius("head_temperature_C", reading.head_temperature);
  if (reading.spout) {
    const char* const name = spout_name(reading.spout->scale);
    if (name != nullptr) {
      object[name] = figure(reading.spout->figure);
    } else {
      object["spout"] = spirit::print(*reading.spout, 6);
    }
  }
  celsius("spout_temperature_C", reading.spout_temperature);
  if (reading.collected) object["collected_mL"] = figure(reading.collected->millilitres());
  celsius("coolant_in_C", reading.coolant_in);
  celsius("coolant_out_C", reading.coolant_out);
  if (reading.coolant_flow) {
    object["coolant_flow_L_per_min"] = figure(reading.coolant_flow->litres_per_minute());
  }
  if (reading.event) object["event"] = std::string(still::word(*reading.event));
  if (!reading.note.empty()) object["note"] = reading.note;
  return object.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace lynearm::wire
