// The steps of a plan laid out over hours and days. A house wakes at eight: nothing that wants
// hands starts between nine in the evening and seven, and a run of the still that would end
// after eleven at night is put off to the morning, for a heated still is never left.
#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "mash/heat.hpp"
#include "plan/element_findings.hpp"
#include "plan/house.hpp"
#include "plan/parts.hpp"

namespace lynearm::plan {
namespace {

using units::Duration;

constexpr Duration wake = Duration::hours(8.0);
constexpr Duration last_start = Duration::hours(21.0);
constexpr Duration earliest = Duration::hours(7.0);
constexpr Duration run_over_by = Duration::hours(23.0);
// Lengths of handwork: common practice, no source.
constexpr Duration setting_out = Duration::minutes(30.0);
constexpr Duration pitching = Duration::minutes(20.0);
constexpr Duration racking = Duration::minutes(45.0);
constexpr Duration charging = Duration::minutes(20.0);
constexpr Duration emptying = Duration::minutes(40.0);
constexpr Duration airing = Duration::days(1.0);
constexpr Duration reducing = Duration::minutes(60.0);
constexpr Duration into_wood = Duration::minutes(45.0);
constexpr Duration sampling = Duration::minutes(15.0);
constexpr Duration bottling = Duration::minutes(90.0);

Duration of_day(Duration t) { return t - Duration::days(std::floor(t.days() + 1e-12)); }
Duration midnight(Duration t) { return t - of_day(t); }

class Calendar {
 public:
  explicit Calendar(Duration start) : now_(start) {}

  void step(const char* stage, std::string what, Duration length, Attention attention) {
    if (attention != Attention::wait) now_ = waking(now_);
    last_start_ = now_;
    steps_.push_back({stage, std::move(what), now_, length, attention, false});
    now_ += length;
  }

  // Follows the step before it at whatever hour: heat is on, or a mash is standing.
  void at_once(const char* stage, std::string what, Duration length, Attention attention) {
    last_start_ = now_;
    steps_.push_back({stage, std::move(what), now_, length, attention, false});
    now_ += length;
  }

  // Starts together with the step before it and does not hold up the next.
  void beside(const char* stage, std::string what, Duration length, Attention attention) {
    steps_.push_back({stage, std::move(what), last_start_, length, attention, true});
  }

  // A run that must be watched to its end.
  void put_off_unless_done_today(Duration length) {
    now_ = waking(now_);
    if (of_day(now_) + length > run_over_by && of_day(now_) > wake) {
      now_ = midnight(now_) + Duration::days(1.0) + wake;
    }
  }

  void at(const char* stage, std::string what, Duration when, Duration length) {
    steps_.push_back({stage, std::move(what), waking(when), length, Attention::hands_on, true});
  }

  void next_morning() { now_ = midnight(now_) + Duration::days(1.0) + wake; }
  [[nodiscard]] Duration now() const { return now_; }

  Timeline timeline() {
    std::stable_sort(steps_.begin(), steps_.end(),
                     [](const Step& a, const Step& b) { return a.start < b.start; });
    return {std::move(steps_)};
  }

 private:
  static Duration waking(Duration t) {
    if (of_day(t) < earliest) return midnight(t) + wake;
    if (of_day(t) > last_start) return midnight(t) + Duration::days(1.0) + wake;
    return t;
  }

  Duration now_;
  Duration last_start_;
  std::vector<Step> steps_;
};

class TimelineMaker {
 public:
  TimelineMaker(const Recipe& recipe, const Kit& kit, const Plan& plan)
      : recipe_(recipe), kit_(kit), plan_(plan), calendar_(wake) {}

  Timeline make() {
    if (plan_.mash.mash) mash();
    wort();
    ferment();
    strip();
    spirit();
    finish();
    return calendar_.timeline();
  }

