// Live news to open pages. A handler subscribes to topics and gives the subscription back as
// its reply; whoever changes something publishes. Each subscription has a bounded queue: one
// that is not emptied is dropped, and the page asks anew (it always reads the state after it
// subscribed, so nothing is missed). Knows nothing of sockets; safe from any thread.
#pragma once

#include <cstddef>
#include <functional>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <vector>

namespace lynearm::serve {

/// A piece of an event stream as it goes over the wire, shared by all who get it.
using Piece = std::shared_ptr<const std::string>;

/// An event in the form of the HTML standard, section 9.2: id, event and data lines. Line
/// breaks in `data` begin new data lines; those in `id` and `event` are left out.
[[nodiscard]] std::string event_text(std::string_view id, std::string_view event,
                                     std::string_view data);

class Subscription {
 public:
  Subscription(std::vector<std::string> topics, std::string device)
      : topics_(std::move(topics)), device_(std::move(device)) {}

  /// Adds a piece; false when the queue is full or the subscription dropped: it is dropped
  /// then.
  bool push(Piece piece);
  /// Takes what is there and empties the queue.
  [[nodiscard]] std::vector<Piece> take();
  /// No more comes: too slow, revoked, or the house closes.
  void drop();
  [[nodiscard]] bool dropped() const;
  /// Called, from any thread, when there is something to take or the subscription is dropped.
  void when_ready(std::function<void()> wake);

  [[nodiscard]] const std::vector<std::string>& topics() const { return topics_; }
  [[nodiscard]] const std::string& device() const { return device_; }

  static constexpr std::size_t most_pieces = 512;
  static constexpr std::size_t most_bytes = std::size_t{1024} * 1024;

 private:
  void wake();

  const std::vector<std::string> topics_;
  const std::string device_;
  mutable std::mutex mutex_;
  std::vector<Piece> waiting_;
  std::size_t bytes_ = 0;
  bool dropped_ = false;
  std::function<void()> wake_;
};

class Events {
 public:
  /// device     id of the device that listens, so that revoking it ends its streams; may be
  /// empty
  [[nodiscard]] std::shared_ptr<Subscription> subscribe(std::vector<std::string> topics,
                                                        std::string device = "");

  /// To every subscription of `topic`.
  ///
  /// id         what a page that comes back sends as Last-Event-ID
  void publish(std::string_view topic, std::string_view id, std::string_view event,
               std::string_view data);

  /// Ends the streams of a revoked device.
  void drop_device(std::string_view device);
  /// Ends all streams.
  void drop_all();
  /// Subscriptions that are held by somebody.
  [[nodiscard]] std::size_t listeners() const;

 private:
  [[nodiscard]] std::vector<std::shared_ptr<Subscription>> all() const;

  mutable std::mutex mutex_;
  std::vector<std::weak_ptr<Subscription>> subscriptions_;
};

}  // namespace lynearm::serve
