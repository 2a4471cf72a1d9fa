#include "store/attachments.hpp"

#include <fmt/format.h>
#include <sodium.h>

#include <algorithm>
#include <array>

#include "base/error.hpp"
#include "store/durable_file.hpp"
#include "store/trouble.hpp"

namespace lynearm::store {

std::string sha256(std::span<const std::uint8_t> content) {
  base::ensure(sodium_init() >= 0, "the library of hashes starts");
  std::array<unsigned char, crypto_hash_sha256_BYTES> hash{};
  crypto_hash_sha256(hash.data(), content.data(), content.size());
  std::string text;
  for (const unsigned char byte : hash) text += fmt::format("{:02x}", byte);
  return text;
}

bool is_attachment_name(const std::string& text) {
  return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string::npos;
}

std::string Attachments::keep(std::span<const std::uint8_t> content) {
  if (content.empty() || content.size() > most_attachment_bytes) {
    throw base::InputError("attachment", fmt::format("{} bytes", content.size()),
                           fmt::format("1 to {} bytes", most_attachment_bytes));
  }
  std::string name = sha256(content);
  write(name, content);
  return name;
}

std::optional<std::vector<std::uint8_t>> Attachments::find(const std::string& name) {
  if (!is_attachment_name(name)) return std::nullopt;
  auto content = read(name);
  if (content && sha256(*content) != name) {
    throw Trouble(Trouble::Kind::damaged, "the attachment " + name + " is damaged");
  }
  return content;
}

std::filesystem::path AttachmentFolder::place(const std::string& name) const {
  return folder_ / name.substr(0, 2) / name;
}

void AttachmentFolder::write(const std::string& name, std::span<const std::uint8_t> content) {
  const std::filesystem::path file = place(name);
  make_folder_durably(folder_);
  make_folder_durably(file.parent_path());
  // Also when it is there: it may be the one that a damaged disk has spoiled.
  write_durably(file, content);
}

std::optional<std::vector<std::uint8_t>> AttachmentFolder::read(const std::string& name) {
  return read_file(place(name), most_attachment_bytes);
}

std::vector<std::string> AttachmentFolder::names() {
  std::vector<std::string> found;
  std::error_code none;
  for (std::filesystem::recursive_directory_iterator at(folder_, none), end; at != end;
       at.increment(none)) {
    if (none) break;
    const std::string name = at->path().filename().string();
    if (at->is_regular_file(none) && is_attachment_name(name)) found.push_back(name);
  }
  std::sort(found.begin(), found.end());
  return found;
}

}  // namespace lynearm::store
