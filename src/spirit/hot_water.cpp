#include "spirit/hot_water.hpp"

#include <fmt/format.h>

#include "base/error.hpp"

namespace lynearm::spirit {

units::Density hot_water_density(units::Temperature t) {
  const double t_C = t.celsius();
  // With room for the rounding of a converted bound.
  if (!(t_C >= -1e-9 && t_C <= 150.0 + 1e-9)) {
    throw base::InputError("temperature", fmt::format("{:.2f} °C", t_C), "0 to 150 °C");
  }
  const double above =
      999.83952 +
      t_C * (16.945176 +
             t_C * (-7.9870401e-3 +
                    t_C * (-46.170461e-6 + t_C * (105.56302e-9 + t_C * -280.54253e-12))));
  return units::Density::kilograms_per_cubic_metre(above / (1.0 + 16.879850e-3 * t_C));
}

}  // namespace lynearm::spirit
