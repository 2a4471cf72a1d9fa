// lynearm export: the journal as lines of JSON, to a file or to standard output as it is read.
#include <fmt/format.h>

#include <array>
#include <optional>
#include <ostream>
#include <streambuf>
#include <string>

#include "cli/commands.hpp"
#include "cli/house_place.hpp"
#include "cli/report.hpp"
#include "store/exchange.hpp"
#include "store/trouble.hpp"

namespace lynearm::cli {
namespace {

constexpr const char* option_file = "FILE";

// Standard output as a stream, told of by put().
class Output final : public std::streambuf {
 public:
  Output() { setp(held_.data(), held_.data() + held_.size()); }
  [[nodiscard]] int status() const { return status_; }

 protected:
  int overflow(int c) override {
    if (sync() != 0) return traits_type::eof();
    if (!traits_type::eq_int_type(c, traits_type::eof())) {
      *pptr() = traits_type::to_char_type(c);
      pbump(1);
    }
    return traits_type::not_eof(c);
  }
  int sync() override {
    if (status_ == Status::well) {
      status_ = put({held_.data(), static_cast<std::size_t>(pptr() - held_.data())});
    }
    setp(held_.data(), held_.data() + held_.size());
    return status_ == Status::well ? 0 : -1;
  }

 private:
  std::array<char, 65536> held_{};
  int status_ = Status::well;
};

int to_output(store::House& house) {
  Output output;
  std::ostream to(&output);
  try {
    store::export_lines(house.journal(), to);
  } catch (const store::Trouble&) {
    if (output.status() == Status::well) throw;  // the journal's, not the output's
  }
  return output.status();
}

std::optional<int> stream(Arguments& arguments, const Look& look) {
  const store::Place place = asked_place(arguments, true);
  if (arguments.has(option_file)) return std::nullopt;
  if (look.json) arguments.refuse("--json", "given", "nothing: every line is a JSON object");
  arguments.settle();
  return in_house(place, "export", option_file, [&] {
    store::House house(place);
    return to_output(house);
  });
}

std::string run(Arguments& arguments, const Look& look) {
  const std::string file = arguments.required_text(option_file, "the path of a file to write");
  const store::Place place = asked_place(arguments, true);
  arguments.settle();
  return in_house(place, "export", option_file, [&] {
    store::House house(place);
    const std::size_t lines = store::export_file(house.journal(), file);
    if (look.json) return fmt::format("{{\"entries\":{}}}\n", lines);
    return fmt::format("The journal of {} is in {}.\n  {}\n", house.where(), file,
                       counted(lines, "entry", "entries"));
  });
}

}  // namespace

Command export_command() {
  return {
      "export",
      "the journal as lines of JSON, an entry a line",
      with_place({{option_file, "FILE", "a new file to write; standard output without it"}}),
      {R"(--data build/example-house | grep -c '"kind":"jar gauged"')", "21"},
      "Each line is an entry as docs/journal.md tells it, in the order of keeping: what an "
      "officer or\n"
      "another tool can read, and what \"lynearm import\" takes. Imported elsewhere, it folds "
      "to the\n"
      "same state, byte for byte. Photographs do not go along: a backup holds them.\n",
      run,
      stream};
}

}  // namespace lynearm::cli
