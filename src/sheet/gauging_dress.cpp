#include "sheet/gauging_dress.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <string_view>
#include <utility>

#include "units/print.hpp"

namespace lynearm::sheet {
namespace {

constexpr std::string_view fixed_part = R"css(
:root{color-scheme:light}
*{box-sizing:border-box}
html{-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0;background:#fff;color:#000;font-family:@FONTS@;
 font-variant-numeric:lining-nums tabular-nums;font-kerning:normal;line-height:1.3}
section{display:flex;flex-direction:column;width:@WIDTH@mm;margin:6mm auto 12mm}
header{border-top:1.1mm solid #000}
header::before{content:"";display:block;border-top:.2mm solid #000;margin-top:.6mm}
h1{font-size:@TITLE@pt;font-weight:400;line-height:1.3;margin:0}
p{margin:0}
p.sub{font-size:@SUB@pt;font-style:italic}
p.name{font-size:@SUB@pt;font-weight:700}
p.about{font-size:@ABOUT@pt;margin-top:.6mm}
.wide{margin-top:2mm}
table{border-collapse:collapse;table-layout:fixed;margin:0 auto;font-size:@TYPE@pt;
 line-height:@ROW@mm;font-variant-numeric:lining-nums tabular-nums}
th,td{padding:0;white-space:nowrap;vertical-align:middle;overflow:hidden}
td{text-align:right;padding-right:@PAD@mm}
tbody tr{height:@ROW@mm}
tbody th{font-weight:700;text-align:left}
tbody th:last-child{text-align:right}
thead th{font-weight:400;line-height:1.25;text-align:center}
thead tr:last-child th{font-weight:700;border-bottom:.5mm solid #000}
thead th.corner{font-size:@ACROSS@pt;font-style:italic;font-weight:400;white-space:normal;
 vertical-align:bottom;text-align:left;border-bottom:.5mm solid #000;overflow:visible}
thead th.corner:last-child{text-align:right}
thead th.across{font-size:@ACROSS@pt;font-style:italic;line-height:1.3}
thead th.word{font-size:@WORD@pt;white-space:normal;vertical-align:bottom;line-height:1.3;
 padding:0 .15em;overflow:visible}
thead th span{display:block;font-size:@WORD@pt;font-weight:400;line-height:1.3}
thead{border-top:.3mm solid #000}
tbody{border-bottom:.5mm solid #000}
tbody tr.five{border-top:.15mm solid #000}
tbody tr.five:first-child{border-top:0}
tbody td,thead tr:last-child th{border-left:.1mm solid #aaa}
footer{margin-top:auto;padding-top:2mm}
p.example{font-size:@EXAMPLE@pt;text-align:center;margin-bottom:1.5mm}
.caution{border:.35mm solid #000;border-left-width:1.8mm;padding:1.2mm 3mm;margin:0 0 1.5mm;
 font-size:@ABOUT@pt}
p.notes{font-size:@NOTES@pt}
)css";

constexpr std::string_view on_screen = R"css(
@media screen and (max-width:@WIDE@mm){
 section{width:auto;margin:4mm 4mm 12mm}
 h1{font-size:18pt}
 p.sub,p.name,p.about,p.example,.caution{font-size:12pt}
 p.notes{font-size:10pt}
 .wide{overflow-x:auto}
 table{margin:0;font-size:14pt;line-height:7.5mm}
 tbody tr{height:7.5mm}
 table col{width:auto}
 table col.figure{width:17mm}
 table col.head{width:22mm}
 td{padding-right:2.5mm}
 thead th.word,thead th span{font-size:9.5pt}
 thead th.across{text-align:left}
 tbody th:first-child,thead th.corner:first-child{position:sticky;left:0;background:#fff}
 tbody th:last-child,thead th.corner:last-child{display:none}
 table col.head:last-child{width:0}
 .wide::before{content:"Slide the table sideways.";font-size:10pt;font-style:italic;
  position:sticky;left:0}
}
)css";

std::string replaced(std::string text, std::string_view mark, const std::string& by) {
  for (std::size_t at = text.find(mark); at != std::string::npos;
       at = text.find(mark, at + by.size())) {
    text.replace(at, mark.size(), by);
  }
  return text;
}

// Right-aligned figures, set so that the widest of them stands in the middle of its column.
double padding_mm(const spirit::GaugingTable& table, std::size_t measure, double size_mm,
                  double column_mm) {
  double largest = 0.0;
  for (std::size_t i = measure; i < table.figures.size(); i += table.measures.size()) {
    largest = std::max(largest, table.figures[i]);
  }
  const std::size_t characters = units::fixed(largest, table.measures[measure].decimals).size();
  // In the widest face; a narrower one stands a little to the right of the middle.
  const double width = text_width_mm(std::string(characters, '0'), size_mm);
  return std::max(0.0, (column_mm - width) / 2.0);
}

}  // namespace

Html gauging_dress(const spirit::GaugingTable& table, const GaugingLayout& layout,
                   Paper paper) {
  const double size_mm = layout.type_pt / points_per_mm;
  const std::array<std::pair<std::string_view, std::string>, 13> values{{
      {"@FONTS@", std::string(font_stack)},
      {"@WIDTH@", number(layout.page_width_mm)},
      {"@WIDE@", number(layout.page_width_mm + 2.0 * gauging_margin_mm)},
      {"@TITLE@", number(title_pt)},
      {"@SUB@", number(subtitle_pt)},
      {"@ABOUT@", number(about_pt)},
      {"@ACROSS@", number(across_pt)},
      {"@EXAMPLE@", number(example_pt)},
      {"@NOTES@", number(notes_pt)},
      {"@TYPE@", number(layout.type_pt)},
      {"@ROW@", number(layout.row_mm)},
      {"@WORD@", number(layout.type_pt * small_head)},
      {"@PAD@", number(padding_mm(table, 0, size_mm, layout.column_mm))},
  }};
  std::string css(fixed_part);
  for (std::size_t m = 1; m < table.measures.size(); ++m) {
    css += fmt::format("td:nth-child({}){{padding-right:{}mm}}\n", m + 2,
                       number(padding_mm(table, m, size_mm, layout.column_mm)));
  }
  css += fmt::format("col.figure{{width:{}mm}}col.head{{width:{}mm}}\n",
                     number(layout.column_mm), number(layout.head_mm));
  css += on_screen;
  for (const auto& [mark, value] : values) css = replaced(std::move(css), mark, value);
  css += fmt::format("@page{{size:{} {};margin:{}mm}}\n", paper == Paper::a4 ? "A4" : "letter",
                     layout.landscape ? "landscape" : "portrait", number(gauging_margin_mm));
  // A little less than the page, so that rounding never turns a sheet into two.
  css += fmt::format(
      "@media print{{section{{width:100%;height:{}mm;margin:0;break-after:page;"
      "break-inside:avoid}}section:last-child{{break-after:auto}}}}\n",
      number(layout.page_height_mm - 0.5));
  return {css};
}

}  // namespace lynearm::sheet
