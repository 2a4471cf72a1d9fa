#include "units/restate.hpp"

#include <charconv>
#include <regex>

#include "units/parse.hpp"
#include "units/print.hpp"

namespace lynearm::units {
namespace {

std::string in_us(const std::string& figure, const std::string& unit) {
  double value = 0.0;
  std::from_chars(figure.data(), figure.data() + figure.size(), value);
  if (unit == "L") return print(Volume::litres(value), System::us);
  if (unit == "mL") return print(Volume::millilitres(value), System::us);
  if (unit == "kg") return print(Mass::kilograms(value), System::us);
  if (unit == "g") return print(Mass::grams(value), System::us);
  if (unit == "K")
    return fixed(TemperatureChange::kelvins(value).fahrenheit_degrees(), 1) + " °F";
  return print(Temperature::celsius(value), System::us);
}

// A figure, perhaps a range, and its unit: neither may be part of a longer word or unit.
const std::regex& figures() {
  static const std::regex pattern(
      R"((?:(\d+(?:\.\d+)?)( to | and ))?(\d+(?:\.\d+)?) (mL|L|kg|g|°C|K)(?![A-Za-z0-9/²³]))");
  return pattern;
}

}  // namespace

std::string restated(const std::string& sentence, System system) {
  if (system == System::metric) return sentence;
  std::string said;
  auto rest = sentence.cbegin();
  for (std::sregex_iterator at(sentence.begin(), sentence.end(), figures()), end; at != end;
       ++at) {
    const std::smatch& found = *at;
    const std::string unit = found[4];
    std::string us;
    if (found[1].matched) us.append(in_us(found[1], unit)).append(found[2]);
    us.append(in_us(found[3], unit));
    said.append(rest, system == System::us ? found[0].first : found[0].second);
    if (system == System::both) said.append(" (").append(us).append(")");
    if (system == System::us) said.append(us);
    rest = found[0].second;
  }
  return said.append(rest, sentence.cend());
}

}  // namespace lynearm::units
