#include "cli/report.hpp"

#include <gtest/gtest.h>

#include "cli/commands.hpp"

namespace lynearm::cli {
namespace {

struct Told {
  int status;
  std::string err;
};

template <class Error>
Told told(const Error& error) {
  testing::internal::CaptureStderr();
  const int status = report(std::make_exception_ptr(error));
  return {status, testing::internal::GetCapturedStderr()};
}

TEST(Report, aSolverWithoutAnAnswerIsStatus1) {
  const Told said = told(base::NotConverged("the dew point", "residual 3e-4 in 0.1 to 0.2"));
  EXPECT_EQ(said.status, 1);
  EXPECT_EQ(
      said.err,
      "No answer was found: the dew point did not converge: residual 3e-4 in 0.1 to 0.2.\n");
}

TEST(Report, aBrokenPromiseIsOurFaultAndStatus70) {
  const Told said = told(base::BrokenInvariant("masses are finite"));
  EXPECT_EQ(said.status, 70);
  EXPECT_NE(said.err.find("our fault"), std::string::npos);
  EXPECT_NE(said.err.find("masses are finite"), std::string::npos);
}

TEST(Report, anythingElseIsOurFaultToo) {
  EXPECT_EQ(told(std::runtime_error("odd")).status, 70);
}

TEST(Report, anInputErrorIsASentenceAFault) {
  const Told said = told(base::InputError(
      {{"--a", "1", "2", "", 0, 0}, {"mash.time", "3 kg", "a duration", "r.toml", 4, 7}}));
  EXPECT_EQ(said.status, 2);
  EXPECT_EQ(said.err,
            "--a is \"1\"; accepted: 2.\n"
            "r.toml:4:7: mash.time is \"3 kg\"; accepted: a duration.\n");
}

TEST(Report, theEnginesFieldBecomesTheOptionThatWasTyped) {
  Arguments arguments;
  arguments.give("--to", "150 proof");
  const base::InputError renamed =
      as_options(base::InputError("to", "75.04 %vol", "less"), reduce_command(), arguments);
  EXPECT_EQ(renamed.faults().front().field, "--to");
  EXPECT_EQ(renamed.faults().front().value, "150 proof");
  const base::InputError other =
      as_options(base::InputError("kit.still", "x", "y"), reduce_command(), arguments);
  EXPECT_EQ(other.faults().front().field, "kit.still");
}

}  // namespace
}  // namespace lynearm::cli
