// Photographs and other files that notes name, each called by the SHA-256 of what it holds: so
// a file is kept once however often it is sent, its name never changes its meaning, and a note
// can name it before it has arrived.
#pragma once

#include <cstdint>
#include <filesystem>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <vector>

namespace lynearm::store {

inline constexpr std::size_t most_attachment_bytes = 10'000'000;

/// 64 hexadecimal digits, lower case.
[[nodiscard]] std::string sha256(std::span<const std::uint8_t> content);

/// Whether `text` can be the name of an attachment.
[[nodiscard]] bool is_attachment_name(const std::string& text);

/// May be called from any thread.
class Attachments {
 public:
  virtual ~Attachments() = default;
  /// Durable when it returns; harmless when it is there already.
  /// returns    the name
  /// throws     InputError at "attachment" when empty or over most_attachment_bytes; Trouble
  std::string keep(std::span<const std::uint8_t> content);
  /// Nothing when it is not there.
  /// throws     Trouble (damaged) when it holds something else than its name says
  [[nodiscard]] std::optional<std::vector<std::uint8_t>> find(const std::string& name);
  /// The names of all, in order.
  [[nodiscard]] virtual std::vector<std::string> names() = 0;

 protected:
  virtual void write(const std::string& name, std::span<const std::uint8_t> content) = 0;
  [[nodiscard]] virtual std::optional<std::vector<std::uint8_t>> read(
      const std::string& name) = 0;
};

/// In a folder: <folder>/ab/abcd.... A file is written under another name, synchronised, and
/// only then given its own, so that what bears a name is whole.
class AttachmentFolder final : public Attachments {
 public:
  /// Made when the first file is kept.
  explicit AttachmentFolder(std::filesystem::path folder) : folder_(std::move(folder)) {}

  [[nodiscard]] std::vector<std::string> names() override;

 protected:
  void write(const std::string& name, std::span<const std::uint8_t> content) override;
  [[nodiscard]] std::optional<std::vector<std::uint8_t>> read(const std::string& name) override;

 private:
  [[nodiscard]] std::filesystem::path place(const std::string& name) const;
  std::filesystem::path folder_;
};

}  // namespace lynearm::store
