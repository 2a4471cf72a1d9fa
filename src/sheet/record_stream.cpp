#include "sheet/record_stream.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <string_view>

#include "journal/account.hpp"
#include "numeric/normal.hpp"
#include "sheet/record_lots_flow.hpp"

namespace lynearm::sheet {
namespace {

constexpr double drawn_L = 0.0005;      // less is rounding
constexpr double small_share = 0.0125;  // of the bill: such losses stand together in a stage
constexpr const char* more_found = "found more";
constexpr double untold = 0.05;  // so small a rest, and a stage counts as told whole

// What leaves a stage by the plan's own yields.
struct Exits {
  double through = 0.0;
  std::vector<plan::LedgerEntry> others;  // litres scaled
};

// One name for all that a stage loses: the ledger of the plan has each.
std::string lost_in(const std::string& stage) {
  static const std::map<std::string, std::string, std::less<>> names = {
      {"Mash", "left in the grain"},
      {"Ferment", "not fermented, or left with the lees"},
      {"Strip", "pots and vapour"},
      {"Spirit run", "foreshots, pot and vapour"},
      {"Reduce", "left in vessels"},
      {"Wood", "taken up, evaporated"},
      {"Bottle", "left in vessels and filter"}};
  const auto at = names.find(stage);
  return at == names.end() ? std::string("lost") : at->second;
}

class Builder {
 public:
  explicit Builder(const Record& record)
      : record_(record),
        house_(record.from.house),
        batch_(record.batch),
        ledger_(record.planned.plan.ledger) {}

  RecordStream make() {
    bill();
    if (band_ <= 0.0) return {};
    mark("Mash", false);
    planned("Mash", {});
    mark("Ferment", false);
    ferment();
    strip();
    spirit_run();
    later();
    return finished();
  }

 private:
  void bill();
  void ferment();
  void strip();
  void spirit_run();
  void later();
  void ahead(double hearts, double reduced, const LotsFlow& lots);
  RecordStream finished();

  // ---- what is drawn
  void add(const std::string& stage, const std::string& name, double litres, Course course,
           bool planned) {
    if (!(litres > drawn_L)) return;
    std::vector<Flow>& of = flows_[stage];
    const auto same = std::find_if(of.begin(), of.end(), [&](const Flow& flow) {
      return flow.name == name && flow.course == course && flow.planned == planned;
    });
    if (same != of.end()) {
      same->amount += units::Volume::litres(litres);
    } else {
      of.push_back({stage, name, units::Volume::litres(litres), course, planned});
    }
  }
  // What a measured stage does not account for, or has too much.
  void settle(const std::string& stage, double gap) {
    add(stage, "unaccounted for", gap, Course::lost, false);
    add(stage, more_found, -gap, Course::in, false);
  }
  // The ledger has each by itself; hairs are not told apart as planned or measured.
  void join_small(std::vector<Flow>& of) const {
    const auto join = [&](Course course, const char* name) {
      const auto small = [&](const Flow& flow) {
        return flow.course == course && flow.name != "unaccounted for" &&
               flow.amount < units::Volume::litres(small_share * bill_);
      };
      const auto first = std::find_if(of.begin(), of.end(), small);
      if (std::count_if(of.begin(), of.end(), small) < 2) return;
      Flow joined = *first;
      joined.amount = {};
      for (const Flow& flow : of) {
        if (!small(flow)) continue;
        joined.amount += flow.amount;
        joined.planned = joined.planned && flow.planned;
        if (flow.name != joined.name) joined.name = name;
      }
      const auto at = first - of.begin();
      std::erase_if(of, small);
      of.insert(of.begin() + at, std::move(joined));
    };
    join(Course::lost, "small losses");
    join(Course::kept, "samples, remainder");
  }
  void mark(const char* stage, bool measured) {
    double before = 0.0;
    for (const plan::LedgerEntry& entry : ledger_.entries) {
      if (entry.stage == stage) {
        marks_.push_back({stage, units::Volume::litres(before), measured});
        return;
      }
      before += entry.flow == plan::Flow::in ? entry.pure_alcohol.litres()
                                             : -entry.pure_alcohol.litres();
    }
    marks_.push_back({stage, {}, measured});
  }

