#include "cli/house_place.hpp"

#include <fmt/format.h>

#include <cstdlib>
#include <iterator>
#include <utility>

namespace lynearm::cli {
namespace {

constexpr const char* option_data = "--data";
constexpr const char* option_store = "--store";

}  // namespace

std::string usual_folder() {
  const char* const data = std::getenv("XDG_DATA_HOME");
  if (data != nullptr && *data != '\0') return std::string(data) + "/lynearm";
  const char* const home = std::getenv("HOME");
  return home != nullptr && *home != '\0' ? std::string(home) + "/.local/share/lynearm"
                                          : "lynearm-house";
}

std::vector<Option> with_place(std::vector<Option> options) {
  options.push_back(
      {option_data, "FOLDER", "where the house is kept; the user's data folder by default"});
  options.push_back(
      {option_store, "URL", "a PostgreSQL database instead: \"postgresql://host/house\""});
  return options;
}

store::Place asked_place(Arguments& arguments, bool only_read) {
  store::Place place;
  place.only_read = only_read;
  if (arguments.has(option_store)) {
    place.database =
        arguments.required_text(option_store, "a connection such as postgresql://host/house");
  }
  if (arguments.has(option_data)) {
    place.folder = arguments.required_text(option_data, "the path of a folder");
  } else if (place.database.empty()) {
    place.folder = usual_folder();
  }
  return place;
}

std::string counted(std::size_t number, const std::string& one, const std::string& several) {
  return fmt::format("{} {}", number, number == 1 ? one : several);
}

}  // namespace lynearm::cli
