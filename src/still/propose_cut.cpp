#include "still/propose_cut.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <string>
#include <utility>

#include "base/error.hpp"
#include "numeric/root.hpp"
#include "spirit/strength.hpp"
#include "still/box_programme.hpp"

namespace lynearm::still {
namespace {

using units::MassConcentration;
using units::Volume;
using units::VolumeStrength;

double per_alcohol_g_per_L(units::Mass mass, Volume alcohol) {
  return alcohol > Volume{} ? mass.grams() / alcohol.litres() : 0.0;
}

// Grams of water beside a litre of alcohol in the yardstick's spirit.
double yardstick_water_g_per_L() {
  static const spirit::Lot litre = spirit::lot(Volume::litres(1.0), yardstick_strength);
  return per_alcohol_g_per_L(litre.water, spirit::pure_alcohol(litre));
}

// A load against its yardstick; nothing where the yardstick is nothing, since then no jar
// carries any.
double against(double load, double yardstick) {
  return yardstick > 0.0 ? load / yardstick : 0.0;
}

// What a litre of pure alcohol carries of each, against the yardsticks.
struct Carried {
  double water, early, late;
};
Carried carried(units::Mass water, units::Mass early, units::Mass late, Volume alcohol,
                const Yardstick& yardstick) {
  return {per_alcohol_g_per_L(water, alcohol) / yardstick_water_g_per_L(),
          against(per_alcohol_g_per_L(early, alcohol), yardstick.early.grams_per_litre()),
          against(per_alcohol_g_per_L(late, alcohol), yardstick.late.grams_per_litre())};
}

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

// The jars' uses with the foreshots found.
std::vector<Use> uses_of(const std::vector<Jar>& jars, const Wishes& wishes) {
  std::vector<Use> uses;
  bool stated = false;
  for (const Jar& jar : jars) {
    uses.push_back(jar.use);
    stated = stated || jar.use == Use::foreshots;
  }
  if (stated && !wishes.foreshots) return uses;
  Volume run;
  for (const std::size_t i : running_order(jars)) {
    const bool first = run <= Volume{};
    if (first || (wishes.foreshots && run < *wishes.foreshots)) uses[i] = Use::foreshots;
    run += jars[i].volume;
  }
  return uses;
}

// The load per litre of alcohol of the middle drop: half of all alcohol came with less. The
// middle, not the mean, so that foreshots and how far into the tails the run went hardly move
// it. Between the middles of two jars it lies on a line.
double middle_g_per_L(const std::vector<Jar>& jars, std::optional<Load> Jar::*load) {
  struct Drop {
    double load_g_per_L, alcohol_L;
  };
  std::vector<Drop> drops;
  double all_L = 0.0;
  double all_g = 0.0;
  for (const Jar& jar : jars) {
    const double alcohol_L = spirit::pure_alcohol(lot_of(jar)).litres();
    const double grams = (jar.*load)->mass.grams();
    drops.push_back({grams / alcohol_L, alcohol_L});
    all_L += alcohol_L;
    all_g += grams;
  }
  std::sort(drops.begin(), drops.end(),
            [](Drop a, Drop b) { return a.load_g_per_L < b.load_g_per_L; });
  double middle = drops.front().load_g_per_L;
  double before_L = 0.0;
  double last_centre_L = 0.0;
  for (const Drop& drop : drops) {
    const double centre_L = before_L + 0.5 * drop.alcohol_L;
    if (centre_L >= 0.5 * all_L) {
      const double t = last_centre_L > 0.0
                           ? (0.5 * all_L - last_centre_L) / (centre_L - last_centre_L)
                           : 1.0;
      middle += t * (drop.load_g_per_L - middle);
      break;
    }
    middle = drop.load_g_per_L;
    last_centre_L = centre_L;
    before_L += drop.alcohol_L;
  }
  // Where most jars carry nothing of it, the mean.
  return middle > 0.0 ? middle : all_g / all_L;
}

Yardstick of_jars(const std::vector<Jar>& jars) {
  constexpr double twice = 2.0;
  return {MassConcentration::grams_per_litre(twice * middle_g_per_L(jars, &Jar::early)),
          MassConcentration::grams_per_litre(twice * middle_g_per_L(jars, &Jar::late))};
}

// The jars that may go into the hearts, as a programme, and what its answers mean.
class Shelf {
 public:
  Shelf(const std::vector<Jar>& jars, const Wishes& wishes)
      : jars_(jars), wishes_(wishes), uses_(uses_of(jars, wishes)) {
    yardstick_ = wishes.yardstick.value_or(of_jars(jars));
    for (std::size_t i = 0; i < jars.size(); ++i) {
      if (uses_[i] != Use::open) continue;
      if (wishes.jars_at_least && jars[i].strength < *wishes.jars_at_least) continue;
      open_.push_back(i);
      lots_.push_back(lot_of(jars[i]));
      alcohol_L_ += spirit::pure_alcohol(lots_.back()).litres();
    }
    require_any();
    require_strengths();
    lay_out();
  }

