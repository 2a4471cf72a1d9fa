// A journal comes from another house, or from an editor. Whatever its lines hold, all of it is
// kept or none, every fault has its line, and what was kept is exported and taken in elsewhere
// as the same.
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <map>
#include <memory>
#include <sstream>
#include <string>
#include <utility>
#include <vector>

#include "base/error.hpp"
#include "store/exchange.hpp"

namespace {

using namespace lynearm;

void hold(bool holds) {
  if (!holds) std::abort();  // libFuzzer keeps the text that led here
}

// A database in memory.
class Rows final : public store::Engine {
 public:
  class Write final : public store::Engine::Writing {
   public:
    explicit Write(Rows& rows) : rows_(rows) {}
    std::vector<store::Row> found(std::span<const journal::Id> ids) override {
      std::vector<store::Row> there;
      for (const journal::Id& id : ids) {
        if (const auto one = rows_.by_id_.find(id); one != rows_.by_id_.end()) {
          there.push_back(rows_.all_[one->second]);
        }
      }
      return there;
    }
    store::Sequence last() override { return rows_.last(); }
    void add(std::span<const store::Row> rows) override {
      added_.assign(rows.begin(), rows.end());
    }
    void commit() override {
      for (store::Row& row : added_) {
        hold(row.sequence == rows_.last() + 1);
        hold(rows_.by_id_.emplace(row.id, rows_.all_.size()).second);
        rows_.all_.push_back(std::move(row));
      }
    }

   private:
    Rows& rows_;
    std::vector<store::Row> added_;
  };

  std::unique_ptr<Writing> begin() override { return std::make_unique<Write>(*this); }
  void read(const store::Select& select,
            const std::function<bool(const store::Row&)>& take) override {
    for (const store::Row& row : all_) {
      if (row.sequence > select.after && !take(row)) return;
    }
  }
  std::vector<journal::Id> batches() override { return {}; }
  store::Sequence last() override { return static_cast<store::Sequence>(all_.size()); }

 private:
  std::vector<store::Row> all_;
  std::map<journal::Id, std::size_t> by_id_;
};

void hold_told(const std::vector<base::Fault>& faults) {
  hold(!faults.empty());
  for (const base::Fault& fault : faults) {
    hold(fault.line > 0 && !fault.field.empty() && !fault.accepted.empty());
  }
}

store::Import import(store::Journal& journal, const std::string& text, bool keep_good) {
  std::istringstream from(text);
  return store::import_lines(journal, from, "journal.jsonl", keep_good);
}

// Of a text without one good line nothing is kept, and that is thrown.
store::Import import_good(store::Journal& journal, const std::string& text) {
  try {
    return import(journal, text, true);
  } catch (const base::InputError& error) {
    hold(journal.last() == 0);
    return {0, 0, error.faults()};
  }
}

std::string exported(const store::Journal& journal) {
  std::ostringstream to;
  store::export_lines(journal, to);
  return to.str();
}

}  // namespace

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string text(reinterpret_cast<const char*>(data), size);
  store::Journal good(std::make_unique<Rows>());
  const store::Import kept = import_good(good, text);
  hold(kept.kept == static_cast<std::size_t>(good.last()));
  if (!kept.faults.empty()) hold_told(kept.faults);

  store::Journal whole(std::make_unique<Rows>());
  try {
    hold(import(whole, text, false).kept == kept.kept && kept.faults.empty());
  } catch (const base::InputError& error) {
    hold_told(error.faults());
    hold(whole.last() == 0 && !kept.faults.empty());
  }

  // What was kept is a journal of its own.
  const std::string lines = exported(good);
  store::Journal elsewhere(std::make_unique<Rows>());
  hold(import(elsewhere, lines, false).kept == kept.kept);
  hold(exported(elsewhere) == lines);
  hold(import(elsewhere, lines, false).there_already == kept.kept);
  return 0;
}
