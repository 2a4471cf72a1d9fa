#include "sheet/page.hpp"

#include "sheet/dress.hpp"

namespace lynearm::sheet {

namespace {

Html simple(std::string_view element, std::string_view text,
            const Attributes& attributes = {}) {
  Writer out;
  out.element(element, attributes, text);
  return out.finish();
}

Html wrapped(std::string_view of_class, const Html& part) {
  Writer out;
  out.open("div", {{"class", of_class}}).html(part).close();
  return out.finish();
}

}  // namespace

Html heading(std::string_view text) { return simple("h2", text); }
Html subheading(std::string_view text) { return simple("h3", text); }
Html paragraph(std::string_view text) { return simple("p", text); }

Html small_print(std::string_view text) { return simple("p", text, {{"class", "small"}}); }

Html caution(std::string_view word, std::string_view text) {
  Writer out;
  out.open("div", {{"class", "caution"}, {"role", "note"}});
  out.element("strong", {}, word).element("p", {}, text).close();
  return out.finish();
}

Html checklist(const std::vector<std::string>& entries) {
  Writer out;
  out.open("ul", {{"class", "checks"}});
  for (const std::string& entry : entries) out.element("li", {}, entry);
  out.close();
  return out.finish();
}

Html facts(const std::vector<std::pair<std::string, std::string>>& entries) {
  Writer out;
  out.open("dl", {{"class", "facts"}});
  for (const auto& entry : entries) {
    out.open("div").element("dt", {}, entry.first).element("dd", {}, entry.second).close();
  }
  out.close();
  return out.finish();
}

Html lines_to_write(std::string_view name, int count) {
  Writer out;
  out.open("div", {{"class", "lines"}}).element("span", {}, name);
  for (int i = 0; i < count; ++i) out.element("div", {}, "");
  out.close();
  return out.finish();
}

Html figure(const Drawing& drawing, std::string_view caption) {
  Writer out;
  out.open("figure").open("div", {{"class", "drawing"}}).html(drawing.svg).close();
  if (!caption.empty()) out.element("figcaption", {}, caption);
  out.close();
  return out.finish();
}

Html beside(const Html& left, const Html& right) {
  return wrapped("beside", wrapped("half", left) + wrapped("half", right));
}

Html kept_together(const Html& part) { return wrapped("together", part); }

Html page_break() { return simple("div", "", {{"class", "break"}}); }

std::string page(const Page& page, const Html& body) {
  Writer out;
  out.open("html", {{"lang", page.language}});
  out.open("head").leaf("meta", {{"charset", "utf-8"}});
  out.leaf("meta", {{"name", "viewport"}, {"content", "width=device-width, initial-scale=1"}});
  out.leaf("meta", {{"name", "generator"}, {"content", "Lynearm"}});
  out.element("title", {}, page.title);
  out.open("style").html(dress(page)).close().close();
  out.open("body").open("header").element("h1", {}, page.title);
  if (!page.subtitle.empty()) out.element("p", {}, page.subtitle);
  out.close().open("main").html(body).close().close().close();
  return "<!DOCTYPE html>\n" + out.finish().text + "\n";
}

}  // namespace lynearm::sheet
