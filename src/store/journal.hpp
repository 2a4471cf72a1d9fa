// The journal of a house, on disk. Entries are added and never changed or taken out; the
// database itself refuses that. Acknowledged means durable: when keep() returns, a killed
// process or a pulled plug takes nothing of it away.
//
// All of it may be called from any thread. Entries come back as they were kept: with figures as
// the JSON of wire/ writes them, rounded. Whoever folds therefore folds what the journal gives,
// not what was sent.
#pragma once

#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <vector>

#include "store/engine.hpp"
#include "store/keeper.hpp"
#include "store/watchers.hpp"

namespace lynearm::store {

/// An entry with its place in the journal.
struct Numbered {
  Sequence sequence = 0;
  journal::Entry entry;

  friend bool operator==(const Numbered&, const Numbered&) = default;
};

class Journal {
 public:
  explicit Journal(std::unique_ptr<Engine> engine);
  /// Finishes what was given to keep.
  ~Journal();
  Journal(const Journal&) = delete;
  Journal& operator=(const Journal&) = delete;

  /// Keeps all of the entries or none, durable when it returns. An id that is there already,
  /// telling the same, is left as it is: sending again is harmless, also at the same time.
  ///
  /// received   by the house's clock; nothing for an import, whose entries bring their own
  /// returns    for each entry its place, and whether it was kept now
  /// throws     InputError at "entries[i].id" for each that has the id of an entry which tells
  ///            something else; Trouble when the database could not keep them
  std::vector<Kept> keep(std::span<const journal::Entry> entries,
                         std::optional<journal::Moment> received);

  /// The same without waiting: `done` is called once, from the writing thread, with what keep()
  /// would return or throw. It must be quick and must not throw.
  /// throws     InputError as Row does, before anything is taken in
  void keep_then(std::span<const journal::Entry> entries,
                 std::optional<journal::Moment> received, std::function<void(Outcome)> done);

  // Reading, always in the order of keeping. Throws Trouble.

  [[nodiscard]] std::vector<journal::Entry> of_batch(const journal::Id& batch) const;
  /// Entries that belong to no batch.
  [[nodiscard]] std::vector<journal::Entry> of_house() const;
  /// Every batch that an entry names, in the order of their first entries.
  [[nodiscard]] std::vector<journal::Id> batches() const;
  /// What was kept after `sequence`, at most `most` of it.
  [[nodiscard]] std::vector<Numbered> since(Sequence sequence, std::size_t most = 1000) const;
  /// The place of the last entry; nought while there is none.
  [[nodiscard]] Sequence last() const;
  /// Each entry of one consistent view of the whole journal, without holding it in memory.
  void each(const std::function<void(const Numbered&)>& take) const;

  /// Calls `told` with the place of the last entry after something was kept, here or (where the
  /// database can be shared) at another server; from threads of the journal, perhaps several
  /// times for one entry, never before it can be read. Quick, and must not throw.
  ///
  /// returns    ends the watch when it goes; may outlive the journal
  [[nodiscard]] Watch watch(std::function<void(Sequence)> told);

 private:
  [[nodiscard]] std::vector<journal::Entry> entries(const Select& select) const;

  Watchers watchers_;
  std::unique_ptr<Engine> engine_;
  Keeper keeper_;
};

}  // namespace lynearm::store
