// The members of every kind of body, written once: describe(io, body) names them to a reader, a
// writer or the maker of a schema, so the three cannot part. For the sources of this room only.
//
// An `io` has: text, document, flag, whole, number, amount, choice, id, part, parts,
// parts_if_any, words.
#pragma once

#include <array>
#include <string_view>

#include "journal/entry.hpp"
#include "wire/entry_units.hpp"

namespace lynearm::wire {

namespace fields {

using namespace std::string_view_literals;

inline constexpr std::array gravity_scales = {"specific_gravity"sv, "plato"sv, "brix"sv};
inline constexpr std::array strength_scales = {
    "percent_vol"sv, "percent_vol_15C"sv, "percent_vol_60F"sv,  "percent_mass"sv,
    "proof"sv,       "density"sv,         "specific_gravity"sv, "specific_gravity_60F"sv};
inline constexpr std::array lot_kinds = {"low wines"sv, "foreshots"sv, "feints"sv, "hearts"sv,
                                         "apart"sv,     "spirit"sv,    "bottles"sv};
inline constexpr std::array gone = {"sample"sv,    "tasted"sv, "spilt"sv,
                                    "destroyed"sv, "given"sv,  "other"sv};
inline constexpr std::array iodine_colours = {"unchanged"sv, "reddish"sv, "blue"sv};
inline constexpr std::array run_kinds = {"strip"sv, "spirit run"sv};
inline constexpr std::array events = {"stopped"sv, "resumed"sv};

inline constexpr int most_jar = 999;
inline constexpr std::size_t most_listed = 500;
inline constexpr std::size_t most_name = 200;
inline constexpr std::size_t most_sets_of_staves = 8;

}  // namespace fields

template <class Io>
void describe(Io& io, journal::GravityRead& b) {
  io.number("reading", b.figure, -10.0, 100.0);
  io.choice("scale", b.scale, fields::gravity_scales);
  io.amount("at_C", b.at, celsius);
}
template <class Io>
void describe(Io& io, journal::StrengthRead& b) {
  io.number("reading", b.reading.figure, 0.0, 1100.0);
  io.choice("scale", b.reading.scale, fields::strength_scales);
  io.amount("at_C", b.at, celsius);
}
template <class Io>
void describe(Io& io, journal::VolumeRead& b) {
  io.amount("volume_L", b.volume, litres);
  io.amount("at_C", b.at, celsius);
}

template <class Io>
void describe(Io& io, journal::BatchBegun& b) {
  io.text("name", b.name, fields::most_name, true);
  io.text("remark", b.remark, journal::most_text, false);
  io.flag("invented", b.invented);
}
template <class Io>
void describe(Io& io, journal::BatchPlanned& b) {
  io.text("recipe", b.recipe, journal::most_document, true);
  io.text("kit", b.kit, journal::most_document, true);
}
template <class Io>
void describe(Io&, journal::BatchClosed&) {}
template <class Io>
void describe(Io& io, journal::KitStated& b) {
  io.text("kit", b.kit, journal::most_document, true);
}
template <class Io>
void describe(Io& io, journal::Note& b) {
  io.text("text", b.text, journal::most_text, false);
  io.words("attachments", b.attachments, 20, 64);
}
template <class Io>
void describe(Io& io, journal::Struck& b) {
  io.text("reason", b.reason, journal::most_text, false);
}
template <class Io>
void describe(Io& io, journal::StepMarked& b) {
  io.text("step", b.step, journal::most_text, true);
  io.flag("done", b.done);
}
template <class Io>
void describe(Io& io, journal::Added& b) {
  io.text("what", b.what, fields::most_name, true);
  io.amount("mass_kg", b.mass, kilograms);
  io.amount("volume_L", b.volume, litres);
}
template <class Io>
void describe(Io& io, journal::AirRead& b) {
  io.amount("pressure_hPa", b.pressure, hectopascals);
  io.amount("boiling_water_C", b.boiling_water, celsius);
}
template <class Io>
void describe(Io& io, journal::CopperCleaned& b) {
  io.text("what", b.what, fields::most_name, true);
  io.text("with", b.with, fields::most_name, false);
  io.text("remark", b.remark, journal::most_text, false);
}

template <class Io>
void describe(Io& io, journal::MashTemperature& b) {
  io.amount("temperature_C", b.temperature, celsius);
}
template <class Io>
void describe(Io& io, journal::MashWater& b) {
  io.amount("volume_L", b.volume, litres);
  io.amount("temperature_C", b.temperature, celsius);
}
template <class Io>
void describe(Io& io, journal::MashChecked& b) {
  io.choice("iodine", b.iodine, fields::iodine_colours);
  io.part("gravity", b.gravity);
}
template <class Io>
void describe(Io& io, journal::WortDrawn& b) {
  io.text("from", b.from, fields::most_name, true);
  io.part("volume", b.volume);
  io.part("gravity", b.gravity);
}

template <class Io>
void describe(Io& io, journal::Pitched& b) {
  io.part("volume", b.volume);
  io.part("gravity", b.gravity);
  io.text("yeast", b.yeast, fields::most_name, false);
  io.amount("mass_g", b.mass, grams);
}
template <class Io>
void describe(Io& io, journal::FermentRead& b) {
  io.part("gravity", b.gravity);
  io.amount("temperature_C", b.temperature, celsius);
}
template <class Io>
void describe(Io& io, journal::Racked& b) {
  io.part("clear", b.clear);
  io.amount("lees_L", b.lees, litres);
}

template <class Io>
void describe(Io& io, journal::LotName& b) {
  io.id("entry", b.entry);
  io.choice("kind", b.kind, fields::lot_kinds);
}
template <class Io>
void describe(Io& io, journal::LotPart& b) {
  io.part("lot", b.lot);
  io.amount("volume_L_20C", b.volume, litres);
}
template <class Io>
void describe(Io& io, journal::LotBrought& b) {
  io.text("name", b.name, fields::most_name, true);
  io.choice("kind", b.kind, fields::lot_kinds);
  io.part("volume", b.volume);
  io.part("strength", b.strength);
}
template <class Io>
void describe(Io& io, journal::LotGauged& b) {
  io.part("lot", b.lot);
  io.part("volume", b.volume);
  io.part("strength", b.strength);
}
template <class Io>
void describe(Io& io, journal::LotTaken& b) {
  io.part("lot", b.lot);
  io.amount("volume_L_20C", b.volume, litres);
  io.choice("gone", b.gone, fields::gone);
  io.text("reason", b.reason, journal::most_text, false);
}

template <class Io>
void describe(Io& io, journal::RunBegun& b) {
  io.choice("run", b.kind, fields::run_kinds);
  io.part("charge", b.charge);
  io.part("strength", b.strength);
  io.parts("lots", b.parts, fields::most_listed);
  io.amount("wash_L_20C", b.wash, litres);
  io.amount("power_W", b.power, watts);
}
template <class Io>
void describe(Io& io, journal::RunRead& b) {
  still::Reading& r = b.reading;
  io.id("run", b.run);
  io.amount("power_W", r.power, watts);
  io.amount("pot_temperature_C", r.pot_temperature, celsius);
  io.amount("head_temperature_C", r.head_temperature, celsius);
  io.part("spout", r.spout);
  io.amount("spout_temperature_C", r.spout_temperature, celsius);
  io.amount("collected_mL", r.collected, millilitres);
  io.amount("coolant_in_C", r.coolant_in, celsius);
  io.amount("coolant_out_C", r.coolant_out, celsius);
  io.amount("coolant_flow_L_per_min", r.coolant_flow, litres_per_minute);
  io.choice("event", r.event, fields::events);
  io.text("note", r.note, journal::most_text, false);
}
template <class Io>
void describe(Io& io, spirit::Reading& b) {
  io.number("reading", b.figure, 0.0, 1100.0);
  io.choice("scale", b.scale, fields::strength_scales);
}
template <class Io>
void describe(Io& io, journal::JarFilled& b) {
  io.id("run", b.run);
  io.whole("jar", b.jar, 1, fields::most_jar);
  io.amount("volume_mL", b.volume, millilitres);
}
template <class Io>
void describe(Io& io, journal::RunEnded& b) {
  io.id("run", b.run);
  io.part("collected", b.collected);
  io.part("strength", b.strength);
  io.amount("left_L", b.left, litres);
  io.part("left_strength", b.left_strength);
}

template <class Io>
void describe(Io& io, journal::JarGauged& b) {
  io.id("run", b.run);
  io.whole("jar", b.jar, 1, fields::most_jar);
  io.part("volume", b.volume);
  io.part("strength", b.strength);
}
template <class Io>
void describe(Io& io, journal::JarNoted& b) {
  io.id("run", b.run);
  io.whole("jar", b.jar, 1, fields::most_jar);
  io.words("words", b.words, 40, fields::most_name);
  io.text("text", b.text, journal::most_text, false);
  io.number("fault", b.fault, 0.0, 10.0);
}
template <class Io>
void describe(Io& io, journal::JarPoured& b) {
  io.whole("jar", b.jar, 1, fields::most_jar);
  io.amount("foreshots_mL_20C", b.foreshots, millilitres);
  io.amount("hearts_mL_20C", b.hearts, millilitres);
  io.amount("feints_mL_20C", b.feints, millilitres);
  io.amount("apart_mL_20C", b.apart, millilitres);
}
template <class Io>
void describe(Io& io, journal::JarsAllotted& b) {
  io.id("run", b.run);
  io.parts("jars", b.pours, fields::most_listed);
}

template <class Io>
void describe(Io& io, journal::LotMade& b) {
  io.text("name", b.name, fields::most_name, true);
  io.parts("lots", b.parts, fields::most_listed);
  io.amount("water_kg", b.water, kilograms);
  io.part("volume", b.volume);
  io.part("strength", b.strength);
  io.amount("residue_g_L", b.residue, grams_per_litre);
}
template <class Io>
void describe(Io& io, journal::StavesLaid& b) {
  io.whole("staves", b.staves, 1, 1000);
  io.text("species", b.species, fields::most_name, false);
  io.text("toast", b.toast, fields::most_name, false);
  io.whole("used_times", b.used_times, 0, 9);
}
template <class Io>
void describe(Io& io, journal::WoodFilled& b) {
  io.part("from", b.part);
  io.text("in", b.in, fields::most_name, true);
  io.text("species", b.species, fields::most_name, false);
  io.text("toast", b.toast, fields::most_name, false);
  io.whole("staves", b.staves, 1, 1000);
  io.whole("used_times", b.used_times, 0, 9);
  io.parts_if_any("besides", b.besides, fields::most_sets_of_staves);
}
template <class Io>
void describe(Io& io, journal::WoodSampled& b) {
  io.part("lot", b.lot);
  io.amount("volume_L_20C", b.volume, litres);
  io.words("words", b.words, 40, fields::most_name);
  io.text("text", b.text, journal::most_text, false);
}
template <class Io>
void describe(Io& io, journal::WoodEmptied& b) {
  io.part("lot", b.lot);
  io.part("volume", b.volume);
  io.part("strength", b.strength);
}
template <class Io>
void describe(Io& io, journal::Bottled& b) {
  io.part("from", b.part);
  io.whole("bottles", b.bottles, 0, 100'000);
  io.amount("size_L", b.size, litres);
  io.amount("strength_percent_vol", b.strength, percent_vol);
  io.amount("residue_g_L", b.residue, grams_per_litre);
}
template <class Io>
void describe(Io& io, journal::WoodTopped& b) {
  io.part("lot", b.lot);
  io.part("from", b.part);
}
template <class Io>
void describe(Io& io, journal::Labelled& b) {
  io.part("lot", b.lot);
  io.text("name", b.name, fields::most_name, true);
  io.amount("strength_percent_vol", b.strength, percent_vol);
  io.text("class", b.names_class, fields::most_name, false);
  io.text("rule", b.rule, fields::most_name, false);
}
template <class Io>
void describe(Io& io, journal::Upheld& b) {
  io.id("entry", b.entry);
  io.text("asked", b.asked, journal::most_text, true);
  io.text("reason", b.reason, journal::most_text, false);
}

}  // namespace lynearm::wire
