#include "wire/follow.hpp"

#include "wire/figure.hpp"
#include "wire/still.hpp"

namespace lynearm::wire {
namespace {

constexpr units::Temperature hot_spirit = units::Temperature::celsius(40.0);
constexpr units::Temperature hot_coolant = units::Temperature::celsius(70.0);

template <class Quantity, class Figure>
Json band(const still::Likely<Quantity>& likely, Figure of) {
  Json object;
  object["low"] = figure(of(likely.low));
  object["median"] = figure(of(likely.median));
  object["high"] = figure(of(likely.high));
  return object;
}

Json minutes(const still::Likely<units::Duration>& d) {
  return band(d, [](units::Duration t) { return t.minutes(); });
}
Json percent(const still::Likely<units::VolumeStrength>& s) {
  return band(s, [](units::VolumeStrength v) { return v.percent(); });
}
Json celsius(const still::Likely<units::Temperature>& t) {
  return band(t, [](units::Temperature v) { return v.celsius(); });
}
Json millilitres(const still::Likely<units::Volume>& v) {
  return band(v, [](units::Volume l) { return l.millilitres(); });
}

Json doubts(const std::vector<still::Doubt>& all) {
  Json list = Json::array();
  for (const still::Doubt& doubt : all) {
    Json object;
    object["reading"] = doubt.reading + 1;
    object["figure"] = still::name(doubt.instrument);
    object["read"] = figure(doubt.shown);
    object["expected_low"] = figure(doubt.low);
    object["expected_high"] = figure(doubt.high);
    object["slip_probability"] = figure(doubt.slip);
    object["says"] = still::sentence(doubt);
    list.push_back(std::move(object));
  }
  return list;
}

Json now(const still::StillNow& is) {
  Json object;
  object["heated"] = is.heated;
  object["pot_percent_vol"] = percent(is.pot);
  object["pot_temperature_C"] = celsius(is.pot_temperature);
  object["head_temperature_C"] = celsius(is.head_temperature);
  object["spout_percent_vol"] = is.spout ? percent(*is.spout) : Json(nullptr);
  object["flow_mL_per_min"] =
      is.flow ? band(*is.flow, [](units::VolumeFlow f) { return f.litres_per_minute() * 1e3; })
              : Json(nullptr);
  object["collected_mL_20C"] = millilitres(is.collected);
  object["pure_alcohol_left_mL"] = millilitres(is.alcohol_left);
  object["left_in_pot_L"] = band(is.left_in_pot, [](units::Volume v) { return v.litres(); });
  object["nothing_runs_probability"] = figure(is.nothing_runs.fraction());
  if (const std::string says = still::fire_words(is); !says.empty()) object["says"] = says;
  return object;
}

Json decision(const still::NextDecision& next) {
  Json object;
  object["decision"] = still::key(next.decision);
  object["passed"] = next.passed;
  object["reached_probability"] = figure(next.reached.fraction());
  object["in_minutes"] = next.in ? minutes(*next.in) : Json(nullptr);
  object["at_minutes"] = next.at ? minutes(*next.at) : Json(nullptr);
  object["collected_mL_20C"] = next.collected ? millilitres(*next.collected) : Json(nullptr);
  if (next.no_time) object["why_no_time"] = still::why_no_time(next);
  return object;
}

}  // namespace

std::vector<std::string> follow_cautions(const still::Reading& reading) {
  std::vector<std::string> hot;
  if (reading.spout_temperature && *reading.spout_temperature > hot_spirit) {
    hot.emplace_back(spirit_caution);
  }
  if (reading.coolant_out && *reading.coolant_out > hot_coolant) {
    hot.emplace_back(coolant_caution);
  }
  return hot;
}

std::string follow_json(const still::Reading& reading, const still::Update& update,
                        const still::Forecast& forecast) {
  Json object;
  object["minutes"] = figure(reading.at.minutes());
  object["reading"] = update.reading + 1;
  if (reading.line > 0) object["line"] = reading.line;
  object["doubts"] = doubts(update.doubts);
  object["doubted_before"] = doubts(update.earlier);
  object["remarks"] = Json::array();
  for (const still::FireRemark& remark : update.remarks) {
    object["remarks"].push_back(still::sentence(remark));
  }
  object["now_minutes"] = figure(update.now.at.minutes());
  object["now"] = now(update.now);
  object["decisions"] = Json::array();
  for (const still::NextDecision& next : forecast.decisions) {
    object["decisions"].push_back(decision(next));
  }
  for (const still::Learnt& learnt : update.constants) {
    Json constant;
    constant["value"] = figure(learnt.value);
    constant["sd"] = figure(learnt.sd);
    object["constants"][std::string(still::key(learnt.constant))] = std::move(constant);
  }
  object["cautions"] = follow_cautions(reading);
  if (const std::string low = still::pot_caution(update.now); !low.empty()) {
    object["cautions"].push_back(low);
  }
  if (update.now.heated) object["cautions"].push_back(still_caution);
  return object.dump();
}

}  // namespace lynearm::wire
