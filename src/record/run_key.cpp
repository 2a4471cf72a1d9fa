#include "record/run_key.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <utility>

#include "base/error.hpp"
#include "spirit/scale_in_name.hpp"
#include "units/parse.hpp"
#include "units/unit_in_name.hpp"

namespace lynearm::record {
namespace {

template <class... Cases>
struct Overloaded : Cases... {
  using Cases::operator()...;
};
template <class... Cases>
Overloaded(Cases...) -> Overloaded<Cases...>;

// What states the unit of a bare number, in a refusal.
constexpr const char* stated_by = "name";

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
    const auto unit = units::unit_behind(named.name, name);
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
          Overloaded{
              [](std::monostate) -> const units::Unit* { return nullptr; },
              [&]<class Q>(Member<Q>) { return units::unit_in_name(*unit, units::kind<Q>()); }},
          named.place);
      if (key.unit_ != nullptr) return key;
    } else if (named.what == What::spout) {
      const spirit::ScaleInName* const found = spirit::scale_in_name(*unit);
      if (found != nullptr && spirit::is_of_strength(found->scale)) {
        key.scale_ = found->scale;
        return key;
      }
    }
  }
  return std::nullopt;
}

bool RunKey::is_number() const { return unit_ != nullptr || scale_.has_value(); }

std::string RunKey::put(still::Reading& reading, std::string_view entry) const {
  if (is_number()) {
    auto figure = units::bare_number(entry, {}, stated_by);
    return figure ? put(reading, *figure.value) : std::move(figure.accepted);
  }
  std::string accepted;
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
  auto base = units::bare_number(number, *unit_, stated_by);
  if (!base) return std::move(base.accepted);
  if (what_ == What::time) {
    reading.at = units::Duration::raw(*base.value);
    return "";
  }
  std::visit(Overloaded{[](std::monostate) {},
                        [&]<class Q>(Member<Q> place) {
                          reading.*place = units::from_base_value<Q>(*base.value);
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
