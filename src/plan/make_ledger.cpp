// The ledger of a plan. Extract is turned into pure alcohol by the stoichiometry alone, so that
// what the yeast does not reach shows as a loss of its own.
#include "ferment/yield.hpp"
#include "plan/parts.hpp"
#include "spirit/lot.hpp"

namespace lynearm::plan {
namespace {

units::Volume alcohol_of_hexose(units::Mass hexose) {
  return spirit::pure_alcohol({hexose * ferment::ethanol_per_hexose, {}});
}

// Hexose in an extract when every gram of it were sugar.
units::Mass hexose_of_grain(units::Mass extract) {
  return extract * ferment::hexose_per_disaccharide;
}

units::Mass hexose_of_sugars(const BillPlan& bill) {
  units::Mass hexose;
  for (std::size_t i = 0; i < bill.lines.size(); ++i) {
    if (bill.lines[i].role != mash::Role::as_sugar) continue;
    const double factor = bill.lines[i].ingredient.sort == mash::Sort::honey
                              ? 1.0
                              : ferment::hexose_per_disaccharide;
    hexose += bill.potential.lines[i].extract * factor;
  }
  return hexose;
}

class LedgerMaker {
 public:
  explicit LedgerMaker(const Plan& plan) : plan_(plan) {}

  Ledger make() {
    mash();
    ferment();
    strip();
    spirit();
    finish();
    stages();
    return std::move(ledger_);
  }

 private:
  void put(const char* stage, const char* name, Flow flow, units::Volume pure_alcohol) {
    ledger_.entries.push_back({stage, name, flow, pure_alcohol});
  }
  void put(const char* stage, const char* name, Flow flow, const spirit::Lot& lot) {
    put(stage, name, flow, spirit::pure_alcohol(lot));
  }

  void mash() {
    const BillPlan& bill = plan_.mash.bill;
    const units::Mass grain = grain_potential();
    if (grain > units::Mass{}) {
      put("Mash bill", "in the grain, if all of it were sugar", Flow::in,
          alcohol_of_hexose(hexose_of_grain(grain)));
    }
    sugar_hexose_ = hexose_of_sugars(bill);
    if (sugar_hexose_ > units::Mass{}) {
      put("Mash bill", "in the sugar", Flow::in, alcohol_of_hexose(sugar_hexose_));
    }
    if (!plan_.mash.mash) return;
    put("Mash", "not dissolved from the grain", Flow::lost,
        alcohol_of_hexose(hexose_of_grain(grain - plan_.mash.mash->extract_made)));
    if (plan_.mash.mash->drained) {
      put("Mash", "held in the spent grain", Flow::lost,
          alcohol_of_hexose(hexose_of_grain(plan_.mash.mash->drained->kept.extract)));
    }
  }

  [[nodiscard]] units::Mass grain_potential() const {
    units::Mass extract;
    for (std::size_t i = 0; i < plan_.mash.bill.lines.size(); ++i) {
      if (plan_.mash.bill.lines[i].role == mash::Role::as_sugar) continue;
      extract += plan_.mash.bill.potential.lines[i].extract;
    }
    return extract;
  }

  void ferment() {
    const WortPlan& wort = plan_.mash.wort;
    const FermentPlan& ferment = plan_.ferment;
    // Each from what its own stage says of it, so that the sum closing is a check.
    in_wort_ = alcohol_of_hexose(hexose_of_grain(wort.grain.extract) + wort.sugar_hexose);
    const ferment::Fermented& fermented = ferment.fermented;
    put("Ferment", "extract that does not ferment", Flow::lost,
        alcohol_of_hexose(wort.unfermentable_hexose));
    const units::Volume sugar_left =
        alcohol_of_hexose(fermented.sugar_left * wort.hexose_per_gram);
    if (sugar_left > units::Volume{}) {
      put("Ferment", "sugar left by the yeast", Flow::lost, sugar_left);
    }
    put("Ferment", "turned into yeast, glycerol and acids", Flow::lost,
        alcohol_of_hexose(fermented.yeast + fermented.glycerol + fermented.acids));
    put("Ferment", "left with the lees", Flow::lost, wort::lot(ferment.lees));
  }

