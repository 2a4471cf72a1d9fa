// A recipe file is anything at all. It must be read, or refused as InputError with each fault
// at a place inside the text; nothing else may be thrown.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>

#include "base/error.hpp"
#include "recipe/reader.hpp"
#include "units/quantity.hpp"

namespace {

using namespace lynearm;

struct Sample {
  units::Mass mass;
  units::Temperature warmth;
  std::vector<std::string> notes;
  units::Spread<units::Share> share;
};

// One key of each sort that a recipe has.
Sample sample(recipe::Section& in) {
  return {.mass = in.required<units::Mass>("mass", "a mass"),
          .warmth = in.optional<units::Temperature>("warmth", "a temperature",
                                                    units::Temperature::celsius(66.0)),
          .notes = in.list<std::string>("notes", "words"),
          .share = in.spread<units::Share>("share", "a share", {}, {})};
}

void hold(bool holds) {
  if (!holds) std::abort();  // libFuzzer keeps the text that led here
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  const auto lines = 1 + std::count(text.begin(), text.end(), '\n');
  try {
    (void)recipe::read(text, "sample.toml", sample);
  } catch (const base::InputError& error) {
    hold(!error.faults().empty());
    for (const base::Fault& fault : error.faults()) {
      hold(!fault.accepted.empty());
      hold(fault.line >= 0 && fault.line <= lines + 1);
    }
  }
  return 0;
}
