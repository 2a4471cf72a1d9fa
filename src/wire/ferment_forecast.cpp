#include "wire/ferment_forecast.hpp"

#include <fmt/format.h>

#include <cmath>

#include "base/error.hpp"
#include "wire/figure.hpp"
#include "wire/why.hpp"

namespace lynearm::wire {
namespace {

using units::Duration;

Json band(const ferment::LikelyGravity& of) {
  return {{"low", figure(of.low.ratio())},
          {"median", figure(of.median.ratio())},
          {"high", figure(of.high.ratio())}};
}

Json band(const ferment::LikelyFigure& of) {
  return {{"low", figure(of.low)}, {"median", figure(of.median)}, {"high", figure(of.high)}};
}

// A moment and its band: hours after the pitch, and by the house's clock. An end past the
// horizon is left out.
Json moment(const ferment::LikelyMoment& of, Duration rest, journal::Moment pitched) {
  Json hours = Json::object();
  Json at = Json::object();
  const auto add = [&](const char* name, const std::optional<Duration>& end) {
    if (!end) return;
    hours[name] = figure((*end + rest).hours());
    at[name] = print(later(pitched, *end + rest));
  };
  add("low", of.low);
  add("median", of.median);
  add("high", of.high);
  return {{"hours", std::move(hours)}, {"at", std::move(at)}};
}

Json learnt(const char* words, const ferment::LikelyFigure& of) {
  return {{"constant", words}, {"factor", band(of)}};
}

Json stuck_json(const ferment::Followed& followed) {
  Json json;
  json["says"] = fmt::format(
      "It stands at {:.3f} to {:.3f} with sugar left; the odds are {:.0f} in 100 that it will "
      "not go on by itself.",
      followed.end.low.ratio(), followed.end.high.ratio(),
      std::min(99.0, std::round(followed.stopped.percent())));
  json["causes"] = followed.causes;
  return json;
}

std::string doubt_words(const ferment::Followed& followed,
                        const ferment::DoubtedGravity& doubt) {
  const double low = doubt.expected.low.ratio();
  const double high = doubt.expected.high.ratio();
  if (followed.believed() > 0) {
    return fmt::format("Kept, not believed: the others say {:.4f} to {:.4f} then.", low, high);
  }
  return fmt::format(
      "Kept, not believed: no reading is believed yet; as planned, it is at {:.4f} to {:.4f} "
      "then.",
      low, high);
}

Why why(const FermentForecast& of) {
  Why out;
  out.what = "Gravity and dry date, corrected by the readings";
  if (of.followed.believed() == 0) {
    out.what = "Gravity and dry date, as planned from the pitch";
    if (of.followed.gravities > 0) out.what += ": no reading is believed yet";
  }
  out.inputs = {
      {"Pitched at",
       fmt::format("{:.4f}, {:.1f} L at 20 °C", of.original.ratio(), of.volume.litres())},
      {"Yeast", fmt::format("{:.0f} g, {}", of.pitched_yeast.grams(), of.yeast)},
      {"Room", fmt::format("{:.1f} °C, by the kit", of.room.celsius())},
      {"Gravities read",
       fmt::format("{}{}", of.followed.gravities,
                   of.followed.doubts.empty()
                       ? ""
                       : fmt::format(", {} not believed", of.followed.doubts.size()))}};
  out.model =
      "Nitrogen-limited growth and fermentation with the heat of the vessel; what is doubtful "
      "of it (pace, lag, sugar, nitrogen, room) drawn anew many times and weighed by how well "
      "each course explains the readings.";
  out.source =
      "Cramer et al. (2002), Biotechnol. Bioeng. 77:49; Coleman, Fish and Block (2007), Appl. "
      "Environ. Microbiol. 73:5875; their constants at second hand; how far constants and "
      "yardsticks are off is our estimate";
  out.band =
      "80 % of the weighed courses; over invented ferments it held the truth about four times "
      "in five";
  return out;
}

}  // namespace

journal::Moment later(journal::Moment from, Duration by) {
  return {from.milliseconds + std::llround(by.seconds() * 1e3)};
}

std::string ferment_forecast_json(const FermentForecast& of) {
  const ferment::Followed& followed = of.followed;
  const journal::Moment pitched = of.pitched.at;
  Json json;
  json["pitched"] = {{"entry", print(of.pitched.entry)}, {"at", print(pitched)}};
  json["readings"] = followed.believed();
  json["course"] = Json::array();
  for (const ferment::ExpectedGravity& one : followed.course) {
    json["course"].push_back(
        {{"hours", figure(one.at.hours())}, {"specific_gravity", band(one.gravity)}});
  }
  json["dry"] = moment(followed.dry, {}, pitched);
  json["rested"] = moment(followed.dry, of.rest, pitched);
  json["rest_hours"] = figure(of.rest.hours());
  if (of.planned_dry) {
    json["planned_dry"] = {{"hours", figure(of.planned_dry->hours())},
                           {"at", print(later(pitched, *of.planned_dry))}};
  }
  json["end_specific_gravity"] = band(followed.end);
  json["stops_fraction"] = figure(followed.stopped.fraction());
  if (followed.stuck) json["stuck"] = stuck_json(followed);
  json["learnt"] = Json::array({learnt("pace of the yeast", followed.pace),
                                learnt("fermentable share of the wort", followed.sugar)});
  json["lag_hours"] = band(followed.lag_h);
  json["doubts"] = Json::array();
  for (const ferment::DoubtedGravity& doubt : followed.doubts) {
    base::ensure(doubt.reading < of.readings.size(), "every doubt is of a reading taken");
    json["doubts"].push_back({{"entry", print(of.readings[doubt.reading])},
                              {"words", doubt_words(followed, doubt)},
                              {"expected", band(doubt.expected)}});
  }
  json["why"] = why_json(why(of));
  return json.dump(-1, ' ', false, Json::error_handler_t::replace);
}

}  // namespace lynearm::wire
