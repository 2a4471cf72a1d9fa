// The planned curves of a batch with what was read drawn on them as signs.
#pragma once

#include <optional>
#include <vector>

#include "journal/state.hpp"
#include "sheet/batch_pictures.hpp"
#include "sheet/chart.hpp"

namespace lynearm::sheet {

/// Temperatures of the mash on the planned course.
/// nought     when the planned course begins, by the calendar
[[nodiscard]] Drawing mash_record(const plan::MashPlan& mash, const journal::MashState& read,
                                  journal::Moment nought, units::System system);

/// Gravities (rings) and temperatures (crosses) on the planned ferment, from the pitch on.
[[nodiscard]] Drawing ferment_record(const plan::FermentPlan& ferment,
                                     const journal::FermentState& read, units::System system);

/// True strengths at the spout on a planned run, against what had come; the runs' signs in the
/// order of `sign_words`, the head's temperature too when there is one run.
/// Of very many readings those that stand in the table too (record_thin.hpp).
/// cuts       of the plan, shaded; may be null
[[nodiscard]] Drawing run_record(const plan::RunPlan& planned,
                                 const std::vector<const journal::RunState*>& runs,
                                 const plan::SpiritPlan* cuts, units::System system);

/// "rings", "crosses", "squares", "triangles": four runs have a sign of their own.
[[nodiscard]] const char* sign_words(std::size_t run);

/// What had come at each reading of a run: as read, else between its neighbours in time.
[[nodiscard]] std::vector<std::optional<units::Volume>> collected_over(
    const journal::RunState& run);

}  // namespace lynearm::sheet
