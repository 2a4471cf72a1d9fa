// The still: what was charged and came over, against what there was.
#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <string_view>
#include <vector>

#include "journal/asking.hpp"
#include "journal/fed.hpp"
#include "journal/meaning.hpp"

namespace lynearm::journal {
namespace {

using units::Volume;
using units::VolumeStrength;

/// A wash whose gravity was read so long before may have fermented on since. Our choice.
constexpr units::Duration lately = units::Duration::days(1.0);
/// So little of a first jar may be half of it the water that stood in the condenser. Our
/// choice.
constexpr Volume rinsings = Volume::millilitres(200.0);
/// Lower than any wash: all of its extract is fermented.
constexpr auto lowest = units::SpecificGravity::ratio(0.9);

// The most wash there can be: as pitched, with what was put in, or as racked where that is
// more.
std::optional<Volume> most_wash(const BatchState& batch) {
  const FermentState& ferment = batch.ferment;
  std::optional<Volume> most;
  if (ferment.pitch) most = ferment.pitch->volume + most_volume_fed(batch);
  if (ferment.racked) {
    const Volume racked = ferment.racked->clear + ferment.racked->lees.value_or(Volume{});
    most = std::max(most.value_or(Volume{}), racked);
  }
  return most;
}

// Whether that was by the pitch or the racking; alike before and after the racking is told.
std::string_view as_told(const BatchState& batch, Volume most) {
  const FermentState& ferment = batch.ferment;
  if (!ferment.racked) return " as pitched";
  const Volume racked = ferment.racked->clear + ferment.racked->lees.value_or(Volume{});
  if (most > racked) return " as pitched";
  return ferment.racked->lees ? " as racked, with the lees" : " as racked";
}

// The most alcohol that so much of the wash can hold when the heat goes on.
std::optional<PureVolume> most_in_wash(const BatchState& batch, const RunState& run,
                                       Volume volume) {
  const FermentState& ferment = batch.ferment;
  if (!ferment.pitch || !ferment.wash) return std::nullopt;
  // By the lowest gravity told: one above it that came later is a slip, or was fed.
  units::SpecificGravity gravity = ferment.wash->gravity;
  for (const FermentPoint& point : ferment.points) {
    if (point.gravity) gravity = std::min(gravity, *point.gravity);
  }
  const Moment done = ferment.racked ? ferment.racked->told.at : run.told.at;
  if (since(done, ferment.wash->told.at) > lately) gravity = lowest;
  const units::VolumeStrength strength = gravity < ferment.wash->gravity
                                             ? wash_strength(ferment.pitch->gravity, gravity)
                                             : ferment.wash->strength;
  PureVolume most = pure_in_wash(volume, strength);
  const Volume whole = ferment.pitch->volume;
  if (whole > Volume{}) {
    most.value += most_alcohol_fed(batch) * std::min(1.0, volume / whole);
  }
  return most;
}

// The alcohol of lots and wash; nothing where one of them is not known.
std::optional<Amount> put_in(const BatchState& batch, const RunState& run,
                             const Charged& charged) {
  Amount sum;
  if (const auto lots = charged.find(run.told.entry); lots != charged.end()) {
    for (const spirit::Lot& lot : lots->second) sum.add(lot);
  } else if (!run.parts.empty()) {
    return std::nullopt;
  }
  std::optional<Volume> wash = run.wash;
  // A strip of which nothing was named is of the batch's own wash: at most all of it.
  if (!wash && run.parts.empty()) {
    if (run.kind != RunKind::strip) return std::nullopt;
    wash = most_wash(batch);
    if (!wash) return std::nullopt;
  }
  if (!wash) return sum;
  const std::optional<PureVolume> most = most_in_wash(batch, run, *wash);
  if (!most) return std::nullopt;
  return sum.add(*most);
}

void ask_of_charge(const BatchState& batch, const RunState& run, const Charged& charged,
                   const Glass& glass, Asking& asking) {
  // One that is reckoned of its lots and wash holds what they held.
  if (!run.charge_known || !run.charge_gauged) return;
  const std::optional<Amount> in = put_in(batch, run, charged);
  if (!in) return;
  const Amount held = Amount{}.add(run.charge);
  if (!cannot_be(held, *in, glass)) return;
  asking.ask(run.told.entry,
             fmt::format("The charge holds {:.2f} L of pure alcohol, and what there was to put "
                         "in held {:.2f} L: marks and glass are not so far off.",
                         held.value().litres(), in->value().litres()));
}

/// So much of a strip's charge may be water that nobody told, beside the lots that were named.
/// Our choice.
constexpr double untold_water = 0.1;
/// Of all of a wash so much at most stays behind with its lees. Our choice.
constexpr double left_in_the_fermenter = 0.2;

// Whether some of the wash seems to wait in its vessel yet.
bool wash_waits(const BatchState& batch) {
  Volume charged;
  for (const RunState& run : batch.runs) charged += run.wash.value_or(Volume{});
  const std::optional<Volume> there = most_wash(batch);
  return batch.ferment.wash && there && charged < *there * (1.0 - left_in_the_fermenter);
}

// What went in cannot be more than there is of it: a lot that was charged in part is told in
// part. Nor is a strip of feints alone filled up with water: the rest is wash, that nobody told
// and that would seem to wait in its vessel.
void ask_of_volume(const BatchState& batch, const RunState& run, Asking& asking) {
  const bool feints_alone = run.kind == RunKind::strip && !run.parts.empty() && !run.wash;
  const Volume rest = run.charge_told - run.put_in;
  if (feints_alone && !run.charge_gauged && rest > run.charge_told * untold_water &&
      wash_waits(batch)) {
    asking.ask(run.told.entry,
               fmt::format("The lots named are {:.2f} L of a charge of {:.2f} L, and nothing "
                           "tells what the rest is: it is reckoned as water, and what is wash "
                           "of it seems to wait.",
                           run.put_in.litres(), run.charge_told.litres()));
    return;
  }
  if (!cannot_be(run.put_in, run.charge_told)) return;
  asking.ask(run.told.entry,
             fmt::format("{:.2f} L of lots and wash went into a charge of {:.2f} L.",
                         run.put_in.litres(), run.charge_told.litres()));
}

struct Came {
  Volume volume;
  Amount pure;
};

// What is asked of as much as came over by then, "The jars to jar 2 hold" so much.
std::optional<std::string> asked_of_came(const BatchState& batch, const RunState& run,
                                         const Came& came, const std::string& what,
                                         const Glass& glass) {
  if (cannot_be(came.volume, run.charge_volume)) {
    return fmt::format("{} {:.2f} L, of a charge of {:.2f} L.", what, came.volume.litres(),
                       run.charge_volume.litres());
  }
  if (!run.charge_known) return std::nullopt;
  Amount in = Amount{}.add(run.charge);
  // A charge of wash that nobody gauged is as strong as its gravities tell.
  if (run.wash && run.parts.empty()) {
    const std::optional<PureVolume> wash = most_in_wash(batch, run, *run.wash);
    if (wash && wash->value >= in.value()) in = Amount{}.add(*wash);
  }
  if (!cannot_be(came.pure, in, glass)) return std::nullopt;
  return fmt::format(
      "{} {:.2f} L of pure alcohol, and the charge held {:.2f} L: marks and glass are not so "
      "far "
      "off.",
      what, came.pure.value().litres(), in.value().litres());
}

bool off_the_mark(Volume held, Volume mark) {
  // A drop at the bottom of a jar is measured as it can be.
  return held > mark * (1.0 + over_the_mark) ||
         (held < mark * (1.0 - under_the_mark) && mark - held > Volume::millilitres(50.0));
}

// What comes over grows weaker; a jar far weaker than one after it was read or told wrongly, or
// that one was, where it alone is so strong and several before it are not.
class Strengths {
 public:
  explicit Strengths(const RunState& run) {
    for (const auto& [number, jar] : run.jars) {
      if (jar.lot) jars_.push_back({&jar, spirit::strength(*jar.lot)});
    }
  }

