#include "wood/sampling.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "base/error.hpp"

namespace lynearm::wood {

using units::Duration;
using units::Volume;

std::vector<Duration> sampling_days(Duration whole, int count) {
  if (!(whole.days() >= 7.0 && whole.years() <= 50.0))
    throw base::InputError("whole", fmt::format("{:.1f} days", whole.days()),
                           "7 days to 50 years");
  if (count < 2 || count > 50)
    throw base::InputError("count", fmt::format("{}", count), "2 to 50 samples");
  std::vector<Duration> days;
  double last = 0.0;
  for (int k = 1; k <= count; ++k) {
    const double share = static_cast<double>(k) / count;
    const double day = std::round(whole.days() * share * share);
    if (day <= last) continue;
    days.push_back(Duration::days(day));
    last = day;
  }
  return days;
}

Volume fill_volume(Volume vessel, units::Share ullage) {
  if (!(ullage.fraction() >= 0.01 && ullage.fraction() <= 0.2))
    throw base::InputError("ullage", fmt::format("{} %", ullage.percent()), "1 to 20 %");
  if (!(vessel.litres() > 0.0 && std::isfinite(vessel.litres())))
    throw base::InputError("vessel", fmt::format("{} L", vessel.litres()), "above zero");
  return vessel * (1.0 - ullage.fraction());
}

Volume soak_in(units::Area new_wood) {
  if (!(new_wood.square_metres() >= 0.0 && std::isfinite(new_wood.square_metres())))
    throw base::InputError("new_wood", fmt::format("{} m²", new_wood.square_metres()),
                           "zero or more");
  return Volume::litres(soak_L_per_m2 * new_wood.square_metres());
}

Volume soak_in(const Stave& stave, double count) {
  if (!(count >= 0.0 && std::isfinite(count)))
    throw base::InputError("staves", fmt::format("{}", count), "zero or more");
  return std::min(soak_in(area(stave)), wood_volume(stave) * stave_pores.fraction()) * count;
}

}  // namespace lynearm::wood
