#include "numeric/least_squares.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <functional>
#include <random>
#include <string>
#include <vector>

#include "base/error.hpp"

namespace lynearm::numeric {
namespace {

using Values = std::vector<double>;

// NIST Statistical Reference Datasets, nonlinear regression: data, both starting points and
// certified values (11 digits). From memory; that the certified minimum comes out to its digits
// is what vouches for the recalled data.
struct Certified {
  const char* source;
  Values y, x;
  std::function<double(const Values&, double)> model;
  Values near, far;
  Values value, standard;
  double sum_of_squares;
};

void PrintTo(const Certified& row, std::ostream* out) { *out << row.source; }

double growth(const Values& b, double x) { return b[0] * (1.0 - std::exp(-b[1] * x)); }

std::vector<Certified> certified() {
  std::vector<double> tens;
  for (int i = 0; i < 33; ++i) tens.push_back(10.0 * i);
  return {
      {"NIST StRD Misra1a (lower difficulty), from memory",
       {10.07, 14.73, 17.94, 23.93, 29.61, 35.18, 40.02, 44.82, 50.76, 55.05, 61.01, 66.40,
        75.47, 81.78},
       {77.6, 114.9, 141.1, 190.8, 239.9, 289.0, 332.8, 378.4, 434.8, 477.3, 536.8, 593.1,
        689.1, 760.0},
       growth,
       {250.0, 0.0005},
       {500.0, 0.0001},
       {2.3894212918e2, 5.5015643181e-4},
       {2.7070075241e0, 7.2668688436e-6},
       1.2455138894e-1},
      {"NIST StRD BoxBOD (higher difficulty), from memory",
       {109.0, 149.0, 149.0, 191.0, 213.0, 224.0},
       {1.0, 2.0, 3.0, 5.0, 7.0, 10.0},
       growth,
       {100.0, 0.75},
       {1.0, 1.0},
       {2.1380940889e2, 5.4723748542e-1},
       {1.2354515176e1, 1.0455993237e-1},
       1.1680088766e3},
      {"NIST StRD MGH09 (higher difficulty), from memory",
       {1.957e-1, 1.947e-1, 1.735e-1, 1.600e-1, 8.44e-2, 6.27e-2, 4.56e-2, 3.42e-2, 3.23e-2,
        2.35e-2, 2.46e-2},
       {4.0, 2.0, 1.0, 0.5, 0.25, 0.167, 0.125, 0.1, 8.33e-2, 7.14e-2, 6.25e-2},
       [](const Values& b, double x) {
         return b[0] * (x * x + x * b[1]) / (x * x + x * b[2] + b[3]);
       },
       {0.25, 0.39, 0.415, 0.39},
       {25.0, 39.0, 41.5, 39.0},
       {1.9280693458e-1, 1.9128232873e-1, 1.2305650693e-1, 1.3606233068e-1},
       {1.1435312227e-2, 1.9633220911e-1, 8.0842031232e-2, 9.0025542308e-2},
       3.0750560385e-4},
      {"NIST StRD MGH17 (average difficulty), from memory",
       {8.44e-1, 9.08e-1, 9.32e-1, 9.36e-1, 9.25e-1, 9.08e-1, 8.81e-1, 8.50e-1, 8.18e-1,
        7.84e-1, 7.51e-1, 7.18e-1, 6.85e-1, 6.58e-1, 6.28e-1, 6.03e-1, 5.80e-1, 5.58e-1,
        5.38e-1, 5.22e-1, 5.06e-1, 4.90e-1, 4.78e-1, 4.67e-1, 4.57e-1, 4.48e-1, 4.38e-1,
        4.31e-1, 4.24e-1, 4.20e-1, 4.14e-1, 4.11e-1, 4.06e-1},
       tens,
       [](const Values& b, double x) {
         return b[0] + b[1] * std::exp(-x * b[3]) + b[2] * std::exp(-x * b[4]);
       },
       {0.5, 1.5, -1.0, 0.01, 0.02},
       {50.0, 150.0, -100.0, 1.0, 2.0},
       {3.7541005211e-1, 1.9358469127e0, -1.4646871366e0, 1.2867534640e-2, 2.2122699662e-2},
       {2.0723153551e-3, 2.2031669222e-1, 2.2175707739e-1, 4.4861358114e-4, 8.9471996575e-4},
       5.4648946975e-5},
      {"NIST StRD Eckerle4 (higher difficulty), from memory",
       {0.0001575, 0.0001699, 0.0002350, 0.0003102, 0.0004917, 0.0008710, 0.0017418,
        0.0046400, 0.0065895, 0.0097302, 0.0149002, 0.0237310, 0.0401683, 0.0712559,
        0.1264458, 0.2073413, 0.2902366, 0.3445623, 0.3698049, 0.3668534, 0.3106727,
        0.2078154, 0.1164354, 0.0616764, 0.0337200, 0.0194023, 0.0117831, 0.0074357,
        0.0022732, 0.0008800, 0.0004579, 0.0002345, 0.0001586, 0.0001143, 0.0000710},
       {400.0, 405.0, 410.0, 415.0, 420.0, 425.0, 430.0, 435.0, 436.5, 438.0, 439.5, 441.0,
        442.5, 444.0, 445.5, 447.0, 448.5, 450.0, 451.5, 453.0, 454.5, 456.0, 457.5, 459.0,
        460.5, 462.0, 463.5, 465.0, 470.0, 475.0, 480.0, 485.0, 490.0, 495.0, 500.0},
       [](const Values& b, double x) {
         const double z = (x - b[2]) / b[1];
         return b[0] / b[1] * std::exp(-0.5 * z * z);
       },
       {1.5, 5.0, 450.0},
       {1.0, 10.0, 500.0},
       {1.5543827178e0, 4.0888321754e0, 4.5154121844e2},
       {1.5408051163e-2, 4.6803020753e-2, 4.6800518816e-2},
       1.4635887487e-3},
      {"NIST StRD Thurber (higher difficulty), from memory",
       {80.574,   84.248,   87.264,   87.195,   89.076,   89.608,   89.868,   90.101,
        92.405,   95.854,   100.696,  101.060,  401.672,  390.724,  567.534,  635.316,
        733.054,  759.087,  894.206,  990.785,  1090.109, 1080.914, 1122.643, 1178.351,
        1260.531, 1273.514, 1288.339, 1327.543, 1353.863, 1414.509, 1425.208, 1421.384,
        1442.962, 1464.350, 1468.705, 1447.894, 1457.628},
       {-3.067, -2.981, -2.921, -2.912, -2.840, -2.797, -2.702, -2.699, -2.633, -2.481,
        -2.363, -2.322, -1.501, -1.460, -1.274, -1.212, -1.100, -1.046, -0.915, -0.714,
        -0.566, -0.545, -0.400, -0.309, -0.109, -0.103, 0.010,  0.119,  0.377,  0.790,
        0.963,  1.006,  1.115,  1.572,  1.841,  2.047,  2.200},
       [](const Values& b, double x) {
         return (b[0] + x * (b[1] + x * (b[2] + x * b[3]))) /
                (1.0 + x * (b[4] + x * (b[5] + x * b[6])));
       },
       {1300.0, 1500.0, 500.0, 75.0, 1.0, 0.4, 0.05},
       {1000.0, 1000.0, 400.0, 40.0, 0.7, 0.3, 0.03},
       {1.2881396800e3, 1.4910792535e3, 5.8323836877e2, 7.5416644291e1, 9.6629502864e-1,
        3.9797285797e-1, 4.9727297349e-2},
       {4.6647963344e0, 3.9571156086e1, 2.8698696102e1, 5.5675370270e0, 3.1333340687e-2,
        1.4984928198e-2, 6.5842344623e-3},
       5.6427082397e3},
  };
}

class NistProblem : public testing::TestWithParam<Certified> {};

TEST_P(NistProblem, ComesOutFromBothStarts) {
  const Certified& row = GetParam();
  const auto residuals = [&](const Values& b) {
    Values r;
    for (std::size_t i = 0; i < row.y.size(); ++i)
      r.push_back(row.y[i] - row.model(b, row.x[i]));
    return r;
  };
  for (const Values& start : {row.near, row.far}) {
    Values scale = row.near;
    for (double& s : scale) s = std::abs(s);
    LeastSquaresControl control;
    control.tolerance = 1e-9;
    control.most_iterations = 3000;  // the far start of MGH17 creeps along a valley: 565
    const LeastSquares found = least_squares(residuals, start, scale, row.source, control);
    double worst_value = 0.0;
    double worst_standard = 0.0;
    // Certified standard deviations carry the residuals' own scatter.
    const double scatter =
        std::sqrt(found.sum_of_squares / static_cast<double>(row.y.size() - row.value.size()));
    for (std::size_t j = 0; j < row.value.size(); ++j) {
      worst_value = std::max(worst_value, std::abs(found.value[j] / row.value[j] - 1.0));
      worst_standard = std::max(worst_standard,
                                std::abs(found.standard(j) * scatter / row.standard[j] - 1.0));
    }
    // Eleven digits are printed. The slopes are differences and the search stops short of the
    // last digits: what it states in its header is held here.
    EXPECT_LT(worst_value, 1e-7) << row.source;
    EXPECT_LT(worst_standard, 1e-6) << row.source;
    EXPECT_NEAR(found.sum_of_squares / row.sum_of_squares, 1.0, 1e-9) << row.source;
    EXPECT_TRUE(found.all_told());
    std::printf("%s: values to %.1e, standard deviations to %.1e, %d iterations\n", row.source,
                worst_value, worst_standard, found.iterations);
  }
}

INSTANTIATE_TEST_SUITE_P(Published, NistProblem, testing::ValuesIn(certified()));

// A straight line through points with standard deviations, in closed form.
struct Line {
  Values x, y, sd;
  [[nodiscard]] Values residuals(const Values& p) const {
    Values r;
    for (std::size_t i = 0; i < x.size(); ++i) r.push_back((p[0] + p[1] * x[i] - y[i]) / sd[i]);
    return r;
  }
};

TEST(LeastSquares, OfALineIsTheClosedForm) {
  const Line line{
      {0.0, 1.0, 2.0, 4.0, 7.0}, {1.1, 2.8, 5.3, 8.7, 15.4}, {0.1, 0.2, 0.2, 0.4, 0.5}};
  double s = 0.0, sx = 0.0, sy = 0.0, sxx = 0.0, sxy = 0.0;
  for (std::size_t i = 0; i < line.x.size(); ++i) {
    const double w = 1.0 / (line.sd[i] * line.sd[i]);
    s += w, sx += w * line.x[i], sy += w * line.y[i];
    sxx += w * line.x[i] * line.x[i], sxy += w * line.x[i] * line.y[i];
  }
  const double det = s * sxx - sx * sx;
  const auto found = least_squares([&](const Values& p) { return line.residuals(p); },
                                   {30.0, -5.0}, {1.0, 1.0}, "line");
  EXPECT_NEAR(found.value[0], (sxx * sy - sx * sxy) / det, 1e-6 * found.standard(0));
  EXPECT_NEAR(found.value[1], (s * sxy - sx * sy) / det, 1e-6 * found.standard(1));
  EXPECT_NEAR(found.covariance[0], sxx / det, 1e-9);
  EXPECT_NEAR(found.covariance[1], -sx / det, 1e-9);
  EXPECT_NEAR(found.covariance[2], -sx / det, 1e-9);
  EXPECT_NEAR(found.covariance[3], s / det, 1e-9);
  EXPECT_NEAR(found.correlation(0, 1), -sx / std::sqrt(s * sxx), 1e-8);
  EXPECT_EQ(found.rank, 2);
}

TEST(LeastSquares, WithSlopesGivenIsTheSame) {
  const Line line{{0.0, 1.0, 2.0, 4.0}, {1.1, 2.8, 5.3, 8.7}, {0.1, 0.2, 0.2, 0.4}};
  const auto residuals = [&](const Values& p) { return line.residuals(p); };
  LeastSquaresControl control;
  control.slopes = [&](const Values&) {
    Values rows;
    for (std::size_t i = 0; i < line.x.size(); ++i) {
      rows.push_back(1.0 / line.sd[i]);
      rows.push_back(line.x[i] / line.sd[i]);
    }
    return rows;
  };
  const auto by_slopes = least_squares(residuals, {0.0, 0.0}, {1.0, 1.0}, "line", control);
  const auto by_differences = least_squares(residuals, {0.0, 0.0}, {1.0, 1.0}, "line");
  EXPECT_NEAR(by_slopes.value[0], by_differences.value[0], 1e-9);
  EXPECT_NEAR(by_slopes.value[1], by_differences.value[1], 1e-9);
}

TEST(LeastSquares, WhatTheDataCannotTellIsSaid) {
  // Only a + b counts; c not at all; d alone.
  const auto residuals = [](const Values& p) {
    return Values{(p[0] + p[1] - 3.0) / 0.1, (p[0] + p[1] - 3.2) / 0.1, (p[3] - 5.0) / 0.5};
  };
  const auto found =
      least_squares(residuals, {1.0, 1.0, 7.0, 1.0}, {1.0, 1.0, 1.0, 1.0}, "made up");
  EXPECT_EQ(found.rank, 2);
  EXPECT_FALSE(found.all_told());
  EXPECT_NEAR(found.untold[0], 0.5, 1e-6);
  EXPECT_NEAR(found.untold[1], 0.5, 1e-6);
  EXPECT_NEAR(found.untold[2], 1.0, 1e-6);
  EXPECT_NEAR(found.untold[3], 0.0, 1e-6);
  EXPECT_NEAR(found.value[0] + found.value[1], 3.1, 1e-7);
  EXPECT_NEAR(found.value[2], 7.0, 1e-12);  // left where it was put
  EXPECT_NEAR(found.value[3], 5.0, 1e-6 * found.standard(3));
  // The sum is told: its variance out of the pseudo-inverse is that of two readings.
  EXPECT_NEAR(
      found.covariance[0] + found.covariance[1] + found.covariance[4] + found.covariance[5],
      0.01 / 2.0, 1e-8);
}

TEST(LeastSquares, FewerDataThanParametersAreNotCalledEnough) {
  const auto found = least_squares([](const Values& p) { return Values{p[0] * p[1] - 6.0}; },
                                   {1.0, 1.0}, {1.0, 1.0}, "made up");
  EXPECT_EQ(found.rank, 1);
  EXPECT_NEAR(found.value[0] * found.value[1], 6.0, 1e-9);
}

TEST(LeastSquares, ARefusedPlaceIsAStepTooFar) {
  // The first undamped step from 0.1 leads far below 0, where the function refuses.
  int refused = 0;
  const auto residuals = [&](const Values& p) {
    if (p[0] <= 0.0) {
      ++refused;
      throw base::InputError("made_up", "below 0", "above 0");
    }
    return Values{1e3 * std::log(p[0] / 4.0), 1e-3};
  };
  LeastSquaresControl undamped;
  const auto found = least_squares(residuals, {60.0}, {1.0}, "logarithm", undamped);
  EXPECT_NEAR(found.value[0], 4.0, 1e-9);
  EXPECT_GT(refused, 0);
}

TEST(LeastSquares, AtAnEdgeTheSlopeIsTakenFromInside) {
  const auto residuals = [](const Values& p) {
    if (p[0] < 0.0) throw base::InputError("made_up", "below 0", "0 or more");
    return Values{p[0] - 2.0, 0.5};
  };
  EXPECT_NEAR(least_squares(residuals, {0.0}, {1.0}, "edge").value[0], 2.0, 1e-9);
}

TEST(LeastSquares, WhatIsRefusedAtTheStartComesThrough) {
  const auto residuals = [](const Values&) -> Values {
    throw base::InputError("made_up", "4", "something else");
  };
  EXPECT_THROW((void)least_squares(residuals, {1.0}, {1.0}, "test"), base::InputError);
  const auto not_finite = [](const Values& p) { return Values{std::sqrt(p[0]), 1.0}; };
  EXPECT_THROW((void)least_squares(not_finite, {-1.0}, {1.0}, "test"), base::NotConverged);
}

TEST(LeastSquares, RunningOutOfIterationsIsSaid) {
  const auto rosenbrock = [](const Values& p) {
    return Values{10.0 * (p[1] - p[0] * p[0]), 1.0 - p[0]};
  };
  LeastSquaresControl few;
  few.most_iterations = 3;
  try {
    (void)least_squares(rosenbrock, {-1.2, 1.0}, {1.0, 1.0}, "valley", few);
    FAIL() << "three iterations were enough";
  } catch (const base::NotConverged& error) {
    EXPECT_THAT(error.what(), testing::StartsWith(
                                  "valley did not converge: after the most iterations; at ("));
  }
  const auto found = least_squares(rosenbrock, {-1.2, 1.0}, {1.0, 1.0}, "valley");
  EXPECT_NEAR(found.value[0], 1.0, 1e-9);
  EXPECT_NEAR(found.value[1], 1.0, 1e-9);
}

// A model solved by iteration ends in noise; here the residuals have seven decimals.
TEST(LeastSquares, FiguresThatEndEarlyEndTheSearch) {
  const auto residuals = [](const Values& p) {
    Values r;
    for (int i = 0; i < 20; ++i) {
      const double model = p[0] * std::exp(-p[1] * i * 0.2);
      const double read = 3.0 * std::exp(-0.7 * i * 0.2) + 0.05 * std::sin(9.0 * i);
      r.push_back(std::round((model - read) / 0.05 * 1e7) * 1e-7);
    }
    return r;
  };
  LeastSquaresControl control;
  control.difference = 1e-3;
  control.tolerance = 1e-9;  // not to be had
  const auto found = least_squares(residuals, {1.0, 2.0}, {1.0, 1.0}, "noise", control);
  EXPECT_LT(found.step_left, control.tolerance_when_stalled);
  EXPECT_NEAR(found.value[0], 3.0, 3.0 * found.standard(0));
  EXPECT_NEAR(found.value[1], 0.7, 3.0 * found.standard(1));
  EXPECT_LT(found.iterations, 30);
}

// Location of figures, of which one was mistyped.
TEST(LeastSquares, HuberAndStudentWeighAMistypedReadingDown) {
  const Values figures{9.8, 10.1, 10.0, 10.3, 9.9, 10.2, 9.7, 100.0};
  const auto residuals = [&](const Values& p) {
    Values r;
    for (const double y : figures) r.push_back((y - p[0]) / 0.2);
    return r;
  };
  LeastSquaresControl huber, student;
  huber.loss = Loss::huber;
  student.loss = Loss::student;
  const auto plain = least_squares(residuals, {12.0}, {1.0}, "mean");
  const auto by_huber = least_squares(residuals, {12.0}, {1.0}, "mean", huber);
  const auto by_student = least_squares(residuals, {12.0}, {1.0}, "mean", student);
  EXPECT_NEAR(plain.value[0], 170.0 / 8.0, 1e-4);
  // Huber's in closed form: six within 1.345 deviations, 9.7 just below, 100 above: the two
  // pulls of 1.345 · 0.2 cancel, leaving the mean of the six.
  EXPECT_NEAR(by_huber.value[0], (9.8 + 10.1 + 10.0 + 10.3 + 9.9 + 10.2) / 6.0, 1e-6);
  EXPECT_NEAR(by_student.value[0], 10.0, 0.02);
  EXPECT_LT(by_huber.weights.back(), 0.01);
  EXPECT_LT(by_student.weights.back(), 1e-3);
  EXPECT_EQ(plain.weights.back(), 1.0);
  // Put back: the weighted residuals of the place found balance.
  for (const auto& found : {by_huber, by_student}) {
    double pull = 0.0;
    for (std::size_t i = 0; i < figures.size(); ++i) {
      pull += found.weights[i] * found.residuals[i];
    }
    EXPECT_NEAR(pull, 0.0, 1e-3);
  }
}

// Lines with hidden truth: how often it lies within the stated 80 % interval.
double share_covered(Loss loss, double outliers, bool by_student = false) {
  std::mt19937_64 random(20240);
  std::normal_distribution<double> normal;
  std::student_t_distribution<double> long_tailed(4.0);
  std::uniform_real_distribution<double> even;
  constexpr int rounds = 2000;
  int covered = 0;
  for (int k = 0; k < rounds; ++k) {
    Line line;
    const double slope = normal(random);
    for (int i = 0; i < 40; ++i) {
      line.x.push_back(0.1 * i);
      const double wide = even(random) < outliers ? 10.0 : 1.0;
      line.y.push_back(1.0 + slope * 0.1 * i +
                       0.3 * wide * (by_student ? long_tailed(random) : normal(random)));
      line.sd.push_back(0.3);
    }
    LeastSquaresControl control;
    control.loss = loss;
    const auto found = least_squares([&](const Values& p) { return line.residuals(p); },
                                     {0.0, 0.0}, {1.0, 1.0}, "line", control);
    if (std::abs(found.value[1] - slope) <= 1.2815515655 * found.standard(1)) ++covered;
  }
  return static_cast<double>(covered) / rounds;
}

TEST(LeastSquares, StatedUncertaintyCoversTheTruthAsOftenAsItSays) {
  // Standard error of a share near 0.8 over 2000 rounds: 0.009; allowed: three of them.
  const double plain = share_covered(Loss::squares, 0.0);
  EXPECT_NEAR(plain, 0.80, 0.027);
  // Student's loss fits data of its own kind.
  const double student = share_covered(Loss::student, 0.0, true);
  EXPECT_NEAR(student, 0.80, 0.027);
  // With 5 % of readings ten times as wide, plain squares cover half; the robust losses stay
  // near what they say, Huber's a little below and Student's a little above.
  const double plain_mixed = share_covered(Loss::squares, 0.05);
  const double huber_mixed = share_covered(Loss::huber, 0.05);
  const double student_mixed = share_covered(Loss::student, 0.05);
  EXPECT_LT(plain_mixed, 0.6);
  EXPECT_NEAR(huber_mixed, 0.80, 0.06);
  EXPECT_NEAR(student_mixed, 0.80, 0.06);
  std::printf(
      "80 %% intervals cover: squares %.3f, Student's loss on its own data %.3f; with "
      "5 %% of readings ten times as wide: squares %.3f, Huber %.3f, Student %.3f\n",
      plain, student, plain_mixed, huber_mixed, student_mixed);
}

RC_GTEST_PROP(LeastSquaresProperty, OfAnyLineLeavesResidualsAcrossItsColumns, ()) {
  const double sd = *rc::gen::inRange(1, 100) * 1e-2;
  Line line;
  for (int i = 0; i < 9; ++i) {
    line.x.push_back(i);
    line.y.push_back(*rc::gen::inRange(-1000, 1001) * 1e-1);
    line.sd.push_back(sd);
  }
  const auto found = least_squares([&](const Values& p) { return line.residuals(p); },
                                   {0.0, 0.0}, {1.0, 1.0}, "line");
  double sum = 0.0;
  double moment = 0.0;
  double size = 1.0;
  for (std::size_t i = 0; i < line.x.size(); ++i) {
    sum += found.residuals[i];
    moment += line.x[i] * found.residuals[i];
    size = std::max(size, std::abs(found.residuals[i]));
  }
  RC_ASSERT(std::abs(sum) < 1e-3 * size);
  RC_ASSERT(std::abs(moment) < 1e-3 * size);
}

}  // namespace
}  // namespace lynearm::numeric