  // ---- the plan
  [[nodiscard]] const plan::StageYield* yield(std::string_view stage) const {
    const auto at =
        std::find_if(ledger_.stages.begin(), ledger_.stages.end(),
                     [&](const plan::StageYield& one) { return one.stage == stage; });
    return at == ledger_.stages.end() ? nullptr : &*at;
  }
  // From as much as stands there: `have`, or what the plan foresaw. What is put in beside is
  // put in once: `beside` says whether it still is to come.
  [[nodiscard]] Exits exits(const std::string& stage, std::optional<double> have,
                            bool beside = true) const {
    Exits of;
    const plan::StageYield* whole = yield(stage);
    if (whole == nullptr) return {have.value_or(0.0), {}};
    double in = 0.0;
    for (const plan::LedgerEntry& entry : ledger_.entries) {
      if (entry.stage == stage && entry.flow == plan::Flow::in) {
        in += entry.pure_alcohol.litres();
      }
    }
    const double had = whole->in.litres();
    const double share = !have || had <= 0.0 ? 1.0 : (*have + (beside ? in : 0.0)) / had;
    of.through = share * whole->out.litres();
    for (plan::LedgerEntry entry : ledger_.entries) {
      if (entry.stage != stage || entry.name == "in bottles") continue;
      if (entry.flow == plan::Flow::in) {
        if (beside) of.others.push_back(std::move(entry));
        continue;
      }
      entry.pure_alcohol = entry.pure_alcohol * share;
      of.others.push_back(std::move(entry));
    }
    return of;
  }
  // Draws what leaves beside; gives how much that is.
  double draw(const std::string& stage, const Exits& of) {
    double away = 0.0;
    std::size_t losses = 0;
    for (const plan::LedgerEntry& entry : of.others) {
      losses += entry.flow == plan::Flow::lost ? 1 : 0;
    }
    for (const plan::LedgerEntry& entry : of.others) {
      const double litres = entry.pure_alcohol.litres();
      switch (entry.flow) {
        case plan::Flow::in:
          add(stage, entry.name, litres, Course::in, true);
          away -= litres;
          continue;
        case plan::Flow::lost:
          add(stage, losses > 1 ? lost_in(stage) : entry.name, litres, Course::lost, true);
          break;
        case plan::Flow::kept:
        case plan::Flow::out:
          add(stage, entry.name, litres, Course::kept, true);
          break;
      }
      away += litres;
    }
    return away;
  }
  void planned(const std::string& stage, std::optional<double> have) {
    if (yield(stage) == nullptr) return;
    const Exits of = exits(stage, have);
    draw(stage, of);
    band_ = of.through;
  }

