// From the run-offs to the fermenter in text: sugar, cooling, topping up.
#include <fmt/format.h>

#include "cli/plan_text_parts.hpp"

namespace lynearm::cli::planned {
namespace {

std::string remark_on_cooling(const Batch& batch, const plan::CoolingPlan& cooling) {
  std::string ways;
  const auto way = [&](const char* name, units::Duration time) {
    if (time <= units::Duration{} || time == cooling.planned) return;
    ways += fmt::format("{}{} {}", ways.empty() ? "" : ", ", name, batch.print(time));
  };
  way("lid on", cooling.lid_on);
  if (cooling.lid_off) way("lid off", *cooling.lid_off);
  if (cooling.with_coil) way("with the coil", *cooling.with_coil);
  return ways;
}

const char* words(plan::CoolBy by) {
  switch (by) {
    case plan::CoolBy::lid_on:
      return "lid on";
    case plan::CoolBy::lid_off:
      return "lid off";
    case plan::CoolBy::coil:
      return "with the coil";
  }
  return "";
}

std::string outcome(const plan::WortPlan& wort) {
  switch (wort.top_up.reach) {
    case mash::Reach::reached:
      return {};
    case mash::Reach::already_fuller:
      return "already fuller than wanted";
    case mash::Reach::stays_too_cold:
      return "colder than wanted, even with hot water";
    case mash::Reach::stays_too_hot:
      return "warmer than wanted, even with cold water";
  }
  return {};
}

std::string sugar(const Batch& batch) {
  if (!batch.plan.mash.sugar || !batch.recipe.sugar_boil) return {};
  const plan::SugarPlan& sugar = *batch.plan.mash.sugar;
  const plan::SugarBoil& boil = *batch.recipe.sugar_boil;
  std::string text = "\n";
  text += paragraph(fmt::format(
      "Sugar, boiled apart: {} of cold water into the {}, to the boil in {}, boil {}; it makes "
      "{} of hot syrup.",
      batch.print(boil.water), boil.vessel, batch.print(sugar.heating), batch.print(boil.time),
      batch.print(sugar.hot)));
  return text + caution_of(sheet::cautions::syrup, batch.look);
}

}  // namespace

Line cooling_line(const Batch& batch, const plan::CoolingPlan& cooling) {
  const std::string others = remark_on_cooling(batch, cooling);
  const bool possible = cooling.planned > units::Duration{};
  return {fmt::format("Cool to {}", batch.print(cooling.to)),
          possible ? batch.print(cooling.planned) : std::string("never"), "",
          fmt::format("{}{}", words(cooling.by),
                      others.empty() ? others : fmt::format(" (instead: {})", others))};
}

std::string wort_part(const Batch& batch) {
  const plan::WortPlan& wort = batch.plan.mash.wort;
  constexpr units::Volume drop = units::Volume::millilitres(5.0);
  std::string text;
  if (!batch.plan.mash.mash) text += heading("Wort", batch.look);
  text += sugar(batch);
  text += "\n";
  std::vector<Line> rows = {{"All together", batch.print(wort.before_topping_up), "",
                             fmt::format("at {}", batch.print(wort.collected))}};
  if (wort.cooling) rows.push_back(cooling_line(batch, *wort.cooling));
  if (wort.top_up.cold > drop) {
    rows.push_back({"Top up, cold water", batch.print(wort.top_up.cold), "",
                    fmt::format("at {}", batch.print(batch.kit.liquor.cold))});
  }
  if (wort.top_up.hot > drop) {
    rows.push_back({"Top up, hot water", batch.print(wort.top_up.hot), "",
                    fmt::format("at {}", batch.print(batch.kit.liquor.hot))});
  }
  const std::string off = outcome(wort);
  rows.push_back({fmt::format("The {} then holds", batch.recipe.ferment.vessel),
                  batch.print(wort.fill, 1), "",
                  fmt::format("at {}{}", batch.print(wort.top_up.temperature),
                              wort.solids > units::Mass{} ? std::string(", with the grain")
                              : off.empty()               ? std::string()
                                                          : fmt::format(", {}", off))});
  rows.push_back(principal(batch, "wort_volume_L_20C", "Wort, at 20 °C"));
  return text + lines(rows);
}

}  // namespace lynearm::cli::planned
