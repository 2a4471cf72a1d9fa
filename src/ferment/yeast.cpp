#include "ferment/yeast.hpp"

#include <string>

#include "base/error.hpp"

namespace lynearm::ferment {

const std::vector<Yeast>& yeasts() {
  static const std::vector<Yeast> rows = {
#include "ferment/yeasts.inc"
  };
  return rows;
}

const Yeast& yeast(std::string_view id) {
  std::string ids;
  for (const Yeast& row : yeasts()) {
    if (row.id == id) return row;
    ids += ids.empty() ? "one of " : ", ";
    ids += row.id;
  }
  throw base::InputError("yeast", std::string(id), ids);
}

std::string_view yeast_name(std::string_view told) {
  for (const Yeast& row : yeasts()) {
    if (row.id == told) return row.name;
  }
  return told;
}

}  // namespace lynearm::ferment