  void ask_of_them(Asking& asking) const {
    std::set<std::size_t> weak;
    std::set<std::size_t> strong;
    for (std::size_t i = 0; i < jars_.size(); ++i) {
      for (std::size_t j = i + 1; j < jars_.size(); ++j) {
        if (!far_weaker(i, j)) continue;
        weak.insert(i);
        strong.insert(j);
      }
    }
    if (weak.size() > 1 && strong.size() == 1 &&
        ask(asking, *strong.begin(), *weak.begin(), "before")) {
      return;
    }
    for (const std::size_t i : weak) {
      // Whichever of those after it was named when it was upheld.
      const bool upheld = std::any_of(strong.begin(), strong.end(), [&](std::size_t j) {
        return j > i && far_weaker(i, j) && asking.upheld(question(i, j, "after"));
      });
      const auto j = std::find_if(strong.begin(), strong.end(), [&](std::size_t one) {
        return one > i && far_weaker(i, one);
      });
      if (!upheld) ask(asking, i, *j, "after");
    }
  }

 private:
  struct Gauged {
    const JarState* jar;
    VolumeStrength strength;
  };

  // Of rinsings nothing is said.
  [[nodiscard]] bool far_weaker(std::size_t i, std::size_t j) const {
    return jars_[j].strength - jars_[i].strength > rinsed &&
           !(spirit::volume(*jars_[i].jar->lot) < rinsings);
  }
  [[nodiscard]] Puzzle question(std::size_t of, std::size_t other,
                                std::string_view where) const {
    return {jars_[of].jar->gauged->entry,
            fmt::format("Jar {} was gauged at {:.1f} %vol and jar {}, {} it, at {:.1f} %vol: "
                        "what comes over grows weaker.",
                        jars_[of].jar->jar, jars_[of].strength.percent(), jars_[other].jar->jar,
                        where, jars_[other].strength.percent())};
  }
  bool ask(Asking& asking, std::size_t of, std::size_t other, std::string_view where) const {
    const Puzzle asked = question(of, other, where);
    return asking.ask(asked.entry, asked.why);
  }

