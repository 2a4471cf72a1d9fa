// The calls that carry whole files: the journal out and in, attachments, examples. And what
// every call that keeps something answers.
#pragma once

#include <functional>
#include <vector>

#include "serve/router.hpp"
#include "station/station.hpp"

namespace lynearm::station {

/// For what computes longer than a reading may wait.
[[nodiscard]] const serve::Terms& slow_terms();

/// What `keep` did, as an answer; 507 when the disk is full and 503 when the store does not
/// answer: nothing was acknowledged then, and the page keeps its entries.
[[nodiscard]] serve::Reply kept(Station& station,
                                const std::function<std::vector<store::Kept>()>& keep);

void add_file_routes(serve::Router& router, Station& station);

}  // namespace lynearm::station
