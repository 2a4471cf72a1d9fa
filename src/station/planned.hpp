// Plans by the texts they are made of. A page that is typed into asks for many; those that were
// made lately are kept, so that three pages of one batch cost one plan.
#pragma once

#include <list>
#include <memory>
#include <mutex>
#include <optional>
#include <string>

#include "numeric/ensemble.hpp"
#include "plan/figures.hpp"
#include "plan/plan.hpp"
#include "recipe/read_pair.hpp"

namespace lynearm::station {

struct PlanMade {
  recipe::Pair pair;
  plan::Plan plan;
  std::optional<plan::Bands> bands;
};

/// Both texts of a page, read.
/// throws     InputError with every fault, fields of the kit under "kit."
[[nodiscard]] recipe::Pair read_texts(const std::string& recipe, const std::string& kit);

class Planned {
 public:
  explicit Planned(numeric::Executor executor) : executor_(std::move(executor)) {}

  /// members    0: no bands
  /// throws     InputError with the faults of the texts (fields of the kit under "kit."), or as
  ///            plan::make does, each with its place in its text
  [[nodiscard]] std::shared_ptr<const PlanMade> of(const std::string& recipe,
                                                   const std::string& kit, int members);

  /// The plan of these texts when it is kept, with bands or without; else null.
  [[nodiscard]] std::shared_ptr<const PlanMade> ready(const std::string& recipe,
                                                      const std::string& kit) const;

 private:
  struct Kept {
    std::string recipe, kit;
    int members = 0;
    std::shared_ptr<const PlanMade> made;
  };
  static constexpr std::size_t most_kept = 16;

  numeric::Executor executor_;
  mutable std::mutex mutex_;
  std::list<Kept> kept_;  ///< the last asked for first
};

}  // namespace lynearm::station
