// A refusal in the words of whoever asked: an engine's arguments have other names than the
// options of a command line and the fields of a request.
#pragma once

#include <initializer_list>
#include <string_view>
#include <utility>
#include <vector>

#include "base/error.hpp"

namespace lynearm::base {

/// What `work` returns; where it refuses a field that has another name here, the refusal
/// carries that name.
///
/// names      theirs and ours, as {"shown", "flask_weight"}
template <class Work>
auto with_names(std::initializer_list<std::pair<std::string_view, std::string_view>> names,
                const Work& work) {
  try {
    return work();
  } catch (const InputError& error) {
    std::vector<Fault> faults = error.faults();
    for (Fault& fault : faults) {
      for (const auto& [theirs, ours] : names) {
        if (fault.field != theirs) continue;
        fault.field = ours;
        break;
      }
    }
    throw InputError(std::move(faults));
  }
}

}  // namespace lynearm::base
