// What strangers may send: the target of a request, the Host, and the call that pairs a phone.
// The first line is the target, the second the Host, the rest the body.
#include <cstddef>
#include <cstdint>
#include <string_view>

#include "base/error.hpp"
#include "serve/assets.hpp"
#include "serve/host.hpp"
#include "serve/target.hpp"
#include "wire/pairing_json.hpp"

namespace {

std::string_view line_of(std::string_view& text) {
  const std::size_t end = text.find('\n');
  const std::string_view line = text.substr(0, end);
  text.remove_prefix(end == std::string_view::npos ? text.size() : end + 1);
  return line;
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  using namespace lynearm;
  std::string_view text{reinterpret_cast<const char*>(data), size};
  const std::string_view target_text = line_of(text);
  if (const auto target = serve::read_target(target_text)) {
    for (const auto& segment : target->segments) {
      base::ensure(serve::is_utf8(segment) && segment != ".." && !segment.empty(),
                   "a segment leads nowhere else");
    }
  }
  const std::string_view host_text = line_of(text);
  if (const auto host = serve::read_host(host_text)) {
    base::ensure(!host->name.empty(), "a host has a name");
  }
  static_cast<void>(serve::takes_gzip(host_text));
  static_cast<void>(serve::names_tag(host_text, "\"a\""));
  try {
    const wire::PairingCall call = wire::read_pairing_call(text);
    base::ensure(!call.name.empty() && call.code.size() <= 64, "a call is within its limits");
  } catch (const base::InputError&) {  // the expected answer to nearly everything
  }
  return 0;
}
