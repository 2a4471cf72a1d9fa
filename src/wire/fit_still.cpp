#include "wire/fit_still.hpp"

#include <algorithm>

#include "wire/figure.hpp"

namespace lynearm::wire {
namespace {

// "head loss" as a key.
std::string key(std::string_view words) {
  std::string text(words);
  std::replace(text.begin(), text.end(), ' ', '_');
  std::replace(text.begin(), text.end(), '-', '_');
  return text;
}

Json of_run(int run) { return run < 0 ? Json() : Json(run + 1); }

Json constant_json(const still::FittedConstant& c) {
  Json object;
  object["constant"] = key(still::words(c.constant));
  object["run"] = of_run(c.run);
  object["unit"] = still::unit_of(c.constant);
  object["value"] = figure(c.value);
  object["standard_uncertainty"] = figure(c.sd);
  object["low_80"] = figure(c.low);
  object["high_80"] = figure(c.high);
  object["told"] = c.told;
  object["spreads_off_belief"] = figure(c.spreads_off());
  object["spread_left_fraction"] = figure(c.left_open);
  object["believed_value"] = figure(c.before.value);
  object["believed_spread"] = figure(c.before.spread);
  object["believed_as_factor"] = still::is_a_factor(c.constant);
  return object;
}

Json instrument_json(const still::InstrumentFit& i) {
  Json object;
  object["instrument"] = key(still::words(i.instrument));
  object["unit"] = still::unit_of(i.instrument);
  object["readings"] = i.readings;
  object["outlying"] = i.outlying;
  object["rms"] = figure(i.rms);
  object["noise"] = figure(i.noise);
  object["count_as"] = figure(i.count_as);
  return object;
}

Json reading_json(const still::FittedReading& r) {
  Json object;
  object["run"] = r.run + 1;
  object["line"] = r.seen.line;
  object["minutes"] = figure(r.seen.t_s / 60.0);
  object["instrument"] = key(still::words(r.seen.instrument));
  object["shown"] = figure(r.seen.figure);
  object["expected"] = figure(r.expected);
  object["spread"] = figure(r.spread);
  object["outlying"] = r.outlying;
  return object;
}

}  // namespace

std::string json(const still::StillFit& fit, const std::vector<std::string>& names,
                 const std::string& section) {
  Json object;
  Json constants = Json::array(), entangled = Json::array(), instruments = Json::array(),
       readings = Json::array(), outlying = Json::array(), passed_over = Json::array();
  for (const still::FittedConstant& c : fit.constants) constants.push_back(constant_json(c));
  for (const still::Entangled& e : fit.entangled) {
    entangled.push_back({{"first", still::name_of(fit.constants[e.first], fit.runs.size())},
                         {"second", still::name_of(fit.constants[e.second], fit.runs.size())},
                         {"correlation", figure(e.correlation)}});
  }
  for (const still::InstrumentFit& i : fit.instruments) {
    instruments.push_back(instrument_json(i));
  }
  for (const still::FittedReading& r : fit.readings) {
    readings.push_back(reading_json(r));
    if (r.outlying) outlying.push_back(reading_json(r));
  }
  for (const still::PassedOver& p : fit.passed_over) {
    passed_over.push_back({{"run", p.run + 1}, {"line", p.line}, {"what", p.what}});
  }
  object["constants"] = std::move(constants);
  object["entangled"] = std::move(entangled);
  object["instruments"] = std::move(instruments);
  object["outlying"] = std::move(outlying);
  object["passed_over"] = std::move(passed_over);
  object["account"] = still::account(fit);
  object["kit_section"] = section;
  object["runs"] = names;
  object["readings"] = std::move(readings);
  return object.dump();
}

}  // namespace lynearm::wire
