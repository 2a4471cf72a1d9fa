// lynearm serve: the workbench. Opens the house's journal, serves its pages and the API, and
// stays until it is stopped.
#include <fmt/format.h>
#include <malloc.h>

#include <chrono>
#include <cstdio>
#include <memory>
#include <optional>
#include <string>
#include <thread>
#include <vector>

#include "cli/commands.hpp"
#include "cli/house_place.hpp"
#include "cli/report.hpp"
#include "cli/still_options.hpp"
#include "cli/threads.hpp"
#include "serve/assets.hpp"
#include "serve/certificate.hpp"
#include "serve/device_routes.hpp"
#include "serve/pairing.hpp"
#include "serve/server.hpp"
#include "station/demo.hpp"
#include "station/paired.hpp"
#include "station/routes.hpp"
#include "station/station.hpp"
#include "store/house.hpp"
#include "wire/entry.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* option_port = "--port";
constexpr const char* option_demo = "--demo";
constexpr const char* option_lan = "--lan";
constexpr const char* option_name = "--name";
constexpr const char* option_tls = "--tls";
constexpr const char* option_certificate = "--certificate";
constexpr const char* option_key = "--key";
constexpr const char* option_log = "--log";
constexpr const char* option_log_file = "--log-file";
constexpr const char* option_for = "--for";
constexpr int default_port = 8420;

struct Asked {
  store::Place place;
  serve::Options options;
  bool demo = false;
  bool tls = false;
  std::optional<units::Duration> length;
};

void ask_for_tls(Arguments& arguments, Asked& asked) {
  const bool own = arguments.has(option_certificate) || arguments.has(option_key);
  asked.tls = own || arguments.has(option_tls);
  if (!own) return;
  asked.options.tls = serve::TlsFiles{
      arguments.required_text(option_certificate, "the path of a certificate, PEM"),
      arguments.required_text(option_key, "the path of its key, PEM")};
}

void ask_for_log(Arguments& arguments, serve::LogOptions& log) {
  using serve::Level;
  if (arguments.has(option_log_file)) {
    log.file = arguments.required_text(option_log_file, "the path of a file");
  }
  if (!arguments.has(option_log)) return;
  const std::string& word = arguments.texts(option_log).front();
  if (word == "debug") {
    log.least = Level::debug;
  } else if (word == "warning") {
    log.least = Level::warning;
  } else if (word == "error") {
    log.least = Level::error;
  } else if (word != "info") {
    arguments.refuse(option_log, word, "debug, info, warning or error");
  }
}

Asked read(Arguments& arguments) {
  Asked asked;
  asked.place = asked_place(arguments, false);
  // A certificate of the house's own lies in the folder, wherever the journal is.
  if (asked.place.folder.empty()) asked.place.folder = usual_folder();
  asked.options.port =
      arguments.whole_number<std::uint16_t>(option_port, 0, 65535, default_port);
  asked.demo = arguments.has(option_demo);
  asked.options.lan = arguments.has(option_lan);
  // A thread that keeps an entry waits for the disk; those that wait share one synchronisation.
  asked.options.quick_threads = 16;
  asked.options.names = arguments.texts(option_name);
  ask_for_tls(arguments, asked);
  ask_for_log(arguments, asked.options.log);
  asked.length = arguments.optional<units::Duration>(option_for);
  if (asked.length) {
    arguments.keep_within(option_for, *asked.length, units::Duration::seconds(0.1),
                          units::Duration::days(366.0));
  }
  return asked;
}

journal::Moment now() {
  using std::chrono::duration_cast;
  using std::chrono::milliseconds;
  return {
      duration_cast<milliseconds>(std::chrono::system_clock::now().time_since_epoch()).count()};
}

// The invented batches; those that are there already stay as they are.
void load_demo(station::Station& station) {
  std::vector<journal::Entry> entries;
  std::string_view rest = station::demo_journal();
  while (!rest.empty()) {
    const std::size_t end = rest.find('\n');
    const std::string_view line = rest.substr(0, end);
    rest = end == std::string_view::npos ? std::string_view{} : rest.substr(end + 1);
    if (line.empty()) continue;
    wire::EntryRead read = wire::read_entry(line, "demo");
    if (!read.entry) throw base::InputError(std::move(read.faults));
    entries.push_back(*std::move(read.entry));
  }
  station.take_in(entries);
}

// Stops a server after a while, unless it stopped before.
class Timer {
 public:
  Timer(serve::Server& server, std::optional<units::Duration> length) {
    if (!length) return;
    const auto until =
        std::chrono::steady_clock::now() +
        std::chrono::milliseconds(static_cast<std::int64_t>(length->seconds() * 1e3));
    thread_ = std::jthread([&server, until](const std::stop_token& stopped) {
      while (!stopped.stop_requested() && std::chrono::steady_clock::now() < until) {
        std::this_thread::sleep_for(std::chrono::milliseconds(20));
      }
      server.stop();
    });
  }

