// What a charge would leave over the boiler's element, for a page. The shape is that of
// web/api/openapi.yaml.
#pragma once

#include <string>

#include "plan/charge_left.hpp"

namespace lynearm::wire {

/// The text under /batches/{batch}/charge of the server. What is not known is an absent key.
[[nodiscard]] std::string charge_left_json(const plan::ChargeLeft& of);

}  // namespace lynearm::wire
