// What cannot be right between a recipe and a kit, told together before any physics.
#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"
#include "mash/heat.hpp"
#include "mash/ingredient.hpp"
#include "plan/plan.hpp"
#include "units/print.hpp"

namespace lynearm::plan {
namespace {

// Water that a kilogram of grain holds when it is only just wetted through. No mash is thicker;
// common practice, no source.
constexpr double wetting_L_per_kg = 1.0;

class Check {
 public:
  Check(const Recipe& recipe, const Kit& kit) : recipe_(recipe), kit_(kit) {}

  std::vector<base::Fault> faults() {
    bill();
    room_for_grain();
    vessels();
    spirit();
    wood();
    return std::move(faults_);
  }

 private:
  void fault(std::string field, std::string value, std::string accepted) {
    faults_.push_back({std::move(field), std::move(value), std::move(accepted), "", 0, 0});
  }

  bool any(Use use) const {
    return std::any_of(recipe_.bill.begin(), recipe_.bill.end(),
                       [use](const BillLine& line) { return line.use == use; });
  }

  // A mass told ten times too large is found at its line, not at the water it would need.
  void room_for_grain() {
    const auto named =
        std::find_if(kit_.vessels.begin(), kit_.vessels.end(),
                     [&](const Vessel& one) { return one.name == recipe_.mash.vessel; });
    if (named == kit_.vessels.end()) return;
    units::Mass grain;
    std::size_t heaviest = 0;
    for (std::size_t i = 0; i < recipe_.bill.size(); ++i) {
      const BillLine& line = recipe_.bill[i];
      if (line.use != Use::cook && line.use != Use::dough_in) continue;
      if (grain <= units::Mass{} || line.mass > recipe_.bill[heaviest].mass) heaviest = i;
      grain += line.mass;
    }
    const auto wetted = units::Volume::litres(
        grain.kilograms() * (mash::grain_displacement_L_per_kg + wetting_L_per_kg));
    if (wetted <= named->total) return;
    const auto [fills, brim] = units::print_apart(wetted, named->total);
    fault(
        fmt::format("mash_bill[{}].mass", heaviest + 1),
        fmt::format("{:.1f} kg", recipe_.bill[heaviest].mass.kilograms()),
        fmt::format("grain that has room: all {:.1f} kg of it, only just wetted through, fill "
                    "{}, and the {} holds {} to its brim",
                    grain.kilograms(), fills, named->name, brim));
  }

  void bill() {
    bool mashed = false;
    for (std::size_t i = 0; i < recipe_.bill.size(); ++i) {
      const BillLine& line = recipe_.bill[i];
      const std::string path = fmt::format("mash_bill[{}].use", i + 1);
      const bool grain = mash::is_grain(mash::ingredient(line.ingredient));
      const bool in_mash = line.use == Use::cook || line.use == Use::dough_in;
      mashed = mashed || in_mash;
      if (grain && !in_mash) {
        fault(
            path, line.use == Use::boil ? "boil" : "ferment",
            fmt::format("\"cook\" or \"dough-in\" for {}, which is a grain", line.ingredient));
      }
      if (!grain && in_mash) {
        fault(path, line.use == Use::cook ? "cook" : "dough-in",
              fmt::format("\"boil\" or \"ferment\" for {}, which is a sugar", line.ingredient));
      }
    }
    if (any(Use::cook) && !recipe_.mash.cook) {
      fault("mash.cook", "", "a cook (vessel, water, time), because the bill cooks a grain");
    }
    if (!any(Use::cook) && recipe_.mash.cook) {
      fault("mash.cook", "given", "no cook, or a line of the bill that comes in at the cook");
    }
    if (any(Use::boil) && !recipe_.sugar_boil) {
      fault("sugar_boil", "",
            "a sugar boil (vessel, water, time), because the bill boils sugar");
    }
    if (!any(Use::boil) && recipe_.sugar_boil) {
      fault("sugar_boil", "given",
            "no sugar boil, or a line of the bill that comes in at the boil");
    }
    if (mashed && !recipe_.mash.cook && recipe_.mash.water <= units::Volume{}) {
      fault("mash.water", "", "the mash water, because there is no cook that brings it");
    }
    if (recipe_.mash.on_the_grain && !recipe_.mash.sparges.empty()) {
      fault("mash.sparge", "given", "no sparge, because the mash ferments on the grain");
    }
    if (!mashed && !recipe_.ferment.fill_to && !recipe_.sugar_boil) {
      fault("ferment.fill_to", "", "the volume to fill to, because nothing else brings water");
    }
  }

