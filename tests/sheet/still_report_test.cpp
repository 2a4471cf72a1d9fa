// The report of a fit: pictures of residuals, and a page that needs nothing else.
#include "sheet/still_report.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "sheet/drawings.hpp"
#include "sheet/well_formed.hpp"

namespace lynearm::sheet {
namespace {

using still::LogInstrument;
using still::StillConstant;

// A fit as the engine returns it, made by hand: 20 readings of the head, one far off.
still::StillFit made_fit() {
  still::StillFit fit;
  const auto add = [&](StillConstant constant, double value, double sd, bool told) {
    still::FittedConstant c;
    c.constant = constant;
    c.run = still::is_of_a_run(constant) ? 0 : -1;
    c.value = value;
    c.sd = sd;
    c.low = value - 1.28 * sd;
    c.high = value + 1.28 * sd;
    c.before = {constant, value, 0.5, c.run};
    c.told = told;
    c.left_open = told ? 0.2 : 0.95;
    fit.constants.push_back(c);
  };
  add(StillConstant::head_loss, 3.214, 0.11, true);
  add(StillConstant::heating_efficiency, 0.912, 0.013, true);
  add(StillConstant::hold_up, 0.213, 0.02, true);
  add(StillConstant::head_thermometer, 0.42, 0.08, true);
  add(StillConstant::charge_strength, -0.02, 0.9, false);
  fit.correlations.assign(25, 0.0);
  fit.runs.resize(1);
  for (int i = 0; i < 20; ++i) {
    still::FittedReading r;
    r.seen = {
        LogInstrument::head_thermometer, 3600.0 + 600.0 * i, 85.0 + 0.4 * i, 0.2, 20.0, i + 2};
    r.expected = r.seen.figure + (i % 2 == 0 ? 0.1 : -0.1);
    r.spread = 0.2;
    if (i == 7) {
      r.seen.figure = 58.0;
      r.outlying = true;
    }
    fit.readings.push_back(r);
  }
  still::InstrumentFit head;
  head.instrument = LogInstrument::head_thermometer;
  head.readings = 20;
  head.outlying = 1;
  head.rms = 0.1;
  head.noise = 0.2;
  head.count_as = 10.0;
  fit.instruments.push_back(head);
  return fit;
}

TEST(ResidualPicture, KeepsItsLabelsApart) {
  const Drawing drawing = residual_picture(made_fit(), 0, LogInstrument::head_thermometer);
  for (std::size_t a = 0; a < drawing.labels.size(); ++a) {
    for (std::size_t b = 0; b < a; ++b) {
      EXPECT_FALSE(overlap(drawing.labels[a].box(), drawing.labels[b].box()))
          << drawing.labels[a].lines[0] << " and " << drawing.labels[b].lines[0];
    }
  }
}

TEST(ResidualPicture, ShowsEachReadingTwiceAndTheOneFarOffAsACross) {
  const Drawing drawing = residual_picture(made_fit(), 0, LogInstrument::head_thermometer);
  std::size_t rings = 0;
  for (std::size_t at = drawing.svg.text.find("<circle"); at != std::string::npos;
       at = drawing.svg.text.find("<circle", at + 1)) {
    ++rings;
  }
  EXPECT_EQ(rings, 2u * 19u);
}

TEST(ResidualPicture, DrawsASingleReading) {
  still::StillFit fit = made_fit();
  fit.readings.resize(1);
  EXPECT_NO_THROW((void)residual_picture(fit, 0, LogInstrument::head_thermometer));
}

TEST(StillReport, PrintsConstantsToTwoDigitsOfTheirUncertainty) {
  const still::StillFit fit = made_fit();
  EXPECT_EQ(shown(fit.constants[0], fit.constants[0].value), "3.21 W/K");
  EXPECT_EQ(shown(fit.constants[1], fit.constants[1].value), "91.2 %");
  EXPECT_EQ(shown(fit.constants[2], fit.constants[2].value), "213 mL");
  EXPECT_EQ(shown(fit.constants[3], fit.constants[3].value), "+0.420 K");
  // Less than it can tell from nothing has no sign of its own.
  EXPECT_EQ(shown(fit.constants[4], -0.002), "0.00 %vol");
}

TEST(StillReport, IsWellFormedAndEscapesNames) {
  const still::StillFit fit = made_fit();
  const std::string page =
      still_report({fit, "Kit <one> & two", {"run <1>.csv"}, "[head]\nloss = \"3 W/K\"\n"});
  EXPECT_EQ(fault_of_xml(page), "");
  EXPECT_THAT(page, testing::HasSubstr("Kit &lt;one&gt; &amp; two"));
  EXPECT_THAT(page, testing::HasSubstr("Not told by this run: charge strength."));
  // As many columns as a phone of 390 pixels shows at once; a figure stays with its unit.
  EXPECT_THAT(page, testing::HasSubstr("charge strength (not told)"));
  EXPECT_THAT(page, testing::Not(testing::HasSubstr("Told</th>")));
  EXPECT_THAT(page, testing::HasSubstr("\u00A0W/K"));
  EXPECT_THAT(page, testing::Not(testing::HasSubstr("<script")));
}

}  // namespace
}  // namespace lynearm::sheet
