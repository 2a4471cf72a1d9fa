#include "station/routes.hpp"

#include <chrono>
#include <utility>

#include "base/field_names.hpp"
#include "journal/meaning.hpp"
#include "serve/problem.hpp"
#include "sheet/batch_sheet.hpp"
#include "sheet/record_sheet.hpp"
#include "spirit/gauging.hpp"
#include "station/advice.hpp"
#include "station/advice_mash.hpp"
#include "station/charging.hpp"
#include "station/clock_asked.hpp"
#include "station/reducing.hpp"
#include "station/routes_files.hpp"
#include "station/solved.hpp"
#include "station/wooded.hpp"
#include "store/trouble.hpp"
#include "wire/answer.hpp"
#include "wire/ask.hpp"
#include "wire/charge_left.hpp"
#include "wire/entry.hpp"
#include "wire/ferment_forecast.hpp"
#include "wire/house.hpp"
#include "wire/plan_json.hpp"
#include "wire/wood_forecast.hpp"
#include "wort/gravity.hpp"

namespace lynearm::station {
namespace {

using serve::Reply;
using serve::Request;

// A recipe and a kit, escaped.
constexpr std::size_t documents = 2 * wire::most_entry_bytes;

Reply not_found(std::string title) {
  return serve::problem(404, "not-found", std::move(title),
                        "It may not have reached this house yet.");
}

std::optional<journal::Id> id_in(const Request& request, std::string_view name) {
  return journal::read_id(request.parameter(name));
}

const journal::BatchState* batch_in(const Seen& seen, const Request& request) {
  const std::optional<journal::Id> id = id_in(request, "batch");
  if (!id) return nullptr;
  const auto found = seen.house.batches.find(*id);
  return found == seen.house.batches.end() ? nullptr : &found->second;
}

struct RunFound {
  const journal::BatchState* batch = nullptr;
  const journal::RunState* run = nullptr;
};

RunFound run_in(const Seen& seen, const journal::Id& id) {
  for (const auto& [name, batch] : seen.house.batches) {
    if (const journal::RunState* run = journal::run_named(batch, id)) return {&batch, run};
  }
  return {};
}

// What pages ask for again after each news: told to the station how long it took.
template <class Answer>
serve::Handler read_again(Station& station, const Answer& answer) {
  return [&station, answer](const Request& request) {
    const auto begun = std::chrono::steady_clock::now();
    Reply reply = answer(request);
    station.was_read(std::chrono::duration_cast<std::chrono::microseconds>(
        std::chrono::steady_clock::now() - begun));
    return reply;
  };
}

// What is asked for may have thousands of characters, and is told again when it is refused.
std::string cut_short(std::string_view asked) {
  constexpr std::size_t most = 80;
  return std::string(asked.substr(0, most)) + (asked.size() > most ? "..." : "");
}

// ---- the record -----------------------------------------------------------------------------

void add_record(serve::Router& router, Station& station) {
  router.on("GET", "/api/v1/time",
            [&station](const Request&) { return serve::json(wire::now_json(station.now())); });
  serve::Terms entries;
  entries.greatest_body = documents;
  router.on(
      "POST", "/api/v1/entries",
      [&station](const Request& request) {
        const std::vector<journal::Entry> read = wire::read_entries(request.body);
        return kept(station, [&] { return station.keep(read); });
      },
      entries);
  router.on("GET", "/api/v1/house", read_again(station, [&station](const Request&) {
              const std::shared_ptr<const Seen> seen = station.seen();
              return serve::json(wire::house_json(
                  seen->house, station.next_steps(seen->house),
                  [&](const std::optional<journal::Id>& batch) {
                    return station.glass(seen->house, batch);
                  },
                  station.asked_by_kit(seen->house)));
            }));
  // What belongs to no batch; also where nothing was told yet.
  router.on("GET", "/api/v1/house/entries", [&station](const Request&) {
    return serve::json(wire::entries_json(station.house().journal().of_house()));
  });
  router.on("GET", "/api/v1/lots", read_again(station, [&station](const Request&) {
              const std::shared_ptr<const Seen> seen = station.seen();
              return serve::json(
                  wire::lots_json(seen->house, [&](const std::optional<journal::Id>& batch) {
                    return station.glass(seen->house, batch);
                  }));
            }));
  router.on("GET", "/api/v1/batches/{batch}",
            read_again(station, [&station](const Request& request) {
              const std::shared_ptr<const Seen> seen = station.seen();
              const journal::BatchState* batch = batch_in(*seen, request);
              if (batch == nullptr) return not_found("There is no such batch");
              const wire::NextStep next = station.next(seen->house, *batch);
              return serve::json(wire::batch_json(seen->house, *batch, &next,
                                                  station.glass(seen->house, batch->id),
                                                  station.by_kit(*batch)));
            }));
  router.on("GET", "/api/v1/batches/{batch}/entries", [&station](const Request& request) {
    const std::optional<journal::Id> id = id_in(request, "batch");
    const std::vector<journal::Entry> of_batch =
        id ? station.house().journal().of_batch(*id) : std::vector<journal::Entry>{};
    if (of_batch.empty()) return not_found("There is no such batch");
    return serve::json(wire::entries_json(of_batch));
  });
}

// ---- plans ----------------------------------------------------------------------------------

int members_asked(const Request& request) {
  const std::string_view text = request.asked("members").value_or("0");
  int members = 0;
  for (const char c : text) {
    if (c < '0' || c > '9' || members > 500) members = 1000;
    members = members * 10 + (c - '0');
  }
  if (members > 500) throw base::InputError("members", cut_short(text), "0 to 500");
  return members;
}

std::string plan_text(const PlanMade& made) {
  return wire::plan_json(made.pair.recipe, made.pair.kit, made.plan,
                         made.bands ? &*made.bands : nullptr);
}

sheet::Paper paper_asked(const Request& request) {
  const std::string_view paper = request.asked("paper").value_or("a4");
  if (paper == "letter") return sheet::Paper::letter;
  if (paper != "a4") throw base::InputError("paper", cut_short(paper), "a4 or letter");
  return sheet::Paper::a4;
}

// The record of a batch that has begun; before that its plan, to write on.
std::string sheet_text(Station& station, const Request& request, const PlanMade& made) {
  const sheet::Paper paper = paper_asked(request);
  const ClockAsked clock = clock_asked(request);
  const std::shared_ptr<const Seen> seen = station.seen();
  const journal::BatchState* batch = batch_in(*seen, request);
  if (batch == nullptr || !sheet::has_begun(*batch)) {
    return sheet::batch_sheet(made.pair.recipe, made.pair.kit, made.plan,
                              made.bands ? &*made.bands : nullptr, units::System::metric,
                              paper);
  }
  const std::vector<journal::Entry> entries = station.house().journal().of_batch(batch->id);
  return sheet::record_sheet({made.pair.recipe, made.pair.kit, made.plan, seen->house, *batch,
                              entries, units::System::metric, clock.minutes_east, clock.turns,
                              station.readings_followed(*batch)},
                             paper);
}

void add_plans(serve::Router& router, Station& station) {
  serve::Terms terms = slow_terms();
  terms.greatest_body = documents;
  router.on(
      "POST", "/api/v1/plan",
      [&station](const Request& request) {
        const wire::PlanAsked asked = wire::read_plan_asked(request.body);
        return serve::json(plan_text(*station.plan(asked.recipe, asked.kit, asked.members)));
      },
      terms);
  router.on(
      "POST", "/api/v1/plan/solve",
      [](const Request& request) {
        return serve::json(solved(wire::read_solve_asked(request.body)));
      },
      terms);
  const auto of_batch = [&station](const Request& request, const auto& answer) {
    const std::shared_ptr<const Seen> seen = station.seen();
    const journal::BatchState* batch = batch_in(*seen, request);
    if (batch == nullptr) return not_found("There is no such batch");
    if (!batch->plan) return not_found("This batch has no plan yet");
    return answer(*station.plan(batch->plan->recipe, batch->plan->kit, members_asked(request)));
  };
  router.on(
      "GET", "/api/v1/batches/{batch}/plan",
      [of_batch](const Request& request) {
        return of_batch(request,
                        [](const PlanMade& made) { return serve::json(plan_text(made)); });
      },
      slow_terms());
  router.on(
      "GET", "/api/v1/batches/{batch}/sheet",
      [&station, of_batch](const Request& request) {
        return of_batch(request, [&](const PlanMade& made) {
          Reply reply;
          reply.content_type = "text/html; charset=utf-8";
          // The sheet is one file that brings its own style, as it is written to disk; no
          // script runs in it, and it reaches for nothing.
          reply.headers.emplace_back("Content-Security-Policy",
                                     "default-src 'none'; style-src 'unsafe-inline'; img-src "
                                     "data:; base-uri 'none'; form-action 'none'; "
                                     "frame-ancestors 'none'");
          reply.body = sheet_text(station, request, made);
          return reply;
        });
      },
      slow_terms());
  router.on(
      "POST", "/api/v1/mash-correction",
      [&station](const Request& request) {
        const wire::MashCorrectionAsked asked = wire::read_mash_correction_asked(request.body);
        const std::shared_ptr<const Seen> seen = station.seen();
        const auto batch = seen->house.batches.find(asked.batch);
        if (batch == seen->house.batches.end() || !batch->second.plan) {
          throw base::InputError("batch", journal::print(asked.batch), "a batch with a plan");
        }
        const auto made = station.plan(batch->second.plan->recipe, batch->second.plan->kit, 0);
        return serve::json(wire::mash_correction_json(
            mash_advice(*made, batch->second, asked.temperature, asked.step)));
      },
      slow_terms());
  router.on("GET", "/api/v1/tables",
            [](const Request&) { return serve::json(wire::tables_json(choices())); });
}

// ---- ferment --------------------------------------------------------------------------------

void add_ferment(serve::Router& router, Station& station) {
  router.on(
      "GET", "/api/v1/batches/{batch}/ferment",
      [&station](const Request& request) {
        const std::shared_ptr<const Seen> seen = station.seen();
        const journal::BatchState* batch = batch_in(*seen, request);
        if (batch == nullptr) return not_found("There is no such batch");
        if (!batch->plan) return not_found("This batch has no plan yet");
        if (!batch->ferment.pitch) return not_found("This batch is not pitched yet");
        return serve::json(wire::ferment_forecast_json(*station.ferment(*batch)));
      },
      slow_terms());
}

// ---- wood -----------------------------------------------------------------------------------

void add_wood(serve::Router& router, Station& station) {
  router.on(
      "GET", "/api/v1/batches/{batch}/wood",
      [&station](const Request& request) {
        const std::shared_ptr<const Seen> seen = station.seen();
        const journal::BatchState* batch = batch_in(*seen, request);
        if (batch == nullptr) return not_found("There is no such batch");
        if (!batch->plan) return not_found("This batch has no plan yet");
        const auto made = station.plan(batch->plan->recipe, batch->plan->kit, 0);
        return serve::json(
            wire::wood_forecasts_json(on_wood(*made, seen->house, *batch, station.now())));
      },
      slow_terms());
}

// ---- runs and jars --------------------------------------------------------------------------

void add_charge(serve::Router& router, Station& station) {
  router.on(
      "POST", "/api/v1/batches/{batch}/charge",
      [&station](const Request& request) {
        const std::shared_ptr<const Seen> seen = station.seen();
        const journal::BatchState* batch = batch_in(*seen, request);
        if (batch == nullptr) return not_found("There is no such batch");
        const wire::ChargeAsked asked = wire::read_charge_asked(request.body);
        return serve::json(
            wire::charge_left_json(charge_left(station, seen->house, *batch, asked)));
      },
      slow_terms());
}

void add_runs(serve::Router& router, Station& station) {
  const auto of_run = [&station](const Request& request, const auto& answer) {
    const std::shared_ptr<const Seen> seen = station.seen();
    const std::optional<journal::Id> id = id_in(request, "run");
    const RunFound found = id ? run_in(*seen, *id) : RunFound{};
    if (found.run == nullptr) return not_found("There is no such run");
    return answer(*found.batch, *found.run);
  };
  router.on(
      "GET", "/api/v1/runs/{run}/forecast",
      [&station, of_run](const Request& request) {
        return of_run(
            request, [&](const journal::BatchState& batch, const journal::RunState& run) {
              return serve::json(wire::run_forecast_json(station.forecast(batch, run)));
            });
      },
      slow_terms());
  router.on(
      "GET", "/api/v1/runs/{run}/cuts",
      [&station, of_run](const Request& request) {
        return of_run(request, [&](const journal::BatchState& batch,
                                   const journal::RunState& run) {
          ShelfJars shelf = shelf_jars(run);
          shelf.glass = station.glass(station.seen()->house, batch.id);
          const still::Purpose& purpose =
              still::purpose(cut_short(request.asked("purpose").value_or("clean")));
          if (batch.plan && run.charge_known) {
            keep_to_plan(
                shelf, station.plan(batch.plan->recipe, batch.plan->kit, 0)->pair.recipe, run);
          }
          return serve::json(wire::cuts_json(shelf, purpose, cuts(shelf, purpose)));
        });
      },
      slow_terms());
  router.on("POST", "/api/v1/pour", [&station](const Request& request) {
    const wire::PourAsked asked = wire::read_pour_asked(request.body);
    const std::shared_ptr<const Seen> seen = station.seen();
    const RunFound found = run_in(*seen, asked.run);
    if (found.run == nullptr) {
      throw base::InputError("run", journal::print(asked.run), "a run of this house");
    }
    ShelfJars shelf = shelf_jars(*found.run);
    shelf.glass = station.glass(seen->house, found.batch->id);
    return serve::json(wire::poured_json(shelf, poured(shelf, asked.pours)));
  });
}

// ---- gauging --------------------------------------------------------------------------------

Reply gauge(Station& station, const Request& request) {
  wire::GaugeAsked asked = wire::read_gauge_asked(request.body);
  if (!asked.glass_told) {
    const plan::Instruments kit = station.instruments();
    asked.glass = static_cast<wire::Glass>(kit.alcoholmeter_class);
    asked.certificate = kit.certificate;
  }
  spirit::GaugingInput input;
  const spirit::HydrometerClass& glass =
      spirit::hydrometer_classes()[static_cast<std::size_t>(asked.glass)];
  const double proofs = asked.strength.reading.scale == spirit::Scale::us_proof ? 2.0 : 1.0;
  input.observation = spirit::ByHydrometer{asked.strength.reading,
                                           {},
                                           glass.most_error_percent * proofs,
                                           glass.division_percent * proofs};
  input.at = asked.strength.at;
  input.thermometer_error = units::TemperatureChange::kelvins(0.5);
  input.residue = asked.residue;
  const spirit::Gauging gauging =
      base::with_names({{"at", "at_C"}}, [&] { return spirit::gauge(input); });
  std::optional<spirit::Lot> lot;
  if (asked.volume) lot = spirit::lot(*asked.volume, gauging.strength, asked.strength.at);
  return serve::json(wire::gauged_json(asked, gauging, lot));
}

Reply gravity(const Request& request) {
  const wire::GravityAsked asked = wire::read_gravity_asked(request.body);
  wire::GravityFound found;
  // A gravity or extract that the engine cannot take is what was read.
  base::with_names(
      {{"temperature", "at_C"}, {"gravity", "reading"}, {"extract", "reading"}}, [&] {
        found.gravity = asked.original ? journal::wash_gravity(asked.gravity, *asked.original)
                                       : journal::wort_gravity(asked.gravity);
        found.plato = wort::plato(found.gravity);
      });
  if (asked.original && found.gravity <= *asked.original) {
    found.strength = journal::wash_strength(*asked.original, found.gravity);
  }
  return serve::json(wire::gravity_json(asked, found));
}

Reply reduce(const Request& request) {
  const wire::ReduceAsked asked = wire::read_reduce_asked(request.body);
  return serve::json(wire::reduced_json(asked, reduced(asked)));
}

Reply blend(const Request& request) {
  const std::vector<wire::PartAsked> parts = wire::read_blend_asked(request.body);
  spirit::Lot sum;
  for (const wire::PartAsked& part : parts) sum = sum + spirit::lot(part.volume, part.strength);
  return serve::json(wire::blend_json(parts, sum));
}

}  // namespace

void add_routes(serve::Router& router, Station& station, serve::Events& events) {
  add_record(router, station);
  add_plans(router, station);
  add_ferment(router, station);
  add_wood(router, station);
  add_charge(router, station);
  add_runs(router, station);
  add_file_routes(router, station);
  router.on("POST", "/api/v1/gauge",
            [&station](const Request& request) { return gauge(station, request); });
  router.on("POST", "/api/v1/gravity", gravity);
  router.on("POST", "/api/v1/reduce", reduce);
  router.on("POST", "/api/v1/blend", blend);
  router.on("GET", "/api/v1/events", [&station, &events](const Request& request) {
    Reply reply;
    reply.content_type = "text/event-stream";
    reply.stream = events.subscribe({"kept"}, request.who ? request.who->id : "");
    const store::Sequence last = station.house().journal().last();
    reply.stream->push(std::make_shared<const std::string>(
        serve::event_text(std::to_string(last), "hello", wire::sequence_json(last))));
    return reply;
  });
}

}  // namespace lynearm::station
