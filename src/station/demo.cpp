#include "station/demo.hpp"

#include <string>

namespace lynearm::station {

// Written by tools/embed_texts.py when the program is built; see CMakeLists.txt.
namespace demo_texts {
std::string_view journal();
std::string_view tern_7_recipe();
std::string_view tern_7_kit();
std::string_view tern_8_recipe();
std::string_view tern_8_kit();
std::string_view ill_fitting_recipe();
std::string_view ill_fitting_kit();
}  // namespace demo_texts

std::string_view demo_journal() { return demo_texts::journal(); }

std::vector<wire::Example> demo_examples() {
  const auto example = [](const char* name, const char* remark, std::string_view recipe,
                          std::string_view kit) {
    return wire::Example{name, remark, std::string(recipe), std::string(kit)};
  };
  return {
      example("Tern 8", "Maize, rye and barley, part of the alcohol from sugar. Invented.",
              demo_texts::tern_8_recipe(), demo_texts::tern_8_kit()),
      example("Tern 7", "Oats and rye, no sugar. Invented.", demo_texts::tern_7_recipe(),
              demo_texts::tern_7_kit()),
      example("The ill-fitting batch",
              "Wrong at nearly every stage: a lesson in findings, not to be made. Invented.",
              demo_texts::ill_fitting_recipe(), demo_texts::ill_fitting_kit()),
  };
}

}  // namespace lynearm::station
