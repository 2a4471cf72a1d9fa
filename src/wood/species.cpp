#include "wood/species.hpp"

#include <fmt/format.h>

#include <string>

#include "base/error.hpp"

namespace lynearm::wood {
namespace {

template <class Row>
const Row& row_of(const std::vector<Row>& rows, std::string_view id, const char* field) {
  std::vector<std::string> ids;
  for (const Row& row : rows) {
    if (row.id == id) return row;
    ids.emplace_back(row.id);
  }
  const std::string near = base::nearest_name(id, ids);
  throw base::InputError(field, std::string(id),
                         near.empty() ? fmt::format("one of {}", fmt::join(ids, ", "))
                                      : fmt::format("one such as \"{}\"", near));
}

}  // namespace

const std::vector<Species>& species() {
  static const std::vector<Species> rows = {
#include "wood/woods.inc"
  };
  return rows;
}

const std::vector<Toast>& toasts() {
  static const std::vector<Toast> rows = {
#include "wood/toasts.inc"
  };
  return rows;
}

const Species& species(std::string_view id) { return row_of(species(), id, "wood"); }

const Toast& toast(std::string_view id) { return row_of(toasts(), id, "toast"); }

Gift gift(const Species& wood, const Toast& by) {
  static const Species& oak = species("american-oak");
  static const Toast& char_3 = toast("char-3");
  const auto against = [](const Figure<units::Share>& a, const Figure<units::Share>& b) {
    return a.value / b.value;
  };
  return {against(wood.vanillin, oak.vanillin) * against(by.vanillin, char_3.vanillin),
          against(wood.lactone, oak.lactone) * against(by.lactone, char_3.lactone),
          against(wood.tannin, oak.tannin) * against(by.tannin, char_3.tannin),
          against(by.colour, char_3.colour)};
}

}  // namespace lynearm::wood
