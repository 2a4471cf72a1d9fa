// Files, pipes and exit statuses of the batch; its rows are tested in gauge_rows_test.cpp.
#include "cli/gauge_batch.hpp"

#include <fcntl.h>
#include <gtest/gtest.h>
#include <poll.h>
#include <stdio_ext.h>
#include <unistd.h>

#include <array>
#include <csignal>
#include <cstdio>
#include <fstream>
#include <string>
#include <thread>

#include "base/error.hpp"

namespace lynearm::cli {
namespace {

const std::string head = "reading_percent_vol,temperature_C\n";
const std::string answered_head =
    "reading_percent_vol,temperature_C,strength_percent_vol_20C,strength_percent_mass,us_proof,"
    "density_kg_m3_20C\n";

// A file that is gone when the test is over.
class TextFile {
 public:
  explicit TextFile(const std::string& text) : path_(testing::TempDir() + "batch-XXXXXX") {
    ::close(::mkstemp(path_.data()));
    std::ofstream(path_) << text;
  }
  TextFile(const TextFile&) = delete;
  TextFile& operator=(const TextFile&) = delete;
  ~TextFile() { std::remove(path_.c_str()); }
  [[nodiscard]] const std::string& path() const { return path_; }

 private:
  std::string path_;
};

// One of the program's own streams, turned to a pipe for as long as this lives.
class Piped {
 public:
  explicit Piped(int stream) : stream_(stream), saved_(::dup(stream)) {
    std::array<int, 2> ends{};
    if (::pipe2(ends.data(), O_CLOEXEC) != 0) throw std::runtime_error("no pipe");
    const int inner = stream == STDIN_FILENO ? ends[0] : ends[1];
    outer_ = stream == STDIN_FILENO ? ends[1] : ends[0];
    ::dup2(inner, stream);
    ::close(inner);
  }
  Piped(const Piped&) = delete;
  Piped& operator=(const Piped&) = delete;
  ~Piped() {
    ::dup2(saved_, stream_);
    ::close(saved_);
    hang_up();
  }
  void write(const std::string& text) const {
    ASSERT_EQ(::write(outer_, text.data(), text.size()), static_cast<ssize_t>(text.size()));
  }
  // One line that comes within ten seconds, or what came of it.
  [[nodiscard]] std::string line() const {
    std::string text;
    pollfd watched{outer_, POLLIN, 0};
    while (!text.ends_with('\n') && ::poll(&watched, 1, 10000) > 0) {
      char c = 0;
      if (::read(outer_, &c, 1) != 1) break;
      text += c;
    }
    return text;
  }
  void hang_up() {
    if (outer_ >= 0) ::close(outer_);
    outer_ = -1;
  }

