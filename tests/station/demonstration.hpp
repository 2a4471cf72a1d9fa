// The invented house, folded, for this room's tests.
#pragma once

#include <sstream>
#include <stdexcept>
#include <string>
#include <vector>

#include "journal/fold.hpp"
#include "station/demo.hpp"
#include "wire/entry.hpp"

namespace lynearm::station {

inline const std::vector<journal::Entry>& demo_entries() {
  static const std::vector<journal::Entry> all = [] {
    std::vector<journal::Entry> read;
    std::istringstream lines{std::string(demo_journal())};
    for (std::string line; std::getline(lines, line);) {
      const wire::EntryRead one = wire::read_entry(line, "line");
      if (!one.entry) throw std::runtime_error(line);
      read.push_back(*one.entry);
    }
    return read;
  }();
  return all;
}

inline const journal::HouseState& demo_house() {
  static const journal::HouseState folded = journal::fold(demo_entries());
  return folded;
}

inline const journal::BatchState& demo_batch(const std::string& name) {
  for (const auto& [id, of] : demo_house().batches) {
    if (of.name == name) return of;
  }
  throw std::runtime_error("no batch " + name);
}

/// The text of an example's recipe and kit.
inline const wire::Example& demo_example(const std::string& name) {
  static const std::vector<wire::Example> all = demo_examples();
  for (const wire::Example& one : all) {
    if (one.name == name) return one;
  }
  throw std::runtime_error("no example " + name);
}

}  // namespace lynearm::station
