#include "still/propose_cut.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>
#include <utility>

#include "base/error.hpp"
#include "numeric/root.hpp"
#include "spirit/strength.hpp"
#include "still/shelf.hpp"
#include "still/yardstick.hpp"

namespace lynearm::still {
namespace {

using units::Volume;

void check_weights(const Weights& weights) {
  const std::pair<const char*, double> all[] = {{"weights.volume", weights.volume},
                                                {"weights.strength", weights.strength},
                                                {"weights.early", weights.early},
                                                {"weights.late", weights.late},
                                                {"weights.fault", weights.fault}};
  std::vector<base::Fault> faults;
  for (const auto& [field, value] : all) {
    const bool volume = field == all[0].first;
    if (value >= 0.0 && value <= 100.0 && !(volume && value == 0.0)) continue;
    faults.push_back({field, fmt::format("{:.6g}", value),
                      volume ? "a weight above 0, to 100" : "a weight from 0 to 100", "", 0,
                      0});
  }
  if (!faults.empty()) throw base::InputError(std::move(faults));
}

// The share of the alcohol that fills a wish for volume or alcohol.
double wished(const Shelf& shelf, const Wishes& wishes) {
  const auto refuse_more = [](const char* field, Volume asked, Volume most) {
    throw base::InputError(field, fmt::format("{:.6g} L", asked.litres()),
                           fmt::format("a volume above zero, to the {:.3f} L there is for the "
                                       "hearts",
                                       most.litres()));
  };
  if (wishes.hearts && wishes.pure_alcohol) {
    throw base::InputError("pure_alcohol",
                           fmt::format("{:.6g} L", wishes.pure_alcohol->litres()),
                           "either a volume of hearts or their pure alcohol, not both");
  }
  if (wishes.pure_alcohol) {
    const Volume most = Volume::litres(shelf.most() * shelf.alcohol_L());
    if (!(*wishes.pure_alcohol > Volume{} && *wishes.pure_alcohol <= most * (1.0 + 1e-9)))
      refuse_more("pure_alcohol", *wishes.pure_alcohol, most);
    return std::min(shelf.most(), wishes.pure_alcohol->litres() / shelf.alcohol_L());
  }
  const auto litres = [&](double share) {
    return spirit::volume(shelf.hearts(shelf.with(share).share)).litres();
  };
  const double most = litres(shelf.most());
  const double asked = wishes.hearts->litres();
  if (!(asked > 0.0 && asked <= most * (1.0 + 1e-9)))
    refuse_more("hearts", *wishes.hearts, Volume::litres(most));
  if (asked >= most * (1.0 - 1e-9)) return shelf.most();
  // No jar is weaker than this share's alcohol in all of the volume asked for.
  double low = std::min(shelf.most(), asked / most * shelf.most());
  while (litres(low) > asked) low *= 0.5;
  return numeric::root_between([&](double share) { return litres(share) - asked; }, low,
                               shelf.most(), "the wished volume of hearts", {1e-12, 200})
      .value;
}

// The share of the alcohol of most worth: where the next drop's price is the weight of volume.
double worthiest(const Shelf& shelf, const Wishes& wishes) {
  const double volume = wishes.weights.volume;
  const double least = shelf.least_deduction();
  if (!(least < volume)) {
    throw base::InputError(
        "weights", fmt::format("volume {:.6g}", volume),
        fmt::format(
            "volume above {:.3g}, or lighter ones on the loads: the cleanest spirit here "
            "loses that much for each litre of its alcohol",
            least));
  }
  const double most = shelf.most();
  if (shelf.price_at_most() <= volume) return most;
  // Up to the cleanest mixture's own amount the price stays what that mixture loses.
  double low = most;
  do {
    low *= 0.5;
  } while (low > 1e-12 && shelf.price(low) > volume);
  return numeric::root_between([&](double share) { return shelf.price(share) - volume; }, low,
                               most * (1.0 - 1e-6), "the price of the next drop", {1e-10, 200})
      .value;
}

// What the shares of least load with so much of the alcohol give.
Alternative alternative(const Shelf& shelf, const std::vector<Jar>& jars, const Wishes& wishes,
                        double share, bool exact_amount) {
  Alternative made;
  made.allotment = shelf.allotment(share, exact_amount);
  made.outcome = evaluate(jars, made.allotment);
  made.deduction = deduction(made.outcome.hearts, wishes.weights, shelf.yardstick());
  made.worth = made.outcome.hearts.pure_alcohol * (wishes.weights.volume - made.deduction);
  return made;
}

}  // namespace

double deduction(const Vessel20C& hearts, const Weights& weights, const Yardstick& yardstick) {
  const AgainstYardstick c = against_yardstick(
      hearts.lot.water, hearts.early.mass, hearts.late.mass, hearts.pure_alcohol, yardstick);
  return weights.strength * c.water * c.water + weights.early * c.early * c.early +
         weights.late * c.late * c.late + weights.fault * hearts.fault / yardstick_fault;
}

CutProposal propose(const std::vector<Jar>& jars, const Wishes& wishes) {
  check(jars);
  require_loads(jars);
  check_weights(wishes.weights);
  const Shelf shelf(jars, wishes);
  const bool amount_wished = wishes.hearts || wishes.pure_alcohol;
  const double best = amount_wished ? wished(shelf, wishes) : worthiest(shelf, wishes);
  // Tenths of the best to either side, and what there is at most.
  constexpr int most_steps = 4;
  std::vector<Alternative> made;
  std::size_t at_best = 0;
  for (int step = -most_steps; step <= most_steps; ++step) {
    const double share = step == 0 ? best : best * (1.0 + 0.1 * step);
    if (step > 0 && share - 0.1 * best > shelf.most() * 0.98) break;
    Alternative next = alternative(shelf, jars, wishes, std::min(share, shelf.most()),
                                   amount_wished && step == 0);
    // Less alcohol with no less load is no alternative.
    while (!made.empty() && (step <= 0 || made.size() - 1 > at_best) &&
           !(next.deduction > made.back().deduction * (1.0 + 1e-7))) {
      made.pop_back();
    }
    if (step == 0) at_best = made.size();
    made.push_back(std::move(next));
  }
  // Five of them about the best.
  constexpr std::size_t wanted = 5;
  const std::size_t count = std::min(wanted, made.size());
  const std::size_t first =
      std::min(at_best > wanted / 2 ? at_best - wanted / 2 : 0, made.size() - count);
  CutProposal proposal;
  for (std::size_t i = first; i < first + count; ++i)
    proposal.alternatives.push_back(std::move(made[i]));
  proposal.recommended = at_best - first;
  proposal.yardstick = shelf.yardstick();
  return proposal;
}

}  // namespace lynearm::still
