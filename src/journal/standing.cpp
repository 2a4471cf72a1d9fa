#include "journal/standing.hpp"

#include <algorithm>
#include <unordered_map>

namespace lynearm::journal {
namespace {

struct HashId {
  std::size_t operator()(const Id& id) const {
    // The last eight bytes are random in what we make; all sixteen, for what others make.
    std::size_t hash = 1469598103934665603ULL;
    for (const std::uint8_t byte : id.bytes()) hash = (hash ^ byte) * 1099511628211ULL;
    return hash;
  }
};
using ById = std::unordered_map<Id, const Entry*, HashId>;

// The first telling at the end of a chain of corrections; null when the chain leads nowhere.
const Entry* first_telling(const Entry& entry, const ById& by_id) {
  const Entry* at = &entry;
  for (std::size_t steps = 0; at->corrects; ++steps) {
    const auto next = by_id.find(*at->corrects);
    if (next == by_id.end() || steps > by_id.size()) return nullptr;
    at = next->second;
  }
  return at;
}

}  // namespace

Standings standings(std::span<const Entry> entries) {
  ById by_id;
  by_id.reserve(entries.size());
  for (const Entry& entry : entries) by_id.emplace(entry.id, &entry);

  Standings result;
  struct Telling {
    const Entry* last = nullptr;
    int corrections = 0;
  };
  std::unordered_map<Id, Telling, HashId> told;
  told.reserve(by_id.size());
  for (const auto& [id, entry] : by_id) {
    const Entry* const first = first_telling(*entry, by_id);
    if (first == nullptr) {
      result.idle.push_back({id, "what it corrects is not in the journal"});
      continue;
    }
    Telling& telling = told[first->id];
    if (entry == first) {
      if (std::holds_alternative<Struck>(entry->body)) {
        result.idle.push_back({id, "it strikes out, but names no entry"});
      }
    } else {
      const bool strikes = std::holds_alternative<Struck>(entry->body);
      if (!strikes && kind_of(entry->body) != kind_of(first->body)) {
        result.idle.push_back({id, "it is of another kind than what it corrects"});
        continue;
      }
      if (entry->batch != first->batch) {
        result.idle.push_back({id, "it is of another batch than what it corrects"});
        continue;
      }
      ++telling.corrections;
      if (telling.last == nullptr || telling.last->id < entry->id) telling.last = entry;
    }
  }

  for (const auto& [id, telling] : told) {
    const Entry* const first = by_id.at(id);
    if (std::holds_alternative<Struck>(first->body)) continue;
    const Entry* const said = telling.last != nullptr ? telling.last : first;
    if (std::holds_alternative<Struck>(said->body)) {
      result.struck.push_back(id);
      continue;
    }
    result.entries.push_back({id, said, telling.corrections, happened(*said)});
  }
  std::sort(result.entries.begin(), result.entries.end(),
            [](const Standing& a, const Standing& b) {
              return a.happened != b.happened ? a.happened < b.happened : a.id < b.id;
            });
  std::sort(result.struck.begin(), result.struck.end());
  std::sort(result.idle.begin(), result.idle.end(),
            [](const Idle& a, const Idle& b) { return a.id < b.id; });
  return result;
}

}  // namespace lynearm::journal
