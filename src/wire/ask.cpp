#include "wire/ask.hpp"

#include <optional>
#include <utility>

#include "wire/entry_reader.hpp"
#include "wire/strict_json.hpp"

namespace lynearm::wire {

namespace {
constexpr int most_members = 500;
struct BlendAsked {
  std::vector<PartAsked> parts;
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
void describe(Io& io, GaugeAsked& asked) {
  describe(io, asked.strength);
  io.amount("volume_L", asked.volume, litres);
}
template <class Io>
void describe(Io& io, GravityAsked& asked) {
  describe(io, asked.gravity);
  std::optional<double> original;
  io.number("original_specific_gravity", original, 1.0, 1.2);
  if (original) asked.original = units::SpecificGravity::ratio(*original);
}
template <class Io>
void describe(Io& io, ReduceAsked& asked) {
  io.amount("volume_L", asked.volume, litres);
  io.amount("strength_percent_vol", asked.strength, percent_vol);
  io.amount("at_C", asked.at, celsius);
  io.amount("to_percent_vol", asked.to, percent_vol);
  std::optional<units::Temperature> water;
  io.amount("water_at_C", water, celsius);
  asked.water_at = water.value_or(asked.water_at);
}
template <class Io>
void describe(Io& io, PartAsked& part) {
  io.amount("volume_L_20C", part.volume, litres);
  io.amount("strength_percent_vol", part.strength, percent_vol);
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

PlanAsked read_plan_asked(std::string_view text) { return read<PlanAsked>(text); }
GaugeAsked read_gauge_asked(std::string_view text) { return read<GaugeAsked>(text); }
GravityAsked read_gravity_asked(std::string_view text) { return read<GravityAsked>(text); }
ReduceAsked read_reduce_asked(std::string_view text) { return read<ReduceAsked>(text); }
PourAsked read_pour_asked(std::string_view text) { return read<PourAsked>(text); }
MashCorrectionAsked read_mash_correction_asked(std::string_view text) {
  return read<MashCorrectionAsked>(text);
}
std::vector<PartAsked> read_blend_asked(std::string_view text) {
  std::vector<PartAsked> parts = read<BlendAsked>(text).parts;
  if (parts.empty()) throw base::InputError("parts", "none", "one at least");
  return parts;
}

}  // namespace lynearm::wire
