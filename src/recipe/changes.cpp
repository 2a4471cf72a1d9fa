#include "recipe/changes.hpp"

#include <fmt/format.h>

#include "base/error.hpp"

namespace lynearm::recipe {
namespace {

// To so many decimals, without the noughts at the end.
std::string trimmed(double value, int decimals) {
  std::string text = fmt::format("{:.{}f}", value, decimals);
  while (text.back() == '0') text.pop_back();
  if (text.back() == '.') text.pop_back();
  return text;
}

std::string written(units::Mass mass) {
  return fmt::format("{} kg", trimmed(mass.kilograms(), 4));
}
std::string written(units::Volume volume) {
  return volume < units::Volume::litres(1.0)
             ? fmt::format("{} mL", trimmed(volume.millilitres(), 1))
             : fmt::format("{} L", trimmed(volume.litres(), 3));
}
std::string written(units::VolumeFlow flow) {
  return fmt::format("{} L/h", trimmed(flow.litres_per_hour(), 3));
}
std::string written(units::VolumeStrength strength) {
  return fmt::format("{} %vol", trimmed(strength.percent(), 3));
}
std::string written(units::Temperature temperature) {
  return fmt::format("{} degC", trimmed(temperature.celsius(), 2));
}
std::string written(const plan::SpiritLot& lot) {
  return fmt::format("{} @ {}", written(lot.volume), written(lot.strength));
}
std::string written(const plan::Border& border) {
  return std::visit([](const auto& one) { return written(one); }, border);
}
std::string written(const std::string& text) { return text; }
std::string written(plan::Use use) {
  switch (use) {
    case plan::Use::cook:
      return "cook";
    case plan::Use::dough_in:
      return "dough-in";
    case plan::Use::boil:
      return "boil";
    case plan::Use::ferment:
      return "ferment";
  }
  return "";
}

class Changes {
 public:
  template <class Q>
  void look(const std::string& path, const Q& from, const Q& to) {
    std::string now = written(to);
    if (written(from) != now) made_.push_back({path, std::move(now)});
  }
  template <class Q>
  void look(const std::string& path, const std::optional<Q>& from, const std::optional<Q>& to) {
    if (from && to) return look(path, *from, *to);
    if (to) made_.push_back({path, written(*to)});
    if (from) gone(path);
  }
  void gone(const std::string& path) { made_.push_back({path, std::nullopt}); }
  template <class T>
  void look_gone(const std::string& path, const std::optional<T>& from,
                 const std::optional<T>& to) {
    if (from && !to) gone(path);
  }
  std::vector<Change> made() { return std::move(made_); }

 private:
  std::vector<Change> made_;
};

void bill(const plan::BillLine& from, const plan::BillLine& to, const std::string& at,
          Changes& all) {
  all.look(at + ".ingredient", from.ingredient, to.ingredient);
  all.look(at + ".mass", from.mass, to.mass);
  // Another ingredient has another usual place, so the place is said.
  if (from.use != to.use || from.ingredient != to.ingredient) {
    if (from.use == to.use) {
      all.look(at + ".use", std::optional<plan::Use>{}, std::optional{to.use});
    } else {
      all.look(at + ".use", from.use, to.use);
    }
  }
  all.look_gone(at + ".extract", from.analysis.extract, to.analysis.extract);
  all.look_gone(at + ".moisture", from.analysis.moisture, to.analysis.moisture);
  all.look_gone(at + ".diastatic_power", from.analysis.diastatic_power,
                to.analysis.diastatic_power);
  all.look_gone(at + ".fermentable", from.analysis.fermentable, to.analysis.fermentable);
  all.look_gone(at + ".price", from.price_per_kg, to.price_per_kg);
}

// A pot of water at the boil: [mash.cook], [sugar_boil].
template <class Boil>
void boil(const std::optional<Boil>& from, const std::optional<Boil>& to, const std::string& at,
          Changes& all) {
  if (from && to) {
    all.look(at + ".water", from->water, to->water);
    all.look(at + ".boil_off", from->boil_off, to->boil_off);
  } else if (from) {
    all.gone(at);
  }
}

}  // namespace

std::vector<Change> changes(const plan::Recipe& from, const plan::Recipe& to) {
  base::ensure(
      from.bill.size() == to.bill.size() && from.mash.sparges.size() == to.mash.sparges.size(),
      "a changed recipe has the lines of the one before");
  Changes all;
  for (std::size_t i = 0; i < to.bill.size(); ++i) {
    bill(from.bill[i], to.bill[i], fmt::format("mash_bill[{}]", i + 1), all);
  }
  all.look("mash.water", from.mash.water, to.mash.water);
  boil(from.mash.cook, to.mash.cook, "mash.cook", all);
  for (std::size_t i = 0; i < to.mash.sparges.size(); ++i) {
    all.look(fmt::format("mash.sparge[{}].water", i + 1), from.mash.sparges[i].water,
             to.mash.sparges[i].water);
  }
  boil(from.sugar_boil, to.sugar_boil, "sugar_boil", all);
  all.look("ferment.fill_to", from.ferment.fill_to, to.ferment.fill_to);
  all.look_gone("strip.charges", from.strip.charges, to.strip.charges);
  all.look("spirit_run.feints", from.spirit_run.feints, to.spirit_run.feints);
  all.look("spirit_run.foreshots_end", from.spirit_run.foreshots_end,
           to.spirit_run.foreshots_end);
  all.look("spirit_run.heads_end", from.spirit_run.heads_end, to.spirit_run.heads_end);
  all.look("spirit_run.hearts_end", from.spirit_run.hearts_end, to.spirit_run.hearts_end);
  all.look("spirit_run.tails_end", from.spirit_run.tails_end, to.spirit_run.tails_end);
  all.look("reduce.maturing_strength", from.reduce.maturing, to.reduce.maturing);
  all.look("bottle.strength", from.bottle.strength, to.bottle.strength);
  return all.made();
}

}  // namespace lynearm::recipe
