// Any call of the API over the invented house: whatever is asked, the answer is one or a
// refusal that names what is wrong, never a fault of ours. The first line is method and target,
// the rest the body. What only keeps (entries, journal, attachments) is left out: entries_fuzz
// and import_fuzz have it. Runs have few readings and are followed by the fewest members: whole
// they take longer under sanitizers than a call may.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <filesystem>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "base/error.hpp"
#include "numeric/ensemble.hpp"
#include "serve/events.hpp"
#include "serve/router.hpp"
#include "serve/target.hpp"
#include "station/demo.hpp"
#include "station/routes.hpp"
#include "station/station.hpp"
#include "store/house.hpp"
#include "wire/entry.hpp"

namespace {

using namespace lynearm;

void hold(bool holds) {
  if (!holds) std::abort();  // libFuzzer keeps the text that led here
}

std::string_view part(std::string_view& text, char end) {
  const std::size_t at = text.find(end);
  const std::string_view first = text.substr(0, at);
  text.remove_prefix(at == std::string_view::npos ? text.size() : at + 1);
  return first;
}

std::filesystem::path new_folder() {
  std::string name = (std::filesystem::temp_directory_path() / "lynearm-call-XXXXXX").string();
  hold(::mkdtemp(name.data()) != nullptr);
  return name;
}

constexpr int readings_kept = 2;  // of each batch: of one strip, and the spirit run has jars
constexpr std::size_t members = 100;

// The invented house, opened once; gone with the process.
class Open {
 public:
  Open() {
    std::vector<journal::Entry> entries;
    std::string_view rest = station::demo_journal();
    std::map<std::optional<journal::Id>, int> readings;
    while (!rest.empty()) {
      journal::Entry entry = *wire::read_entry(part(rest, '\n')).entry;
      const bool reading = std::holds_alternative<journal::RunRead>(entry.body);
      if (reading && ++readings[entry.batch] > readings_kept) continue;
      // A filled jar is followed as a reading is.
      if (std::holds_alternative<journal::JarFilled>(entry.body)) continue;
      entries.push_back(std::move(entry));
    }
    station_.take_in(entries);
    station::add_routes(router_, station_, events_);
  }
  ~Open() {
    std::error_code ignored;
    std::filesystem::remove_all(folder_, ignored);
  }
  Open(const Open&) = delete;
  Open& operator=(const Open&) = delete;

  [[nodiscard]] const serve::Router& router() const { return router_; }

 private:
  std::filesystem::path folder_ = new_folder();
  store::House house_{{.folder = folder_, .database = ""}};
  station::Station station_{house_, numeric::one_after_another(),
                            [] { return journal::Moment{1'795'694'400'000}; }, members};
  serve::Events events_;
  serve::Router router_;
};

bool left_out(std::string_view method, const std::string& path) {
  return path == "/api/v1/events" ||
         (method == "POST" && (path == "/api/v1/entries" || path == "/api/v1/journal" ||
                               path == "/api/v1/attachments"));
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  static Open open;
  std::string_view text(reinterpret_cast<const char*>(data), size);
  std::string_view head = part(text, '\n');
  serve::Request request;
  request.method = part(head, ' ');
  const auto target = serve::read_target(head);
  if (!target || left_out(request.method, target->path)) return 0;
  serve::Match match = open.router().find(request.method, *target);
  if (match.route == nullptr) return 0;
  request.path = target->path;
  request.query = target->query;
  request.parameters = std::move(match.parameters);
  request.body = text;
  if (request.body.size() > match.route->terms.greatest_body) return 0;
  try {
    const serve::Reply reply = match.route->handler(request);
    hold(reply.status >= 200 && reply.status < 500 && !reply.body.empty());
  } catch (const base::InputError& error) {
    hold(!error.faults().empty());
    for (const base::Fault& fault : error.faults()) {
      hold(!fault.field.empty() && !fault.accepted.empty());
      hold(serve::is_utf8(fault.field + fault.value + fault.accepted));
    }
  } catch (const base::NotConverged&) {  // told as such: a run that no model reaches
  }
  return 0;
}
