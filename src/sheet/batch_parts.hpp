// The parts of a batch sheet, each made in its own file.
#pragma once

#include "sheet/batch_words.hpp"

namespace lynearm::sheet {

// batch_front.cpp: the first page.
[[nodiscard]] Html batch_at_a_glance(const Batch& batch);
// batch_bill.cpp, batch_mash.cpp, batch_wort.cpp
[[nodiscard]] Html bill_part(const Batch& batch);
[[nodiscard]] Html enzymes(const Batch& batch);
[[nodiscard]] Html mash_part(const Batch& batch);
[[nodiscard]] Html wort_part(const Batch& batch);
// batch_ferment.cpp
[[nodiscard]] Html ferment_part(const Batch& batch);
// batch_strip.cpp, batch_spirit.cpp, batch_jars.cpp
[[nodiscard]] Html strip_part(const Batch& batch);
[[nodiscard]] Html spirit_part(const Batch& batch);
[[nodiscard]] Html jars_part(const Batch& batch);
// batch_finish.cpp
[[nodiscard]] Html reduce_part(const Batch& batch);
[[nodiscard]] Html wood_part(const Batch& batch);
[[nodiscard]] Html bottle_part(const Batch& batch);
// batch_classes.cpp
[[nodiscard]] Html classes_part(const Batch& batch);
// batch_ledger.cpp, batch_days.cpp
[[nodiscard]] Html ledger_part(const Batch& batch);
[[nodiscard]] Html uses_part(const Batch& batch);
[[nodiscard]] Html days_part(const Batch& batch);

}  // namespace lynearm::sheet
