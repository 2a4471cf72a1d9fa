#include "serve/log.hpp"

#include <spdlog/logger.h>
#include <spdlog/sinks/base_sink.h>
#include <spdlog/sinks/basic_file_sink.h>
#include <spdlog/sinks/stdout_sinks.h>

#include <mutex>

#include "base/error.hpp"

namespace lynearm::serve {

namespace {

class Taker final : public spdlog::sinks::base_sink<std::mutex> {
 public:
  explicit Taker(std::function<void(std::string_view)> taker) : taker_(std::move(taker)) {}

 private:
  void sink_it_(const spdlog::details::log_msg& message) override {
    spdlog::memory_buf_t text;
    formatter_->format(message, text);
    taker_(std::string_view{text.data(), text.size()});
  }
  void flush_() override {}

  std::function<void(std::string_view)> taker_;
};

spdlog::sink_ptr sink_of(const LogOptions& options) {
  if (options.taker) return std::make_shared<Taker>(options.taker);
  if (options.file.empty()) return std::make_shared<spdlog::sinks::stderr_sink_mt>();
  try {
    return std::make_shared<spdlog::sinks::basic_file_sink_mt>(options.file);
  } catch (const spdlog::spdlog_ex&) {
    throw base::InputError{"log", options.file, "a file that can be written"};
  }
}

spdlog::level::level_enum level_of(Level level) {
  switch (level) {
    case Level::debug:
      return spdlog::level::debug;
    case Level::info:
      return spdlog::level::info;
    case Level::warning:
      return spdlog::level::warn;
    case Level::error:
      return spdlog::level::err;
  }
  return spdlog::level::err;
}

}  // namespace

struct Log::Writer {
  spdlog::logger logger;
};

Log::Log(const LogOptions& options)
    : writer_(std::make_unique<Writer>(Writer{spdlog::logger{"lynearm", sink_of(options)}})) {
  writer_->logger.set_level(level_of(options.least));
  writer_->logger.set_pattern("%Y-%m-%dT%H:%M:%S.%e%z %l %v");
  writer_->logger.flush_on(level_of(options.least));
}

Log::~Log() = default;

bool Log::tells(Level level) const { return writer_->logger.should_log(level_of(level)); }

void Log::tell(Level level, std::string_view sentence) {
  if (!tells(level)) return;
  std::string clean{sentence};
  for (char& c : clean) {
    if (static_cast<unsigned char>(c) < 0x20 || c == 0x7F) c = '?';
  }
  writer_->logger.log(level_of(level), spdlog::string_view_t{clean.data(), clean.size()});
}

}  // namespace lynearm::serve
