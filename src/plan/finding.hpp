// What does not fit, or is not wise: each finding with its figure and its remedy.
#pragma once

#include <string>
#include <vector>

namespace lynearm::plan {

/// Worst first.
enum class Weight {
  stop,     ///< the plan cannot be carried out as it stands
  danger,   ///< someone could be hurt
  caution,  ///< it will work badly, or waste
  remark,   ///< worth knowing
};

[[nodiscard]] constexpr const char* words(Weight weight) {
  switch (weight) {
    case Weight::stop:
      return "does not fit";
    case Weight::danger:
      return "danger";
    case Weight::caution:
      return "caution";
    case Weight::remark:
      return "remark";
  }
  return "";
}

struct Finding {
  Weight weight = Weight::remark;
  std::string code;    ///< stable, for scripts: "vessel-overfilled"
  std::string stage;   ///< "Mash", "Strip", ...
  std::string says;    ///< what was found, with its figure
  std::string remedy;  ///< what to do about it

  friend bool operator==(const Finding&, const Finding&) = default;
};

/// Worst first; within one weight in the order of the stages.
void sort_findings(std::vector<Finding>& findings);

}  // namespace lynearm::plan
