#include "spirit/gauging.hpp"

#include <fmt/format.h>

#include <array>
#include <cmath>
#include <cstddef>
#include <utility>

#include "base/error.hpp"
#include "numeric/uncertainty.hpp"
#include "spirit/density.hpp"
#include "spirit/freezing.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

// Whatever may be off, as a change added to what was entered. Each stands at one place of the
// vector that numeric::propagate() moves.
enum Input : std::size_t {
  instrument,
  stem,
  temperature,
  flask_volume,
  formula,
  residue_mass,
  amount,
  input_count
};

constexpr std::array<std::string_view, input_count> input_names{
    "the instrument",      "reading the stem",    "the thermometer",
    "the flask's volume",  "the density formula", "the evaporated residue",
    "the volume or weight"};

using Changes = std::vector<double>;

units::Temperature warmed(const GaugingInput& input, const Changes& change) {
  return input.at + units::TemperatureChange::kelvins(change[temperature]);
}

// A density as the formula has it, moved by what the formula itself may be off.
units::MassFraction of_density(units::Density density, units::Temperature t,
                               const Changes& change) {
  // Unmoved it stays as it is, so that a reading at the very end of a scale stays inside.
  if (change[formula] == 0.0) return mass_fraction_at(density, t);
  return mass_fraction_at(density + units::Density::kilograms_per_cubic_metre(change[formula]),
                          t);
}

// The pure spirit of the observed density, with everything moved by `change`.
struct Observed {
  const GaugingInput& input;
  const Changes& change;

  units::MassFraction operator()(const ByHydrometer& by) const {
    const units::Temperature t = warmed(input, change);
    Reading reading = by.reading;
    reading.figure += change[instrument] + change[stem];
    const units::MassFraction ethanol = true_mass_fraction(reading, t, by.hydrometer);
    if (change[formula] == 0.0) return ethanol;
    return of_density(density_shown(reading, t, by.hydrometer), t, change);
  }
  units::MassFraction operator()(const ByDensity& by) const {
    return of_density(
        by.density + units::Density::kilograms_per_cubic_metre(change[instrument]),
        warmed(input, change), change);
  }
  units::MassFraction operator()(const ByFlask& by) const {
    const units::Temperature t = warmed(input, change);
    const units::Mass shown = by.shown + units::Mass::kilograms(change[instrument]);
    Flask flask = by.flask;
    flask.volume += units::Volume::litres(change[flask_volume]);
    if (change[formula] == 0.0) return mass_fraction_in_flask(shown, t, flask, by.weighing);
    return of_density(density_in_flask(shown, t, flask, by.weighing), t, change);
  }
  units::MassFraction operator()(const ByRefraction& by) const {
    const RefractedStrength found = strengths(
        by.index + units::RefractiveIndex::ratio(change[instrument]), warmed(input, change));
    if (!found.strong) return found.weak;
    if (!by.side) {
      throw base::InputError(
          "side", "",
          fmt::format("weak or strong: this index is that of {:.1f} and of {:.1f} %vol; a "
                      "hydrometer tells which, or a sample diluted with as much water and "
                      "read again",
                      volume_strength(found.weak).percent(),
                      volume_strength(*found.strong).percent()));
    }
    return *by.side == Side::weak ? found.weak : *found.strong;
  }
  units::MassFraction operator()(const KnownStrength& by) const {
    return mass_fraction(by.strength + units::VolumeStrength::fraction(change[instrument]));
  }
};

// A refractive index or a stated strength is not weighed: what is dissolved does not hide in it
// as it does from a hydrometer.
bool by_density(const Observation& observation) {
  return !std::holds_alternative<ByRefraction>(observation) &&
         !std::holds_alternative<KnownStrength>(observation);
}

struct Found {
  units::MassFraction apparent;
  units::VolumeStrength strength;
  Lot lot;  ///< the pure spirit of the same density; empty without an amount
};

