#include "wire/run_forecast.hpp"

#include <fmt/format.h>

#include "base/error.hpp"
#include "wire/figure.hpp"
#include "wire/follow.hpp"
#include "wire/run_whys.hpp"
#include "wire/still.hpp"

namespace lynearm::wire {
namespace {

template <class Quantity, class Figure>
Json band(const still::Likely<Quantity>& likely, Figure of) {
  return {{"low", figure(of(likely.low))},
          {"median", figure(of(likely.median))},
          {"high", figure(of(likely.high))}};
}
Json percent(const still::Likely<units::VolumeStrength>& s) {
  return band(s, [](units::VolumeStrength v) { return v.percent(); });
}
Json celsius(const still::Likely<units::Temperature>& t) {
  return band(t, [](units::Temperature v) { return v.celsius(); });
}
Json minutes(const still::Likely<units::Duration>& d) {
  return band(d, [](units::Duration t) { return t.minutes(); });
}
Json millilitres(const still::Likely<units::Volume>& v) {
  return band(v, [](units::Volume l) { return l.millilitres(); });
}
Json litres(const still::Likely<units::Volume>& v) {
  return band(v, [](units::Volume l) { return l.litres(); });
}

Json now_json(const still::StillNow& now) {
  Json json;
  json["minutes"] = figure(now.at.minutes());
  json["heated"] = now.heated;
  json["pot_temperature_C"] = celsius(now.pot_temperature);
  json["head_temperature_C"] = celsius(now.head_temperature);
  json["pot_percent_vol"] = percent(now.pot);
  if (now.spout) json["spout_percent_vol"] = percent(*now.spout);
  if (now.flow) {
    json["flow_mL_per_min_20C"] =
        band(*now.flow, [](units::VolumeFlow f) { return f.litres_per_minute() * 1e3; });
  }
  json["collected_mL_20C"] = millilitres(now.collected);
  json["alcohol_left_L_20C"] = litres(now.alcohol_left);
  json["left_in_pot_L"] = litres(now.left_in_pot);
  if (const std::string says = still::fire_words(now); !says.empty()) json["says"] = says;
  return json;
}

Json expected_json(const still::ExpectedAt& at) {
  Json json;
  json["minutes"] = figure(at.at.minutes());
  json["collected_mL_20C"] = figure(at.collected.millilitres());
  json["running"] = at.running;
  if (at.running) {
    json["spout_percent_vol"] = percent(at.spout);
    json["head_temperature_C"] = celsius(at.head);
  }
  json["pot_temperature_C"] = celsius(at.pot);
  return json;
}

Json decision_json(const still::NextDecision& next) {
  Json json;
  json["decision"] = std::string(still::key(next.decision));
  json["words"] = std::string(still::words(next.decision));
  json["passed"] = next.passed;
  if (next.in) json["in_minutes"] = minutes(*next.in);
  if (next.at) json["at_minutes"] = minutes(*next.at);
  if (next.collected) json["collected_mL_20C"] = millilitres(*next.collected);
  if (const std::string why = still::why_no_time(next); !why.empty()) json["why_no_time"] = why;
  return json;
}

}  // namespace

std::string run_forecast_json(const RunForecast& run) {
  Json json;
  json["run"] = journal::print(run.run);
  json["readings"] = run.readings.size();
  if (run.crowded > 0) json["crowded"] = run.crowded;
  if (run.charge_by_plan) {
    json["charge_by_plan_percent_vol"] = figure(run.charge_by_plan->percent());
  }
  if (run.turns_down_to) json["turns_down_to_W"] = figure(run.turns_down_to->watts());
  json["air_hPa"] = figure(run.air.hectopascals());
  json["air_read"] = run.air_read;
  json["now"] = now_json(run.now);
  json["by_time"] = Json::array();
  for (const still::ExpectedAt& at : run.forecast.by_time) {
    json["by_time"].push_back(expected_json(at));
  }
  json["decisions"] = Json::array();
  for (const still::NextDecision& next : run.forecast.decisions) {
    json["decisions"].push_back(decision_json(next));
  }
  json["doubts"] = Json::array();
  for (const still::Doubt& doubt : run.doubts) {
    base::ensure(doubt.reading < run.readings.size(), "every doubt is of a reading taken");
    json["doubts"].push_back({{"entry", journal::print(run.readings[doubt.reading])},
                              {"instrument", std::string(still::name(doubt.instrument))},
                              {"words", still::sentence(doubt)}});
  }
  for (const Refused& refused : run.refused) {
    json["doubts"].push_back({{"entry", journal::print(refused.entry)},
                              {"instrument", "reading"},
                              {"words", refused.why}});
  }
  json["constants"] = Json::array();
  for (const still::Learnt& learnt : run.constants) {
    const still::LearntWords says = still::words(learnt);
    json["constants"].push_back({{"constant", std::string(still::words(learnt.constant))},
                                 {"now", says.now},
                                 {"before", says.before}});
  }
  // All else rests on the charge.
  json["cautions"] = run.of_charge;
  if (run.latest) {
    for (const std::string& hot : follow_cautions(*run.latest)) json["cautions"].push_back(hot);
  }
  if (const std::string low = still::pot_caution(run.now); !low.empty()) {
    json["cautions"].push_back(low);
  }
  if (const auto danger = still::pot_danger(run.now)) {
    json["heat_off"] = {{"says", fmt::format("{} {}", danger->stands, still::heat_off_first)},
                        {"brief", danger->brief}};
  }
  if (run.now.heated) json["cautions"].push_back(still_caution);
  json["why"] = why_json(why_run(run));
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace lynearm::wire
