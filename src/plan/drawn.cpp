#include "plan/drawn.hpp"

#include <algorithm>

#include "numeric/normal.hpp"

namespace lynearm::plan {
namespace {

// How far from their medians the constants lie, in half widths. For the plan itself: nowhere.
class Off {
 public:
  explicit Off(numeric::Draw* stream) : stream_(stream) {}
  double operator()() {
    return stream_ == nullptr ? 0.0 : stream_->normal() / numeric::half_of_80;
  }

 private:
  numeric::Draw* stream_;
};

units::Share within(const units::Spread<units::Share>& spread, double off, double least,
                    double most) {
  return units::Share::fraction(std::clamp(
      spread.median.fraction() + off * spread.half_width_80.fraction(), least, most));
}

Drawn drawn(const Kit& kit, numeric::Draw* stream) {
  Off off(stream);
  const Constants& c = kit.constants;
  Drawn d;
  d.conversion = within(c.conversion, off(), 0.0, 1.0);
  d.drained_moisture = within(c.drained_moisture, off(), 0.35, 0.9);
  d.squeezed_moisture = within(c.squeezed_moisture, off(), 0.35, 0.9);
  // Squeezing never leaves the grain wetter than draining did.
  d.squeezed_moisture = std::min(d.squeezed_moisture, d.drained_moisture);
  d.sparge_mixing = within(c.sparge_mixing, off(), 0.05, 1.0);
  d.fermentable_factor = within(c.fermentable_factor, off(), 0.5, 1.2);
  d.alcohol_yield = within(c.alcohol_yield, off(), 0.5, 1.0);
  d.ferment_vigour = within(c.ferment_vigour, off(), 0.2, 4.0);
  d.lees = within(c.lees, off(), 0.0, 0.3);
  d.still_loss = within(c.still_loss, off(), 0.0, 0.2);
  d.transfer_loss = within(c.transfer_loss, off(), 0.0, 0.1);
  d.heat_loss_factor = within(c.heat_loss_factor, off(), 0.2, 3.0);
  d.evaporation_factor = within(c.evaporation_factor, off(), 0.1, 4.0);
  d.head_reflux_strip = within(kit.still.head_reflux_strip, off(), 0.0, 0.6);
  d.head_reflux_spirit = within(kit.still.head_reflux_spirit, off(), 0.0, 0.6);
  d.thermometer_error = kit.instruments.thermometer * off();
  d.alcoholmeter_error = kit.instruments.alcoholmeter * off();
  d.extract_place = std::clamp(off(), -1.0, 1.0);
  // Drawn last, and whether it is used or not: so both kinds of head draw the rest alike.
  const double head_off = off();
  if (kit.still.head_loss) {
    const units::HeatLoss median = kit.still.head_loss->median;
    d.head_loss = std::clamp(median + kit.still.head_loss->half_width_80 * head_off,
                             median * 0.1, median * 3.0);
  }
  return d;
}

}  // namespace

Drawn medians(const Kit& kit) { return drawn(kit, nullptr); }

Drawn draw(const Kit& kit, numeric::Draw& stream) { return drawn(kit, &stream); }

}  // namespace lynearm::plan
