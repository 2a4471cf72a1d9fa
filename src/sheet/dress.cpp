#include "sheet/dress.hpp"

#include <fmt/format.h>

namespace lynearm::sheet {

namespace {

constexpr std::string_view body_type = R"css(
:root{color-scheme:light}
*{box-sizing:border-box}
html{font-size:10.5pt;-webkit-text-size-adjust:100%;text-size-adjust:100%}
body{margin:0 auto;padding:8mm 5mm 14mm;max-width:180mm;background:#fff;color:#000;
 font-family:@FONTS@;line-height:1.36;font-variant-numeric:lining-nums tabular-nums;
 font-kerning:normal;hyphens:manual;overflow-wrap:break-word}
header{border-top:1.1mm solid #000;margin:0 0 5mm}
header::before{content:"";display:block;border-top:.2mm solid #000;margin-top:.7mm}
h1{font-size:21pt;font-weight:400;line-height:1.12;margin:3.4mm 0 0;letter-spacing:-.005em}
header p{margin:1.2mm 0 0;font-size:11pt;font-style:italic}
header::after{content:"";display:block;border-top:.2mm solid #000;margin-top:3.2mm}
h2{font-size:14pt;font-weight:400;line-height:1.2;margin:7mm 0 2mm;break-after:avoid}
h3{font-size:10.5pt;font-weight:700;margin:4mm 0 1mm;break-after:avoid}
p{margin:0 0 2.2mm;orphans:2;widows:2;max-width:150mm}
p.small{font-size:8.5pt;line-height:1.3;break-before:avoid}
)css";

constexpr std::string_view tables = R"css(
table{border-collapse:collapse;width:100%;margin:2mm 0 4mm;line-height:1.25}
caption{text-align:left;font-style:italic;padding:0 0 1.2mm;break-after:avoid}
thead{display:table-header-group}
tr{break-inside:avoid}
table.short{break-inside:avoid}
.long::before{content:"";display:block;height:38mm;margin-bottom:-38mm;contain:size}
tbody tr:last-child{break-before:avoid}
thead th{border-top:.4mm solid #000;border-bottom:.2mm solid #000;font-weight:400;
 font-style:italic;vertical-align:bottom}
th,td{text-align:left;font-weight:400;padding:1.15mm 2mm 1.05mm;vertical-align:baseline}
th:first-child,td:first-child{padding-left:0}
th:last-child,td:last-child{padding-right:0}
tbody tr{border-bottom:.1mm solid #888}
tbody tr:last-child{border-bottom:.4mm solid #000}
table.planned tbody tr:first-child{border-top:.4mm solid #000}
table.roomy td{height:9mm}
table.plain td:empty,table.roomy td:empty{border-left:.1mm solid #888}
th.right,td.right{text-align:right}
th.centre,td.centre{text-align:center}
table.planned td.right{white-space:nowrap;font-weight:700;padding-right:0}
table.planned td.unit{padding-left:1.2mm;width:1%;white-space:nowrap}
table.planned td.measured{width:40%}
table.planned td,table.planned th{padding-top:1.8mm}
.half table.planned td.measured{width:50%}
.note{display:block;font-size:8.5pt}
.blank{display:inline-flex;width:100%;align-items:baseline;gap:1.2mm}
.blank .asks{font-size:8.5pt;font-style:italic}
.blank .line{flex:1;min-width:14mm;border-bottom:.25mm solid #000}
.blank .unit{min-width:9mm}
)css";

constexpr std::string_view parts = R"css(
.caution{border:.35mm solid #000;border-left-width:1.8mm;padding:2mm 3.5mm;margin:3mm 0 4mm;
 break-inside:avoid}
.caution strong{display:block;letter-spacing:.03em}
.caution p{margin:.4mm 0 0}
ul.checks{list-style:none;margin:1.5mm 0 4mm;padding:0;break-inside:avoid}
ul.checks li{position:relative;padding:.7mm 0 .7mm 7mm;break-inside:avoid}
ul.checks li::before{content:"";position:absolute;left:0;top:1.1mm;width:3.6mm;height:3.6mm;
 border:.3mm solid #000}
dl.facts{margin:0 0 5mm;columns:2;column-gap:8mm}
dl.facts div{display:flex;justify-content:space-between;gap:4mm;break-inside:avoid;
 border-bottom:.1mm solid #888;padding:.8mm 0}
dl.facts dt{font-style:italic}
dl.facts dd{margin:0;text-align:right}
.lines{break-inside:avoid;margin:2mm 0 4mm}
.lines span{font-style:italic}
.lines div{height:8mm;border-bottom:.15mm solid #666}
figure{margin:3mm 0 5mm;break-inside:avoid}
figure svg{display:block;max-width:100%;height:auto}
figcaption{font-style:italic;font-size:9.5pt;margin-top:1.5mm;max-width:150mm}
.beside{display:flex;gap:8mm}
.half{flex:1;min-width:0}
.together{break-inside:avoid}
.caution.cautions{break-after:avoid}
.cautions p{font-size:8.5pt;line-height:1.28;margin:.5mm 0;max-width:none}
.cautions p strong{display:inline}
.record{font-size:9.5pt}
.record h2{margin:5.5mm 0 1.5mm}
.record h3{font-size:9.5pt;margin:3mm 0 .6mm}
.record table{font-size:8.8pt;margin:1.2mm 0 3mm}
.record caption{font-size:9.5pt}
.record th,.record td{padding:.62mm 2mm .58mm;line-height:1.22}
.record th:first-child,.record td:first-child{padding-left:0}
.record th:last-child,.record td:last-child{padding-right:0}
.record .beside{gap:6mm}
.record .half th,.record .half td{padding-left:1.2mm;padding-right:1.2mm}
.record p{max-width:none;margin:0 0 1.6mm}
.record .caution{margin:1.6mm 0 2.4mm;padding:1.4mm 3mm}
.record figure{margin:1.5mm 0 3mm}
.record figcaption{font-size:8.8pt;margin-top:.8mm;max-width:none}
.record .plan{font-size:10.5pt}
.record .front p{font-size:10.5pt;margin:0 0 2.2mm}
.record dl.facts{margin-bottom:3mm}
.break{break-after:page}
)css";

constexpr std::string_view small_screens = R"css(
@media screen and (max-width:170mm){
 html{font-size:12pt}
 .beside{display:block}
 dl.facts{columns:1}
 .drawing{overflow-x:auto}
 figure svg{max-width:none}
 figcaption::before{content:"Slide the picture sideways. ";font-style:normal}
 table.plain,table.roomy{display:block;overflow-x:auto}
 p.small,.note,.blank .asks{font-size:10pt}
 table.planned tr{display:flex;flex-wrap:wrap;align-items:baseline;padding:1.4mm 0}
 table.planned th{flex:1;padding:0}
 table.planned td{padding:0 0 0 1.2mm}
 table.planned td.unit{width:auto}
 table.planned td.measured,.half table.planned td.measured{width:100%;padding:1.6mm 0 0}
 table.planned td.measured:empty{display:none}
}
)css";

std::string replaced(std::string_view text, std::string_view mark, std::string_view by) {
  std::string out(text);
  if (const auto at = out.find(mark); at != std::string::npos) {
    out.replace(at, mark.size(), by);
  }
  return out;
}

std::string paged(const Page& page) {
  const std::string_view size = page.paper == Paper::a4 ? "A4" : "letter";
  // Letter is wider and shorter: the text keeps its 170 mm, the margins give.
  const std::string_view margin =
      page.paper == Paper::a4 ? "19mm 20mm 19mm" : "18mm 22.95mm 18mm";
  const std::string type =
      fmt::format("font-family:{};font-size:8.5pt;font-style:italic", font_stack);
  std::string css = fmt::format("@page{{size:{} portrait;margin:{};", size, margin);
  css += fmt::format("@top-left{{content:{};{}}}", css_string(page.running_head), type);
  css += fmt::format("@bottom-left{{content:{};{}}}", css_string(page.running_foot), type);
  css += fmt::format("@bottom-right{{content:counter(page) \" of \" counter(pages);{}}}}}\n",
                     type);
  css += "@page:first{@top-left{content:\"\"}}\n";
  // A heading wants room for its cautions and the beginning of what they are about: asked for
  // by a box that cannot be broken and takes none.
  css +=
      "@media print{body{padding:0;max-width:none}\n"
      "h2::before{content:\"\";display:block;contain:size;height:46mm;margin-bottom:-46mm}\n"
      ".record h2::before{height:56mm;margin-bottom:-56mm}\n"
      // The table after the front has no cautions, and a guard of its own.
      ".record .front+h2::before{height:30mm;margin-bottom:-30mm}}\n";
  return css;
}

}  // namespace

std::string css_string(std::string_view text) {
  std::string out = "\"";
  for (std::size_t at = 0; at < text.size();) {
    const Character next = character_at(text, at);
    const bool special =
        next.valid && (next.code < 0x20 || next.code == 0x7F ||
                       std::string_view("\"\\<>&").find(text[at]) != std::string_view::npos);
    if (special) {
      out += fmt::format("\\{:x} ", next.code == 0 ? 0xFFFDU : next.code);
    } else if (next.valid) {
      out += text.substr(at, next.bytes);
    } else {
      out += "\\fffd ";
    }
    at += next.bytes;
  }
  return out + "\"";
}

Html dress(const Page& page) {
  Html css{replaced(body_type, "@FONTS@", font_stack)};
  for (const std::string_view part : {tables, parts, small_screens}) css.text += part;
  css.text += paged(page);
  return css;
}

}  // namespace lynearm::sheet
