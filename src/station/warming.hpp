// Ahead of the pages: when the house opens and when something was recorded, what will be asked
// for next is computed by a thread of its own, one task at a time, and open pages are told when
// it is there. The first forecast of a run takes seconds; whoever opens its page finds it done.
#pragma once

#include <functional>
#include <memory>

#include "station/station.hpp"

namespace lynearm::station {

class Warming {
 public:
  /// station    lives longer than this
  /// made       called when something new is there, from this thread
  Warming(Station& station, std::function<void()> made);
  /// Stops within one task of a run's forecast, or at the end of a plan.
  ~Warming();
  Warming(const Warming&) = delete;
  Warming& operator=(const Warming&) = delete;

  /// Something was recorded.
  void look();

 private:
  struct Inside;
  std::unique_ptr<Inside> inside_;
};

}  // namespace lynearm::station
