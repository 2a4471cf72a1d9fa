// A program of your own on Lynearm's alcoholometry: a jar is read warm, its true strength and
// pure alcohol are told with their uncertainty, and the water that brings it to 55 %vol.
//
// In your CMake: add_subdirectory(lynearm), then target_link_libraries(yours lynearm::spirit).
// Every quantity carries its kind; every refusal is a base::InputError that names the field.
#include <cstdio>

#include "base/error.hpp"
#include "numeric/uncertainty.hpp"
#include "spirit/gauging.hpp"
#include "spirit/reduction.hpp"
#include "units/quantity.hpp"

int main() {
  using namespace lynearm;
  using units::Temperature;
  using units::Volume;
  using units::VolumeStrength;

  spirit::GaugingInput jar;
  spirit::ByHydrometer glass{spirit::Reading{62.4, spirit::Scale::percent_vol}};
  glass.most_error = spirit::hydrometer_class("class-2").most_error_percent;
  glass.read_to = spirit::hydrometer_class("class-2").division_percent;
  jar.observation = glass;
  jar.at = Temperature::celsius(27.5);
  jar.thermometer_error = units::TemperatureChange::kelvins(0.2);
  jar.amount = spirit::VolumeRead{Volume::litres(4.2), {}, Volume::millilitres(20.0)};

  try {
    const spirit::Gauging found = spirit::gauge(jar);
    std::printf("true strength %.2f ± %.2f %%vol\n", found.strength.percent(),
                numeric::coverage_factor * found.standard.percent());
    std::printf("pure alcohol  %.3f ± %.3f L at 20 °C\n", found.lot->account.alcohol.litres(),
                numeric::coverage_factor * found.lot->alcohol_standard.litres());

    const spirit::Lot lot = spirit::lot(found.lot->account.volume_20C, found.strength);
    const spirit::Reduction down = spirit::reduce(lot, VolumeStrength::percent(55.0));
    std::printf("water to 55 %%  %.3f kg, then %.3f L\n", down.water.kilograms(),
                down.volume_at_20C.litres());
  } catch (const base::InputError& refused) {
    for (const base::Fault& fault : refused.faults()) {
      std::fprintf(stderr, "%s\n", base::sentence(fault).c_str());
    }
    return 2;
  }
  return 0;
}
