#include "journal/standing.hpp"

#include <algorithm>
#include <unordered_map>

namespace lynearm::journal {
namespace {

struct HashId {
  std::size_t operator()(const Id& id) const {
    std::size_t hash = 1469598103934665603ULL;
    for (const std::uint8_t byte : id.bytes()) hash = (hash ^ byte) * 1099511628211ULL;
    return hash;
  }
};

struct Node {
  const Entry* entry = nullptr;
  std::vector<std::size_t> corrections;  ///< that name it
  /// What it says in the end; null when it never happened.
  const Entry* says = nullptr;
};

using Nodes = std::vector<Node>;
using ById = std::unordered_map<Id, std::size_t, HashId>;

bool strikes(const Entry& entry) { return std::holds_alternative<Struck>(entry.body); }

// When it was written down, by the house's clock as far as that is known.
Moment written(const Entry& entry) {
  return {(entry.id.version() == 7 ? entry.id.made() : entry.at).milliseconds -
          entry.clock_ahead_ms};
}

// Why a correction can have no effect on what was first told; empty when it can.
std::string idle_because(const Entry& correction, const Entry& first) {
  if (!strikes(correction) && kind_of(correction.body) != kind_of(first.body)) {
    return "it is of another kind than what it corrects";
  }
  if (correction.batch != first.batch) return "it is of another batch than what it corrects";
  return {};
}

// Of the corrections that were not struck out themselves, the last made.
const Entry* last_correction(const Node& node, const Nodes& nodes) {
  const Node* last = nullptr;
  for (const std::size_t i : node.corrections) {
    const Node& one = nodes[i];
    if (one.says == nullptr) continue;
    const auto later = [](const Entry& a, const Entry& b) {
      const Moment of_a = written(a);
      const Moment of_b = written(b);
      return of_a != of_b ? of_a < of_b : a.id < b.id;
    };
    if (last == nullptr || later(*last->entry, *one.entry)) last = &one;
  }
  return last == nullptr ? nullptr : last->says;
}

// One first telling with all that corrects it.
void settle(std::size_t root, Nodes& nodes, std::vector<char>& reached, Standings& result) {
  std::vector<std::size_t> tree{root};
  reached[root] = 1;
  for (std::size_t i = 0; i < tree.size(); ++i) {
    for (const std::size_t correction : nodes[tree[i]].corrections) {
      reached[correction] = 1;
      tree.push_back(correction);
    }
  }
  const Entry& first = *nodes[root].entry;
  int corrections = 0;
  // Corrections before what they correct.
  for (auto i = tree.rbegin(); i != tree.rend(); ++i) {
    Node& node = nodes[*i];
    bool counts = true;
    if (*i != root) {
      std::string why = idle_because(*node.entry, first);
      counts = why.empty();
      if (counts) {
        ++corrections;
      } else {
        result.idle.push_back({node.entry->id, std::move(why)});
      }
    }
    const Entry* const said = last_correction(node, nodes);
    if (said == nullptr) {
      node.says = counts ? node.entry : nullptr;
    } else {
      node.says = strikes(*said) ? nullptr : said;
    }
  }
  if (strikes(first)) {
    result.idle.push_back({first.id, "it strikes out, but names no entry"});
  } else if (const Entry* const said = nodes[root].says) {
    result.entries.push_back({first.id, said, corrections, happened(*said)});
  } else {
    result.struck.push_back(first.id);
  }
}

}  // namespace

Standings standings(std::span<const Entry> entries) {
  Nodes nodes;
  ById by_id;
  nodes.reserve(entries.size());
  by_id.reserve(entries.size());
  for (const Entry& entry : entries) {
    if (by_id.emplace(entry.id, nodes.size()).second) nodes.push_back({&entry, {}, nullptr});
  }
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    if (!nodes[i].entry->corrects) continue;
    const auto of = by_id.find(*nodes[i].entry->corrects);
    if (of != by_id.end()) nodes[of->second].corrections.push_back(i);
  }

  Standings result;
  result.entries.reserve(nodes.size());
  std::vector<char> reached(nodes.size(), 0);
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    if (!nodes[i].entry->corrects) settle(i, nodes, reached, result);
  }
  for (std::size_t i = 0; i < nodes.size(); ++i) {
    if (reached[i] == 0) {
      result.idle.push_back(
          {nodes[i].entry->id,
           "what it corrects is not in the journal, or goes round in a circle"});
    }
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
