// What the stream of a record takes from the lots: what a cut made, what became of the low
// wines, and after the cut what left the lots beside and what still stands where. In litres of
// pure alcohol.
#pragma once

#include <string>
#include <vector>

#include "sheet/record_words.hpp"
#include "sheet/stream.hpp"

namespace lynearm::sheet {

/// What the cuts of the batch made.
struct CutLots {
  double hearts = 0.0, feints = 0.0, apart = 0.0, foreshots = 0.0;
  bool some_uncut = false;  ///< a spirit run is ended, and its jars are not allotted

  [[nodiscard]] double all() const { return hearts + feints + apart + foreshots; }
};
[[nodiscard]] CutLots cut_lots(const Record& record);

/// Of the low wines that the batch made.
struct LowWines {
  double charged = 0.0;  ///< into spirit runs of the batch of which the account tells
  double running = 0.0;  ///< into those of which it does not tell yet
  double left = 0.0;
};
[[nodiscard]] LowWines low_wines(const Record& record);

/// Hearts, spirit and bottles of the batch.
struct LotsFlow {
  /// What left them for good, or came in from other lots; without a name: what gauging missed.
  struct Exit {
    std::string stage, name;
    double litres = 0.0;
    Course course = Course::lost;
  };
  std::vector<Exit> exits;
  double hearts_made = 0.0;
  double hearts = 0.0, reduced = 0.0, on_wood = 0.0, off_wood = 0.0;  ///< what stands
  double laid_on_wood = 0.0;  ///< of what lies there now, with what topped it up
  double bottled = 0.0;
};
[[nodiscard]] LotsFlow lots_flow(const Record& record);

}  // namespace lynearm::sheet
