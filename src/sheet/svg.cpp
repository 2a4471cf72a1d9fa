#include "sheet/svg.hpp"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <cstdint>

#include "base/error.hpp"
#include "sheet/letter.hpp"
#include "units/print.hpp"

namespace lynearm::sheet {

namespace {

constexpr std::string_view unknown = "\xEF\xBF\xBD";  // U+FFFD

// XML 1.0 (fifth edition), production [2] Char.
bool xml_character(std::uint32_t code) {
  return code == 0x9 || code == 0xA || code == 0xD || (code >= 0x20 && code <= 0xD7FF) ||
         (code >= 0xE000 && code <= 0xFFFD) || (code >= 0x10000 && code <= 0x10FFFF);
}

}  // namespace

std::string escape(std::string_view text) {
  std::string out;
  out.reserve(text.size() + text.size() / 8);
  for (std::size_t at = 0; at < text.size();) {
    const Character next = character_at(text, at);
    if (!next.valid || !xml_character(next.code)) {
      out += unknown;
    } else if (next.code == '&') {
      out += "&amp;";
    } else if (next.code == '<') {
      out += "&lt;";
    } else if (next.code == '>') {
      out += "&gt;";
    } else if (next.code == '"') {
      out += "&quot;";
    } else if (next.code == '\'') {
      out += "&#39;";
    } else {
      out += text.substr(at, next.bytes);
    }
    at += next.bytes;
  }
  return out;
}

std::string number(double value, int decimals) {
  std::string text = units::fixed(value, decimals);
  if (text.find('.') != std::string::npos) {
    text.erase(text.find_last_not_of('0') + 1);
    if (text.back() == '.') text.pop_back();
  }
  return text;
}

void Writer::begin(std::string_view name, const Attributes& attributes) {
  out_ += '<';
  out_ += name;
  for (const Attribute& attribute : attributes) {
    out_ += ' ';
    out_ += attribute.name;
    out_ += "=\"";
    out_ += escape(attribute.value);
    out_ += '"';
  }
}

Writer& Writer::open(std::string_view name, const Attributes& attributes) {
  begin(name, attributes);
  out_ += '>';
  open_.emplace_back(name);
  return *this;
}

Writer& Writer::close() {
  base::ensure(!open_.empty(), "an element is open when it is closed");
  out_ += "</" + open_.back() + ">";
  open_.pop_back();
  return *this;
}

Writer& Writer::leaf(std::string_view name, const Attributes& attributes) {
  begin(name, attributes);
  out_ += "/>";
  return *this;
}

Writer& Writer::element(std::string_view name, const Attributes& attributes,
                        std::string_view content) {
  return open(name, attributes).text(content).close();
}

Writer& Writer::text(std::string_view content) {
  out_ += escape(content);
  return *this;
}

Writer& Writer::html(const Html& piece) {
  out_ += piece.text;
  return *this;
}

Html Writer::finish() const {
  base::ensure(open_.empty(), "every element is closed");
  return {out_};
}

Path& Path::add(char command, std::initializer_list<double> figures) {
  data_ += command;
  bool first = true;
  for (const double figure : figures) {
    if (!first) data_ += ' ';
    data_ += number(figure);
    first = false;
  }
  return *this;
}

void open_drawing(Writer& out, double width_mm, double height_mm,
                  std::string_view description) {
  out.open("svg", {{"xmlns", "http://www.w3.org/2000/svg"},
                   {"width", number(width_mm) + "mm"},
                   {"height", number(height_mm) + "mm"},
                   {"viewBox", "0 0 " + number(width_mm) + " " + number(height_mm)},
                   {"role", "img"},
                   {"aria-label", description},
                   {"font-family", font_stack},
                   {"style", "font-variant-numeric:lining-nums tabular-nums"},
                   {"fill", "#000"},
                   {"stroke-linejoin", "round"}});
}

}  // namespace lynearm::sheet
