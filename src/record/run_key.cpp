#include "record/run_key.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <system_error>
#include <utility>

#include "base/error.hpp"
#include "units/parse.hpp"

namespace lynearm::record {
namespace {

struct ScaleWord {
  std::string_view word;
  spirit::Scale scale;
};
constexpr std::array<ScaleWord, 7> scale_words{{
    {"percent_vol", spirit::Scale::percent_vol},
    {"percent_vol_20C", spirit::Scale::percent_vol},
    {"percent_vol_15C", spirit::Scale::percent_vol_15C},
    {"percent_vol_60F", spirit::Scale::percent_vol_60F},
    {"percent_mass", spirit::Scale::percent_mass},
    {"proof", spirit::Scale::us_proof},
    {"us_proof", spirit::Scale::us_proof},
}};

template <class... Cases>
struct Overloaded : Cases... {
  using Cases::operator()...;
};
template <class... Cases>
Overloaded(Cases...) -> Overloaded<Cases...>;

char lower(char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; }

bool same_word(std::string_view a, std::string_view b) {
  return std::equal(a.begin(), a.end(), b.begin(), b.end(),
                    [](char x, char y) { return lower(x) == lower(y); });
}

// "L_per_min" as the tables of units/ spell it: "L/min".
std::string spelt(std::string_view word) {
  constexpr std::string_view per = "_per_";
  std::string text;
  while (!word.empty()) {
    const bool divides = word.starts_with(per);
    text += divides ? '/' : word.front() == '_' ? ' ' : word.front();
    word.remove_prefix(divides ? per.size() : 1);
  }
  return text;
}

const units::Unit* find_unit(std::string_view word, const units::Kind& kind) {
  const std::string wanted = spelt(word);
  for (const units::Unit& unit : kind.units) {
    for (std::string_view names = unit.names; !names.empty();) {
      const std::size_t bar = std::min(names.find('|'), names.size());
      if (same_word(names.substr(0, bar), wanted)) return &unit;
      names.remove_prefix(std::min(bar + 1, names.size()));
    }
  }
  return nullptr;
}

// The unit of "power_W" behind "power"; empty for the name alone; nothing for another name.
std::optional<std::string_view> unit_behind(std::string_view name, std::string_view key) {
  if (key.size() < name.size() || !same_word(key.substr(0, name.size()), name)) {
    return std::nullopt;
  }
  key.remove_prefix(name.size());
  if (key.empty()) return key;
  if (key.front() != '_' || key.size() == 1) return std::nullopt;
  return key.substr(1);
}

constexpr const char* bare = "a number without unit, which the name states{}";

// A number with a point as decimal mark. `accepted` says what was wrong.
std::optional<double> number(std::string_view text, std::string& accepted) {
  std::string_view why;
  const bool negative = text.starts_with('-');
  if (negative || text.starts_with('+')) text.remove_prefix(1);
  // Keeps the words for infinity and not-a-number from from_chars.
  if (!text.empty() && ((text[0] >= '0' && text[0] <= '9') || text[0] == '.')) {
    double value = 0.0;
    const char* const last = text.data() + text.size();
    const auto [end, error] = std::from_chars(text.data(), last, value);
    if (error == std::errc{} && end == last) return negative ? -value : value;
    if (error == std::errc::result_out_of_range) {
      why = ", of a size that can be held";
    } else if (end != last && *end == ',') {
      why = ", with a point as decimal mark and no separator of thousands";
    }
  }
  accepted = fmt::format(bare, why);
  return std::nullopt;
}

}  // namespace

struct RunKey::Named {
  std::string_view name;
  What what;
  Place place;
  std::string_view about;
};

const std::vector<RunKey::Named>& RunKey::all() {
  using still::Reading;
  static const std::vector<Named> names{
      {"minutes", What::time, {}, "at"},
      {"hours", What::time, {}, "at"},
      {"clock", What::clock, {}, "at"},
      {"power", What::quantity, &Reading::power, "power"},
      {"pot_temperature", What::quantity, &Reading::pot_temperature, "pot_temperature"},
      {"head_temperature", What::quantity, &Reading::head_temperature, "head_temperature"},
      // Before "spout", whose scales would be looked for behind it.
      {"spout_temperature", What::quantity, &Reading::spout_temperature, "spout_temperature"},
      {"spout", What::spout, {}, "spout"},
      {"collected", What::quantity, &Reading::collected, "collected"},
      {"coolant_in", What::quantity, &Reading::coolant_in, "coolant_in"},
      {"coolant_out", What::quantity, &Reading::coolant_out, "coolant_out"},
      {"coolant_flow", What::quantity, &Reading::coolant_flow, "coolant_flow"},
      {"event", What::event, {}, "event"},
      {"note", What::note, {}, "note"},
  };
  return names;
}

std::optional<RunKey> RunKey::find(std::string_view name) {
  for (const Named& named : all()) {
    const auto unit = unit_behind(named.name, name);
    if (!unit) continue;
    RunKey key;
    key.what_ = named.what;
    key.about_ = named.about;
    key.place_ = named.place;
    if (named.what == What::time) {
      key.unit_ = units::kind<units::Duration>().find(named.name);
    }
    if (unit->empty()) return key;
    if (named.what == What::quantity) {
      key.unit_ = std::visit(
          Overloaded{[](std::monostate) -> const units::Unit* { return nullptr; },
                     [&]<class Q>(Member<Q>) { return find_unit(*unit, units::kind<Q>()); }},
          named.place);
      if (key.unit_ != nullptr) return key;
    } else if (named.what == What::spout) {
      for (const ScaleWord& scale : scale_words) {
        if (!same_word(scale.word, *unit)) continue;
        key.scale_ = scale.scale;
        return key;
      }
    }
  }
  return std::nullopt;
}

bool RunKey::is_number() const { return unit_ != nullptr || scale_.has_value(); }

std::string RunKey::put(still::Reading& reading, std::string_view entry) const {
  std::string accepted;
  if (is_number()) {
    const auto figure = number(entry, accepted);
    return figure ? put(reading, *figure) : accepted;
  }
  switch (what_) {
    case What::quantity:
      std::visit(Overloaded{[](std::monostate) {},
                            [&]<class Q>(Member<Q> place) {
                              auto parsed = units::try_parse<Q>(entry);
                              accepted = std::move(parsed.accepted);
                              if (parsed) reading.*place = *parsed.value;
                            }},
                 place_);
      return accepted;
    case What::spout: {
      auto parsed = units::try_parse<spirit::Reading>(entry);
      if (parsed) reading.spout = *parsed.value;
      return std::move(parsed.accepted);
    }
    case What::event:
      reading.event = still::event_of(entry);
      return reading.event ? "" : R"("stopped" or "resumed")";
    case What::note:
      reading.note = entry;
      return "";
    case What::clock:
    case What::time:
      break;
  }
  base::ensure(false, "a key of time is a number or goes through the clock");
  return accepted;
}

std::string RunKey::put(still::Reading& reading, double number) const {
  if (scale_) {
    reading.spout = spirit::Reading{number, *scale_};
    return "";
  }
  if (unit_ == nullptr) return "a text in quote marks";
  const double base = unit_->to_base(number);
  if (!std::isfinite(base)) return fmt::format(bare, ", of a size that can be held");
  if (what_ == What::time) {
    reading.at = units::Duration::raw(base);
    return "";
  }
  std::visit(Overloaded{[](std::monostate) {},
                        [&]<class Q>(Member<Q> place) {
                          reading.*place = units::from_base_value<Q>(base);
                        }},
             place_);
  return "";
}

const std::vector<std::string>& run_key_names() {
  static const std::vector<std::string> names{
      "minutes", "hours", "clock", "power_W", "power_kW", "pot_temperature_C",
      "pot_temperature_F", "head_temperature_C", "head_temperature_F", "spout_percent_vol",
      "spout_proof", "spout_percent_mass", "spout_temperature_C", "spout_temperature_F",
      "collected_mL", "collected_L", "collected_floz", "coolant_in_C", "coolant_in_F",
      "coolant_out_C", "coolant_out_F", "coolant_flow_L_per_min", "event", "note",
      // The names alone, under which each entry states its unit.
      "power", "pot_temperature", "head_temperature", "spout", "spout_temperature", "collected",
      "coolant_in", "coolant_out", "coolant_flow"};
  return names;
}

std::string accepted_names(std::string_view unknown) {
  // A name whose length is further off cannot be near enough; comparing is what takes time.
  const std::size_t most_apart = std::max<std::size_t>(1, unknown.size() / 3);
  std::vector<std::string> likely;
  for (const std::string& name : run_key_names()) {
    if (name.size() <= unknown.size() + most_apart &&
        unknown.size() <= name.size() + most_apart) {
      likely.push_back(name);
    }
  }
  const std::string nearest = base::nearest_name(unknown, likely);
  if (!nearest.empty())
    return fmt::format("a name of the run log; did you mean \"{}\"", nearest);
  return "a name of the run log: minutes, hours, clock, power, pot_temperature, "
         "head_temperature, spout, spout_temperature, collected, coolant_in, coolant_out, "
         "coolant_flow, event, note, most of them with their unit, as in pot_temperature_C";
}

std::string run_keys_help() {
  return R"(A run is logged under these names, in any order, any of them left out but the time:
  minutes, hours (since the heat was turned on) or clock (21:40, 21:40:30; past midnight)
  power_W, _kW                 drawn from then on
  pot_temperature_C, _F        head_temperature_C, _F
  spout_percent_vol (at 20 °C), _percent_vol_15C, _percent_vol_60F, _percent_mass, _proof:
                               as the hydrometer shows it, at spout_temperature_C, _F
  collected_mL, _L, _floz      since the run began
  coolant_in_C, _F             coolant_out_C, _F       coolant_flow_L_per_min, _gal_per_min
  event                        stopped or resumed
  note                         your own words
Under a name without its unit each entry states it ("91.2 C"). An empty entry was not read.
)";
}

}  // namespace lynearm::record