  [[nodiscard]] const Yardstick& yardstick() const { return yardstick_; }
  [[nodiscard]] double alcohol_L() const { return alcohol_L_; }

  // The most of the open jars' alcohol, as a share, that the limits let into the hearts.
  [[nodiscard]] double most() const { return dot(programme_.size, fullest_); }

  // The shares of least load with so much of the alcohol.
  [[nodiscard]] BoxSolution with(double share) const {
    if (share >= most() * (1.0 - 1e-9)) return {fullest_, 0.0, 0.0, 0};
    BoxProgramme programme = programme_;
    programme.total = share;
    for (const double cost : fault_) programme.linear.push_back(share * cost);
    BoxSolution free = solve(programme);
    const auto& broken = broken_by(free.share);
    if (broken.empty()) return free;
    // Between the free optimum and anything within the limits lies the limit that it breaks, so
    // the optimum lies on it; the other limit then holds by itself.
    programme.balance = broken;
    programme.start = inside(broken, share);
    return solve(programme);
  }

  // The least deduction that any mixture has.
  [[nodiscard]] double least_deduction() const {
    BoxProgramme clean = programme_;
    clean.linear = fault_;
    clean.size.assign(open_.size(), 1.0);
    clean.total = 1.0;
    for (std::size_t i = 0; i < open_.size(); ++i) {
      for (auto& row : clean.squares) row[i] /= programme_.size[i];
      clean.linear[i] /= programme_.size[i];
    }
    const auto cost = [&](const std::vector<double>& shares) {
      return square_sum(clean, shares) + dot(clean.linear, shares);
    };
    if (open_.size() == 1) return cost({1.0});
    std::vector<double> of_alcohol = solve(clean).share;
    std::vector<double> shares = of_alcohol;
    for (std::size_t i = 0; i < shares.size(); ++i) shares[i] /= programme_.size[i];
    const auto& broken = broken_by(shares);
    if (!broken.empty()) {
      clean.balance = broken;
      clean.start = level(broken);
      for (std::size_t i = 0; i < shares.size(); ++i) {
        clean.balance[i] /= programme_.size[i];
        clean.start[i] *= programme_.size[i];
      }
      of_alcohol = solve(clean).share;
    }
    return cost(of_alcohol);
  }

  // d(deduction times alcohol)/d(alcohol) at the least load: the price of the next drop. What
  // the faults cost is in proportion to the shares, and falls out.
  [[nodiscard]] double price(double share) const {
    const BoxSolution least = with(share);
    return least.price / share - square_sum(programme_, least.share) / (share * share);
  }
  // The same at the fullest hearts, from below: the most that any of it gives.
  [[nodiscard]] double price_at_most() const { return price(most() * (1.0 - 1e-6)); }

  [[nodiscard]] spirit::Lot hearts(const std::vector<double>& shares) const {
    spirit::Lot sum;
    for (std::size_t i = 0; i < open_.size(); ++i) sum = sum + lots_[i] * shares[i];
    return sum;
  }

  [[nodiscard]] Alternative alternative(double share, bool exact_amount) const {
    std::vector<double> shares = with(share).share;
    for (double& h : shares) {
      // A ten-thousandth of a millilitre in a litre is poured by nobody.
      if (exact_amount) break;
      if (h < 1e-7) h = 0.0;
      if (h > 1.0 - 1e-7) h = 1.0;
    }
    Alternative made;
    made.allotment.resize(jars_.size());
    for (std::size_t i = 0; i < jars_.size(); ++i) {
      Poured& poured = made.allotment[i];
      (uses_[i] == Use::foreshots ? poured.foreshots
       : uses_[i] == Use::apart   ? poured.apart
                                  : poured.feints) = jars_[i].volume;
    }
    for (std::size_t k = 0; k < open_.size(); ++k) {
      Poured& poured = made.allotment[open_[k]];
      const Volume whole = jars_[open_[k]].volume;
      poured.hearts = whole * shares[k];
      poured.feints = whole * (1.0 - shares[k]);
    }
    made.outcome = evaluate(jars_, made.allotment);
    made.deduction = deduction(made.outcome.hearts, wishes_.weights, yardstick_);
    made.worth = made.outcome.hearts.pure_alcohol * (wishes_.weights.volume - made.deduction);
    return made;
  }

