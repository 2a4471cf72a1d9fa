#include "store/journal.hpp"

#include <fmt/format.h>

#include <future>
#include <utility>

namespace lynearm::store {
namespace {

std::vector<Row> rows_of(std::span<const journal::Entry> entries,
                         std::optional<journal::Moment> received) {
  std::vector<Row> rows;
  rows.reserve(entries.size());
  for (std::size_t i = 0; i < entries.size(); ++i) {
    rows.push_back(row_of(entries[i], received, fmt::format("entries[{}]", i)));
  }
  return rows;
}

}  // namespace

Journal::Journal(std::unique_ptr<Engine> engine)
    : engine_(std::move(engine)),
      keeper_(*engine_, [this](Sequence last) { watchers_.tell(last); }) {
  engine_->listen([this](Sequence last) { watchers_.tell(last); });
}

Journal::~Journal() = default;

std::vector<Kept> Journal::keep(std::span<const journal::Entry> entries,
                                std::optional<journal::Moment> received) {
  if (entries.empty()) return {};
  // Shared: this thread may be gone with the outcome while the other is still handing it over.
  const auto promise = std::make_shared<std::promise<Outcome>>();
  std::future<Outcome> outcome = promise->get_future();
  keep_then(entries, received,
            [promise](Outcome result) { promise->set_value(std::move(result)); });
  Outcome result = outcome.get();
  if (const auto* fault = std::get_if<std::exception_ptr>(&result)) {
    std::rethrow_exception(*fault);
  }
  return std::get<std::vector<Kept>>(std::move(result));
}

void Journal::keep_then(std::span<const journal::Entry> entries,
                        std::optional<journal::Moment> received,
                        std::function<void(Outcome)> done) {
  keeper_.keep(rows_of(entries, received), std::move(done));
}

std::vector<journal::Entry> Journal::entries(const Select& select) const {
  std::vector<journal::Entry> found;
  engine_->read(select, [&found](const Row& row) {
    found.push_back(entry_of(row));
    return true;
  });
  return found;
}

std::vector<journal::Entry> Journal::of_batch(const journal::Id& batch) const {
  return entries({.of = Select::Of::batch, .batch = batch});
}

std::vector<journal::Entry> Journal::of_house() const {
  return entries({.of = Select::Of::house, .batch = {}});
}

std::vector<journal::Id> Journal::batches() const { return engine_->batches(); }

std::vector<Numbered> Journal::since(Sequence sequence, std::size_t most) const {
  std::vector<Numbered> found;
  const Select select{.batch = {}, .after = sequence, .most = static_cast<std::int64_t>(most)};
  engine_->read(select, [&found](const Row& row) {
    found.push_back({row.sequence, entry_of(row)});
    return true;
  });
  return found;
}

Sequence Journal::last() const { return engine_->last(); }

void Journal::each(const std::function<void(const Numbered&)>& take) const {
  engine_->read({.batch = {}}, [&take](const Row& row) {
    take({row.sequence, entry_of(row)});
    return true;
  });
}

Watch Journal::watch(std::function<void(Sequence)> told) {
  return watchers_.add(std::move(told));
}

}  // namespace lynearm::store
