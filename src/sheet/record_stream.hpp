// The stream of pure alcohol of a batch that has begun: measured as far as the journal goes,
// and from there on by the yields of the plan. Of a stage that is half told (two strips of
// four) the rest is planned.
//
// Measured: the wash by its gravities once it is racked or charged; strips and spirit runs by
// the account; the cut by its lots; after it what became of those lots. What does not add up
// is drawn as unaccounted for, in its stage.
//
// Leaves out: sugar as it was measured in worts, which is no alcohol yet.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "sheet/record_words.hpp"
#include "sheet/stream.hpp"

namespace lynearm::sheet {

/// What a record's stream is drawn from.
struct RecordStream {
  std::vector<Flow> flows;  ///< of the stages in order; what is expected marked as planned
  /// What stands before each stage: how much the plan had, and whether it is measured now.
  std::vector<StageMark> stages;
};

/// throws     nothing of its own: never more leaves a stage than there is
[[nodiscard]] RecordStream record_stream(const Record& record);

/// The same as a picture; nothing where the plan begins with no alcohol.
[[nodiscard]] std::optional<Drawing> record_stream_picture(const Record& record);

}  // namespace lynearm::sheet