 private:
  void mash() {
    const MashPlan& mash = *plan_.mash.mash;
    calendar_.step("Mash", "Mill the grain, weigh out, set out the kit", setting_out,
                   Attention::hands_on);
    if (mash.cook) {
      const Cook& cook = *recipe_.mash.cook;
      calendar_.at_once("Mash",
                        fmt::format("Heat {:.1f} L of water with the grain to cook, stirring",
                                    cook.water.litres()),
                        mash.cook->cooked.time_to_boil, Attention::watch);
      heat_sparge_water();
      calendar_.at_once("Mash", "Cook the grain at the boil", cook.time, Attention::watch);
      calendar_.at_once(
          "Mash",
          fmt::format("Move to the {}; expect {:.0f} °C, {:.0f} L", recipe_.mash.vessel,
                      mash.cook->landed.contents.temperature.celsius(),
                      mash.cook->landed.volume.litres()),
          mash.cook->moving, Attention::hands_on);
      if (mash.cook->cooling) {
        calendar_.at_once("Mash", fmt::format("Cool to {:.1f} °C", mash.dough_in.celsius()),
                          mash.cook->cooling->planned, Attention::wait);
      }
      if (mash.cook->heating) {
        calendar_.at_once("Mash", fmt::format("Warm to {:.1f} °C", mash.dough_in.celsius()),
                          *mash.cook->heating, Attention::watch);
      }
    } else {
      strike_water(mash);
    }
    calendar_.at_once(
        "Mash",
        fmt::format("Stir in the malts at {:.1f} °C; it settles at {:.1f} °C",
                    mash.dough_in.celsius(), mash.doughed_in.temperature.celsius()),
        doughing_in_time, Attention::hands_on);
    calendar_.at_once("Mash",
                      fmt::format("Rest; it drifts to {:.1f} °C", mash.rested.end.celsius()),
                      recipe_.mash.rest_time, Attention::wait);
    if (!mash.cook) heat_sparge_water();
    boil_sugar(true);
    std::vector<std::string>
        sparges;  // one like another is told apart: steps go by their words
    for (std::size_t i = 0; i < mash.run_off_time.size(); ++i) {
      std::string what = i == 0
                             ? fmt::format("Drain{}; expect {:.1f} L",
                                           recipe_.mash.squeeze ? " and squeeze" : "",
                                           mash.drained->run_offs[0].volume.litres())
                             : fmt::format("Sparge with {:.1f} L at {:.0f} °C, drain",
                                           recipe_.mash.sparges[i - 1].water.litres(),
                                           recipe_.mash.sparges[i - 1].temperature.celsius());
      const auto alike = std::count(sparges.begin(), sparges.end(), what);
      sparges.push_back(what);
      if (alike > 0) what += fmt::format(", as sparge {}", i);
      calendar_.at_once("Mash", std::move(what), mash.run_off_time[i], Attention::hands_on);
    }
  }

  // A tub without heat of its own gets its water warm: of the hottest at hand and cold, where
  // that is hot enough, else from wherever the house can heat it.
  void strike_water(const MashPlan& mash) {
    const units::Volume water = recipe_.mash.water;
    const units::Temperature cold = kit_.liquor.cold;
    const units::Temperature hot = kit_.liquor.hot;
    const units::Temperature to = mash.dough_in;
    const Duration time = mash.heating_strike.value_or(Duration{});
    const Vessel* const tub = kit_.vessel(recipe_.mash.vessel);
    if (tub != nullptr && tub->heat > units::Power{}) {
      calendar_.at_once(
          "Mash",
          fmt::format("Heat {:.1f} L of water to {:.1f} °C", water.litres(), to.celsius()),
          time, Attention::watch);
    } else if (to <= cold) {
      calendar_.at_once("Mash",
                        fmt::format("Fill the {} with {:.1f} L of cold water",
                                    recipe_.mash.vessel, water.litres()),
                        time, Attention::hands_on);
    } else if (to <= hot) {
      const units::Volume of_hot = water * ((to - cold).kelvins() / (hot - cold).kelvins());
      calendar_.at_once(
          "Mash",
          fmt::format("Fill the {} with {:.1f} L of water at {:.1f} °C: about {:.1f} L of the "
                      "hot water at hand, {:.0f} °C, the rest cold",
                      recipe_.mash.vessel, water.litres(), to.celsius(), of_hot.litres(),
                      hot.celsius()),
          time, Attention::hands_on);
    } else {
      calendar_.at_once(
          "Mash",
          fmt::format("Fill the {} with {:.1f} L of water at {:.1f} °C, heated elsewhere: the "
                      "hot water at hand has {:.0f} °C only",
                      recipe_.mash.vessel, water.litres(), to.celsius(), hot.celsius()),
          time, Attention::hands_on);
    }
  }

  // The still's boiler stands idle on mash day: it heats the sparge water beside the cook.
  void heat_sparge_water() {
    units::Volume water;
    double heat_J = 0.0;
    for (const Sparge& sparge : recipe_.mash.sparges) {
      water += sparge.water;
      heat_J += mash::water(sparge.water, sparge.temperature).water.kilograms() *
                mash::water_J_per_kg_K * (sparge.temperature - kit_.liquor.cold).kelvins();
    }
    if (water <= units::Volume{} || heat_J <= 0.0) return;
    const Boiler& boiler = kit_.still.boiler;
    const double watts = boiler.power.watts() * boiler.heat_efficiency.fraction();
    calendar_.beside(
        "Mash",
        water_in_boiler(recipe_, kit_) > units::Volume{}
            ? fmt::format("Heat {:.0f} L of sparge water in the still's boiler, its "
                          "outlet open",
                          water.litres())
            : fmt::format("Heat {:.0f} L of sparge water", water.litres()),
        Duration::seconds(heat_J / watts), Attention::watch);
  }

  void boil_sugar(bool beside) {
    if (!plan_.mash.sugar) return;
    const std::string what = fmt::format("Dissolve the sugar in {:.1f} L and boil it",
                                         recipe_.sugar_boil->water.litres());
    const Duration length = plan_.mash.sugar->heating + recipe_.sugar_boil->time;
    if (beside) {
      calendar_.beside("Mash", what, length, Attention::watch);
    } else {
      calendar_.step("Mash", what, length, Attention::watch);
    }
  }

