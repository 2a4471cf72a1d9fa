#include "mash/bill.hpp"

#include <fmt/format.h>

#include <algorithm>

#include "base/error.hpp"
#include "mash/limits.hpp"

namespace lynearm::mash {
namespace {

void check(const Bill& bill) {
  if (bill.empty()) throw base::InputError("bill", "", "at least one line");
  for (std::size_t i = 0; i < bill.size(); ++i) {
    const GristLine& line = bill[i];
    const double kg = line.mass.kilograms();
    if (!(kg > 0.0 && kg <= 1e4)) {
      throw base::InputError(fmt::format("bill[{}].mass", i), fmt::format("{:.6g} kg", kg),
                             "above 0, to 10000 kg");
    }
    if (is_grain(line.ingredient) == (line.role == Role::as_sugar)) {
      throw base::InputError(fmt::format("bill[{}].role", i), line.ingredient.name,
                             is_grain(line.ingredient)
                                 ? "cooked, or at dough-in: it is a grain"
                                 : "as sugar: it brings no starch to the mash");
    }
  }
}

double extract_kg(const GristLine& line, units::Share extract) {
  const Ingredient& in = line.ingredient;
  const double counted = in.basis == ExtractBasis::as_is
                             ? line.mass.kilograms()
                             : line.mass.kilograms() * (1.0 - in.moisture.value.fraction()) *
                                   in.coarse_to_fine.value.fraction();
  return counted * extract.fraction();
}

}  // namespace

Potential extract_potential(const Bill& bill) {
  check(bill);
  Potential whole;
  double fermentable_kg = 0.0;
  for (const GristLine& line : bill) {
    const Ingredient& in = line.ingredient;
    LinePotential part;
    part.moisture = line.mass * in.moisture.value.fraction();
    part.dry = line.mass - part.moisture;
    part.extract = units::Mass::kilograms(extract_kg(line, in.extract.value));
    part.starch = part.extract * in.starch.value.fraction();
    // A sugar's "extract as is" can round above its dry matter; nothing of it is insoluble.
    part.insoluble = is_grain(in) ? part.dry - part.extract : units::Mass();
    if (!is_grain(in)) part.moisture = line.mass - part.extract;

    whole.mass += line.mass;
    whole.dry += part.dry;
    whole.moisture += part.moisture;
    whole.extract += part.extract;
    whole.starch += part.starch;
    whole.insoluble += part.insoluble;
    if (is_grain(in)) whole.grain += line.mass;
    whole.least += units::Mass::kilograms(extract_kg(line, in.extract.low));
    whole.most += units::Mass::kilograms(extract_kg(line, in.extract.high));
    fermentable_kg += part.extract.kilograms() * in.fermentable.value.fraction();
    whole.lines.push_back(part);
  }
  for (std::size_t i = 0; i < bill.size(); ++i) {
    whole.lines[i].of_mass = units::Share::fraction(bill[i].mass / whole.mass);
    whole.lines[i].of_extract = units::Share::fraction(whole.lines[i].extract / whole.extract);
  }
  whole.fermentable = units::Share::fraction(fermentable_kg / whole.extract.kilograms());
  return whole;
}

EnzymePower enzyme_power(const Bill& bill) {
  check(bill);
  double kg = 0.0;
  double lintner_kg = 0.0;
  for (const GristLine& line : bill) {
    if (!is_grain(line.ingredient)) continue;
    kg += line.mass.kilograms();
    if (line.role == Role::cooked) continue;
    lintner_kg += line.mass.kilograms() * line.ingredient.diastatic_power.value.lintner();
  }
  return {units::DiastaticPower::lintner(kg > 0.0 ? lintner_kg / kg : 0.0), needed_power,
          comfortable_power};
}

units::Mass malt_to_reach(const Bill& bill, const Ingredient& malt,
                          units::DiastaticPower wanted) {
  const double malt_lintner = malt.diastatic_power.value.lintner();
  if (!(malt_lintner > wanted.lintner())) {
    throw base::InputError("malt",
                           fmt::format("{} with {:g} °Lintner", malt.name, malt_lintner),
                           fmt::format("a malt above {:g} °Lintner", wanted.lintner()));
  }
  const EnzymePower power = enzyme_power(bill);
  const units::Mass grain = extract_potential(bill).grain;
  const double short_of = wanted.lintner() - power.has.lintner();
  if (short_of <= 0.0) return units::Mass();
  return grain * (short_of / (malt_lintner - wanted.lintner()));
}

Verdict verdict(const Bill& bill, units::Temperature rest) {
  within("mash.rest_temperature", rest.celsius(), 40.0, 80.0, "°C");
  const EnzymePower power = enzyme_power(bill);
  Verdict result;
  const auto find = [&result](Want want, Converts so, std::string id, std::string sentence) {
    result.converts = std::max(result.converts, so);
    result.findings.push_back({want, so, std::move(id), std::move(sentence)});
  };

  bool has_starch = false;
  for (const GristLine& line : bill) {
    const Ingredient& in = line.ingredient;
    if (!is_grain(in)) continue;
    has_starch = has_starch || in.starch.value.fraction() > 0.0;
    if (line.role == Role::cooked && in.sort == Sort::malt) {
      find(Want::uncooked_malt, Converts::weakly, in.id,
           fmt::format("{} loses its enzymes when it is cooked; give it at dough-in", in.name));
    }
    if (line.role == Role::cooked || !in.gelatinisation) continue;
    const Figure<units::Temperature>& gel = *in.gelatinisation;
    if (gel.value > rest) {
      find(in.sort == Sort::raw_grain ? Want::cooking : Want::warmer_rest,
           in.sort == Sort::raw_grain ? Converts::no : Converts::weakly, in.id,
           fmt::format("{} gelatinises at {:g} to {:g} °C, above the rest at {:g} °C{}",
                       in.name, gel.low.celsius(), gel.high.celsius(), rest.celsius(),
                       in.sort == Sort::raw_grain ? "; it must be cooked first" : ""));
    } else if (gel.high > rest && in.sort == Sort::raw_grain) {
      find(Want::warmer_rest, Converts::weakly, in.id,
           fmt::format("{} gelatinises only up to {:g} °C; at {:g} °C a part stays raw",
                       in.name, gel.high.celsius(), rest.celsius()));
    }
  }
  if (!has_starch) return result;
  const std::string power_words = fmt::format(
      "the bill has {:.0f} °Lintner; it needs {:.0f} to convert, {:.0f} for comfort",
      power.has.lintner(), power.need.lintner(), power.comfort.lintner());
  if (power.has.lintner() <= 0.0) {
    find(Want::enzymes, Converts::no, "",
         "nothing in the bill brings enzymes; it needs a malt");
  } else if (power.has < power.need) {
    find(Want::more_enzymes, Converts::no, "", power_words);
  } else if (power.has < power.comfort) {
    find(Want::more_enzymes, Converts::weakly, "", power_words);
  }
  return result;
}

}  // namespace lynearm::mash
