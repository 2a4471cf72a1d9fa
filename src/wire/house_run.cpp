// A run of the still as it was told, with its readings and jars, as JSON.
#include <span>

#include "wire/house_parts.hpp"

namespace lynearm::wire {
namespace {

using namespace journal;  // this file is about nothing else

Json jar_json(const JarState& jar) {
  Json json;
  json["jar"] = jar.jar;
  if (jar.filled) json["filled"] = told_json(*jar.filled);
  if (jar.as_filled) json["as_filled_mL"] = figure(jar.as_filled->millilitres());
  if (jar.lot) {
    json["gauged"] = told_json(*jar.gauged);
    json["lot"] = lot_json(*jar.lot);
  }
  json["notes"] = list_of(jar.notes, [](const JarNote& note) {
    Json row = told_json(note.told);
    if (!note.words.empty()) row["words"] = note.words;
    if (!note.text.empty()) row["text"] = note.text;
    if (note.fault) row["fault"] = figure(*note.fault);
    return row;
  });
  if (jar.poured) {
    json["poured"] = body_of(*jar.poured);
    json["left"] = lot_json(*jar.left);
  }
  return json;
}

void write_told(ObjectText& json, const Told& told) {
  json.add_plain("entry", print(told.entry));
  json.add_plain("at", print(told.at));
  if (!told.who.empty()) json.add("who", told.who);
  if (told.corrections > 0) json.add("corrections", told.corrections);
}

// Writes what describe() names of a reading, as EntryWriter does, but without a tree.
class ReadingText {
 public:
  explicit ReadingText(ObjectText& json) : json_(json) {}

  void id(const char*, const Id&) {}  // the run is what the reading stands in
  void text(const char* name, const std::string& value, std::size_t, bool required) {
    if (required || !value.empty()) json_.add(name, value);
  }
  template <class Q>
  void amount(const char* name, const std::optional<Q>& value, const Unit<Q>& unit) {
    if (value) json_.add(name, kept(unit.in(*value)));
  }
  template <class E>
  void choice(const char* name, const std::optional<E>& value,
              std::span<const std::string_view> words) {
    if (value) json_.add_plain(name, words[static_cast<std::size_t>(*value)]);
  }
  template <class B>
  void part(const char* name, const std::optional<B>& value) {
    if (value) json_.add(name, body_of(*value));
  }

 private:
  ObjectText& json_;
};

// A run that a logger reads by the second has thousands of them, so long or shorter.
constexpr std::size_t usual_reading_bytes = 200;

void write_reading(std::string& text, const RunPoint& point) {
  ObjectText json(text);
  write_told(json, point.told);
  json.add("minutes", figure(point.reading.at.minutes()));
  ReadingText figures(json);
  RunRead read{{}, point.reading};
  describe(figures, read);
  json.end();
}

}  // namespace

void write_run(std::string& text, const RunState& run,
               const std::vector<std::string>& against) {
  ObjectText json(text);
  write_told(json, run.told);
  json.add("run", fields::run_kinds[static_cast<std::size_t>(run.kind)]);
  json.add("standing", run_standings[static_cast<std::size_t>(run.standing)]);
  json.add("charge_L_20C", figure(run.charge_volume.litres()));
  if (run.charge_known) {
    json.add("charge", lot_json(run.charge));
    json.add("charge_gauged", run.charge_gauged);
  }
  if (!against.empty()) json.add("against", against);
  if (run.wash) json.add("wash_L_20C", figure(run.wash->litres()));
  json.add("lots", list_of(run.parts, [](const LotPart& part) { return body_of(part); }));
  if (run.power) json.add("power_W", figure(run.power->watts()));
  json.name("readings");
  // A text that outgrows its room is there twice for a while.
  text.reserve(text.size() + run.readings.size() * usual_reading_bytes);
  write_list(text, run.readings, [&](const RunPoint& point) { write_reading(text, point); });
  json.add("jars", list_of(run.jars, [](const auto& jar) { return jar_json(jar.second); }));
  if (run.allotted) json.add("allotted", told_json(*run.allotted));
  if (run.ended) json.add("ended", told_json(*run.ended));
  if (run.collected_read) json.add("collected_read", body_of(*run.collected_read));
  if (run.collected) json.add("collected", lot_json(*run.collected));
  if (run.left) json.add("left_L", figure(run.left->litres()));
  if (run.left_lot) json.add("left", lot_json(*run.left_lot));
  json.end();
}

}  // namespace lynearm::wire