Found found_with(const GaugingInput& input, const Changes& change) {
  Found found;
  found.apparent = std::visit(Observed{input, change}, input.observation);
  found.strength = volume_strength(found.apparent);
  if (input.residue > units::MassConcentration{}) {
    const units::MassConcentration residue =
        input.residue + units::MassConcentration::grams_per_litre(change[residue_mass]);
    if (by_density(input.observation)) {
      found.strength = true_strength(found.strength, residue);
    } else {
      found.apparent = mass_fraction(apparent_strength(found.strength, residue));
    }
  }
  if (!input.amount) return found;
  const units::Temperature t = warmed(input, change);
  if (const auto* read = std::get_if<VolumeRead>(&*input.amount)) {
    found.lot = lot_at_mark(read->marked + units::Volume::litres(change[amount]),
                            found.apparent, t, read->vessel);
  } else {
    const auto& weight = std::get<WeightRead>(*input.amount);
    found.lot = lot_weighed(weight.shown + units::Mass::kilograms(change[amount]),
                            found.apparent, t, weight.weighing);
  }
  return found;
}

units::Volume alcohol_of(const Found& found) {
  return volume(found.lot) * found.strength.fraction();
}

struct InstrumentLimits {
  double instrument = 0.0, stem = 0.0, flask = 0.0, formula = 0.0;
};

InstrumentLimits limits_of(const Observation& observation) {
  const double by_formula = formula_error.kilograms_per_cubic_metre();
  if (const auto* by = std::get_if<ByHydrometer>(&observation)) {
    return {by->most_error, by->read_to / 2.0, 0.0, by_formula};
  }
  if (const auto* by = std::get_if<ByDensity>(&observation)) {
    return {by->most_error.kilograms_per_cubic_metre(), 0.0, 0.0, by_formula};
  }
  if (const auto* by = std::get_if<ByFlask>(&observation)) {
    return {by->most_error.kilograms(), 0.0, by->flask_error.litres(), by_formula};
  }
  if (const auto* by = std::get_if<ByRefraction>(&observation)) {
    return {by->most_error.ratio(), 0.0, 0.0, 0.0};
  }
  return {std::get<KnownStrength>(observation).most_error.fraction(), 0.0, 0.0, 0.0};
}

std::vector<numeric::MeasuredInput> uncertain(const GaugingInput& input) {
  const InstrumentLimits limits = limits_of(input.observation);
  double amount_error = 0.0;
  if (input.amount) {
    const auto* read = std::get_if<VolumeRead>(&*input.amount);
    amount_error = read != nullptr ? read->most_error.litres()
                                   : std::get<WeightRead>(*input.amount).most_error.kilograms();
  }
  std::vector<numeric::MeasuredInput> inputs(input_count);
  const auto set = [&](Input which, double half_width) {
    if (!(half_width >= 0.0 && std::isfinite(half_width))) {
      throw base::InputError("error", fmt::format("{:g}", half_width), "zero or more");
    }
    inputs[which].standard = numeric::standard_of_limits(half_width);
  };
  set(instrument, limits.instrument);
  set(stem, limits.stem);
  set(temperature, input.thermometer_error.kelvins());
  set(flask_volume, limits.flask);
  set(formula, limits.formula);
  set(residue_mass, input.residue_error.grams_per_litre());
  set(amount, amount_error);
  return inputs;
}

std::vector<GaugingNote> notes_on(const GaugingInput& input, const Gauging& gauging,
                                  bool flat) {
  std::vector<GaugingNote> notes;
  if (may_be_frozen(gauging.apparent, input.at)) notes.push_back(GaugingNote::may_be_frozen);
  if (flat) notes.push_back(GaugingNote::refraction_is_flat);
  if (input.residue > units::MassConcentration{}) notes.push_back(GaugingNote::obscured);
  if (input.at > units::Temperature::celsius(35.0)) {
    notes.push_back(GaugingNote::near_warmest);
  }
  return notes;
}

}  // namespace