  void strip() {
    const StripPlan& strip = plan_.strip;
    put("Strip", "wash left over", Flow::lost, wort::lot(strip.left_over));
    put("Strip", "left in the pots", Flow::lost, strip.left_in_pots);
    put("Strip", "vapour and wetted walls", Flow::lost, strip.lost);
  }

  void spirit() {
    const SpiritPlan& spirit = plan_.spirit;
    put("Spirit run", "feints put in", Flow::in, spirit.feints_in);
    put("Spirit run", "low wines kept", Flow::kept, spirit.low_wines_kept);
    put("Spirit run", "foreshots, set away", Flow::lost, spirit.foreshots_away);
    put("Spirit run", "heads, set away", Flow::lost, spirit.heads_away);
    put("Spirit run", "feints kept", Flow::kept, spirit.feints_kept);
    put("Spirit run", "left in the pot", Flow::lost, spirit.left_in_pots);
    put("Spirit run", "vapour and wetted walls", Flow::lost, spirit.lost);
  }

  void finish() {
    const FinishStage& finish = plan_.finish;
    put("Reduce", "left in vessels", Flow::lost, finish.reduce.moved_loss);
    if (finish.wood) {
      put("Wood", "taken up by the wood", Flow::lost, finish.wood->soaked);
      put("Wood", "evaporated", Flow::lost, finish.wood->evaporated);
      put("Wood", "samples", Flow::out, finish.wood->samples);
      put("Wood", "beyond the cask, kept in glass", Flow::kept, finish.wood->beyond_cask);
    }
    put("Bottle", "left in vessels", Flow::lost, finish.bottle.moved_loss);
    put("Bottle", "left in the filter", Flow::lost, finish.bottle.filter_loss);
    put("Bottle", "in bottles", Flow::out, finish.bottle.in_bottles);
    put("Bottle", "remainder", Flow::out, finish.bottle.remainder);
  }

  void stages() {
    const auto pure = [](const spirit::Lot& lot) { return spirit::pure_alcohol(lot); };
    const SpiritPlan& spirit = plan_.spirit;
    const units::Volume potential =
        alcohol_of_hexose(hexose_of_grain(grain_potential()) + sugar_hexose_);
    const units::Volume wash = pure(wort::lot(plan_.ferment.racked));
    ledger_.stages.push_back({"Mash", potential, in_wort_});
    ledger_.stages.push_back({"Ferment", in_wort_, wash});
    ledger_.stages.push_back({"Strip", wash, pure(plan_.strip.low_wines)});
    ledger_.stages.push_back(
        {"Spirit run", pure(spirit.low_wines_in + spirit.feints_in), pure(spirit.hearts_all)});
    ledger_.stages.push_back(
        {"Reduce", pure(spirit.hearts_all), pure(plan_.finish.reduce.result)});
    if (plan_.finish.wood) {
      ledger_.stages.push_back(
          {"Wood", pure(plan_.finish.wood->into_wood), pure(plan_.finish.wood->matured)});
    }
    const spirit::Lot bottled = plan_.finish.bottle.in_bottles + plan_.finish.bottle.remainder;
    const spirit::Lot before =
        bottled + plan_.finish.bottle.filter_loss + plan_.finish.bottle.moved_loss;
    ledger_.stages.push_back({"Bottle", pure(before), pure(plan_.finish.bottle.in_bottles)});
  }

  const Plan& plan_;
  Ledger ledger_;
  units::Mass sugar_hexose_;
  units::Volume in_wort_;
};

}  // namespace

Ledger make_ledger(const Plan& plan) { return LedgerMaker(plan).make(); }

}  // namespace lynearm::plan
