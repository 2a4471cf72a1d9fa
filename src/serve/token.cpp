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

constexpr std::string_view crockford = "0123456789abcdefghjkmnpqrstvwxyz";
constexpr std::size_t code_digits = 16;

std::string in_fours(std::string_view digits) {
  std::string text;
  for (std::size_t i = 0; i < digits.size(); ++i) {
    if (i > 0 && i % 4 == 0) text += '-';
    text += digits[i];
  }
  return text;
}

}  // namespace

std::string new_token() { return base64(random_bytes<32>()); }

std::string new_code() {
  std::string code;
  // A byte a digit, 256 being a multiple of 32: each is as likely as the others.
  for (const unsigned char byte : random_bytes<code_digits>()) {
    code += crockford[byte % crockford.size()];
  }
  return in_fours(code);
}

std::string code_typed(std::string_view typed) {
  std::string code;
  for (const char c : typed) {
    char small = c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    if (small == 'o') small = '0';
    if (small == 'i' || small == 'l') small = '1';
    if (crockford.find(small) != std::string_view::npos) code += small;
  }
  return in_fours(code);
}

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
