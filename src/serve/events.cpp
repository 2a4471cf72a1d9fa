#include "serve/events.hpp"

#include <algorithm>
#include <utility>

namespace lynearm::serve {

namespace {

bool is_break(char c) { return c == '\n' || c == '\r' || c == '\0'; }

std::string on_one_line(std::string_view text) {
  std::string out{text};
  std::erase_if(out, is_break);
  return out;
}

}  // namespace

std::string event_text(std::string_view id, std::string_view event, std::string_view data) {
  std::string out;
  out.reserve(id.size() + event.size() + data.size() + 32);
  if (!id.empty()) out += "id: " + on_one_line(id) + "\n";
  if (!event.empty()) out += "event: " + on_one_line(event) + "\n";
  while (true) {
    const std::size_t end = std::min(data.find_first_of("\r\n"), data.size());
    out += "data: ";
    out += data.substr(0, end);
    out += '\n';
    if (end == data.size()) break;
    data.remove_prefix(data.substr(end).starts_with("\r\n") ? end + 2 : end + 1);
  }
  out += '\n';
  return out;
}

bool Subscription::push(Piece piece) {
  bool fits = true;
  {
    const std::lock_guard lock{mutex_};
    if (dropped_) return false;
    fits = waiting_.size() < most_pieces && bytes_ + piece->size() <= most_bytes;
    if (fits) {
      bytes_ += piece->size();
      waiting_.push_back(std::move(piece));
    } else {
      dropped_ = true;
      waiting_.clear();
      bytes_ = 0;
    }
  }
  wake();
  return fits;
}

std::vector<Piece> Subscription::take() {
  const std::lock_guard lock{mutex_};
  bytes_ = 0;
  return std::exchange(waiting_, {});
}

void Subscription::drop() {
  {
    const std::lock_guard lock{mutex_};
    dropped_ = true;
  }
  wake();
}

bool Subscription::dropped() const {
  const std::lock_guard lock{mutex_};
  return dropped_;
}

void Subscription::when_ready(std::function<void()> wake) {
  {
    const std::lock_guard lock{mutex_};
    wake_ = std::move(wake);
  }
  this->wake();  // for what came before
}

void Subscription::wake() {
  std::function<void()> call;
  {
    const std::lock_guard lock{mutex_};
    call = wake_;
  }
  if (call) call();
}

std::shared_ptr<Subscription> Events::subscribe(std::vector<std::string> topics,
                                                std::string device) {
  auto made = std::make_shared<Subscription>(std::move(topics), std::move(device));
  const std::lock_guard lock{mutex_};
  std::erase_if(subscriptions_, [](const auto& one) { return one.expired(); });
  subscriptions_.push_back(made);
  return made;
}

std::vector<std::shared_ptr<Subscription>> Events::all() const {
  const std::lock_guard lock{mutex_};
  std::vector<std::shared_ptr<Subscription>> held;
  held.reserve(subscriptions_.size());
  for (const auto& one : subscriptions_) {
    if (auto subscription = one.lock()) held.push_back(std::move(subscription));
  }
  return held;
}

void Events::publish(std::string_view topic, std::string_view id, std::string_view event,
                     std::string_view data) {
  // One order for all: two publishers at once must not reach two pages in different orders.
  const std::lock_guard lock{mutex_};
  Piece piece;
  for (const auto& one : subscriptions_) {
    const auto subscription = one.lock();
    if (!subscription) continue;
    const auto& topics = subscription->topics();
    if (std::find(topics.begin(), topics.end(), topic) == topics.end()) continue;
    if (!piece) piece = std::make_shared<const std::string>(event_text(id, event, data));
    subscription->push(piece);
  }
}

void Events::drop_device(std::string_view device) {
  for (const auto& one : all()) {
    if (one->device() == device) one->drop();
  }
}

void Events::drop_all() {
  for (const auto& one : all()) one->drop();
}

std::size_t Events::listeners() const { return all().size(); }

}  // namespace lynearm::serve
