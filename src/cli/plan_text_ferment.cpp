// The ferment in text.
#include <fmt/format.h>

#include "cli/plan_text_parts.hpp"
#include "ferment/gas.hpp"
#include "ferment/pitch.hpp"
#include "ferment/yeast.hpp"

namespace lynearm::cli::planned {
namespace {

using units::Duration;

// Gravity at a time, by a straight line between the points of the course; after it, its end.
units::SpecificGravity gravity_at(const std::vector<ferment::PacePoint>& course, Duration at) {
  for (std::size_t i = 1; i < course.size(); ++i) {
    if (course[i].at < at) continue;
    const Duration step = course[i].at - course[i - 1].at;
    const double share = step > Duration{} ? (at - course[i - 1].at) / step : 1.0;
    return course[i - 1].gravity + (course[i].gravity - course[i - 1].gravity) * share;
  }
  return course.back().gravity;
}

constexpr units::Mass scale_step = units::Mass::grams(0.5);

// The recipe gives nitrogen; the tub gives a salt that holds it.
units::Mass nutrient(const Batch& batch) {
  const double grams = batch.recipe.ferment.nutrient_nitrogen.grams_per_litre() *
                       batch.plan.mash.wort.volume.litres();
  return units::Mass::grams(grams / ferment::nitrogen_in_diammonium_phosphate.fraction());
}

// "day 1 1.055, day 2 1.032, ..." to a day past dry, at most six.
std::string expected_gravities(const plan::FermentPlan& ferment) {
  if (ferment.pace.course.size() < 2) return {};
  const double days = ferment.dry_after.days();
  const double step = days > 6.0 ? 2.0 : 1.0;
  std::string text;
  for (int i = 1; i <= 6 && (i - 1) * step < days; ++i) {
    text +=
        fmt::format("{}day {:.0f} {}", text.empty() ? "" : ", ", i * step,
                    units::print(gravity_at(ferment.pace.course, Duration::days(i * step))));
  }
  return text;
}

const char* ending(ferment::Ending ending) {
  switch (ending) {
    case ferment::Ending::dry:
      return "";
    case ferment::Ending::slow:
      return "It is still fermenting then: it is slow. ";
    case ferment::Ending::stuck:
      return "It sticks before it is dry. ";
  }
  return "";
}

}  // namespace

std::string ferment_part(const Batch& batch) {
  const plan::FermentPlan& ferment = batch.plan.ferment;
  const plan::FermentStep& step = batch.recipe.ferment;
  std::vector<Line> rows = {
      principal(batch, "original_gravity", "Original gravity",
                batch.print(batch.plan.mash.wort.extract)),
      {"Yeast, dry", batch.on_the_scale(ferment.yeast), "",
       fmt::format("{}, pitched at {}", ferment::yeast(step.yeast).name,
                   batch.print(batch.plan.mash.wort.top_up.temperature))}};
  const units::Mass salt = nutrient(batch);
  const units::Mass wanted = ferment.nutrition.diammonium_phosphate;
  if (salt > scale_step || wanted > scale_step) {
    rows.push_back({"Di-ammonium phosphate", batch.on_the_scale(salt), "",
                    wanted > salt + scale_step
                        ? fmt::format("as nutrient; {} would feed the yeast in full",
                                      batch.on_the_scale(wanted))
                        : std::string("as nutrient; the yeast is fed")});
  }
  rows.push_back({"Warmest", batch.print(ferment.pace.warmest), "",
                  step.held ? "held at the pitching temperature" : "if nothing cools it"});
  rows.push_back(principal(batch, "days_to_dry", "Dry after", "read it as plus or minus 40 %"));
  rows.push_back(principal(batch, "final_gravity", "Final gravity"));
  rows.push_back(principal(batch, "wash_percent_vol", "Wash"));
  rows.push_back({"Racked to the still", batch.print(ferment.racked_volume, 1), "",
                  fmt::format("after {}, with its rest", batch.print(ferment.ready_after))});
  std::string text = heading("Ferment", batch.look) + lines(rows);
  const std::string gravities = expected_gravities(ferment);
  if (!gravities.empty()) text += paragraph(fmt::format("Expect: {}.", gravities));
  text += paragraph(
      fmt::format("{}Two equal readings a day apart end the ferment, not the calendar.",
                  ending(ferment.pace.ending)));
  text += caution_of(sheet::cautions::carbon_dioxide, batch.look);
  std::string gas = fmt::format(
      "This wash gives off {:.0f} L of the gas, {:.0f} L an hour at its peak",
      ferment.carbon_dioxide.litres(), ferment.peak_carbon_dioxide.litres_per_hour());
  if (ferment.room_at_peak) {
    gas += fmt::format(
        "; the room's air would come to {:.1f} % of it ({} is the limit for a "
        "working day)",
        ferment.room_at_peak->percent(), batch.print(ferment::carbon_dioxide_limit_8h, 1));
  }
  return text + paragraph(fmt::format("{}.", gas));
}

}  // namespace lynearm::cli::planned
