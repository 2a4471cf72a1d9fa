#include "sheet/letter.hpp"

#include <algorithm>
#include <array>
#include <numeric>

#include "base/error.hpp"

namespace lynearm::sheet {

namespace {

// Advance widths of DejaVu Serif 2.37, thousandths of an em, from U+0020 to U+007E.
// clang-format off
constexpr std::array<int, 95> regular_widths = {
    318, 402, 460, 838, 636, 950, 890, 275, 390, 390, 500, 838, 318, 338, 318, 337, 636, 636, 636,
    636, 636, 636, 636, 636, 636, 636, 337, 337, 838, 838, 838, 536, 1000, 722, 735, 765, 802, 730,
    694, 799, 872, 395, 401, 747, 664, 1024, 875, 820, 673, 820, 753, 685, 667, 843, 722, 1028, 712,
    660, 695, 390, 337, 390, 838, 500, 500, 596, 640, 560, 640, 592, 370, 640, 644, 320, 310, 606,
    320, 948, 644, 602, 640, 640, 478, 513, 402, 644, 565, 856, 564, 565, 527, 636, 337, 636, 838};
constexpr std::array<int, 95> bold_widths = {
    348, 439, 521, 838, 696, 950, 903, 306, 473, 473, 523, 838, 348, 415, 348, 365, 696, 696, 696,
    696, 696, 696, 696, 696, 696, 696, 369, 369, 838, 838, 838, 586, 1000, 776, 845, 796, 867, 762,
    710, 854, 945, 468, 473, 869, 703, 1107, 914, 871, 752, 871, 831, 722, 744, 872, 776, 1123, 776,
    714, 730, 473, 365, 473, 838, 500, 500, 648, 699, 609, 699, 636, 430, 699, 727, 380, 362, 693,
    380, 1058, 727, 667, 699, 699, 527, 563, 462, 727, 581, 861, 596, 581, 568, 643, 364, 643, 838};
// clang-format on

double width_em(std::uint32_t code, Weight weight) {
  if (code >= 0x20 && code <= 0x7E) {
    const auto& widths = weight == Weight::bold ? bold_widths : regular_widths;
    return widths[code - 0x20] / 1000.0;
  }
  switch (code) {
    case 0xB0:    // degree
    case 0x2013:  // en dash
      return 0.5;
    case 0xA0:  // space that does not break
    case 0xB7:  // middle dot
      return 0.35;
    case 0xB1:
    case 0xD7:
    case 0x2212:  // plus or minus, times, minus
      return 0.838;
    default:
      break;
  }
  if (code >= 0xC0 && code <= 0x17F) return weight == Weight::bold ? 1.1 : 1.05;
  return 1.6;
}

}  // namespace

Character character_at(std::string_view text, std::size_t at) {
  const auto byte = [&](std::size_t i) -> std::uint32_t {
    return at + i < text.size() ? static_cast<unsigned char>(text[at + i]) : 0U;
  };
  const std::uint32_t first = byte(0);
  if (first < 0x80) return {first, 1, true};
  const std::size_t bytes = first >= 0xF0 ? 4 : first >= 0xE0 ? 3 : 2;
  if (first < 0xC2 || first > 0xF4) return {};
  std::uint32_t code = first & (0x7FU >> bytes);
  for (std::size_t i = 1; i < bytes; ++i) {
    if ((byte(i) & 0xC0U) != 0x80U) return {};
    code = (code << 6U) | (byte(i) & 0x3FU);
  }
  // Neither longer than need be, nor half of a pair, nor past the end.
  constexpr std::array<std::uint32_t, 5> least = {0, 0, 0x80, 0x800, 0x10000};
  if (code < least[bytes] || (code >= 0xD800 && code <= 0xDFFF) || code > 0x10FFFF) return {};
  return {code, bytes, true};
}

std::string with_minus(std::string_view text) {
  constexpr std::string_view hard_space = "\u00a0";
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const std::string_view before = text.substr(0, i);
    const bool free =
        i == 0 || before.back() == ' ' || before.back() == '(' || before.ends_with(hard_space);
    const bool figure = i + 1 < text.size() && text[i + 1] >= '0' && text[i + 1] <= '9';
    if (text[i] == '-' && free && figure) {
      out += "\u2212";
    } else {
      out += text[i];
    }
  }
  return out;
}

double text_width_mm(std::string_view text, double size_mm, Weight weight) {
  double em = 0.0;
  for (std::size_t at = 0; at < text.size();) {
    const Character next = character_at(text, at);
    em += next.valid ? width_em(next.code, weight) : 1.6;
    at += next.bytes;
  }
  return em * size_mm;
}

