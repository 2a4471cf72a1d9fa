// Which house a command works on: --data FOLDER, or --store URL, as "lynearm serve" has them.
#pragma once

#include <cstddef>
#include <string>
#include <string_view>
#include <vector>

#include "cli/arguments.hpp"
#include "cli/command.hpp"
#include "store/house.hpp"

namespace lynearm::cli {

/// Where a house is kept when nothing is said: the user's own data folder.
[[nodiscard]] std::string usual_folder();

/// The command's options, and these two.
[[nodiscard]] std::vector<Option> with_place(std::vector<Option> options);

/// Where the house is.
[[nodiscard]] store::Place asked_place(Arguments& arguments, bool only_read);

/// What `work` returns; refusals of "store" are told under the option that told the place,
/// those of `field` under `name`. The value told is the store's own, which holds no password.
template <class Work>
auto in_house(const store::Place& place, std::string_view field, std::string_view name,
              const Work& work) {
  return with_names({{"store", place.database.empty() ? "--data" : "--store"}, {field, name}},
                    work);
}

/// "1 entry", "262 entries".
[[nodiscard]] std::string counted(std::size_t number, const std::string& one,
                                  const std::string& several);

}  // namespace lynearm::cli
