#include "station/routes_files.hpp"

#include <fmt/format.h>

#include <cctype>
#include <cstdint>
#include <span>
#include <string>
#include <utility>

#include "serve/problem.hpp"
#include "station/demo.hpp"
#include "store/trouble.hpp"
#include "wire/answer.hpp"
#include "wire/entry.hpp"

namespace lynearm::station {
namespace {

using serve::Reply;
using serve::Request;

constexpr std::size_t most_import_bytes = std::size_t{64} * 1024 * 1024;

// Nothing was acknowledged, and the page keeps it: 507 when the disk is full, else 503.
Reply not_kept(const store::Trouble& trouble) {
  const bool full = trouble.kind() == store::Trouble::Kind::full;
  std::string says = fmt::format("{}.", trouble.what());
  says.front() = static_cast<char>(std::toupper(static_cast<unsigned char>(says.front())));
  return serve::problem(full ? 507 : 503, full ? "disk-full" : "store-trouble",
                        "Nothing was kept", says);
}

// A photograph is shown by the page, never run by it: the type is read off its first bytes, and
// what is not a picture is only ever downloaded.
std::string_view picture_type(std::span<const std::uint8_t> bytes) {
  const auto begins = [&](std::string_view with) {
    if (bytes.size() < with.size()) return false;
    for (std::size_t i = 0; i < with.size(); ++i) {
      if (bytes[i] != static_cast<std::uint8_t>(with[i])) return false;
    }
    return true;
  };
  if (begins("\xFF\xD8\xFF")) return "image/jpeg";
  if (begins("\x89PNG\r\n")) return "image/png";
  if (begins("RIFF") && bytes.size() > 12 && bytes[8] == 'W' && bytes[9] == 'E')
    return "image/webp";
  return "";
}

std::vector<journal::Entry> read_lines(std::string_view text) {
  std::vector<journal::Entry> entries;
  std::vector<base::Fault> faults;
  int line = 0;
  while (!text.empty() && faults.size() < 100) {
    const std::size_t end = text.find('\n');
    const std::string_view one = text.substr(0, end);
    text = end == std::string_view::npos ? std::string_view{} : text.substr(end + 1);
    ++line;
    if (one.find_first_not_of(" \t\r") == std::string_view::npos) continue;
    wire::EntryRead read = wire::read_entry(one, fmt::format("line {}", line));
    if (read.entry) {
      entries.push_back(*std::move(read.entry));
    } else {
      faults.insert(faults.end(), read.faults.begin(), read.faults.end());
    }
  }
  if (!faults.empty()) throw base::InputError(std::move(faults));
  return entries;
}

void add_attachments(serve::Router& router, Station& station) {
  serve::Terms terms = slow_terms();
  terms.greatest_body = store::most_attachment_bytes;
  terms.content_type = "application/octet-stream";
  router.on(
      "POST", "/api/v1/attachments",
      [&station](const Request& request) {
        const std::vector<std::uint8_t> bytes(request.body.begin(), request.body.end());
        try {
          return serve::json(wire::attachment_json(station.house().attachments().keep(bytes)));
        } catch (const store::Trouble& trouble) {
          return not_kept(trouble);
        }
      },
      terms);
  router.on(
      "GET", "/api/v1/attachments/{name}",
      [&station](const Request& request) {
        const std::string& name = request.parameter("name");
        if (!store::is_attachment_name(name)) {
          return serve::problem(404, "not-found", "There is no such attachment");
        }
        const auto found = station.house().attachments().find(name);
        if (!found) return serve::problem(404, "not-found", "There is no such attachment");
        Reply reply;
        const std::string_view type = picture_type(*found);
        reply.content_type = type.empty() ? "application/octet-stream" : std::string(type);
        if (type.empty()) reply.headers.emplace_back("Content-Disposition", "attachment");
        reply.headers.emplace_back("Cache-Control", "private, max-age=31536000, immutable");
        reply.body.assign(found->begin(), found->end());
        return reply;
      },
      slow_terms());
}

}  // namespace

// What computes for longer than a reading may wait.
const serve::Terms& slow_terms() {
  static const serve::Terms terms{serve::Door::paired, serve::Lane::slow};
  return terms;
}

serve::Reply kept(Station& station, const std::function<std::vector<store::Kept>()>& keep) {
  std::vector<wire::KeptRow> rows;
  try {
    for (const store::Kept& one : keep()) {
      rows.push_back({one.id, one.sequence, !one.now});
    }
  } catch (const store::Trouble& trouble) {
    return not_kept(trouble);
  }
  return serve::json(wire::kept_json(rows, station.now()));
}

void add_file_routes(serve::Router& router, Station& station) {
  router.on(
      "GET", "/api/v1/journal",
      [&station](const Request&) {
        Reply reply;
        reply.content_type = "application/jsonl";
        station.house().journal().each([&](const store::Numbered& one) {
          reply.body += wire::entry_json(one.entry) + "\n";
        });
        return reply;
      },
      slow_terms());
  serve::Terms terms = slow_terms();
  terms.greatest_body = most_import_bytes;
  terms.content_type = "application/jsonl";
  router.on(
      "POST", "/api/v1/journal",
      [&station](const Request& request) {
        const std::vector<journal::Entry> entries = read_lines(request.body);
        return kept(station, [&] { return station.take_in(entries); });
      },
      terms);
  router.on("GET", "/api/v1/examples",
            [](const Request&) { return serve::json(wire::examples_json(demo_examples())); });
  add_attachments(router, station);
}

}  // namespace lynearm::station
