#include "journal/entry.hpp"

#include "journal/kinds.hpp"

namespace lynearm::journal {

std::string_view kind_of(const Body& body) {
  return std::visit(
      [](const auto& b) -> std::string_view {
        using B = std::decay_t<decltype(b)>;
        if constexpr (std::is_same_v<B, Foreign>) {
          return b.kind;
        } else {
          return Kind<B>::name;
        }
      },
      body);
}

bool same(const Entry& a, const Entry& b) {
  Entry as_received = a;
  as_received.received = b.received;
  return as_received == b;
}

}  // namespace lynearm::journal
