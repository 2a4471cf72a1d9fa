#include "recipe/description.hpp"

#include <fmt/format.h>

namespace lynearm::recipe {
namespace {

std::string quoted(std::string_view text) {
  std::string out = "\"";
  for (const char c : text) {
    if (c == '"' || c == '\\') {
      out += '\\';
      out += c;
    } else if (static_cast<unsigned char>(c) < 0x20U) {
      out += fmt::format("\\u{:04x}", static_cast<unsigned>(c));
    } else {
      out += c;
    }
  }
  return out + '"';
}

// The members of a JSON object at one depth, written as they come.
class Object {
 public:
  explicit Object(std::size_t depth) : depth_(depth) {}
  void raw(std::string_view name, std::string_view json) {
    body_ += body_.empty() ? "\n" : ",\n";
    body_ += std::string(2 * depth_ + 2, ' ') + quoted(name) + ": ";
    body_ += json;
  }
  void text(std::string_view name, std::string_view value) { raw(name, quoted(value)); }
  [[nodiscard]] std::string str() const {
    if (body_.empty()) return "{}";
    return "{" + body_ + "\n" + std::string(2 * depth_, ' ') + "}";
  }

 private:
  std::size_t depth_;
  std::string body_;
};

void write(const Description& key, Object& out, std::size_t depth);

void write_keys(const Description& section, Object& out, std::size_t depth) {
  out.text("type", "object");
  out.raw("additionalProperties", "false");
  std::string required;
  Object properties(depth + 1);
  for (const Description& key : section.keys) {
    Object property(depth + 2);
    write(key, property, depth + 2);
    properties.raw(key.key, property.str());
    if (key.required) required += (required.empty() ? "" : ", ") + quoted(key.key);
  }
  if (!required.empty()) out.raw("required", "[" + required + "]");
  out.raw("properties", properties.str());
}

// What the schema says of a single value.
void write_value(const Description& key, Shape shape, Object& out) {
  switch (shape) {
    case Shape::quantity:
      out.raw("type", key.bare ? R"(["string", "number"])" : R"("string")");
      if (!key.pattern.empty()) out.text("pattern", key.pattern);
      break;
    case Shape::number:
    case Shape::count:
      out.text("type", shape == Shape::count ? "integer" : "number");
      if (key.least) out.raw("minimum", fmt::format("{}", *key.least));
      if (key.most) out.raw("maximum", fmt::format("{}", *key.most));
      break;
    case Shape::yes_no:
      out.text("type", "boolean");
      break;
    case Shape::text:
      out.text("type", "string");
      out.raw("minLength", "1");
      break;
    case Shape::choice: {
      std::string names;
      for (const std::string& choice : key.choices) {
        names += (names.empty() ? "" : ", ") + quoted(choice);
      }
      out.raw("enum", "[" + names + "]");
      break;
    }
    case Shape::section:
    case Shape::sections:
    case Shape::list:
      break;
  }
}

void write(const Description& key, Object& out, std::size_t depth) {
  std::string about = key.about;
  if (!key.accepted.empty() && key.shape != Shape::choice) about += ": " + key.accepted;
  if (key.otherwise) about += fmt::format(" (default {})", *key.otherwise);
  out.text("description", about);
  if (key.shape == Shape::section) {
    write_keys(key, out, depth);
  } else if (key.shape == Shape::sections || key.shape == Shape::list) {
    out.text("type", "array");
    if (key.least_items > 0) out.raw("minItems", fmt::format("{}", key.least_items));
    Object each(depth + 1);
    if (key.shape == Shape::sections) {
      write_keys(key, each, depth + 1);
    } else {
      write_value(key, key.item, each);
    }
    out.raw("items", each.str());
  } else {
    write_value(key, key.shape, out);
  }
}

// A cell of a table: no bar and no line end of its own.
std::string cell(std::string_view text) {
  std::string out;
  for (const char c : text) {
    if (c == '|') out += '\\';
    out += c == '\n' ? ' ' : c;
  }
  return out;
}

bool holds_keys(const Description& key) {
  return key.shape == Shape::section || key.shape == Shape::sections;
}

void write_page(const Description& section, const std::string& path, std::string& page) {
  if (!path.empty()) {
    const bool many = section.shape == Shape::sections;
    page += fmt::format("\n## `{}{}{}`\n\n{}{}.\n", many ? "[[" : "[", path, many ? "]]" : "]",
                        section.about, section.required ? "" : ". May be left out");
  }
  std::string rows;
  for (const Description& key : section.keys) {
    if (holds_keys(key)) continue;
    std::string value = key.shape == Shape::list ? "list: " + key.kind : key.kind;
    for (std::size_t i = 0; i < key.choices.size(); ++i) {
      value += fmt::format("{}`\"{}\"`", i == 0 ? " " : ", ", key.choices[i]);
    }
    if (!key.range.empty()) value += ", " + key.range;
    rows +=
        fmt::format("| `{}` | {} | {} | {} |\n", cell(key.key), cell(key.about), cell(value),
                    key.required    ? "required"
                    : key.otherwise ? cell(*key.otherwise)
                                    : "may be left out");
  }
  if (!rows.empty()) {
    page += "\n| key | what | value | when left out |\n|---|---|---|---|\n" + rows;
  }
  for (const Description& key : section.keys) {
    if (holds_keys(key)) write_page(key, path.empty() ? key.key : path + "." + key.key, page);
  }
}

}  // namespace

Description* Description::find(std::string_view name) {
  for (Description& each : keys) {
    if (each.key == name) return &each;
  }
  return nullptr;
}

std::string json_schema(const Description& root) {
  Object out(0);
  out.text("$schema", "https://json-schema.org/draft/2020-12/schema");
  out.text("title", root.key);
  out.text("description", root.about);
  write_keys(root, out, 0);
  return out.str() + "\n";
}

std::string markdown(const Description& root) {
  std::string page = fmt::format("# `{}`\n\n{}.\n", root.key, root.about);
  page +=
      "\nA quantity is a string with its unit, `\"4.5 kg\"`; items of a list are counted from "
      "1 "
      "in messages (`mash_bill[2].mass`).\n";
  write_page(root, "", page);
  return page;
}

}  // namespace lynearm::recipe
