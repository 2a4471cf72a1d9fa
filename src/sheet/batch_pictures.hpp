// The pictures of a plan, for the batch sheet and for every other surface that shows one.
// `both` systems draw in metric.
#pragma once

#include "plan/ledger.hpp"
#include "plan/mash_stage.hpp"
#include "plan/plan.hpp"
#include "sheet/letter.hpp"
#include "units/print.hpp"

namespace lynearm::sheet {

/// Temperature over the hours of the mash, its phases as ranges.
/// mash     with a course of at least two points
[[nodiscard]] Drawing mash_picture(const plan::MashPlan& mash, units::System system);

/// Gravity and temperature over the days of the ferment.
[[nodiscard]] Drawing ferment_picture(const plan::FermentPlan& ferment, units::System system);

/// Strength at the spout and temperatures against what has been collected in one strip.
[[nodiscard]] Drawing strip_picture(const plan::StripPlan& strip, units::System system);

/// The same for one spirit run, with its cuts as ranges and their borders.
[[nodiscard]] Drawing spirit_picture(const plan::SpiritPlan& spirit, units::System system);

/// Where the pure alcohol goes, from the bill to the bottle.
/// ledger   closed, its first entry an inflow
[[nodiscard]] Drawing stream_picture(const plan::Ledger& ledger, units::System system);

}  // namespace lynearm::sheet
