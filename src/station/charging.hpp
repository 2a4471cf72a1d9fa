// A charge before its heat is on, as a page asks of it: what it leaves over the element, by the
// batch's plan or, where it has none, by the house's kit.
#pragma once

#include "journal/state.hpp"
#include "plan/charge_left.hpp"
#include "station/station.hpp"
#include "wire/ask.hpp"

namespace lynearm::station {

/// returns    nothing known where the batch has no plan and the house no kit, or none that
/// reads throws     InputError at a field of the request, of the recipe, or of the kit
/// ("kit."), as
///            Station::plan and plan::charge_left do
[[nodiscard]] plan::ChargeLeft charge_left(Station& station, const journal::HouseState& house,
                                           const journal::BatchState& batch,
                                           const wire::ChargeAsked& asked);

}  // namespace lynearm::station
