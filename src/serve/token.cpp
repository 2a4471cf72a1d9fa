#include "serve/token.hpp"

#include <sodium.h>

#include <array>

#include "base/error.hpp"

namespace lynearm::serve {

namespace {

/// Opens the random source; harmless when done again, from any thread.
void ready() { base::ensure(sodium_init() >= 0, "the system has a random source"); }

template <std::size_t Size>
std::array<unsigned char, Size> random_bytes() {
  ready();
  std::array<unsigned char, Size> bytes{};
  randombytes_buf(bytes.data(), bytes.size());
  return bytes;
}

template <std::size_t Size>
std::string base64(const std::array<unsigned char, Size>& bytes) {
  constexpr int variant = sodium_base64_VARIANT_URLSAFE_NO_PADDING;
  std::string text(sodium_base64_ENCODED_LEN(Size, variant), '\0');
  sodium_bin2base64(text.data(), text.size(), bytes.data(), bytes.size(), variant);
  text.pop_back();  // the terminating zero
  return text;
}

template <std::size_t Size>
std::string hex(const std::array<unsigned char, Size>& bytes) {
  std::string text(2 * Size + 1, '\0');
  sodium_bin2hex(text.data(), text.size(), bytes.data(), bytes.size());
  text.pop_back();
  return text;
}

}  // namespace

std::string new_token() { return base64(random_bytes<32>()); }

std::string new_code() { return base64(random_bytes<16>()); }

std::string short_id() { return hex(random_bytes<8>()); }

std::string hash_of(std::string_view secret) {
  ready();
  std::array<unsigned char, crypto_generichash_BYTES> out{};
  const std::string bytes{secret};
  crypto_generichash(out.data(), out.size(),
                     reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size(),
                     nullptr, 0);
  return hex(out);
}

}  // namespace lynearm::serve
