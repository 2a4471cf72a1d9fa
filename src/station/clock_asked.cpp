#include "station/clock_asked.hpp"

#include <charconv>
#include <optional>
#include <string>
#include <string_view>

#include "base/error.hpp"
#include "journal/moment.hpp"

namespace lynearm::station {
namespace {

constexpr int most_minutes = 840;
constexpr std::size_t most_turns = 64;

std::string cut_short(std::string_view asked) {
  constexpr std::size_t most = 80;
  return std::string(asked.substr(0, most)) + (asked.size() > most ? "..." : "");
}

std::optional<int> minutes_of(std::string_view text) {
  int minutes = 0;
  const char* end = text.data() + text.size();
  const auto read = std::from_chars(text.data(), end, minutes);
  if (read.ec != std::errc{} || read.ptr != end) return std::nullopt;
  if (minutes < -most_minutes || minutes > most_minutes) return std::nullopt;
  return minutes;
}

std::optional<sheet::ClockTurn> turn_of(std::string_view text) {
  const std::size_t at = text.find('@');
  if (at == std::string_view::npos) return std::nullopt;
  const std::optional<int> minutes = minutes_of(text.substr(0, at));
  const std::optional<journal::Moment> moment = journal::read_moment(text.substr(at + 1));
  if (!minutes || !moment) return std::nullopt;
  return sheet::ClockTurn{*moment, *minutes};
}

}  // namespace

ClockAsked clock_asked(const serve::Request& request) {
  ClockAsked asked;
  const std::string_view east = request.asked("minutes_east").value_or("0");
  const std::optional<int> minutes = minutes_of(east);
  if (!minutes) throw base::InputError("minutes_east", cut_short(east), "-840 to 840");
  asked.minutes_east = *minutes;
  std::string_view left = request.asked("clock_turns").value_or("");
  while (!left.empty()) {
    const std::size_t comma = left.find(',');
    const std::string_view one = left.substr(0, comma);
    left = comma == std::string_view::npos ? std::string_view{} : left.substr(comma + 1);
    const std::optional<sheet::ClockTurn> turn = turn_of(one);
    const bool in_order = turn && (asked.turns.empty() || asked.turns.back().at < turn->at);
    if (!in_order || asked.turns.size() == most_turns) {
      throw base::InputError("clock_turns", cut_short(one),
                             "up to 64 like 60@2026-10-25T01:00:00Z, in order of time");
    }
    asked.turns.push_back(*turn);
  }
  return asked;
}

}  // namespace lynearm::station
