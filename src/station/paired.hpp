// The house's paired devices as the server asks for them, kept by the store.
#pragma once

#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "journal/moment.hpp"
#include "serve/devices.hpp"
#include "store/devices.hpp"

namespace lynearm::station {

class Paired final : public serve::Devices {
 public:
  /// kept       lives longer than this
  /// now        the house's clock
  Paired(store::Devices& kept, std::function<journal::Moment()> now)
      : kept_(kept), now_(std::move(now)) {}

  void remember(const serve::Device& device, const std::string& token_hash) override;
  [[nodiscard]] std::optional<serve::Device> find(const std::string& token_hash) const override;
  [[nodiscard]] std::vector<serve::Device> list() const override;
  bool revoke(const std::string& id) override;

 private:
  store::Devices& kept_;
  std::function<journal::Moment()> now_;
};

}  // namespace lynearm::station