  // ---- the journal
  [[nodiscard]] std::vector<journal::AccountStep> steps(journal::Stage stage) const {
    std::vector<journal::AccountStep> of;
    for (const journal::AccountStep& step : account_.steps) {
      if (step.stage == stage) of.push_back(step);
    }
    return of;
  }
  double named(const std::string& stage, const std::vector<journal::AccountStep>& of) {
    double sum = 0.0;
    for (const journal::AccountStep& step : of) {
      for (const auto& [name, lost] : step.named) {
        add(stage, name.substr(0, name.find(',')), lost.value.litres(), Course::lost, false);
        sum += lost.value.litres();
      }
    }
    return sum;
  }
  const Record& record_;
  const journal::HouseState& house_;
  const journal::BatchState& batch_;
  const plan::Ledger& ledger_;
  const journal::BatchAccount account_ = journal::account(house_, batch_);
  std::map<std::string, std::vector<Flow>, std::less<>> flows_;
  std::vector<StageMark> marks_;
  double bill_ = 0.0;      // what the bill promised
  double band_ = 0.0;      // litres that stand before the stage in hand
  bool measured_ = false;  // and whether all of that is measured
};

void Builder::bill() {
  for (const plan::LedgerEntry& entry : ledger_.entries) {
    if (entry.stage != "Mash bill" || entry.flow != plan::Flow::in) continue;
    add(entry.stage, entry.name, entry.pure_alcohol.litres(), Course::in, true);
    band_ += entry.pure_alcohol.litres();
  }
  bill_ = band_;
  marks_.push_back({"Mash bill", units::Volume::litres(band_), false});
}

// Until it is racked or charged the wash ferments on: its alcohol so far is no end.
void Builder::ferment() {
  const bool ended = batch_.ferment.racked || !batch_.runs.empty();
  if (!batch_.ferment.wash || !ended) {
    planned("Ferment", {});
    return;
  }
  const double wash = batch_.ferment.wash->pure_alcohol.litres();
  // The wash is measured, what it came from is not: the difference is the plan's word.
  add("Ferment", lost_in("Ferment"), band_ - wash, Course::lost, true);
  add("Ferment", "more than the bill promised", wash - band_, Course::in, false);
  band_ = wash;
  measured_ = true;
}

void Builder::strip() {
  const std::vector<journal::AccountStep> of = steps(journal::Stage::strip);
  if (of.empty()) {
    if (yield("Strip") == nullptr) return;
    mark("Strip", measured_);
    measured_ = false;
    planned("Strip", band_);
    return;
  }
  mark("Strip", measured_);
  double taken = 0.0;
  double through = 0.0;
  for (const journal::AccountStep& step : of) {
    taken += step.in.value.litres();
    through += step.out.value.litres();
  }
  double away = named("Strip", of);
  const double rest = band_ - taken;
  const bool more = rest > untold * band_ && !batch_.closed && yield("Strip") != nullptr;
  if (more) {
    const Exits expected = exits("Strip", rest);
    away += draw("Strip", expected);
    through += expected.through;
  }
  settle("Strip", band_ - away - through);
  band_ = through;
  measured_ = !more;
}

void Builder::spirit_run() {
  mark("Spirit run", measured_);
  const std::vector<journal::AccountStep> of = steps(journal::Stage::spirit_run);
  const CutLots cut = cut_lots(record_);
  if (of.empty() && !(cut.hearts > 0.0)) {
    measured_ = false;
    planned("Spirit run", band_);
    return;
  }
  const LowWines low = low_wines(record_);
  double charged = 0.0;
  double charged_sd = 0.0;
  double ran = 0.0;
  for (const journal::AccountStep& step : of) {
    charged += step.in.value.litres();
    charged_sd = std::hypot(charged_sd, step.in.sd.litres());
    ran += step.out.value.litres();
  }
  double away = named("Spirit run", of);
  double through = cut.hearts;
  // Beside the low wines of the batch; less than it is known by is nothing.
  const double feints = charged - low.charged;
  if (low.charged > 0.0 && feints > numeric::half_of_80 * charged_sd) {
    add("Spirit run", "feints put in", feints, Course::in, false);
    away -= feints;
  }
  add("Spirit run", "low wines kept", low.left, Course::kept, false);
  add("Spirit run", "feints kept", cut.feints, Course::kept, false);
  add("Spirit run", "set apart", cut.apart, Course::kept, false);
  add("Spirit run", "foreshots set away", cut.foreshots, Course::lost, false);
  away += low.left + cut.feints + cut.apart + cut.foreshots;
  // In jars, and not cut yet; or in a pot that still runs.
  const double in_jars = cut.some_uncut ? std::max(0.0, ran - cut.all()) : 0.0;
  measured_ = true;
  for (const double open : {in_jars > untold * ran ? in_jars : 0.0, low.running}) {
    if (open <= drawn_L) continue;
    Exits expected = exits("Spirit run", open, false);
    if (open == in_jars) {  // what stays in the pot does not come out of the jars
      std::erase_if(expected.others, [](const plan::LedgerEntry& entry) {
        return entry.flow == plan::Flow::lost && !entry.name.ends_with("set away");
      });
      double whole = expected.through;
      for (const auto& entry : expected.others) whole += entry.pure_alcohol.litres();
      if (whole <= 0.0) continue;
      expected.through *= open / whole;
      for (auto& entry : expected.others)
        entry.pure_alcohol = entry.pure_alcohol * (open / whole);
    }
    away += draw("Spirit run", expected);
    through += expected.through;
    measured_ = false;
  }
  settle("Spirit run", band_ - away - through);
  band_ = through;
}

// Where the hearts went, by the lots that were made of them.
void Builder::later() {
  const LotsFlow lots = lots_flow(record_);
  if (yield("Reduce") != nullptr || !lots.exits.empty()) mark("Reduce", measured_);
  for (const LotsFlow::Exit& exit : lots.exits) {
    if (exit.course == Course::lost && exit.name.empty()) {
      settle(exit.stage, exit.litres);
    } else {
      add(exit.stage, exit.name, exit.litres, exit.course, false);
    }
  }
  // The part of the band that no lot holds yet is planned.
  const double planned_hearts = std::max(0.0, band_ - lots.hearts_made);
  double hearts = lots.hearts + planned_hearts;
  double reduced = lots.reduced;
  if (yield("Wood") != nullptr || lots.laid_on_wood > 0.0) {
    mark("Wood", measured_ && hearts <= drawn_L);
  }
  const bool all_told = measured_ && hearts + reduced + lots.on_wood + lots.off_wood <= drawn_L;
  mark("Bottle", all_told);
  ahead(hearts, reduced, lots);
  add("Bottle", "in bottles", lots.bottled, Course::out, false);
}

// What stands goes on by the plan; in a closed batch it stays where it stands.
void Builder::ahead(double hearts, double reduced, const LotsFlow& lots) {
  if (batch_.closed) {
    add("Bottle", "left standing", hearts + reduced + lots.on_wood + lots.off_wood, Course::out,
        false);
    return;
  }
  if (yield("Reduce") != nullptr && hearts > drawn_L) {
    const Exits of = exits("Reduce", hearts);
    draw("Reduce", of);
    reduced += of.through;
    hearts = 0.0;
  }
  double bottling = lots.off_wood + hearts + reduced;
  if (yield("Wood") != nullptr) {
    // The plan is of what was laid on wood; of its samples those drawn are not ahead.
    const double laid = hearts + reduced;
    Exits of = exits("Wood", laid + lots.laid_on_wood);
    double drawn = lots.laid_on_wood - lots.on_wood;
    for (plan::LedgerEntry& entry : of.others) {
      if (entry.flow != plan::Flow::out) continue;
      const double gone = std::clamp(drawn, 0.0, entry.pure_alcohol.litres());
      entry.pure_alcohol -= units::Volume::litres(gone);
      drawn -= gone;
    }
    const double stands = laid + lots.on_wood;
    double away = 0.0;
    for (const plan::LedgerEntry& entry : of.others) away += entry.pure_alcohol.litres();
    if (stands > drawn_L && away < stands) {
      draw("Wood", of);
      bottling = lots.off_wood + stands - away;
    }
  } else {
    bottling += lots.on_wood;
  }
  if (bottling <= drawn_L) return;
  Exits of = exits("Bottle", bottling);
  for (const plan::LedgerEntry& entry : of.others) {
    if (entry.flow == plan::Flow::out) {
      add("Bottle", entry.name, entry.pure_alcohol.litres(), Course::out, true);
    }
  }
  std::erase_if(of.others,
                [](const plan::LedgerEntry& e) { return e.flow == plan::Flow::out; });
  draw("Bottle", of);
  add("Bottle", "in bottles", of.through, Course::out, true);
}

RecordStream Builder::finished() {
  RecordStream stream;
  double now = 0.0;
  for (const char* stage :
       {"Mash bill", "Mash", "Ferment", "Strip", "Spirit run", "Reduce", "Wood", "Bottle"}) {
    std::vector<Flow>& of = flows_[stage];
    join_small(of);
    // What comes in stands first, so that it can leave; never more leaves than there is.
    std::stable_partition(of.begin(), of.end(),
                          [](const Flow& flow) { return flow.course == Course::in; });
    double after = now;
    for (const Flow& flow : of) {
      if (flow.course == Course::out) continue;
      after += flow.course == Course::in ? flow.amount.litres() : -flow.amount.litres();
    }
    if (after < -drawn_L) {
      of.insert(of.begin(),
                {stage, more_found, units::Volume::litres(-after), Course::in, false});
      after = 0.0;
    }
    now = after;
    for (Flow& flow : of) stream.flows.push_back(std::move(flow));
  }
  stream.stages = marks_;
  return stream;
}

}  // namespace

RecordStream record_stream(const Record& record) { return Builder(record).make(); }

std::optional<Drawing> record_stream_picture(const Record& record) {
  const RecordStream of = record_stream(record);
  if (of.flows.empty()) return std::nullopt;
  StreamOptions options;
  options.band_mm = 15.0;
  options.unit = volume_unit(record.system);
  if (record.system == units::System::us) options.one_unit = units::Volume::us_gallons(1.0);
  options.stages = of.stages;
  const Stream stream = draw(of.flows, options);
  return Drawing{stream.svg, stream.width_mm, stream.height_mm, stream.labels};
}

}  // namespace lynearm::sheet