  static std::string topping_up(const mash::TopUp& top_up) {
    constexpr units::Volume hardly = units::Volume::litres(0.05);
    const bool cold = top_up.cold > hardly;
    const bool hot = top_up.hot > hardly;
    if (!cold && !hot) return "The fermenter holds";
    return fmt::format("Top up with {}{}{} water to",
                       cold ? fmt::format("{:.1f} L cold", top_up.cold.litres()) : "",
                       cold && hot ? " and " : "",
                       hot ? fmt::format("{:.1f} L hot", top_up.hot.litres()) : "");
  }

  void wort() {
    if (!plan_.mash.mash) boil_sugar(false);
    const WortPlan& wort = plan_.mash.wort;
    if (wort.cooling) {
      calendar_.step("Mash",
                     fmt::format("Cool the wort to {:.1f} °C", wort.cooling->to.celsius()),
                     wort.cooling->planned, Attention::wait);
    }
    calendar_.step("Ferment",
                   fmt::format("{} {:.1f} L at {:.1f} °C, pitch {:.0f} g of yeast",
                               topping_up(wort.top_up), wort.fill.litres(),
                               wort.top_up.temperature.celsius(), plan_.ferment.yeast.grams()),
                   pitching, Attention::hands_on);
  }

  void ferment() {
    calendar_.step(
        "Ferment",
        fmt::format("Ferment from {:.3f} to {:.3f}", plan_.ferment.original_gravity.ratio(),
                    plan_.ferment.final_gravity.ratio()),
        plan_.ferment.dry_after, Attention::wait);
    calendar_.step("Ferment", "Rest on the yeast and clear", recipe_.ferment.rest_after_dry,
                   Attention::wait);
    calendar_.step(
        "Ferment",
        fmt::format("Rack {:.1f} L of wash off the lees", plan_.ferment.racked_volume.litres()),
        racking, Attention::hands_on);
  }

  void still_run(const char* stage, const RunPlan& run, const std::string& name) {
    calendar_.put_off_unless_done_today(charging + run.length + emptying);
    calendar_.step(stage,
                   fmt::format("{}: charge {:.1f} L, check the outlet is open", name,
                               run.charge_volume.litres()),
                   charging, Attention::hands_on);
    calendar_.at_once(stage,
                      fmt::format("{}: heat to {:.1f} °C", name, run.heat_up.boiling.celsius()),
                      run.heat_up.duration, Attention::watch);
    calendar_.at_once(
        stage, fmt::format("{}: run, {:.1f} L", name, spirit::volume(run.collected).litres()),
        run.run.last().since_boiling, Attention::watch);
    calendar_.at_once(stage, fmt::format("{}: heat off, let it cool, empty, rinse", name),
                      emptying, Attention::hands_on);
  }

  void strip() {
    for (int i = 1; i <= plan_.strip.runs; ++i) {
      still_run("Strip", plan_.strip.one, fmt::format("Strip {} of {}", i, plan_.strip.runs));
    }
  }

  void spirit() {
    for (int i = 1; i <= plan_.spirit.runs; ++i) {
      still_run("Spirit run", plan_.spirit.one,
                plan_.spirit.runs == 1
                    ? std::string("Spirit run")
                    : fmt::format("Spirit run {} of {}", i, plan_.spirit.runs));
    }
    calendar_.step("Jars", "Air the jars under a cloth, away from any flame", airing,
                   Attention::wait);
    calendar_.step("Jars", "Regauge, nose, allot", reducing, Attention::hands_on);
  }

  void finish() {
    const FinishStage& finish = plan_.finish;
    if (finish.reduce.result.mass() <= units::Mass{}) return;
    calendar_.step(
        "Reduce",
        fmt::format("Reduce with {:.2f} kg of water to {:.1f} %vol, in steps",
                    finish.reduce.water.kilograms(), finish.reduce.strength.percent()),
        reducing, Attention::hands_on);
    if (finish.wood) {
      const WoodPlan& wood = *finish.wood;
      calendar_.step(
          "Wood",
          wood.staves > 0
              ? fmt::format("Lay {:.2f} L on {} staves", wood.filled.litres(), wood.staves)
              : fmt::format("Fill {:.2f} L into the {}", wood.filled.litres(), wood.in),
          into_wood, Attention::hands_on);
      const Duration filled = calendar_.now();
      for (const Duration& day : wood.sampling_days) {
        if (day > wood.time - Duration::days(2.0))
          continue;  // the last is drawn when it is bottled
        calendar_.at("Wood", "Draw a sample, nose, taste, note", filled + day, sampling);
      }
      calendar_.step("Wood", "Mature", wood.time, Attention::wait);
    }
    calendar_.step("Bottle",
                   fmt::format("Reduce to {:.1f} %vol, rest, fill {} bottles",
                               finish.bottle.strength.percent(), finish.bottle.bottles),
                   bottling, Attention::hands_on);
  }

  const Recipe& recipe_;
  const Kit& kit_;
  const Plan& plan_;
  Calendar calendar_;
};

}  // namespace

Timeline make_timeline(const Recipe& recipe, const Kit& kit, const Plan& plan) {
  return TimelineMaker(recipe, kit, plan).make();
}

}  // namespace lynearm::plan
