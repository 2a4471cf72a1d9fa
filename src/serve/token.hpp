// Secrets: made by the system's random source, kept as hashes only, compared by hash. The only
// includer of libsodium.
#pragma once

#include <string>
#include <string_view>

namespace lynearm::serve {

/// 256 bits for a device to carry, 43 characters of URL-safe base64.
[[nodiscard]] std::string new_token();

/// 80 bits that pair one phone once, within minutes and at a limited rate of tries: 16 digits
/// and small letters in fours, none of which look alike, so that they can be typed on a phone.
/// "k7mq-2r9x-0fz3-81wn", in Crockford's base 32.
[[nodiscard]] std::string new_code();

/// A code as new_code() wrote it, of one that was typed: capitals, "o" for 0, "i" and "l" for
/// 1, and whatever stands or lacks between the fours.
[[nodiscard]] std::string code_typed(std::string_view typed);

/// 64 bits as 16 hexadecimal digits: names a device or a fault; no secret.
[[nodiscard]] std::string short_id();

/// BLAKE2b, 256 bits, as 64 hexadecimal digits. Tokens are random and long, so no slow hash and
/// no salt is needed: nobody tries 2^256 of them.
[[nodiscard]] std::string hash_of(std::string_view secret);

}  // namespace lynearm::serve
