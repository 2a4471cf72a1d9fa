#include "spirit/scale_in_name.hpp"

#include <algorithm>
#include <array>

#include "units/unit_in_name.hpp"

namespace lynearm::spirit {
namespace {

constexpr std::array<ScaleInName, 13> all{{
    {"percent_vol", Scale::percent_vol},
    {"percent_vol_20C", Scale::percent_vol},
    {"percent_vol_15C", Scale::percent_vol_15C},
    {"percent_vol_60F", Scale::percent_vol_60F},
    {"percent_mass", Scale::percent_mass},
    {"proof", Scale::us_proof},
    {"us_proof", Scale::us_proof},
    {"density_kg_m3", Scale::density},
    {"density_g_mL", Scale::density, 1000.0},
    {"specific_gravity", Scale::specific_gravity},
    {"specific_gravity_20C_20C", Scale::specific_gravity},
    {"specific_gravity_60F", Scale::specific_gravity_60F},
    {"specific_gravity_60F_60F", Scale::specific_gravity_60F},
}};

}  // namespace

const ScaleInName* scale_in_name(std::string_view word) {
  const auto* const found = std::find_if(all.begin(), all.end(), [&](const ScaleInName& s) {
    return units::same_word(s.word, word);
  });
  return found == all.end() ? nullptr : found;
}

bool is_of_strength(Scale scale) {
  return scale != Scale::density && scale != Scale::specific_gravity &&
         scale != Scale::specific_gravity_60F;
}

}  // namespace lynearm::spirit
