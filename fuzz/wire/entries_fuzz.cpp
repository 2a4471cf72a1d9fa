// Entries come from phones, scripts and other houses' journals. Whatever is posted, it is read
// or told; what is read prints and reads back the same, and folds to a state that can be shown.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "journal/fold.hpp"
#include "wire/entry.hpp"
#include "wire/house.hpp"

namespace {

using namespace lynearm;

void hold(bool holds) {
  if (!holds) std::abort();  // libFuzzer keeps the text that led here
}

std::vector<journal::Entry> posted(std::string_view text) {
  try {
    return wire::read_entries(text);
  } catch (const base::InputError& error) {
    hold(!error.faults().empty());
    for (const base::Fault& fault : error.faults()) {
      hold(!fault.field.empty() && !fault.accepted.empty());
    }
    return {};
  }
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  std::vector<journal::Entry> entries = posted(text);
  const wire::EntryRead one = wire::read_entry(text);
  hold(one.entry.has_value() == one.faults.empty());
  if (one.entry) entries.push_back(*one.entry);
  for (const journal::Entry& entry : entries) {
    const std::string printed = wire::entry_json(entry);
    const wire::EntryRead again = wire::read_entry(printed);
    hold(again.entry && *again.entry == entry);
    hold(wire::entry_json(*again.entry) == printed);
  }
  const journal::HouseState house = journal::fold(entries);
  hold(!wire::house_json(house).empty() && !wire::lots_json(house).empty());
  for (const auto& [id, batch] : house.batches) hold(!wire::batch_json(house, batch).empty());
  return 0;
}
