// What a maker waits for in a followed run: borders that the run comes to one after the other.
// Leaves out whether a still can come to them; Follower looks at that.
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "still/cuts.hpp"

namespace lynearm::still {

/// Strengths and temperatures are true ones, of what runs then.
struct CutRules {
  std::optional<Border> foreshots_end{};  ///< told; of it no order is asked
  std::optional<Border> heads_end;        ///< hearts begin
  std::optional<units::Temperature> tails_near =
      units::Temperature::celsius(90.0);  ///< of the head: time to smell each jar
  std::optional<Border> hearts_end;
  std::optional<Border> stop;
};

/// The first comes of itself. The last is nobody's wish: liquid left in the pot falls to what
/// must stay there.
enum class Decision {
  first_drops,
  foreshots_end,
  heads_end,
  tails_near,
  hearts_end,
  stop,
  pot_low
};
/// "hearts end", and for JSON "hearts_end".
[[nodiscard]] std::string_view words(Decision decision);
[[nodiscard]] std::string_view key(Decision decision);

/// "400 mL" as "0.400 L", "60.0 %vol", "92.0 °C".
[[nodiscard]] std::string print(const Border& border);

/// Two borders of which the earlier one is named first, and the fields that hold them.
struct BorderPair {
  std::string_view earlier_field, later_field;  ///< "rules.heads_end"
  std::string_view earlier_name;                ///< "the end of the heads"
  Border earlier, later;
  bool may_meet = false;  ///< a run may stop where its hearts end
  [[nodiscard]] bool of_one_kind() const { return earlier.index() == later.index(); }
};
[[nodiscard]] std::vector<BorderPair> border_pairs(const CutRules& rules);

/// What is said of a pair out of order, under the field of the later.
[[nodiscard]] base::Fault fault_of(const BorderPair& pair);

/// Borders of one kind that contradict each other, all together: hearts that end before they
/// begin, a stop before that. Fields "rules.hearts_end", "rules.stop".
[[nodiscard]] std::vector<base::Fault> faults_of(const CutRules& rules);

}  // namespace lynearm::still
