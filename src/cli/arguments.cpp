#include "cli/arguments.hpp"

#include <algorithm>
#include <utility>

namespace lynearm::cli {

void Arguments::give(const std::string& option, std::string text) {
  given_[option].push_back(std::move(text));
}

bool Arguments::has(const std::string& option) const { return given_.contains(option); }

const std::vector<std::string>& Arguments::texts(const std::string& option) const {
  static const std::vector<std::string> none;
  const auto found = given_.find(option);
  return found == given_.end() ? none : found->second;
}

std::string Arguments::required_text(const std::string& option, std::string accepted) {
  if (has(option) && !texts(option).front().empty()) return texts(option).front();
  refuse(option, "", std::move(accepted));
  return {};
}

void Arguments::refuse(const std::string& option, std::string value, std::string accepted) {
  if (value.empty() && has(option) && texts(option).front().empty()) value = "left empty";
  faults_.push_back({option, std::move(value), std::move(accepted), "", 0, 0});
}

bool Arguments::refused(const std::string& option) const {
  return std::any_of(faults_.begin(), faults_.end(),
                     [&](const base::Fault& fault) { return fault.field == option; });
}

void Arguments::settle() const {
  if (!faults_.empty()) throw base::InputError(faults_);
}

}  // namespace lynearm::cli
