// A computed run as jars on a shelf, so that it can be cut as recorded jars are: each with its
// early, middle and late congeners and how well they are known. Leaves out methanol, as jar.hpp
// does, and what the maker's nose would say.
#pragma once

#include <vector>

#include "still/jar.hpp"
#include "still/run.hpp"
#include "units/quantity.hpp"

namespace lynearm::still {

/// Jars of one size, numbered from 1, the last part full.
///
/// run          with congeners; else InputError("charge.congeners")
/// each         above 0 and at most 200 jars; else InputError("jar")
/// amount_factor  the charge's amounts are known to within this factor, four times in five;
///              1 or more, else InputError("amount_factor"). 1: taken as exact
/// returns      loads of which the sum over jars is what the run gave; bands of 80 % from the
///              congeners' volatilities and the amounts. A volatility off by a factor f leaves
///              the share R^f in the pot where R was left: exact without head, plates and
///              hold-up, near enough with them (tests/still/jars_of_run_test.cpp)
[[nodiscard]] std::vector<Jar> jars_of(const Run& run, units::Volume each,
                                       double amount_factor = 1.0);

}  // namespace lynearm::still
