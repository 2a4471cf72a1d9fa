// A small check that a text is well-formed XML, as far as our pages go: elements nest and
// close, attributes are quoted and not doubled, & begins one of our entities. Returns the first
// fault.
#pragma once

#include <set>
#include <string>
#include <string_view>
#include <vector>

namespace lynearm::sheet {

inline std::string fault_of_xml(std::string_view xml) {
  std::vector<std::string> open;
  std::size_t at = xml.starts_with("<!DOCTYPE html>\n") ? 16 : 0;
  bool rooted = false;
  const auto is_name = [](char c) {
    return (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z') || (c >= '0' && c <= '9') ||
           c == '-';
  };
  const auto name = [&] {
    const std::size_t begin = at;
    while (at < xml.size() && is_name(xml[at])) ++at;
    return std::string(xml.substr(begin, at - begin));
  };
  const auto entity = [&] {
    for (const std::string_view known : {"&amp;", "&lt;", "&gt;", "&quot;", "&#39;"}) {
      if (xml.substr(at).starts_with(known)) return true;
    }
    return false;
  };
  while (at < xml.size()) {
    const std::string where = " at " + std::string(xml.substr(at, 40));
    if (xml[at] != '<') {
      if (open.empty() && xml[at] != '\n') return "text outside the root" + where;
      if (xml[at] == '&' && !entity()) return "a bare &" + where;
      ++at;
    } else if (xml.substr(at).starts_with("</")) {
      at += 2;
      const std::string closed = name();
      if (open.empty() || open.back() != closed) return "closes what is not open" + where;
      open.pop_back();
      if (at >= xml.size() || xml[at] != '>') return "an end without >" + where;
      ++at;
    } else {
      ++at;
      const std::string element = name();
      if (element.empty()) return "a bare <" + where;
      if (open.empty() && rooted) return "two roots" + where;
      rooted = true;
      std::set<std::string> seen;
      while (at < xml.size() && xml[at] == ' ') {
        ++at;
        if (!seen.insert(name()).second) return "an attribute twice" + where;
        if (!xml.substr(at).starts_with("=\"")) return "an attribute without a value" + where;
        for (at += 2; at < xml.size() && xml[at] != '"'; ++at) {
          if (xml[at] == '<' || (xml[at] == '&' && !entity())) return "a bad value" + where;
        }
        ++at;
      }
      if (xml.substr(at).starts_with("/>")) {
        at += 2;
      } else if (at < xml.size() && xml[at] == '>') {
        ++at;
        open.push_back(element);
      } else {
        return "a bad start" + where;
      }
    }
  }
  if (!open.empty()) return "still open: " + open.back();
  return rooted ? "" : "nothing there";
}

}  // namespace lynearm::sheet
