// Secrets: made by the system's random source, kept as hashes only, compared by hash. The only
// includer of libsodium.
#pragma once

#include <string>
#include <string_view>

namespace lynearm::serve {

/// 256 bits for a device to carry, 43 characters of URL-safe base64.
[[nodiscard]] std::string new_token();

/// 128 bits that pair one phone once, 22 characters of URL-safe base64.
[[nodiscard]] std::string new_code();

/// 64 bits as 16 hexadecimal digits: names a device or a fault; no secret.
[[nodiscard]] std::string short_id();

/// BLAKE2b, 256 bits, as 64 hexadecimal digits. Tokens are random and long, so no slow hash and
/// no salt is needed: nobody tries 2^256 of them.
[[nodiscard]] std::string hash_of(std::string_view secret);

}  // namespace lynearm::serve
