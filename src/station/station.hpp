// One station of the house at work: takes entries into the journal, holds the state that they
// fold to, keeps plans and followed runs warm. Everything it holds besides the journal can be
// computed again from it, and is, when it starts.
#pragma once

#include <atomic>
#include <chrono>
#include <cstdint>
#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "journal/fold.hpp"
#include "journal/glass.hpp"
#include "journal/questions.hpp"
#include "numeric/ensemble.hpp"
#include "sheet/record_sheet.hpp"
#include "station/fermenting.hpp"
#include "station/followed.hpp"
#include "station/next_step.hpp"
#include "station/planned.hpp"
#include "store/house.hpp"
#include "wire/house.hpp"

namespace lynearm::station {

/// The house as of a place in its journal.
struct Seen {
  store::Sequence sequence = 0;
  journal::HouseState house;
};

class Station {
 public:
  /// house      lives longer than the station
  /// executor   for plans' bands and for followed runs
  /// now        the house's clock
  /// members    of each run's follower, 100 to 20,000: fewer are quicker and tell less
  Station(store::House& house, const numeric::Executor& executor,
          std::function<journal::Moment()> now, std::size_t members = Followed::usual_members);

  [[nodiscard]] journal::Moment now() const { return now_(); }
  [[nodiscard]] store::House& house() { return house_; }

  /// Durable when it returns. Throws as store::Journal::keep does.
  std::vector<store::Kept> keep(std::span<const journal::Entry> entries);
  /// The same for entries of a journal kept elsewhere, which bring their own times of receipt.
  std::vector<store::Kept> take_in(std::span<const journal::Entry> entries);

  /// The state with everything in it that was kept before the call.
  [[nodiscard]] std::shared_ptr<const Seen> seen();

  /// Notes how long a page's question for the state took.
  void was_read(std::chrono::microseconds took);
  /// How long such a question takes, of late: news wait for that.
  [[nodiscard]] std::chrono::microseconds reading_time() const {
    return std::chrono::microseconds(reading_us_.load());
  }

  /// throws     InputError with the faults of the texts, or as plan::make does
  [[nodiscard]] std::shared_ptr<const PlanMade> plan(const std::string& recipe,
                                                     const std::string& kit, int members);

  /// The yardsticks of the house's kit; the usual ones where none is stated, or none that
  /// reads.
  [[nodiscard]] plan::Instruments instruments();

  /// What strengths of a batch are taken as read on: the glass of the kit it was planned with,
  /// else of the house's; none known where neither is stated, or none that reads.
  [[nodiscard]] journal::Glass glass(const journal::HouseState& house,
                                     const std::optional<journal::Id>& batch);

  /// A run followed to the newest reading, with what speaks against its charge.
  /// throws     InputError when the batch has no kit or the run's charge is not known
  [[nodiscard]] wire::RunForecast forecast(const journal::BatchState& batch,
                                           const journal::RunState& run);

  /// What plan and kit alone tell of a batch: what speaks against the charges and the heat of
  /// its runs, what is asked of its mash and pitch, the gas of its ferment as pitched; nothing
  /// where it has no plan, or none that reads.
  [[nodiscard]] wire::ByKit by_kit(const journal::BatchState& batch);
  /// What is asked so of every batch whose plan is computed already. Quick.
  [[nodiscard]] journal::Questions asked_by_kit(const journal::HouseState& house) const;

  /// A ferment followed to the newest reading.
  /// throws     InputError when the batch has no plan or was not pitched
  [[nodiscard]] std::shared_ptr<const wire::FermentForecast> ferment(
      const journal::BatchState& batch);

  /// What those who follow its runs and its ferment make of a batch's readings: which are not
  /// believed, and what cannot be followed. A run that no page follows is followed for this
  /// alone, a second or two, and not kept.
  [[nodiscard]] sheet::Followed readings_followed(const journal::BatchState& batch);

  /// What each batch needs next; times as far as plan and forecast are computed already. Quick.
  [[nodiscard]] std::map<journal::Id, wire::NextStep> next_steps(
      const journal::HouseState& house) const;
  [[nodiscard]] wire::NextStep next(const journal::HouseState& house,
                                    const journal::BatchState& batch) const;

  /// Computes what the pages will ask for next and what is not there yet: the plans and
  /// ferments of batches in hand, the first forecast of each run that is on.
  ///
  /// executor   what it throws comes through, and nothing half made is kept
  /// returns    whether anything was made
  bool warm(const numeric::Executor& executor);

 private:
  [[nodiscard]] std::optional<plan::Instruments> instruments_of(const std::string& kit);
  [[nodiscard]] wire::RunForecast forecast_by(Followed& by, const journal::BatchState& batch,
                                              const journal::RunState& run);
  /// What speaks against the charge of a run, and its heat: more than the plan's boiler takes
  /// or gives, what is asked about its beginning, and a wash reckoned by a gravity that is not
  /// believed.
  [[nodiscard]] std::vector<std::string> against_charge(const journal::HouseState& house,
                                                        const journal::BatchState& batch,
                                                        const journal::RunState& run,
                                                        const PlanMade& made);
  /// The run's still under the air of its day.
  [[nodiscard]] wire::RunForecast followed(Followed& by, const journal::HouseState& house,
                                           const journal::BatchState& batch,
                                           const journal::RunState& run, const PlanMade& made,
                                           const numeric::Executor* executor);

  store::House& house_;
  numeric::Executor executor_;
  std::function<journal::Moment()> now_;
  std::size_t members_;
  std::mutex folding_;
  std::vector<journal::Entry> entries_;
  store::Sequence read_to_ = 0;  ///< the last of the entries
  std::shared_ptr<const Seen> seen_;
  std::atomic<std::int64_t> reading_us_{0};
  std::mutex kit_;
  /// Of each kit's text that was asked for; none where it does not read.
  std::map<std::string, std::optional<plan::Instruments>, std::less<>> instruments_;
  Planned planned_;
  Followed followed_;
  Fermenting fermenting_;
};

}  // namespace lynearm::station