Gauging gauge(const GaugingInput& input) {
  if (!(input.at >= coldest && input.at <= warmest)) {
    throw base::InputError("at", fmt::format("{:.2f} °C", input.at.celsius()),
                           "-20 to 40 °C, the range of the density formula (OIML R 22)");
  }
  const std::vector<numeric::MeasuredInput> inputs = uncertain(input);
  const Found found = found_with(input, Changes(input_count, 0.0));
  // Strength, volume and alcohol; the last two zero without an amount.
  const auto results = numeric::propagate(
      [&](const Changes& change) {
        const Found moved = found_with(input, change);
        if (!input.amount) return std::vector<double>{moved.strength.fraction(), 0.0, 0.0};
        return std::vector<double>{moved.strength.fraction(), volume(moved.lot).litres(),
                                   alcohol_of(moved).litres()};
      },
      inputs);

  Gauging gauging;
  gauging.apparent = found.apparent;
  gauging.strength = found.strength;
  gauging.standard = units::VolumeStrength::fraction(results[0].standard);
  const double apparent_kgm3 =
      density(found.apparent, reference_20C).kilograms_per_cubic_metre();
  gauging.ethanol = units::MassFraction::fraction(
      found.strength.fraction() *
      density(units::MassFraction::fraction(1.0), reference_20C).kilograms_per_cubic_metre() /
      apparent_kgm3);
  bool flat = false;
  if (const auto* by = std::get_if<ByRefraction>(&input.observation)) {
    const RefractedStrength both = strengths(by->index, input.at);
    flat = both.flat;
    if (both.strong) gauging.other_side = by->side == Side::weak ? *both.strong : both.weak;
  }
  if (input.amount) {
    GaugedLot lot;
    lot.account = account(found.lot);
    const units::Mass ethanol = ethanol_in(PureAlcohol::litres(alcohol_of(found).litres()));
    lot.account.strength = found.strength;
    lot.account.proof = proof(mass_fraction(found.strength));
    lot.account.alcohol = litres_of_alcohol(ethanol);
    lot.account.proof_gallons = proof_gallons(ethanol);
    lot.volume_standard = units::Volume::litres(results[1].standard);
    lot.alcohol_standard = PureAlcohol::litres(results[2].standard);
    gauging.lot = lot;
  }
  for (std::size_t i = 0; i < input_count; ++i) {
    if (!(inputs[i].standard > 0.0)) continue;
    gauging.contributions.push_back(
        {input_names[i], units::VolumeStrength::fraction(results[0].contributions[i]),
         units::Volume::litres(results[1].contributions[i]),
         PureAlcohol::litres(results[2].contributions[i])});
  }
  gauging.notes = notes_on(input, gauging, flat);
  return gauging;
}

namespace {

constexpr base::Source r44{"OIML R 44 (1985)", base::Standing::from_memory};
constexpr std::array<HydrometerClass, 4> classes{{
    {"class-1", "class I of OIML R 44, division 0.1 %", 0.1, 0.1, r44},
    {"class-2", "class II of OIML R 44, division 0.2 %", 0.1, 0.2, r44},
    {"class-3", "class III of OIML R 44, division 0.5 %", 0.25, 0.5, r44},
    {"house",
     "a glass from 0 to 100 %, division 1 %, uncertified",
     1.0,
     1.0,
     {"a division either way", base::Standing::common_practice}},
}};

}  // namespace

std::span<const HydrometerClass> hydrometer_classes() { return classes; }

const HydrometerClass& hydrometer_class(std::string_view id) {
  std::vector<std::string> known;
  for (const HydrometerClass& each : classes) {
    if (each.id == id) return each;
    known.emplace_back(each.id);
  }
  const std::string nearest = base::nearest_name(id, known);
  throw base::InputError(
      "class", std::string(id),
      fmt::format("{}{}", fmt::join(known, ", "),
                  nearest.empty() ? "" : fmt::format(" (\"{}\" is the nearest)", nearest)));
}

}  // namespace lynearm::spirit