 private:
  static double dot(const std::vector<double>& a, const std::vector<double>& b) {
    double sum = 0.0;
    for (std::size_t i = 0; i < a.size(); ++i) sum += a[i] * b[i];
    return sum;
  }
  static double square_sum(const BoxProgramme& programme, const std::vector<double>& shares) {
    double sum = 0.0;
    for (const auto& row : programme.squares) sum += dot(row, shares) * dot(row, shares);
    return sum;
  }

  void require_any() const {
    if (!open_.empty()) return;
    const bool by_strength =
        wishes_.jars_at_least &&
        std::any_of(uses_.begin(), uses_.end(), [](Use use) { return use == Use::open; });
    if (!by_strength) {
      throw base::InputError("jars", fmt::format("{} of them", jars_.size()),
                             "at least one besides the foreshots, the feints and those apart");
    }
    VolumeStrength strongest;
    for (std::size_t i = 0; i < jars_.size(); ++i) {
      if (uses_[i] == Use::open) strongest = std::max(strongest, jars_[i].strength);
    }
    throw base::InputError("jars_at_least",
                           fmt::format("{:.6g} %vol", wishes_.jars_at_least->percent()),
                           fmt::format("at most {:.2f} %vol, that of the strongest jar open to "
                                       "the hearts",
                                       strongest.percent()));
  }

  void require_strengths() const {
    VolumeStrength weakest = VolumeStrength::percent(100.0);
    VolumeStrength strongest;
    for (const std::size_t i : open_) {
      weakest = std::min(weakest, jars_[i].strength);
      strongest = std::max(strongest, jars_[i].strength);
    }
    const auto& least = wishes_.hearts_at_least;
    const auto& most = wishes_.hearts_at_most;
    if (least && !(*least > VolumeStrength{} && *least <= strongest)) {
      throw base::InputError(
          "hearts_at_least", fmt::format("{:.6g} %vol", least->percent()),
          fmt::format("a strength above 0, to {:.2f} %vol, that of the strongest jar open to "
                      "the hearts",
                      strongest.percent()));
    }
    if (most && !(*most >= weakest)) {
      throw base::InputError(
          "hearts_at_most", fmt::format("{:.6g} %vol", most->percent()),
          fmt::format("{:.2f} %vol or more, that of the weakest jar open to the hearts; "
                      "water lowers it afterwards",
                      weakest.percent()));
    }
    if (least && most && *most - *least < nearest_limits * (1.0 - 1e-9)) {
      throw base::InputError("hearts_at_least", fmt::format("{:.6g} %vol", least->percent()),
                             fmt::format("at least {:.1f} %vol below the {:.6g} %vol that they "
                                         "may have",
                                         nearest_limits.percent(), most->percent()));
    }
  }

  void lay_out() {
    const Weights& w = wishes_.weights;
    const double weights[] = {w.strength, w.early, w.late};
    programme_.squares.assign(3, {});
    for (std::size_t k = 0; k < open_.size(); ++k) {
      const Jar& jar = jars_[open_[k]];
      const Volume alcohol = spirit::pure_alcohol(lots_[k]);
      const double size = alcohol.litres() / alcohol_L_;
      const Carried c =
          carried(lots_[k].water, jar.early->mass, jar.late->mass, alcohol, yardstick_);
      const double loads[] = {c.water, c.early, c.late};
      programme_.size.push_back(size);
      fault_.push_back(w.fault * jar.fault / yardstick_fault * size);
      for (std::size_t g = 0; g < 3; ++g)
        programme_.squares[g].push_back(std::sqrt(weights[g]) * loads[g] * size);
    }
    add_limit(wishes_.hearts_at_least, 1.0);
    add_limit(wishes_.hearts_at_most, -1.0);
    fullest_.assign(open_.size(), 1.0);
    const auto& broken = broken_by(fullest_);
    if (!broken.empty()) fullest_ = fullest_on(broken);
  }

