// A typed-in figure is anything at all. For every kind of quantity it must be read or refused
// with a reason, without a throw; what was read is finite, and what it is stored as reads back
// the same.
#include <cmath>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "units/kind.hpp"
#include "units/parse.hpp"
#include "units/print.hpp"

namespace {

using namespace lynearm::units;

void hold(bool holds) {
  if (!holds) std::abort();  // libFuzzer keeps the text that led here
}

template <class Q>
void one_answer(const Parsed<Q>& parsed) {
  hold(parsed.value.has_value() == parsed.accepted.empty());
}

void as_quantity(std::string_view text, const Kind& kind) {
  const Parsed<double> parsed = parse_base_value(text, kind);
  one_answer(parsed);
  if (!parsed) return;
  const double value = *parsed.value;
  hold(std::isfinite(value));
  const Parsed<double> back = parse_base_value(exact_base_value(value, kind), kind);
  // Kinds written in percent: to one part in 10^15, so says print.hpp.
  hold(back && std::abs(*back.value - value) <= 4e-15 * std::abs(value));
  (void)print_base_value(value, kind, System::both, std::nullopt);
  (void)concise_base_value(value, kind);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  for (const Kind* kind : kinds()) as_quantity(text, *kind);
  one_answer(try_parse<StatedStrength>(text));
  one_answer(try_parse<StatedLot>(text));
  one_answer(try_parse<Price>(text));
  one_answer(try_parse_spread<Share>(text));
  one_answer(try_parse_spread<Temperature>(text));
  return 0;
}
