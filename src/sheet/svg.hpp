// Text of a page, written safely: SVG and HTML through one small writer.
//
// The writer keeps every open element, so nothing is left unclosed, and escapes all that comes
// in as text or as an attribute. What it writes is well-formed XML and good HTML at once, so
// that a page can be checked with an XML parser. Numbers never depend on a locale and are
// never NaN.
#pragma once

#include <initializer_list>
#include <string>
#include <string_view>
#include <vector>

namespace lynearm::sheet {

/// Text as it may stand in XML and HTML, also inside quotes: & < > " ' are written as entities,
/// what is no valid UTF-8, or no character of XML, becomes U+FFFD.
[[nodiscard]] std::string escape(std::string_view text);

/// The shortest plain figure with at most `decimals` decimals: "0", "12.5", "-3". No exponent,
/// no "-0".
///
/// throws   BrokenInvariant when the value is not finite
[[nodiscard]] std::string number(double value, int decimals = 3);

/// A piece of finished HTML or SVG. A type of its own, so that a plain string, which has still
/// to be escaped, cannot be taken for one.
struct Html {
  std::string text;

  Html& operator+=(const Html& more) { return text += more.text, *this; }
  friend Html operator+(Html a, const Html& b) { return a += b; }
  friend bool operator==(const Html&, const Html&) = default;
};

/// Name and value of an attribute; the value is escaped when written.
struct Attribute {
  Attribute(std::string_view of, std::string_view is) : name(of), value(is) {}
  Attribute(std::string_view of, const char* is) : name(of), value(is) {}
  Attribute(std::string_view of, double is) : name(of), value(number(is)) {}

  std::string name;
  std::string value;
};

using Attributes = std::vector<Attribute>;

/// Writes elements one after the other.
class Writer {
 public:
  /// <name attributes>, to be closed by close().
  Writer& open(std::string_view name, const Attributes& attributes = {});
  /// Closes the element opened last.
  Writer& close();
  /// <name attributes/>: a shape of SVG, or an HTML element without content (br, meta).
  Writer& leaf(std::string_view name, const Attributes& attributes = {});
  /// <name attributes>text</name>.
  Writer& element(std::string_view name, const Attributes& attributes, std::string_view text);
  Writer& text(std::string_view text);
  Writer& html(const Html& piece);
  /// All that was written. throws BrokenInvariant when an element is still open
  [[nodiscard]] Html finish() const;

 private:
  void begin(std::string_view name, const Attributes& attributes);

  std::string out_;
  std::vector<std::string> open_;
};

/// The data of a path: commands with their figures, "M0 1L2.5 3Z".
class Path {
 public:
  Path& move(double x, double y) { return add('M', {x, y}); }
  Path& line(double x, double y) { return add('L', {x, y}); }
  /// A quarter of a circle to (x, y); clockwise as seen on paper when `clockwise`.
  Path& arc(double radius, bool clockwise, double x, double y) {
    return add('A', {radius, radius, 0.0, 0.0, clockwise ? 1.0 : 0.0, x, y});
  }
  Path& shut() { return add('Z', {}); }
  [[nodiscard]] const std::string& data() const { return data_; }

 private:
  Path& add(char command, std::initializer_list<double> figures);
  std::string data_;
};

/// An <svg> of true size: one user unit is one millimetre. `description` is read out to those
/// who do not see it. Opened on `out`; the caller draws and closes.
void open_drawing(Writer& out, double width_mm, double height_mm, std::string_view description);

}  // namespace lynearm::sheet
