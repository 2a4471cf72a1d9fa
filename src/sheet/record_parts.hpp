// The parts of a batch's record, each made in its own file.
#pragma once

#include "sheet/record_words.hpp"

namespace lynearm::sheet {

// record_stage.cpp: a stage that has not begun, as planned, with its blanks, in a closed batch
// left out; what was noted of it and put in stands in either case, and `more` before that.
[[nodiscard]] Html ahead(const Record& record, std::initializer_list<journal::Stage> stages,
                         Html (*part)(const Batch&), const char* name, const Html& more = {});
// What was told of the kit while the batch was made.
[[nodiscard]] Html record_kit(const Record& record);
// record_front.cpp: what it was and what came of it; the stream of its alcohol.
[[nodiscard]] Html record_front(const Record& record);
[[nodiscard]] Html record_alcohol(const Record& record);
// record_figures.cpp: planned and measured.
[[nodiscard]] Html record_figures(const Record& record);
// record_mash.cpp
[[nodiscard]] Html record_mash(const Record& record);
// record_ferment.cpp
[[nodiscard]] Html record_ferment(const Record& record);
// record_runs.cpp
[[nodiscard]] Html record_strips(const Record& record);
[[nodiscard]] Html record_spirit(const Record& record);
// record_jars.cpp
[[nodiscard]] Html record_jars(const Record& record);
// record_finish.cpp
[[nodiscard]] Html record_finish(const Record& record);
// record_lots.cpp
[[nodiscard]] Html record_lots(const Record& record);
// record_ledger.cpp
[[nodiscard]] Html record_ledger(const Record& record);
// record_doubts.cpp: readings that are kept and not believed.
[[nodiscard]] Html record_doubts(const Record& record);
// record_journal.cpp: steps, what was corrected, what nobody understood.
[[nodiscard]] Html record_steps(const Record& record);
[[nodiscard]] Html record_corrections(const Record& record);

}  // namespace lynearm::sheet