 private:
  int stream_, saved_;
  int outer_ = -1;
};

struct Ended {
  int status;
  std::string out, err;
};

Ended batch(const std::string& path) {
  testing::internal::CaptureStdout();
  testing::internal::CaptureStderr();
  const int status = gauge_batch(path);
  std::string out = testing::internal::GetCapturedStdout();
  return {status, std::move(out), testing::internal::GetCapturedStderr()};
}

std::string refusal(const std::string& path) {
  testing::internal::CaptureStdout();
  std::string told;
  try {
    (void)gauge_batch(path);
  } catch (const base::InputError& error) {
    told = error.what();
  }
  EXPECT_EQ(testing::internal::GetCapturedStdout(), "");
  return told;
}

TEST(GaugeBatch, allWellIsStatus0AndSilentOnStandardError) {
  const TextFile file(head + "50,20\n62.4,27.5\n");
  const Ended ended = batch(file.path());
  EXPECT_EQ(ended.status, 0);
  EXPECT_EQ(ended.err, "");
  EXPECT_TRUE(ended.out.starts_with(answered_head + "50,20,50,")) << ended.out;
  EXPECT_NE(ended.out.find("\n62.4,27.5,59.78"), std::string::npos) << ended.out;
}

TEST(GaugeBatch, aHeadAloneIsStatus0) {
  const Ended ended = batch(TextFile(head).path());
  EXPECT_EQ(ended.status, 0);
  EXPECT_EQ(ended.out, answered_head);
}

TEST(GaugeBatch, failedRowsAreStatus3AndToldByLine) {
  const TextFile file(head + "x,20\n50,20\n\n50,99\n");
  const Ended ended = batch(file.path());
  EXPECT_EQ(ended.status, some_rows_failed);
  EXPECT_TRUE(ended.out.starts_with(answered_head + "50,20,50,")) << ended.out;
  EXPECT_EQ(ended.err,
            file.path() +
                ":2: column reading_percent_vol is \"x\"; accepted: a number without unit, "
                "which the head states.\n" +
                file.path() +
                ":5: column temperature_C is \"99\"; accepted: -20 to 40 °C, the range of the "
                "density formula (OIML R 22); spirit above 40 °C at the spout means vapour may "
                "be escaping: heat off first, then let the sample cool in a closed jar.\n"
                "2 of 3 rows failed.\n");
}

TEST(GaugeBatch, largeCountsAreGroupedInThousands) {
  std::string text = head + "x,20\nx,20\nx,20\n";
  for (int i = 3; i < 1204; ++i) text += "50,20\n";
  const Ended ended = batch(TextFile(text).path());
  EXPECT_TRUE(ended.err.ends_with("\n3 of 1,204 rows failed.\n")) << ended.err;
}

TEST(GaugeBatch, whatIsToldHasNoControlCharacters) {
  const Ended ended = batch(TextFile(head + "\"\x1B[2J\x07\",20\n").path());
  EXPECT_NE(ended.err.find("is \"<U+001B>[2J<U+0007>\""), std::string::npos) << ended.err;
}

TEST(GaugeBatch, aFileThatCannotBeReadIsRefused) {
  EXPECT_EQ(
      refusal("no-such-file.csv"),
      "--batch is \"no-such-file.csv\"; accepted: a file of comma-separated text that can "
      "be read (No such file or directory).");
  EXPECT_EQ(refusal("/"),
            "--batch is \"/\"; accepted: a file of comma-separated text that can be read (Is a "
            "directory).");
}

TEST(GaugeBatch, aHeadThatWillNotDoIsRefusedBeforeAnyOutput) {
  const TextFile empty("");
  EXPECT_EQ(refusal(empty.path()),
            empty.path() +
                ":1: head line is missing; accepted: a first line that names the columns.");
  const TextFile other("jar,reading\n1,50 %vol\n");
  EXPECT_EQ(refusal(other.path()),
            other.path() +
                ":1: column temperature is missing; accepted: a column "
                "\"temperature\", \"temperature_C\" or \"temperature_F\".");
}

// In a pipe each row is answered when it has come in, not when the input ends.
TEST(GaugeBatch, aTypedRowIsAnsweredAtOnce) {
  int status = -1;
  {
    Piped in(STDIN_FILENO);
    const Piped out(STDOUT_FILENO);
    std::thread runner([&] { status = gauge_batch("-"); });
    in.write(head);
    EXPECT_EQ(out.line(), answered_head);
    in.write("50,2");
    in.write("0\n");
    EXPECT_TRUE(out.line().starts_with("50,20,50,"));
    in.write("60,20");
    in.hang_up();
    EXPECT_TRUE(out.line().starts_with("60,20,60,"));
    runner.join();
  }
  EXPECT_EQ(status, 0);
}

TEST(GaugeBatch, faultsOfStandardInputAreToldUnderItsName) {
  testing::internal::CaptureStderr();
  testing::internal::CaptureStdout();
  int status = -1;
  {
    Piped in(STDIN_FILENO);
    in.write(head + "x,20\n");
    in.hang_up();
    status = gauge_batch("-");
  }
  EXPECT_TRUE(testing::internal::GetCapturedStdout().starts_with("reading_percent_vol"));
  EXPECT_EQ(status, 3);
  EXPECT_EQ(testing::internal::GetCapturedStderr(),
            "standard input:2: column reading_percent_vol is \"x\"; accepted: a number without "
            "unit, which the head states.\n1 of 1 rows failed.\n");
}

// Ends at once, and without words: "lynearm gauge --batch long.csv | head".
TEST(GaugeBatch, aGoneReaderEndsItSilently) {
  std::string text = head;
  for (int i = 0; i < 100000; ++i) text += "50,20\n";
  const TextFile file(text + "x,20\n");
  const auto before = std::signal(SIGPIPE, SIG_IGN);  // as the program does at its start
  testing::internal::CaptureStderr();
  int status = -1;
  {
    Piped out(STDOUT_FILENO);
    out.hang_up();
    status = gauge_batch(file.path());
    std::clearerr(stdout);
    __fpurge(stdout);  // what nobody took is not for the test's own output
  }
  EXPECT_EQ(testing::internal::GetCapturedStderr(), "");
  EXPECT_EQ(status, 1);
  std::signal(SIGPIPE, before);
}

}  // namespace
}  // namespace lynearm::cli
