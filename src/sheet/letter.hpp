// Letters on paper: how wide a text is, the box it takes, and how labels keep clear of each
// other.
//
// Widths are those of DejaVu Serif, the widest face of font_stack, so that a text fits
// whichever of them a reader has. Kerning is left out; a character without a known width counts
// as 1.6 em.
#pragma once

#include <cstddef>
#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "sheet/svg.hpp"

namespace lynearm::sheet {

/// Serif faces that are on people's machines already; nothing is fetched.
inline constexpr std::string_view font_stack =
    "Charter, 'Bitstream Charter', Georgia, 'DejaVu Serif', serif";

/// One character of UTF-8.
struct Character {
  std::uint32_t code = 0;
  std::size_t bytes = 1;  ///< one when not valid
  bool valid = false;
};

/// at   before the end of text
[[nodiscard]] Character character_at(std::string_view text, std::size_t at);

/// The text with a minus sign (U+2212) for each hyphen that stands for one: at the beginning,
/// after a space or a bracket, before a digit. Tables for machines keep the hyphen.
[[nodiscard]] std::string with_minus(std::string_view text);

enum class Weight { regular, bold };
enum class Anchor { start, middle, end };

/// Width of one line. size_mm: of the letter (1 em), above 0.
[[nodiscard]] double text_width_mm(std::string_view text, double size_mm,
                                   Weight weight = Weight::regular);

/// Broken at spaces so that no line is wider than `width_mm`, save a word that is wider alone;
/// a figure stays with the word after it. At least one line, which may be empty.
[[nodiscard]] std::vector<std::string> wrap(std::string_view text, double width_mm,
                                            double size_mm, Weight weight = Weight::regular);

/// y counts downward, as in SVG.
struct Box {
  double left = 0.0, top = 0.0, right = 0.0, bottom = 0.0;

  [[nodiscard]] double width() const { return right - left; }
  [[nodiscard]] double height() const { return bottom - top; }
};

/// True when they have more than an edge in common.
[[nodiscard]] bool overlap(const Box& a, const Box& b);

inline constexpr double line_height = 1.22;  ///< of the letter's size

/// Lines of text in their place. `top` is the upper edge of the first line.
struct Label {
  std::vector<std::string> lines;
  double x = 0.0;
  double top = 0.0;
  double size_mm = 3.0;
  Anchor anchor = Anchor::start;
  Weight weight = Weight::regular;

  [[nodiscard]] double width() const;
  [[nodiscard]] double height() const;
  [[nodiscard]] Box box() const;
};

void write(Writer& out, const Label& label);

/// A finished picture, with the labels in it, so that a test can see that none meets another.
struct Drawing {
  Html svg;
  double width_mm = 0.0;
  double height_mm = 0.0;
  std::vector<Label> labels;
};

/// Moves intervals apart along a line: centres as near as may be to those wanted (least squares
/// of the moves), in the order given, within [low, high] when they fit and past `high` when
/// they do not.
///
/// wanted, lengths   of the same size; wanted rising
[[nodiscard]] std::vector<double> spread(const std::vector<double>& wanted,
                                         const std::vector<double>& lengths, double low,
                                         double high);

/// A label on a pole: the pole stands at x, the text flies to its right.
struct Flag {
  double x = 0.0;
  double width = 0.0;   ///< with the clear space wanted after it
  double height = 0.0;  ///< with the clear space wanted above it
};

/// How far from the poles' common foot each flag begins, so that no text meets another text or
/// another flag's pole, each as low as that allows. Flags in any order; of two at one x the
/// later flies higher.
[[nodiscard]] std::vector<double> fly(const std::vector<Flag>& flags);

}  // namespace lynearm::sheet