  std::vector<Gauged> jars_;
};

std::string jars_hold(int first, int last) {
  if (first == last) return fmt::format("Jar {} holds", last);
  if (first == 1) return fmt::format("The jars to jar {} hold", last);
  return fmt::format("The jars from jar {} to jar {} hold", first, last);
}

// What is told of a jar's volume: how much, and where.
struct Held {
  int number;
  Volume volume;
  const JarState* jar;

  [[nodiscard]] const Id& entry() const {
    return jar->lot ? jar->gauged->entry : jar->filled->entry;
  }
  // Also before it was gauged.
  [[nodiscard]] bool upheld(const std::string& why, const Asking& asking) const {
    return asking.upheld({entry(), why}) ||
           (jar->filled && asking.upheld({jar->filled->entry, why}));
  }
};

// What the jars hold together, from the first on. One that holds most of what cannot be is the
// slip, whichever brings it over the charge.
void ask_of_sum(const BatchState& batch, const RunState& run, const std::vector<Held>& jars,
                const Glass& glass, Asking& asking) {
  Came came;
  int first = 1;
  const Held* largest = nullptr;
  for (const Held& one : jars) {
    came.volume += one.volume;
    if (one.jar->lot) came.pure.add(*one.jar->lot);
    if (largest == nullptr || one.volume > largest->volume) largest = &one;
    const bool outweighs = largest != &one && largest->volume > came.volume * 0.5;
    const std::string what =
        outweighs ? fmt::format("With the {:.2f} L of jar {} the jars to jar {} hold",
                                largest->volume.litres(), largest->number, one.number)
                  : jars_hold(first, one.number);
    const auto why = asked_of_came(batch, run, came, what, glass);
    if (!why) continue;
    const Held& of = outweighs ? *largest : one;
    if (!of.upheld(*why, asking) && asking.ask(of.entry(), *why)) return;
    came = {};
    largest = nullptr;
    first = one.number + 1;
  }
}

void ask_of_jars(const BatchState& batch, const RunState& run, const Glass& glass,
                 Asking& asking) {
  std::vector<Held> jars;
  for (const auto& [number, jar] : run.jars) {
    if (!jar.lot && !(jar.filled && jar.as_filled)) continue;
    jars.push_back({number, jar.lot ? spirit::volume(*jar.lot) : *jar.as_filled, &jar});
    const Volume held = jars.back().volume;
    if (!jar.lot || !jar.as_filled || !off_the_mark(held, *jar.as_filled)) continue;
    asking.ask(jar.gauged->entry,
               fmt::format("Jar {} was gauged at {:.0f} mL; it was filled to {:.0f} mL.",
                           number, held.millilitres(), jar.as_filled->millilitres()));
  }
  Strengths(run).ask_of_them(asking);
  ask_of_sum(batch, run, jars, glass, asking);
}

// What the pot is told to hold at the end, alone and with what came over, against the charge.
void ask_of_left(const RunState& run, Asking& asking) {
  if (!run.ended || !run.left) return;
  const Volume came = run.collected_read ? run.collected_read->volume : Volume{};
  if (!cannot_be(*run.left + came, run.charge_volume)) return;
  asking.ask(run.ended->entry,
             fmt::format("{:.2f} L are told to be left in the pot{}, of a charge of {:.2f} L.",
                         run.left->litres(),
                         came > Volume{}
                             ? fmt::format(" and {:.2f} L to have come over", came.litres())
                             : std::string{},
                         run.charge_volume.litres()));
}

void ask_of_all(const HouseState& house, const BatchState& batch, const RunState& run,
                const Glass& glass, Asking& asking) {
  if (!run.ended || !run.collected_read) return;
  Came came;
  came.volume = run.collected ? spirit::volume(*run.collected) : run.collected_read->volume;
  if (run.collected) came.pure.add(*run.collected);
  // Of the first jar's foreshots some tell nothing at the end; what was decanted into another
  // jar is counted where it is less.
  Volume in_jars;
  for (const auto& [number, jar] : run.jars) {
    if (jar.jar == 1) continue;
    const Volume gauged = jar.lot ? spirit::volume(*jar.lot) : jar.as_filled.value_or(Volume{});
    in_jars += std::min(gauged, jar.as_filled.value_or(gauged));
  }
  if (cannot_be(in_jars, came.volume)) {
    asking.ask(run.ended->entry,
               fmt::format("At the end {:.2f} L were told to have come over; the jars after "
                           "the first hold {:.2f} L, and feints came over too.",
                           came.volume.litres(), in_jars.litres()));
  }
  const bool strip = run.kind == RunKind::strip;
  const auto why =
      asked_of_came(batch, run, came, strip ? "The low wines are" : "What came over is", glass);
  if (!why) return;
  // Low wines may have been gauged later, by an entry of their own.
  const LotState* const low_wines =
      strip ? lot_named(house, {run.ended->entry, LotKind::low_wines}) : nullptr;
  asking.ask(low_wines != nullptr ? low_wines->told.entry : run.ended->entry, *why);
}

}  // namespace

Charged charged_lots(const HouseState& house) {
  Charged charged;
  for (const LotState& lot : house.lots) {
    for (const LotUse& use : lot.uses) {
      if (use.where != "charge") continue;
      charged[use.told.entry].push_back(use.lot);
    }
  }
  return charged;
}

void ask_of_runs(const HouseState& house, const BatchState& batch, const Charged& charged,
                 const Glass& glass, Asking& asking) {
  const std::optional<Volume> wash = most_wash(batch);
  // After a charge that was upheld, a second fermenter say, as much again may come unasked: how
  // much more there was nobody told.
  Volume taken;
  bool over = false;
  std::string_view since_upheld;
  for (const RunState& run : batch.runs) {
    taken += run.wash.value_or(Volume{});
    if (wash && run.wash && !over && cannot_be(taken, *wash)) {
      // The later ones are no more to blame than this.
      over = asking.ask(
          run.told.entry,
          fmt::format("With this charge {:.1f} L of the wash went into the still{}; there "
                      "were {:.1f} L{}.",
                      taken.litres(), since_upheld, wash->litres(), as_told(batch, *wash)));
      since_upheld = " since the charge that was upheld";
      taken = {};
    }
    ask_of_charge(batch, run, charged, glass, asking);
    ask_of_volume(batch, run, asking);
    ask_of_jars(batch, run, glass, asking);
    ask_of_all(house, batch, run, glass, asking);
    ask_of_left(run, asking);
  }
}

}  // namespace lynearm::journal
