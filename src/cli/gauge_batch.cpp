#include "cli/gauge_batch.hpp"

#include <fmt/format.h>

#include <cstdio>
#include <exception>
#include <string_view>

#include "base/error.hpp"
#include "cli/arriving.hpp"
#include "cli/gauge_rows.hpp"
#include "cli/report.hpp"

namespace lynearm::cli {
namespace {

int answer(const GaugedRows& rows) {
  if (!rows.csv.empty()) {
    if (const int status = put(rows.csv); status != Status::well) return status;
  }
  for (const base::Fault& fault : rows.faults) {
    static_cast<void>(report(std::make_exception_ptr(base::InputError({fault}))));
  }
  return Status::well;
}

// 1204 as "1,204".
std::string grouped(std::size_t count) {
  std::string digits = fmt::format("{}", count);
  for (std::size_t i = digits.size(); i > 3; i -= 3) digits.insert(i - 3, 1, ',');
  return digits;
}

}  // namespace

int gauge_batch(const std::string& path, const spirit::Hydrometer& hydrometer) {
  Arriving source(path, "--batch", "a file of comma-separated text");
  GaugeRows rows(source.name(), hydrometer);
  for (bool more = true; more;) {
    const std::string_view text = source.read();
    more = !text.empty();
    const int status = answer(more ? rows.feed(text) : rows.finish());
    if (status != Status::well) return status;
  }
  if (rows.failed() == 0) return Status::well;
  const std::string count =
      fmt::format("{} of {} rows failed.\n", grouped(rows.failed()), grouped(rows.rows()));
  static_cast<void>(std::fputs(count.c_str(), stderr));
  return some_rows_failed;
}

}  // namespace lynearm::cli