  // A row that is above zero within the limit.
  void add_limit(const std::optional<VolumeStrength>& limit, double sign) {
    if (!limit) return;
    const double p = spirit::mass_fraction(*limit).fraction();
    std::vector<double> row;
    for (const spirit::Lot& lot : lots_)
      row.push_back(sign * (lot.ethanol.kilograms() - p * lot.mass().kilograms()));
    limits_.push_back(std::move(row));
  }

  // The limit that shares break, or nothing. Never both: they lie on opposite sides.
  [[nodiscard]] const std::vector<double>& broken_by(const std::vector<double>& shares) const {
    static const std::vector<double> none;
    for (const auto& row : limits_) {
      double size = 0.0;
      for (std::size_t i = 0; i < row.size(); ++i) size += std::abs(row[i]) * shares[i];
      if (dot(row, shares) < -1e-12 * size) return row;
    }
    return none;
  }

  // The most alcohol on a limit: every jar that is within it, and of the others, from the one
  // that brings the most alcohol for what it breaks, as much as the first make good.
  [[nodiscard]] std::vector<double> fullest_on(const std::vector<double>& row) const {
    std::vector<double> shares(row.size(), 1.0);
    std::vector<std::size_t> breaking;
    double to_spare = 0.0;
    for (std::size_t i = 0; i < row.size(); ++i) {
      if (row[i] >= 0.0) {
        to_spare += row[i];
      } else {
        breaking.push_back(i);
      }
    }
    std::sort(breaking.begin(), breaking.end(), [&](std::size_t a, std::size_t b) {
      return programme_.size[a] * row[b] < programme_.size[b] * row[a];
    });
    for (const std::size_t i : breaking) {
      shares[i] = std::clamp(to_spare / -row[i], 0.0, 1.0);
      to_spare -= shares[i] * -row[i];
    }
    return shares;
  }

  // Shares on a limit with an alcohol of one, each above zero and perhaps above a whole jar:
  // one share of all jars within the limit, another of all that break it.
  [[nodiscard]] std::vector<double> level(const std::vector<double>& row) const {
    double within = 0.0;
    double beyond = 0.0;
    for (const double x : row) (x >= 0.0 ? within : beyond) += std::abs(x);
    std::vector<double> shares;
    for (const double x : row) shares.push_back(x >= 0.0 ? beyond : within);
    const double alcohol = dot(programme_.size, shares);
    for (double& h : shares) h /= alcohol;
    return shares;
  }

  // Shares on a limit with so much alcohol, each above zero and below a whole jar.
  [[nodiscard]] std::vector<double> inside(const std::vector<double>& row,
                                           double alcohol) const {
    std::vector<double> shares = fullest_on(row);
    const double most = dot(programme_.size, shares);
    const std::vector<double> even = level(row);
    double part = 0.5;
    for (std::size_t i = 0; i < shares.size(); ++i) {
      shares[i] *= alcohol / most;
      part = std::min(part, 0.5 * (1.0 - shares[i]) / (even[i] * alcohol));
    }
    for (std::size_t i = 0; i < shares.size(); ++i)
      shares[i] += part * (even[i] * alcohol - shares[i]);
    return shares;
  }

  const std::vector<Jar>& jars_;
  const Wishes& wishes_;
  std::vector<Use> uses_;
  Yardstick yardstick_;
  std::vector<std::size_t> open_;  // places of the jars that may go into the hearts
  std::vector<spirit::Lot> lots_;  // of these
  double alcohol_L_ = 0.0;         // in these
  BoxProgramme programme_;         // in shares of that alcohol
  std::vector<std::vector<double>> limits_;
  std::vector<double> fault_;    // what each jar's faults cost, whole
  std::vector<double> fullest_;  // the shares with the most alcohol
};

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

}  // namespace

double deduction(const Vessel20C& hearts, const Weights& weights, const Yardstick& yardstick) {
  const Carried c = carried(hearts.lot.water, hearts.early.mass, hearts.late.mass,
                            hearts.pure_alcohol, yardstick);
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
    Alternative next =
        shelf.alternative(std::min(share, shelf.most()), amount_wished && step == 0);
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
