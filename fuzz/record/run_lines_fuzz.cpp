// A run followed live comes as lines of JSON from a program that may be broken. Each line gives
// one reading with figures an instrument can show, or faults at its line, or is empty; and what
// we write of a reading reads back as the same.
#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>

#include "still/reading.hpp"
#include "wire/run_reading.hpp"

namespace {

using namespace lynearm;

void hold(bool holds) {
  if (!holds) std::abort();  // libFuzzer keeps the text that led here
}

void reads_back(const still::Reading& reading) {
  const std::string text = wire::reading_json(reading);
  hold(text.find('\n') == std::string::npos);
  wire::ReadingLines lines("again");
  const wire::ReadingLine back = lines.next(text);
  // Ten digits are written: a limit itself may round past itself, nothing else is refused.
  if (!back.reading) return hold(!back.faults.empty());
  hold(wire::reading_json(*back.reading) == text);
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  std::string_view text(reinterpret_cast<const char*>(data), size);
  wire::ReadingLines lines("run.jsonl");
  for (int line = 1; !text.empty(); ++line) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const wire::ReadingLine answer = lines.next(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
    hold(!answer.reading || answer.faults.empty());
    for (const base::Fault& fault : answer.faults) {
      hold(fault.line == line && fault.file == "run.jsonl" && !fault.accepted.empty());
    }
    if (!answer.reading) continue;
    hold(answer.reading->line == line);
    hold(still::faults_of(*answer.reading).empty());
    reads_back(*answer.reading);
  }
  return 0;
}
