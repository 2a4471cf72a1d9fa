// The parts of a batch's record, each made in its own file.
#pragma once

#include "sheet/record_words.hpp"

namespace lynearm::sheet {

// record_front.cpp: one page, what it was and what came of it.
[[nodiscard]] Html record_front(const Record& record);
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
// record_ledger.cpp
[[nodiscard]] Html record_lots(const Record& record);
[[nodiscard]] Html record_ledger(const Record& record);
// record_journal.cpp: steps, what was corrected, what nobody understood.
[[nodiscard]] Html record_steps(const Record& record);
[[nodiscard]] Html record_corrections(const Record& record);

}  // namespace lynearm::sheet
