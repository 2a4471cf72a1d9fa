// What spirit took up of wood, followed through the journal: laid on wood, drawn from, topped
// up, moved to other wood, poured together with other lots. The still leaves it behind in the
// pot; water thins it. What was brought into the house is taken to have none.
#pragma once

#include <map>
#include <string>
#include <vector>

#include "journal/state.hpp"
#include "station/laid_wood.hpp"
#include "station/planned.hpp"
#include "wood/lying.hpp"

namespace lynearm::station {

/// What happened to a lot while it lay on wood, told by its uses.
struct Handling {
  enum class What { drawn, poured, gauged };
  What what = What::drawn;
  journal::Moment moment;
  units::Duration at;       ///< since it was laid
  journal::Id entry;        ///< that tells it
  spirit::Lot before, lot;  ///< booked before; drawn or poured, or as gauged
};
/// In order, until it comes off the wood.
[[nodiscard]] std::vector<Handling> handlings(const journal::LotState& lot);

/// A time on other wood.
struct WoodBefore {
  journal::OnWood on;
  units::Duration days;
  units::Share extract;  ///< with which it came off
};
struct TakenUp {
  units::Share extract;
  std::vector<WoodBefore> before;
  std::string unknown;  ///< why some of it is not counted; empty when all is
};

/// One asking, of one state of the house.
class Trace {
 public:
  /// made       the plan of `batch`: its kit's casks and staves, and what its lots leave untold
  Trace(const PlanMade& made, const journal::HouseState& house, journal::Id batch);

  /// What a lot had taken up when it was made: by its parts.
  [[nodiscard]] TakenUp when_made(const journal::LotState& lot);
  /// A lot on wood, to `until`. The woods and the rest are of its own.
  /// throws     InputError where its wood is not known
  [[nodiscard]] const wood::Lying& lying(const journal::LotState& lot, journal::Moment until);

  /// Why some of what was poured to it since is not counted, once lying() has told of it.
  [[nodiscard]] std::string poured_untold(const journal::LotState& lot) const;
  /// What of its own wood was not told, as wood_untold() says it; empty where all was.
  [[nodiscard]] std::string own_untold(const journal::LotState& lot) const;

  [[nodiscard]] LaidWood wood_of(const journal::LotState& lot) const;
  [[nodiscard]] units::Temperature resting() const;

 private:
  struct Lies {
    wood::Lying lying;
    std::vector<Handling> handlings;
    std::size_t next = 0;
    std::string poured_untold{};  ///< why some of what was poured to it is not counted
    std::optional<base::InputError> fault{};  ///< it cannot be reckoned beyond `next`
  };
  /// Of the recipe, for a lot that its plan laid; else null.
  [[nodiscard]] const plan::WoodStep* step_of(const journal::LotState& lot) const;
  TakenUp by_parts(const journal::LotState& lot);
  TakenUp at(const journal::LotState& lot, journal::Moment moment);
  TakenUp poured(const journal::LotState& into, const Handling& handling);

  const PlanMade& made_;
  journal::Id batch_;
  const journal::HouseState& house_;
  std::map<journal::LotName, TakenUp> made_of_;
  std::map<journal::LotName, Lies> lies_;
  int deep_ = 0;
};

/// How long the part of a lot that lay on wood the least did so before it was made.
[[nodiscard]] units::Duration on_wood_before(const journal::HouseState& house,
                                             const journal::LotState& lot);

}  // namespace lynearm::station
