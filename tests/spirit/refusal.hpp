// The fault an act is refused with, for tests that hold a refusal to its words.
#pragma once

#include "base/error.hpp"

namespace lynearm::spirit {

template <class Act>
base::Fault fault_of(Act act) {
  try {
    static_cast<void>(act());
  } catch (const base::InputError& error) {
    return error.faults().front();
  }
  return {"nothing was refused", "", "", "", 0, 0};
}

}  // namespace lynearm::spirit
