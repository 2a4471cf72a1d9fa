#include "still/follow_rules.hpp"

#include <fmt/format.h>

namespace lynearm::still {
namespace {

struct Printed {
  std::string operator()(units::Volume v) const { return fmt::format("{:.3f} L", v.litres()); }
  std::string operator()(units::VolumeStrength s) const {
    return fmt::format("{:.1f} %vol", s.percent());
  }
  std::string operator()(units::Temperature t) const {
    return fmt::format("{:.1f} °C", t.celsius());
  }
};

// Volume and head temperature rise during a run, strength falls.
bool out_of_order(const BorderPair& pair) {
  if (pair.earlier == pair.later) return !pair.may_meet;
  return std::holds_alternative<units::VolumeStrength>(pair.earlier)
             ? pair.later > pair.earlier
             : pair.later < pair.earlier;
}

}  // namespace

std::string_view words(Decision decision) {
  switch (decision) {
    case Decision::first_drops:
      return "first drops";
    case Decision::foreshots_end:
      return "foreshots end";
    case Decision::heads_end:
      return "heads end";
    case Decision::tails_near:
      return "tails near";
    case Decision::hearts_end:
      return "hearts end";
    case Decision::stop:
      return "stop";
    case Decision::pot_low:
      return "pot low";
  }
  return "";
}

std::string_view key(Decision decision) {
  switch (decision) {
    case Decision::first_drops:
      return "first_drops";
    case Decision::foreshots_end:
      return "foreshots_end";
    case Decision::heads_end:
      return "heads_end";
    case Decision::tails_near:
      return "tails_near";
    case Decision::hearts_end:
      return "hearts_end";
    case Decision::stop:
      return "stop";
    case Decision::pot_low:
      return "pot_low";
  }
  return "";
}

std::string print(const Border& border) { return std::visit(Printed{}, border); }

std::vector<BorderPair> border_pairs(const CutRules& rules) {
  std::vector<BorderPair> pairs;
  const auto add = [&pairs](const auto& earlier, std::string_view earlier_field,
                            std::string_view name, const auto& later,
                            std::string_view later_field, bool may_meet) {
    if (earlier && later) {
      pairs.push_back({earlier_field, later_field, name, *earlier, *later, may_meet});
    }
  };
  add(rules.heads_end, "rules.heads_end", "the end of the heads", rules.hearts_end,
      "rules.hearts_end", false);
  add(rules.hearts_end, "rules.hearts_end", "the end of the hearts", rules.stop, "rules.stop",
      true);
  // With hearts between them the two pairs above say it.
  if (!rules.hearts_end) {
    add(rules.heads_end, "rules.heads_end", "the end of the heads", rules.stop, "rules.stop",
        false);
  }
  return pairs;
}

base::Fault fault_of(const BorderPair& pair) {
  return {
      std::string(pair.later_field),
      print(pair.later),
      fmt::format("a border that comes after {}, {}", pair.earlier_name, print(pair.earlier)),
      "",
      0,
      0};
}

std::vector<base::Fault> faults_of(const CutRules& rules) {
  std::vector<base::Fault> faults;
  for (const BorderPair& pair : border_pairs(rules)) {
    if (pair.of_one_kind() && out_of_order(pair)) faults.push_back(fault_of(pair));
  }
  // Stop and heads of one kind, hearts of another between them.
  if (rules.heads_end && rules.hearts_end && rules.stop) {
    const BorderPair ends{"rules.heads_end", "rules.stop", "the end of the heads",
                          *rules.heads_end,  *rules.stop,  false};
    const bool between_differs = rules.hearts_end->index() != rules.stop->index();
    if (between_differs && ends.of_one_kind() && out_of_order(ends)) {
      faults.push_back(fault_of(ends));
    }
  }
  return faults;
}

}  // namespace lynearm::still