std::vector<std::string> wrap(std::string_view text, double width_mm, double size_mm,
                              Weight weight) {
  std::vector<std::string> lines;
  std::string line;
  for (std::size_t at = 0; at <= text.size();) {
    std::size_t space = std::min(text.find(' ', at), text.size());
    // A figure stays with its unit: "bottles of / 0.7 L".
    if (space > at && text[space - 1] >= '0' && text[space - 1] <= '9') {
      space = std::min(text.find(' ', space + 1), text.size());
    }
    const std::string word(text.substr(at, space - at));
    at = space + 1;
    if (word.empty()) continue;
    std::string longer = line;
    if (!longer.empty()) longer += ' ';
    longer += word;
    if (!line.empty() && text_width_mm(longer, size_mm, weight) > width_mm) {
      lines.push_back(line);
      line = word;
    } else {
      line = longer;
    }
  }
  lines.push_back(line);
  return lines;
}

bool overlap(const Box& a, const Box& b) {
  constexpr double rounding = 1e-6;  // mm
  return a.left < b.right - rounding && b.left < a.right - rounding &&
         a.top < b.bottom - rounding && b.top < a.bottom - rounding;
}

double Label::width() const {
  double widest = 0.0;
  for (const std::string& line : lines) {
    widest = std::max(widest, text_width_mm(line, size_mm, weight));
  }
  return widest;
}

double Label::height() const {
  return static_cast<double>(lines.size()) * line_height * size_mm;
}

Box Label::box() const {
  const double w = width();
  const double left = anchor == Anchor::start    ? x
                      : anchor == Anchor::middle ? x - w / 2
                                                 : x - w;
  return {left, top, left + w, top + height()};
}

void write(Writer& out, const Label& label) {
  double baseline = label.top + 0.94 * label.size_mm;
  for (const std::string& line : label.lines) {
    Attributes attributes = {
        {"x", label.x}, {"y", baseline}, {"font-size", label.size_mm}, {"stroke", "none"}};
    if (label.anchor == Anchor::middle) attributes.emplace_back("text-anchor", "middle");
    if (label.anchor == Anchor::end) attributes.emplace_back("text-anchor", "end");
    if (label.weight == Weight::bold) attributes.emplace_back("font-weight", "bold");
    out.element("text", attributes, line);
    baseline += line_height * label.size_mm;
  }
}

std::vector<double> spread(const std::vector<double>& wanted,
                           const std::vector<double>& lengths, double low, double high) {
  base::ensure(wanted.size() == lengths.size(), "each interval has a length");
  const std::size_t n = wanted.size();
  // With the lengths before each one taken off, "no overlap" reads "rising", and the nearest
  // rising sequence comes from pooling neighbours that are out of order.
  struct Pool {
    double sum;
    std::size_t count;
    [[nodiscard]] double mean() const { return sum / static_cast<double>(count); }
  };
  std::vector<Pool> pools;
  double before = 0.0;
  for (std::size_t i = 0; i < n; ++i) {
    pools.push_back({wanted[i] - lengths[i] / 2 - before, 1});
    before += lengths[i];
    while (pools.size() > 1 && pools[pools.size() - 2].mean() > pools.back().mean()) {
      const Pool last = pools.back();
      pools.pop_back();
      pools.back() = {pools.back().sum + last.sum, pools.back().count + last.count};
    }
  }
  std::vector<double> centres;
  double offset = 0.0;
  for (const Pool& pool : pools) {
    const double start = std::max(low, std::min(pool.mean(), high - before));
    for (std::size_t k = 0; k < pool.count; ++k) {
      const double length = lengths[centres.size()];
      centres.push_back(start + offset + length / 2);
      offset += length;
    }
  }
  return centres;
}

std::vector<double> fly(const std::vector<Flag>& flags) {
  std::vector<std::size_t> order(flags.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return flags[a].x > flags[b].x; });
  // From the right: a text flies above every pole within its reach. The texts of those poles
  // end no higher than the poles do, and all others begin out of reach.
  std::vector<double> feet(flags.size(), 0.0);
  for (std::size_t i = 0; i < order.size(); ++i) {
    const Flag& flag = flags[order[i]];
    double foot = 0.0;
    for (std::size_t j = 0; j < i; ++j) {
      const Flag& right = flags[order[j]];
      if (right.x < flag.x + flag.width) foot = std::max(foot, feet[order[j]] + right.height);
    }
    feet[order[i]] = foot;
  }
  return feet;
}

}  // namespace lynearm::sheet
