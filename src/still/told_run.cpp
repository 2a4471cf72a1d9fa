#include "still/told_run.hpp"

#include <algorithm>

#include "base/error.hpp"
#include "still/even_points.hpp"
#include "still/jars_of_run.hpp"

namespace lynearm::still {
namespace {

std::vector<JarRow> jar_rows(const Run& run, units::Volume each, double amount_factor) {
  const std::vector<Fraction> fractions = into_jars(run, each);
  std::vector<Jar> jars;
  if (run.charge.congeners) jars = jars_of(run, each, amount_factor);
  std::vector<JarRow> rows;
  for (std::size_t i = 0; i < fractions.size(); ++i) {
    JarRow row;
    if (run.charge.congeners) {
      row.jar = jars[i];
    } else {
      row.jar.label = std::to_string(i + 1);
      row.jar.volume = fractions[i].volume;
      row.jar.strength = fractions[i].strength;
    }
    row.from = fractions[i].from;
    row.to = fractions[i].to;
    rows.push_back(std::move(row));
  }
  return rows;
}

}  // namespace

ToldRun tell(Run run, const Asked& asked, const vapour::BoilingCurve& curve) {
  ToldRun told;
  told.pressure = curve.pressure();
  told.conductance = asked.conductance;
  told.coolant = asked.coolant;
  for (const Point& point : even_points(run, asked.steps)) {
    Step step;
    step.spout = at_the_spout(point, asked.conductance, asked.coolant, curve);
    if (run.charge.congeners) step.came = groups_of(congeners_to(run, point.collected));
    step.point = point;
    told.curve.push_back(step);
  }
  const auto part = [&](std::string name, const Fraction& fraction) {
    std::optional<CongenerAmounts> amounts;
    if (run.charge.congeners) amounts = congeners_in(run, fraction);
    told.parts.push_back({std::move(name), fraction, amounts});
  };
  if (asked.borders) {
    told.cuts = cut(run, *asked.borders);
    part("foreshots", told.cuts->foreshots);
    part("heads", told.cuts->heads);
    part("hearts", told.cuts->hearts);
    part("tails", told.cuts->tails);
  } else {
    part("all", fraction(run.first(), run.last()));
  }
  if (asked.jar) told.jars = jar_rows(run, *asked.jar, asked.amount_factor);
  told.run = std::move(run);
  return told;
}

units::Temperature warmest_spirit(const ToldRun& told) {
  base::ensure(!told.curve.empty(), "a run has a curve");
  units::Temperature warmest = told.curve.front().spout.exchange.spirit;
  for (const Step& step : told.curve) warmest = std::max(warmest, step.spout.exchange.spirit);
  return warmest;
}

units::Share most_escaping(const ToldRun& told) {
  units::Share most;
  for (const Step& step : told.curve) most = std::max(most, step.spout.exchange.escapes);
  return most;
}

}  // namespace lynearm::still
