#include "wire/ask.hpp"

#include <optional>
#include <type_traits>
#include <utility>

#include "spirit/obscuration.hpp"
#include "spirit/stated.hpp"
#include "units/parse.hpp"
#include "wire/entry_reader.hpp"
#include "wire/strict_json.hpp"

namespace lynearm::wire {

namespace {
constexpr int most_members = 500;
struct BlendAsked {
  std::vector<PartAsked> parts;
};

enum class Want { kit, spirit, gravity, replace };
constexpr std::string_view wants[] = {"kit", "spirit", "gravity", "replace"};
constexpr std::string_view glasses[] = {"class-1", "class-2", "class-3", "house"};
constexpr std::size_t most_wish = 80;  // characters of an amount as it is typed

// A wish as it is typed, before its amounts are understood.
struct WishTyped {
  std::string recipe, kit;
  Want want = Want::kit;
  std::optional<std::string> volume, strength, gravity, ingredient;
  std::optional<int> line;
};
}  // namespace

// Outside the unnamed namespace, where EntryReader looks them up by their arguments.

template <class Io>
void describe(Io& io, PlanAsked& asked) {
  io.text("recipe", asked.recipe, journal::most_document, true);
  io.text("kit", asked.kit, journal::most_document, true);
  std::optional<int> members;
  io.whole("members", members, 0, most_members);
  asked.members = members.value_or(0);
}
template <class Io>
void describe(Io& io, WishTyped& asked) {
  io.text("recipe", asked.recipe, journal::most_document, true);
  io.text("kit", asked.kit, journal::most_document, true);
  io.choice("want", asked.want, wants);
  const auto words = [&io](const char* name, std::optional<std::string>& to) {
    std::string said;
    io.text(name, said, most_wish, false);
    if (!said.empty()) to = said;
  };
  words("volume", asked.volume);
  words("strength", asked.strength);
  words("gravity", asked.gravity);
  io.whole("line", asked.line, 1, 1000);
  words("ingredient", asked.ingredient);
}
// Of a spirit, where it is told.
template <class Io>
units::MassConcentration residue_in(Io& io) {
  std::optional<double> residue;
  io.number("residue_g_L", residue, 0.0, spirit::most_residue.grams_per_litre());
  return units::MassConcentration::grams_per_litre(residue.value_or(0.0));
}
template <class Io>
void describe(Io& io, GaugeAsked& asked) {
  describe(io, asked.strength);
  std::optional<Glass> glass;
  io.choice("glass", glass, glasses);
  asked.glass = glass.value_or(Glass::house);
  asked.glass_told = glass.has_value();
  io.amount("volume_L", asked.volume, litres);
  asked.residue = residue_in(io);
}
template <class Io>
void describe(Io& io, GravityAsked& asked) {
  describe(io, asked.gravity);
  std::optional<double> original;
  io.number("original_specific_gravity", original, 1.0, 1.2);
  if (original) asked.original = units::SpecificGravity::ratio(*original);
}
template <class Io>
void describe(Io& io, PartAsked& part) {
  io.amount("volume_L_20C", part.volume, litres);
  io.amount("strength_percent_vol", part.strength, percent_vol);
}
template <class Io>
void describe(Io& io, TeaAsked& tea) {
  describe(io, tea.part);
  double residue = 0.0;
  io.number("residue_g_L", residue, 0.0, spirit::most_residue.grams_per_litre());
  tea.residue = units::MassConcentration::grams_per_litre(residue);
}
template <class Io>
void describe(Io& io, FoundAsked& found) {
  io.amount("strength_percent_vol", found.strength, percent_vol);
  io.amount("volume_L_20C", found.volume, litres);
  io.amount("mass_kg", found.mass, kilograms);
}
template <class Io>
void describe(Io& io, ReduceAsked& asked) {
  io.amount("volume_L", asked.volume, litres);
  io.amount("make_L", asked.make, litres);
  io.amount("strength_percent_vol", asked.strength, percent_vol);
  io.amount("at_C", asked.at, celsius);
  io.amount("to_percent_vol", asked.to, percent_vol);
  std::optional<units::Temperature> water;
  io.amount("water_at_C", water, celsius);
  asked.water_at = water.value_or(asked.water_at);
  io.part("weaker", asked.weaker);
  io.part("tea", asked.tea);
  asked.residue = residue_in(io);
  io.part("found", asked.found);
}
template <class Io>
void describe(Io& io, BlendAsked& asked) {
  io.parts("parts", asked.parts, 200);
}
template <class Io>
void describe(Io& io, PourAsked& asked) {
  io.id("run", asked.run);
  io.parts("jars", asked.pours, fields::most_listed);
}
template <class Io>
void describe(Io& io, MashCorrectionAsked& asked) {
  io.id("batch", asked.batch);
  io.amount("temperature_C", asked.temperature, celsius);
  std::string step;
  io.text("step", step, journal::most_text, false);
  if (!step.empty()) asked.step = step == "none" ? std::string() : std::move(step);
}
template <class Io>
void describe(Io& io, ChargeAsked& asked) {
  io.choice("run", asked.run, fields::run_kinds);
  io.amount("volume_L_20C", asked.volume, litres);
  io.amount("strength_percent_vol", asked.strength, percent_vol);
}

namespace {

template <class Asked>
Asked read(std::string_view text) {
  std::vector<base::Fault> faults;
  const std::optional<Json> object = parsed(text, "body", faults);
  Asked asked{};
  if (object && object->is_object()) {
    EntryReader reader(*object, "", faults);
    describe(reader, asked);
    reader.finish();
  } else if (faults.empty()) {
    faults.push_back({"body", as_written(*object), "an object", "", 0, 0});
  }
  if (!faults.empty()) throw base::InputError(std::move(faults));
  return asked;
}

}  // namespace

namespace {

// The amount that was typed, or a fault.
template <class Q>
std::optional<Q> understood(const char* name, const std::optional<std::string>& typed,
                            std::string_view missing, std::vector<base::Fault>& faults) {
  if (!typed) {
    faults.push_back({name, "", std::string(missing), "", 0, 0});
    return std::nullopt;
  }
  units::Parsed<Q> parsed = units::try_parse<Q>(*typed);
  if (!parsed) {
    faults.push_back({name, *typed, parsed.accepted, "", 0, 0});
    return std::nullopt;
  }
  return *parsed.value;
}

template <class Q>
void within(const char* name, const std::optional<Q>& value, Q low, Q high,
            const std::optional<std::string>& typed, std::string_view accepted,
            std::vector<base::Fault>& faults) {
  if (!value || (*value >= low && *value <= high)) return;
  faults.push_back({name, typed.value_or(""), std::string(accepted), "", 0, 0});
}

Wish wish_of(const WishTyped& typed) {
  std::vector<base::Fault> faults;
  Wish wish = FitKitWish{};
  switch (typed.want) {
    case Want::kit:
      break;
    case Want::spirit: {
      const auto volume =
          understood<units::Volume>("volume", typed.volume, "a volume such as \"5 L\"", faults);
      within("volume", volume, units::Volume::millilitres(100.0), units::Volume::litres(1000.0),
             typed.volume, "a volume of 0.1 to 1000 L", faults);
      const auto stated = understood<units::StatedStrength>(
          "strength", typed.strength, "a strength such as \"55 %vol\"", faults);
      std::optional<units::VolumeStrength> strength;
      if (stated) strength = spirit::volume_strength(*stated);
      within("strength", strength, units::VolumeStrength::percent(10.0),
             units::VolumeStrength::percent(96.0), typed.strength, "10 to 96 %vol", faults);
      if (faults.empty()) wish = SpiritWish{*volume, *strength, *typed.strength};
      break;
    }
    case Want::gravity: {
      const auto gravity = understood<units::SpecificGravity>(
          "gravity", typed.gravity, "a gravity such as \"1.062\"", faults);
      within("gravity", gravity, units::SpecificGravity::ratio(1.005),
             units::SpecificGravity::ratio(1.150), typed.gravity, "1.005 to 1.150", faults);
      if (faults.empty()) wish = GravityWish{*gravity};
      break;
    }
    case Want::replace:
      if (!typed.line) {
        faults.push_back({"line", "", "the line of the bill that is replaced", "", 0, 0});
      }
      if (!typed.ingredient) {
        faults.push_back({"ingredient", "", "an ingredient by its id", "", 0, 0});
      }
      if (faults.empty()) wish = ReplaceWish{*typed.line, *typed.ingredient};
      break;
  }
  if (!faults.empty()) throw base::InputError(std::move(faults));
  return wish;
}

}  // namespace

PlanAsked read_plan_asked(std::string_view text) { return read<PlanAsked>(text); }
SolveAsked read_solve_asked(std::string_view text) {
  WishTyped typed = read<WishTyped>(text);
  Wish wish = wish_of(typed);
  return {std::move(typed.recipe), std::move(typed.kit), std::move(wish)};
}
GaugeAsked read_gauge_asked(std::string_view text) { return read<GaugeAsked>(text); }
GravityAsked read_gravity_asked(std::string_view text) { return read<GravityAsked>(text); }
ReduceAsked read_reduce_asked(std::string_view text) {
  ReduceAsked asked = read<ReduceAsked>(text);
  std::vector<base::Fault> faults;
  const auto fault = [&](const char* field, const char* value, const char* accepted) {
    faults.push_back({field, value, accepted, "", 0, 0});
  };
  // Of no spirit, or of water, there is no strength to be reduced from.
  const auto above_zero = [&](const char* field, const auto& amount, const char* accepted) {
    using Amount = std::decay_t<decltype(*amount)>;
    if (amount && !(*amount > Amount{})) fault(field, "0", accepted);
  };
  if (!asked.volume && !asked.make) fault("volume_L", "", "a volume of spirit, or make_L");
  if (asked.volume && asked.make) fault("make_L", "beside volume_L", "one of the two");
  above_zero("volume_L", asked.volume, "a volume above zero");
  above_zero("make_L", asked.make, "a volume above zero");
  above_zero("strength_percent_vol", std::optional(asked.strength), "a strength above zero");
  if (asked.weaker && asked.tea) fault("weaker", "beside tea", "one of the two");
  if (asked.found) {
    above_zero("found.strength_percent_vol", std::optional(asked.found->strength),
               "a strength above zero");
    above_zero("found.volume_L_20C", asked.found->volume, "a volume above zero");
    above_zero("found.mass_kg", asked.found->mass, "a mass above zero");
    if (asked.found->volume && asked.found->mass) {
      fault("found.mass_kg", "beside volume_L_20C", "one of the two");
    }
  }
  if (!faults.empty()) throw base::InputError(std::move(faults));
  return asked;
}
PourAsked read_pour_asked(std::string_view text) { return read<PourAsked>(text); }
MashCorrectionAsked read_mash_correction_asked(std::string_view text) {
  return read<MashCorrectionAsked>(text);
}
ChargeAsked read_charge_asked(std::string_view text) {
  ChargeAsked asked = read<ChargeAsked>(text);
  if (!(asked.volume > units::Volume{})) {
    throw base::InputError("volume_L_20C", "0", "a volume above zero");
  }
  return asked;
}
std::vector<PartAsked> read_blend_asked(std::string_view text) {
  std::vector<PartAsked> parts = read<BlendAsked>(text).parts;
  if (parts.empty()) throw base::InputError("parts", "none", "one at least");
  return parts;
}

}  // namespace lynearm::wire
