// Inside a cut: the jars that may go into the hearts as a programme (box_programme.hpp), and
// what its answers mean. Amounts of hearts are shares of these jars' pure alcohol. The limits
// of strength are rows of the programme, exact because masses add.
#pragma once

#include <optional>
#include <vector>

#include "still/allotment.hpp"
#include "still/box_programme.hpp"
#include "still/wishes.hpp"

namespace lynearm::still {

class Shelf {
 public:
  /// jars       sound, with their loads; they and the wishes outlive the shelf
  /// throws     InputError "jars", "jars_at_least", "hearts_at_least", "hearts_at_most", as
  ///            propose() does
  Shelf(const std::vector<Jar>& jars, const Wishes& wishes);

  [[nodiscard]] const Yardstick& yardstick() const { return yardstick_; }
  /// Litres of pure alcohol in the open jars.
  [[nodiscard]] double alcohol_L() const { return alcohol_L_; }
  /// The most of it, as a share, that the limits let into the hearts.
  [[nodiscard]] double most() const;
  /// The least deduction that any mixture has.
  [[nodiscard]] double least_deduction() const;

  /// The shares of the open jars with so much of their alcohol and the least load.
  [[nodiscard]] BoxSolution with(double share) const;
  /// d(deduction times alcohol)/d(alcohol) there: the price of the next drop.
  [[nodiscard]] double price(double share) const;
  /// The same at the fullest hearts, from below: the most that any of it gives.
  [[nodiscard]] double price_at_most() const;
  /// What shares of the open jars make together.
  [[nodiscard]] spirit::Lot hearts(const std::vector<double>& shares) const;
  /// Where every jar goes with so much of the alcohol in the hearts. `exact` keeps drops that
  /// nobody pours, for an amount that was wished.
  [[nodiscard]] Allotment allotment(double share, bool exact) const;

 private:
  using Shares = std::vector<double>;

  void require_any() const;
  void require_strengths() const;
  void lay_out();
  void add_limit(const std::optional<units::VolumeStrength>& limit, double sign);
  [[nodiscard]] const Shares* broken_by(const Shares& shares) const;
  [[nodiscard]] Shares fullest_on(const Shares& row) const;
  [[nodiscard]] Shares level(const Shares& row) const;
  [[nodiscard]] Shares inside(const Shares& row, double alcohol) const;

  const std::vector<Jar>& jars_;
  const Wishes& wishes_;
  std::vector<Use> uses_;
  Yardstick yardstick_;
  std::vector<std::size_t> open_;  // places of the jars that may go into the hearts
  std::vector<spirit::Lot> lots_;  // of these
  double alcohol_L_ = 0.0;         // in these
  BoxProgramme programme_;         // in shares of that alcohol
  std::vector<Shares> limits_;     // above zero within
  Shares fault_;                   // what each jar's faults cost, whole
  Shares fullest_;                 // the shares with the most alcohol
};

}  // namespace lynearm::still
