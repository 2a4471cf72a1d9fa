#include "still/jar.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cstdint>
#include <map>
#include <numeric>
#include <utility>

#include "base/error.hpp"

namespace lynearm::still {
namespace {

using Faults = std::vector<base::Fault>;
using LoadOf = std::optional<Load> Jar::*;

struct Group {
  LoadOf load;
  const char* name;
};
constexpr Group groups[] = {
    {&Jar::early, "early"}, {&Jar::middle, "middle"}, {&Jar::late, "late"}};

void tell(Faults& faults, std::size_t jar, const char* field, std::string value,
          std::string accepted) {
  faults.push_back({fmt::format("jars[{}].{}", jar, field), std::move(value),
                    std::move(accepted), "", 0, 0});
}

void check_labels(const std::vector<Jar>& jars, Faults& faults) {
  std::map<std::string, std::size_t> seen;
  for (std::size_t i = 0; i < jars.size(); ++i) {
    const std::string& label = jars[i].label;
    if (label.empty()) {
      tell(faults, i, "label", "", "a number or a name");
    } else if (!seen.emplace(label, i).second) {
      tell(faults, i, "label", label, "a label that no other jar has");
    }
  }
}

void check_amount(const Jar& jar, std::size_t i, Faults& faults) {
  if (!(jar.volume > units::Volume{} && jar.volume <= units::Volume::litres(1e5))) {
    tell(faults, i, "volume", fmt::format("{:.6g} L", jar.volume.litres()),
         "a volume above zero, to 100000 L");
  }
  if (!(jar.strength > units::VolumeStrength{} && jar.strength <= strongest_jar)) {
    tell(faults, i, "strength", fmt::format("{:.6g} %vol", jar.strength.percent()),
         fmt::format("a strength above 0, to {:.0f} %vol: no still passes the azeotrope",
                     strongest_jar.percent()));
  }
  if (!(jar.fault >= 0.0 && jar.fault <= 10.0)) {
    tell(faults, i, "fault", fmt::format("{:.6g}", jar.fault),
         "a mark from 0 (nothing found) to 10 (spoiled)");
  }
}

void check_loads(const std::vector<Jar>& jars, const Group& group, Faults& faults) {
  std::size_t stated = 0;
  for (const Jar& jar : jars) stated += (jar.*group.load).has_value() ? 1U : 0U;
  for (std::size_t i = 0; i < jars.size(); ++i) {
    const std::optional<Load>& load = jars[i].*group.load;
    if (!load) {
      if (stated > 0)
        tell(faults, i, group.name, "", "a load as in the other jars, or none in any");
      continue;
    }
    const bool sound = load->low >= units::Mass{} && load->mass >= load->low &&
                       load->high >= load->mass && load->high <= lot_of(jars[i]).mass();
    if (!sound) {
      tell(faults, i, group.name, fmt::format("{:.6g} g", load->mass.grams()),
           "a mass from zero to that of the jar, within its band");
    }
  }
}

// The number a label is, if it is one.
std::optional<std::int64_t> number_of(const std::string& label) {
  std::int64_t number = 0;
  const char* const end = label.data() + label.size();
  const auto [stop, error] = std::from_chars(label.data(), end, number);
  if (error != std::errc{} || stop != end) return std::nullopt;
  return number;
}

}  // namespace

void check(const std::vector<Jar>& jars) {
  if (jars.empty() || jars.size() > most_jars) {
    throw base::InputError("jars", jars.empty() ? "" : fmt::format("{} jars", jars.size()),
                           fmt::format("1 to {} jars", most_jars));
  }
  Faults faults;
  check_labels(jars, faults);
  for (std::size_t i = 0; i < jars.size(); ++i) check_amount(jars[i], i, faults);
  // A load is held against the jar's mass, which needs a sound jar.
  if (faults.empty()) {
    for (const Group& group : groups) check_loads(jars, group, faults);
  }
  if (!faults.empty()) throw base::InputError(std::move(faults));
}

void require_loads(const std::vector<Jar>& jars) {
  for (std::size_t i = 0; i < jars.size(); ++i) {
    const char* missing = !jars[i].early    ? "early"
                          : !jars[i].middle ? "middle"
                          : !jars[i].late   ? "late"
                                            : nullptr;
    if (missing == nullptr) continue;
    throw base::InputError(fmt::format("jars[{}].{}", i, missing), "",
                           "a load, stated or estimated");
  }
}

std::vector<std::size_t> running_order(const std::vector<Jar>& jars) {
  std::vector<std::size_t> order(jars.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::vector<std::int64_t> numbers;
  for (const Jar& jar : jars) {
    const auto number = number_of(jar.label);
    if (!number) return order;
    numbers.push_back(*number);
  }
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return numbers[a] < numbers[b]; });
  return order;
}

}  // namespace lynearm::still
