#include "spirit/vessel.hpp"

#include <fmt/format.h>

#include <array>
#include <limits>
#include <string>
#include <vector>

#include "base/error.hpp"
#include "spirit/hydrometer.hpp"

namespace lynearm::spirit {
namespace {

using base::Source;
using base::Standing;

constexpr Source iso_4787{"ISO 4787, volumetric glassware, cubic expansion of glasses",
                          Standing::from_memory};
constexpr Source api_12_2{"API MPMS 12.2, cubic expansion of prover steels",
                          Standing::from_memory};

// clang-format off
constexpr std::array<Material, 9> material_rows{{
    {"borosilicate-3.3", "borosilicate glass 3.3", 
     {borosilicate_expansion_per_K, 9.6e-6, 10.2e-6, iso_4787}},
    {"soda-lime", "soda-lime glass", {27e-6, 25e-6, 30e-6, iso_4787}},
    {"hydrometer-glass", "soda-lime glass of hydrometers",
     {soda_lime_expansion_per_K, 23e-6, 27e-6, {"OIML R 44 (1985)", Standing::published}}},
    // Three times the usual linear figure of 17.3e-6 (0 to 100 °C) is 51.9e-6.
    {"stainless-304", "stainless steel 304", {51.8e-6, 48e-6, 53e-6, api_12_2}},
    {"mild-steel", "mild steel", {33.5e-6, 33e-6, 36e-6, api_12_2}},
    {"copper", "copper",
     {49.5e-6, 49e-6, 51e-6, {"handbooks: linear 16.5e-6 at 20 °C", Standing::from_memory}}},
    {"polypropylene", "polypropylene",
     {3.6e-4, 3.0e-4, 4.8e-4,
      {"makers' sheets: linear 1.0e-4 to 1.6e-4", Standing::from_memory}}},
    {"hdpe", "high-density polyethylene",
     {4.5e-4, 3.6e-4, 6.0e-4,
      {"makers' sheets: linear 1.2e-4 to 2.0e-4", Standing::from_memory}}},
    // Staves swell across the grain by moisture a hundred times more than by warmth, and hoops of
    // steel hold them: the figure is small and the class error of a cask covers it.
    {"oak-cask", "oak cask",
     {3.0e-5, 0.0, 8.0e-5,
      {"linear 30e-6 to 50e-6 across the grain, 5e-6 along it, held by hoops",
       Standing::our_estimate}}},
}};

constexpr Source iso_1042{"ISO 1042, one-mark volumetric flasks, maximum permissible error",
                          Standing::from_memory};
constexpr Source iso_4788{"ISO 4788, graduated measuring cylinders, maximum permissible error",
                          Standing::from_memory};
constexpr Source dipped{"a straight drum dipped to 5 mm in 800 mm", Standing::our_estimate};
constexpr Source gauged{"a cask gauged by rod or taken by its nominal size; staves soaked or dry",
                        Standing::our_estimate};

constexpr VolumeMeasure glass(std::string_view id, std::string_view name, double capacity_mL,
                        double error_mL, Source source) {
  return {id, name, "borosilicate-3.3", units::Volume::millilitres(capacity_mL),
          units::Volume::millilitres(error_mL), {}, source};
}

constexpr std::array<VolumeMeasure, 28> measure_rows{{
    glass("flask-a-10", "volumetric flask 10 mL, class A", 10, 0.025, iso_1042),
    glass("flask-a-25", "volumetric flask 25 mL, class A", 25, 0.04, iso_1042),
    glass("flask-a-50", "volumetric flask 50 mL, class A", 50, 0.06, iso_1042),
    glass("flask-a-100", "volumetric flask 100 mL, class A", 100, 0.10, iso_1042),
    glass("flask-a-250", "volumetric flask 250 mL, class A", 250, 0.15, iso_1042),
    glass("flask-a-500", "volumetric flask 500 mL, class A", 500, 0.25, iso_1042),
    glass("flask-a-1000", "volumetric flask 1000 mL, class A", 1000, 0.40, iso_1042),
    glass("flask-a-2000", "volumetric flask 2000 mL, class A", 2000, 0.60, iso_1042),
    glass("flask-b-10", "volumetric flask 10 mL, class B", 10, 0.05, iso_1042),
    glass("flask-b-25", "volumetric flask 25 mL, class B", 25, 0.08, iso_1042),
    glass("flask-b-50", "volumetric flask 50 mL, class B", 50, 0.12, iso_1042),
    glass("flask-b-100", "volumetric flask 100 mL, class B", 100, 0.20, iso_1042),
    glass("flask-b-250", "volumetric flask 250 mL, class B", 250, 0.30, iso_1042),
    glass("flask-b-500", "volumetric flask 500 mL, class B", 500, 0.50, iso_1042),
    glass("flask-b-1000", "volumetric flask 1000 mL, class B", 1000, 0.80, iso_1042),
    glass("flask-b-2000", "volumetric flask 2000 mL, class B", 2000, 1.20, iso_1042),
    glass("cylinder-a-100", "measuring cylinder 100 mL, class A", 100, 0.5, iso_4788),
    glass("cylinder-a-250", "measuring cylinder 250 mL, class A", 250, 1.0, iso_4788),
    glass("cylinder-a-500", "measuring cylinder 500 mL, class A", 500, 2.5, iso_4788),
    glass("cylinder-a-1000", "measuring cylinder 1000 mL, class A", 1000, 5.0, iso_4788),
    glass("cylinder-a-2000", "measuring cylinder 2000 mL, class A", 2000, 10.0, iso_4788),
    glass("cylinder-b-100", "measuring cylinder 100 mL, class B", 100, 1.0, iso_4788),
    glass("cylinder-b-250", "measuring cylinder 250 mL, class B", 250, 2.0, iso_4788),
    glass("cylinder-b-500", "measuring cylinder 500 mL, class B", 500, 5.0, iso_4788),
    glass("cylinder-b-1000", "measuring cylinder 1000 mL, class B", 1000, 10.0, iso_4788),
    glass("cylinder-b-2000", "measuring cylinder 2000 mL, class B", 2000, 20.0, iso_4788),
    {"drum-dipped", "steel drum by dipstick", "mild-steel", {}, {}, units::Share::percent(1.0),
     dipped},
    {"cask", "cask by gauging rod or nominal size", "oak-cask", {}, {},
     units::Share::percent(2.0), gauged},
}};
// clang-format on

template <class Row>
const Row& row_of(std::span<const Row> rows, std::string_view id, const char* field) {
  std::vector<std::string> ids;
  for (const Row& row : rows) {
    if (row.id == id) return row;
    ids.emplace_back(row.id);
  }
  const std::string near = base::nearest_name(id, ids);
  throw base::InputError(field, std::string(id),
                         near.empty() ? fmt::format("one of {}", fmt::join(ids, ", "))
                                      : fmt::format("one such as \"{}\"", near));
}

void check_volume(units::Volume volume) {
  if (!(volume.litres() >= 0.0 && volume.litres() < std::numeric_limits<double>::infinity())) {
    throw base::InputError("volume", fmt::format("{:.4f} L", volume.litres()), "zero or more");
  }
}

void check_temperature(units::Temperature t, const char* field) {
  if (!(t >= coldest && t <= warmest)) {
    throw base::InputError(field, fmt::format("{:.2f} °C", t.celsius()), "-20 to 40 °C");
  }
}

// True over marked volume.
double growth(units::Temperature t, const Vessel& vessel) {
  check_temperature(t, "temperature");
  check_temperature(vessel.marked_at, "vessel.marked_at");
  if (!(vessel.expansion_per_K >= 0.0 && vessel.expansion_per_K <= 1e-3)) {
    throw base::InputError("vessel.expansion",
                           fmt::format("{:.3g} per kelvin", vessel.expansion_per_K),
                           "0 to 0.001 per kelvin (cubic: three times the linear)");
  }
  return 1.0 + vessel.expansion_per_K * (t - vessel.marked_at).kelvins();
}

}  // namespace

std::span<const Material> materials() { return material_rows; }

const Material& material(std::string_view id) { return row_of(materials(), id, "material"); }

Vessel vessel_of(const Material& material, units::Temperature marked_at) {
  return {material.expansion_per_K.value, marked_at};
}

units::Volume true_volume(units::Volume marked, units::Temperature t, const Vessel& vessel) {
  check_volume(marked);
  return marked * growth(t, vessel);
}

units::Volume marked_volume(units::Volume truth, units::Temperature t, const Vessel& vessel) {
  check_volume(truth);
  return truth / growth(t, vessel);
}

Lot lot_at_mark(units::Volume marked, units::MassFraction ethanol, units::Temperature t,
                const Vessel& vessel) {
  const units::Mass mass =
      units::Mass::kilograms(density(ethanol, t).kilograms_per_cubic_metre() *
                             true_volume(marked, t, vessel).cubic_metres());
  return {mass * ethanol.fraction(), mass * (1.0 - ethanol.fraction())};
}

units::Volume mark_of(const Lot& lot, units::Temperature t, const Vessel& vessel) {
  return marked_volume(volume(lot, t), t, vessel);
}

double volume_correction(units::MassFraction ethanol, units::Temperature from,
                         units::Temperature to, const Vessel& vessel) {
  return growth(from, vessel) * (density(ethanol, from) / density(ethanol, to));
}

std::span<const VolumeMeasure> volume_measures() { return measure_rows; }

const VolumeMeasure& volume_measure(std::string_view id) {
  return row_of(volume_measures(), id, "measure");
}

units::Volume most_error(const VolumeMeasure& measure, units::Volume read) {
  check_volume(read);
  return measure.absolute_error + read * measure.relative_error.fraction();
}

}  // namespace lynearm::spirit
