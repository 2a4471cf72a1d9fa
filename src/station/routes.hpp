// /api/v1: what each call of web/api/openapi.yaml does. The shape of requests and answers is in
// wire/, the work in Station; here they meet.
#pragma once

#include "serve/events.hpp"
#include "serve/router.hpp"
#include "station/station.hpp"
#include "store/watchers.hpp"

namespace lynearm::station {

/// Adds every route. `station` and `events` live longer than the router.
void add_routes(serve::Router& router, Station& station, serve::Events& events);

/// Tells every open page that something was kept, here or at another station; at most ten times
/// a second, the last of a burst always.
class News {
 public:
  News(Station& station, serve::Events& events);
  ~News();
  News(const News&) = delete;
  News& operator=(const News&) = delete;

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace lynearm::station
