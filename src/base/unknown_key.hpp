// What a fault holds in the place of a value when the field itself is not known: a key that is
// misspelt, or belongs elsewhere. sentence() then says so; `accepted` goes on from there, as
// accepted_keys() writes it.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace lynearm::base {

inline constexpr std::string_view unknown_key = "an unknown key";

/// `did you mean "time"? Accepted are the keys temperature, time`, or without a near one
/// `accepted are the keys temperature, time`.
[[nodiscard]] std::string accepted_keys(std::string_view unknown,
                                        const std::vector<std::string>& known);

}  // namespace lynearm::base