 private:
  std::jthread thread_;
};

// What stands on the terminal while it runs.
std::string told(const Asked& asked, const store::House& house, const serve::Server& server,
                 const std::string& fingerprint) {
  std::string text = fmt::format("The house is kept in {}.\nThe workbench: {}/\n",
                                 house.where(), server.address());
  if (asked.options.lan) {
    text += "Open to phones of this network: pair each one on the page Devices.\n";
  }
  if (asked.options.tls) {
    text += fmt::format("Fingerprint of the certificate, to compare on the phone:\n  {}\n",
                        fingerprint);
  } else if (asked.options.lan) {
    text += "Without --tls whoever shares the network can read along.\n";
  }
  return text + "Stop it with Ctrl-C; nothing recorded is lost.\n";
}

// Each thread that shapes a large answer would keep an arena as large as that answer: with
// sixteen of them, 124 MB were resident where 49 MB do (bench/serve/house_bench.py, two pages).
// And what a large answer took goes back at once: the thresholds would else grow with it.
void share_arenas() {
#ifdef __GLIBC__
  constexpr int large = 512 * 1024;  // bytes
  mallopt(M_ARENA_MAX, 2);
  mallopt(M_MMAP_THRESHOLD, large);
  mallopt(M_TRIM_THRESHOLD, large);
#endif
}

std::optional<int> stream(Arguments& arguments, const Look& look) {
  share_arenas();
  Asked asked = read(arguments);
  if (look.json) arguments.refuse("--json", "given", "nothing: the API at /api/v1 speaks JSON");
  arguments.settle();
  // First, so that no house is made beside a log that cannot be written.
  with_names({{"log", option_log_file}}, [&] { const serve::Log tried(asked.options.log); });

  const auto held = in_house(asked.place, "", "",
                             [&] { return std::make_unique<store::House>(asked.place); });
  store::House& house = *held;
  station::Station station(house, on_threads(all_cores()), now);
  if (asked.demo) load_demo(station);
  serve::Events events;
  station::Paired devices(house.devices(), now);
  serve::Pairing pairing;
  serve::Router router;
  station::add_routes(router, station, events);
  if (asked.tls && !asked.options.tls) {
    // Not the addresses of the LAN: they change, and a new certificate is a new fingerprint.
    std::vector<std::string> hosts{"localhost", "127.0.0.1", "::1"};
    hosts.insert(hosts.end(), asked.options.names.begin(), asked.options.names.end());
    asked.options.tls = serve::own_certificate(house.folder().string(), hosts);
  }
  const std::string fingerprint =
      asked.options.tls ? serve::fingerprint(asked.options.tls->certificate) : "";
  std::uint16_t port = asked.options.port;
  serve::add_device_routes(router, pairing, devices, events,
                           {asked.options.lan, asked.tls, fingerprint, asked.options.names,
                            [&port] { return port; }});
  serve::Assets(serve::embedded_assets()).add_to(router);
  serve::Server server(asked.options, std::move(router), events, devices);
  port = server.port();
  const station::News news(station, events);
  const int status = put(told(asked, house, server, fingerprint));
  if (status != Status::well) return status;
  const Timer timer(server, asked.length);
  server.run();
  return Status::well;
}

}  // namespace

Command serve_command() {
  return {
      "serve",
      "the workbench: pages and API over the house's journal",
      with_place(
          {{option_port, "NUMBER", "to listen on: 8420 (default); 0 for any that is free"},
           {option_lan, "", "opens it to phones of the network; each is paired on the laptop"},
           {option_name, "HOST", "a host name it answers to besides its addresses", true},
           {option_tls, "", "speaks TLS, with a certificate of the house's own"},
           {option_certificate, "FILE", "a certificate of yours instead, PEM; with --key"},
           {option_key, "FILE", "the key of that certificate, PEM"},
           {option_log, "LEVEL",
            "the least it tells: debug (every request), info (default), warning or error"},
           {option_log_file, "FILE", "tells it there, at the end, and not on standard error"},
           {option_demo, "", "adds the invented batches of the Tern Island still house"},
           {option_for, "DURATION", "stops by itself after so long: \"2 s\"; for scripts"}}),
      {R"(--data build/example-house --demo --port 0 --for "0.2 s")",
       "The house is kept in build/example-house."},
      "Without --lan it listens on this machine only. Everything recorded is an entry of a "
      "journal that\n"
      "only grows; once acknowledged, an entry outlives a killed process and a pulled plug.\n"
      "Distilling without a licence is unlawful in many countries: local law, fire code and\n"
      "licensed practice come first.\n",
      nullptr,
      stream};
}

}  // namespace lynearm::cli
