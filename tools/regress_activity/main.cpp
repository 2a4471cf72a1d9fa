// regress_activity DATA.csv [--leave-out SET] [--free-alpha]
// Fits the parameters that stand in src/vapour/activity.hpp, and prints them with their
// uncertainties and how far each set lies from them. From the root of the repository:
//   build/regress_activity tests/published/data/vle_ethanol_water.csv
#include <fmt/format.h>

#include <array>
#include <cstdio>
#include <exception>
#include <fstream>
#include <string>

#include "base/error.hpp"
#include "regress_activity/regression.hpp"
#include "vapour/equilibrium.hpp"

namespace {

using namespace lynearm;

void print(const regression::Fit& fit) {
  constexpr std::array<const char*, 5> names{"a12", "b12, K", "a21", "b21, K", "alpha"};
  const auto& found = fit.solution;
  fmt::print("{} residuals, sum of squares {:.2f}, {} turns, {} of {} directions told\n",
             found.residuals.size(), found.sum_of_squares, found.iterations, found.rank,
             found.value.size());
  for (std::size_t i = 0; i < found.value.size(); ++i) {
    fmt::print("  {:7} {:10.4f} +- {:.4f}   correlations", names[i], found.value[i],
               found.standard(i));
    for (std::size_t j = 0; j < i; ++j) fmt::print(" {:+.4f}", found.correlation(i, j));
    fmt::print("\n");
  }
}

void print(const char* name, const regression::Misfit& m, const char* what) {
  fmt::print(
      "  {:23} {:8} {:3}  {:+.3f} {:.3f} {:.3f} {:+.3f} at {:.4f}   "
      "{:+.4f} {:.4f} {:.4f} {:+.4f} at {:.4f}\n",
      name, what, m.temperature_K.count, m.temperature_K.mean, m.temperature_K.mean_absolute,
      m.temperature_K.rms, m.temperature_K.worst, m.temperature_K.worst_at, m.vapour.mean,
      m.vapour.mean_absolute, m.vapour.rms, m.vapour.worst, m.vapour.worst_at);
}

int regress(int count, char** words) {
  std::string data, left_out;
  auto alpha = regression::Alpha::fixed;
  for (int i = 1; i < count; ++i) {
    const std::string word = words[i];
    if (word == "--leave-out" && i + 1 < count) {
      left_out = words[++i];
    } else if (word == "--free-alpha") {
      alpha = regression::Alpha::free;
    } else if (data.empty() && !word.starts_with("--")) {
      data = word;
    } else {
      throw base::InputError("argument", word, "DATA.csv [--leave-out SET] [--free-alpha]");
    }
  }
  std::ifstream file(data);
  if (!file) throw base::InputError("data", data, "a file that can be read");
  const auto rows = regression::read_rows(file);
  const regression::Fit fit = regression::fit(rows, left_out, alpha);
  print(fit);
  const auto azeotrope = vapour::azeotrope(units::Pressure::atmospheres(1.0), fit.parameters);
  fmt::print("azeotrope at 101.325 kPa: x {:.4f}, {:.3f} °C\n", azeotrope.ethanol.fraction(),
             azeotrope.temperature.celsius());
  fmt::print("set, rows, T in K: mean, mean absolute, RMS, worst; y: the same\n");
  for (const regression::MeasuredSet& set : regression::sets()) {
    print(set.name, regression::misfit(rows, set.name, fit.parameters),
          set.name == left_out ? "left out" : "fitted");
    print(set.name, regression::mutual_scatter(rows, set.name), "mutual");
  }
  return 0;
}

}  // namespace

int main(int count, char** words) {
  try {
    return regress(count, words);
  } catch (const base::InputError& error) {
    for (const base::Fault& fault : error.faults()) {
      fmt::print(stderr, "{} is \"{}\"; accepted: {}\n", fault.field, fault.value,
                 fault.accepted);
    }
    return 2;
  } catch (const std::exception& error) {
    fmt::print(stderr, "{}\n", error.what());
    return 1;
  }
}
