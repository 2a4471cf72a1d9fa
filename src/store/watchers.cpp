#include "store/watchers.hpp"

namespace lynearm::store {

Watch Watchers::add(std::function<void(Sequence)> told) {
  const std::lock_guard lock(list_->mutex);
  const auto place = list_->told.insert(
      list_->told.end(),
      std::make_shared<const std::function<void(Sequence)>>(std::move(told)));
  return Watch([list = list_, place] {
    const std::lock_guard held(list->mutex);
    list->told.erase(place);
  });
}

void Watchers::tell(Sequence last) {
  const std::lock_guard lock(list_->mutex);
  for (auto at = list_->told.begin(); at != list_->told.end();) {
    const auto called = *at++;  // held: the call may take it out of the list
    (*called)(last);
  }
}

}  // namespace lynearm::store
