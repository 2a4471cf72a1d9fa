#include "journal/questions.hpp"

#include <algorithm>
#include <cmath>
#include <utility>

#include "journal/asking.hpp"
#include "journal/says_the_same.hpp"

namespace lynearm::journal {

Amount& Amount::add(const spirit::Lot& gauged) {
  gauged_.push_back(gauged);
  value_ += spirit::pure_alcohol(gauged);
  return *this;
}

Amount& Amount::add(const PureVolume& known) {
  known_ = known_ + known;
  value_ += known.value;
  return *this;
}

PureVolume Amount::measured(const Glass& glass) const {
  PureVolume sum = known_;
  for (const spirit::Lot& lot : gauged_) sum = sum + pure_in(lot, glass);
  return sum;
}

bool cannot_be(const Amount& out, const Amount& in, const Glass& glass) {
  if (!worth_asking(out.value() - in.value(), in.value())) return false;
  const PureVolume above = out.measured(glass) - in.measured(glass);
  return above.value > above.sd * impossible_deviations;
}

bool cannot_be(units::Volume out, units::Volume in) {
  const double sd_L = std::hypot(out.litres(), in.litres()) * volume_share_sd;
  return worth_asking(out - in, in) &&
         out - in > units::Volume::litres(sd_L * impossible_deviations);
}

Asking::Asking(std::vector<Puzzle> asked, const std::vector<UpheldState>& upheld)
    : asked_(std::move(asked)), upheld_(upheld) {
  std::erase_if(asked_,
                [&](const Puzzle& one) { return one.counts && is_upheld(upheld, one); });
  for (const Puzzle& one : asked_) about_.insert(one.entry);
}

bool Asking::ask(const Id& entry, std::string why) {
  if (is_upheld(upheld_, {entry, why})) return false;
  if (about_.insert(entry).second) asked_.push_back({entry, std::move(why), true});
  return true;
}

bool Asking::answered(const Id& entry) const {
  return std::any_of(upheld_.begin(), upheld_.end(),
                     [&entry](const UpheldState& one) { return one.upheld.entry == entry; });
}

std::string_view Asking::answer(const Id& entry, std::string_view begin,
                                std::string_view end) const {
  const auto found =
      std::find_if(upheld_.rbegin(), upheld_.rend(), [&](const UpheldState& one) {
        return one.upheld.entry == entry && one.upheld.asked.starts_with(begin) &&
               one.upheld.asked.ends_with(end);
      });
  return found == upheld_.rend() ? std::string_view{} : found->upheld.asked;
}

bool is_upheld(const std::vector<UpheldState>& upheld, const Puzzle& asked) {
  return std::any_of(upheld.begin(), upheld.end(), [&](const UpheldState& one) {
    return one.upheld.entry == asked.entry && says_the_same(one.upheld.asked, asked.why);
  });
}

void ask_besides(std::vector<Puzzle>& asked, const std::vector<Puzzle>& more,
                 const BatchState& batch) {
  Asking asking(std::move(asked), batch.upheld);
  for (const Puzzle& one : more) asking.ask(one.entry, one.why);
  asked = std::move(asking).all();
}

namespace {

// Of a lot, whichever batch's entries tell of it.
void ask_of(const HouseState& house, const InOrder& order, const LotState& lot,
            const DeskOf& desk) {
  ask_of_lot(house, lot, desk);
  if (Desk* const at = desk(lot.batch)) {
    ask_of_its_time(order, lot, at->asking);
    ask_of_parents(order, lot, at->asking);
  }
  for (const LotUse& use : lot.uses) {
    if (Desk* const at = desk(use.batch)) ask_of_use(order, lot, use, at->asking);
  }
}

void ask_of(const HouseState& house, const InOrder& order, const BatchState& batch,
            const Charged& charged, Desk& desk) {
  ask_of_ferment(batch, desk.asking);
  ask_of_runs(house, batch, charged, desk.glass, desk.asking);
  ask_of_days(batch, desk.asking);
  ask_of_hours(order, batch, desk.asking);
}

}  // namespace

Questions questions(const HouseState& house, const GlassOf& glass_of) {
  std::map<std::optional<Id>, Desk> desks;
  desks.emplace(std::nullopt, Desk{glass_of(std::nullopt), Asking(house)});
  for (const auto& [id, batch] : house.batches) {
    desks.emplace(id, Desk{glass_of(id), Asking(batch)});
  }
  const Charged charged = charged_lots(house);
  const InOrder order(house);
  for (const auto& [id, batch] : house.batches) {
    ask_of(house, order, batch, charged, desks.at(id));
  }
  const DeskOf desk = [&desks](const std::optional<Id>& batch) {
    const auto found = desks.find(batch);
    return found == desks.end() ? &desks.at(std::nullopt) : &found->second;
  };
  for (const LotState& lot : house.lots) ask_of(house, order, lot, desk);
  Questions all;
  for (auto& [id, one] : desks) {
    std::vector<Puzzle> asked = std::move(one.asking).all();
    if (!asked.empty()) all.emplace(id, std::move(asked));
  }
  return all;
}

std::vector<Puzzle> questions(const HouseState& house, const std::optional<Id>& batch,
                              const Glass& glass) {
  const BatchState* of = nullptr;
  if (batch) {
    const auto found = house.batches.find(*batch);
    if (found == house.batches.end()) return {};
    of = &found->second;
  }
  const InOrder order(house);
  Desk one{glass, of != nullptr ? Asking(*of) : Asking(house)};
  if (of != nullptr) ask_of(house, order, *of, charged_lots(house), one);
  const DeskOf desk = [&](const std::optional<Id>& at) { return at == batch ? &one : nullptr; };
  for (const LotState& lot : house.lots) {
    const bool told_here = lot.batch == batch ||
                           std::any_of(lot.uses.begin(), lot.uses.end(),
                                       [&](const LotUse& use) { return use.batch == batch; });
    if (told_here) ask_of(house, order, lot, desk);
  }
  return std::move(one.asking).all();
}

}  // namespace lynearm::journal
