#include "wire/cut_names.hpp"

#include <optional>

#include "base/error.hpp"

namespace lynearm::wire {
namespace {

using units::Volume;

// Where the hearts begin and end, by what had run before, both at 20 °C.
struct Ends {
  Volume from, to;
};

std::optional<Ends> ends_of(const std::vector<still::Jar>& jars,
                            const still::Allotment& allotment) {
  std::optional<Ends> ends;
  Volume before;
  for (const std::size_t i : still::running_order(jars)) {
    const Volume hearts = allotment[i].hearts;
    if (hearts >= same_pour) {
      if (!ends) ends = Ends{before + (jars[i].volume - hearts), {}};
      ends->to = before + hearts;
    }
    before = before + jars[i].volume;
  }
  return ends;
}

}  // namespace

std::string cut_name(const std::vector<still::Jar>& jars, const still::Alternative& one,
                     const still::Alternative& proposed) {
  base::ensure(one.allotment.size() == jars.size() && proposed.allotment.size() == jars.size(),
               "one part for each jar");
  const auto against = [](Volume is, Volume was, const char* below, const char* above) {
    if (is < was - same_pour) return below;
    return is > was + same_pour ? above : "";
  };
  std::string name =
      against(one.outcome.hearts.volume, proposed.outcome.hearts.volume, "less", "more");
  if (name.empty()) name = "as much";
  name += " of it";
  const std::optional<Ends> ends = ends_of(jars, one.allotment);
  const std::optional<Ends> other = ends_of(jars, proposed.allotment);
  if (!ends || !other) return name;
  const std::string begun =
      against(ends->from, other->from, ", begun earlier", ", begun later");
  const std::string ended = against(ends->to, other->to, ", ended earlier", ", ended later");
  if (begun.empty() && ended.empty()) return name + ", between the same ends";
  return name + begun + ended;
}

}  // namespace lynearm::wire