  void vessel(const std::string& field, const std::string& name) {
    if (kit_.vessel(name) != nullptr) return;
    std::vector<std::string> names;
    std::string list;
    for (const Vessel& has : kit_.vessels) {
      names.push_back(has.name);
      list += fmt::format("{}\"{}\"", list.empty() ? "" : ", ", has.name);
    }
    const std::string nearest = base::nearest_name(name, names);
    fault(field, name,
          fmt::format("a vessel of the kit ({}){}", list.empty() ? "it has none" : list,
                      nearest.empty() ? "" : fmt::format("; did you mean \"{}\"", nearest)));
  }

  void vessels() {
    if (any(Use::cook) || any(Use::dough_in)) vessel("mash.vessel", recipe_.mash.vessel);
    if (recipe_.mash.cook) {
      const std::string& name = recipe_.mash.cook->vessel;
      vessel("mash.cook.vessel", name);
      heated("mash.cook.vessel", name);
    }
    if (recipe_.sugar_boil) {
      vessel("sugar_boil.vessel", recipe_.sugar_boil->vessel);
      heated("sugar_boil.vessel", recipe_.sugar_boil->vessel);
    }
    vessel("ferment.vessel", recipe_.ferment.vessel);
    const Vessel* tub = kit_.vessel(recipe_.mash.vessel);
    if (recipe_.mash.cook && recipe_.mash.cool_by == CoolBy::coil && tub != nullptr &&
        tub->cooling_coil <= units::HeatLoss{}) {
      fault("mash.cool_by", "coil",
            fmt::format("a way the {} has: the kit gives it no cooling coil", tub->name));
    }
    if (kit_.place.ambient < units::Temperature::celsius(0.0)) {
      fault("kit.place.ambient", fmt::format("{:.1f} °C", kit_.place.ambient.celsius()),
            "0 °C or more: nothing ferments and water freezes below it");
    }
  }

  void heated(const std::string& field, const std::string& name) {
    const Vessel* vessel = kit_.vessel(name);
    if (vessel == nullptr || vessel->heat > units::Power{}) return;
    fault(field, name, "a vessel that is heated (the kit gives it no heat)");
  }

  void spirit() {
    if (recipe_.strip.charges && recipe_.strip.charge) {
      fault("strip.charges", fmt::format("{}", *recipe_.strip.charges),
            "either how many charges or how large a charge, not both");
    }
    if (recipe_.bottle.strength > recipe_.reduce.maturing) {
      fault("bottle.strength", fmt::format("{:.1f} %vol", recipe_.bottle.strength.percent()),
            fmt::format("at most the maturing strength, {:.1f} %vol",
                        recipe_.reduce.maturing.percent()));
    }
    const auto* hearts = std::get_if<units::VolumeStrength>(&recipe_.spirit_run.hearts_end);
    const auto* heads = recipe_.spirit_run.heads_end
                            ? std::get_if<units::VolumeStrength>(&*recipe_.spirit_run.heads_end)
                            : nullptr;
    const auto* tails = std::get_if<units::VolumeStrength>(&recipe_.spirit_run.tails_end);
    const auto order = [this](const char* field, const units::VolumeStrength* later,
                              const char* other, const units::VolumeStrength* earlier) {
      if (later == nullptr || earlier == nullptr || *later < *earlier) return;
      fault(field, fmt::format("{:.1f} %vol", later->percent()),
            fmt::format("under {}, {:.1f} %vol: the spout only falls", other,
                        earlier->percent()));
    };
    order("spirit_run.hearts_end", hearts, "the end of the heads", heads);
    order("spirit_run.tails_end", tails, "the end of the hearts", hearts);
  }

  void wood() {
    if (!recipe_.wood || !std::holds_alternative<std::string>(recipe_.wood->in)) return;
    const std::string& name = std::get<std::string>(recipe_.wood->in);
    std::vector<std::string> names;
    for (const Cask& cask : kit_.casks) names.push_back(cask.name);
    if (std::find(names.begin(), names.end(), name) != names.end()) return;
    std::string list;
    for (const std::string& has : names) {
      list += fmt::format("{}\"{}\"", list.empty() ? "" : ", ", has);
    }
    fault("wood.cask", name,
          fmt::format("a cask of the kit ({})", list.empty() ? "it has none" : list));
  }

  const Recipe& recipe_;
  const Kit& kit_;
  std::vector<base::Fault> faults_;
};

}  // namespace

std::vector<base::Fault> contradictions(const Recipe& recipe, const Kit& kit) {
  return Check(recipe, kit).faults();
}

}  // namespace lynearm::plan
