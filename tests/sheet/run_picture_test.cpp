// The picture of a run: one SVG for itself, its labels clear, at one scale throughout.
#include "sheet/run_picture.hpp"

#include <gtest/gtest.h>

#include "sheet/drawings.hpp"
#include "sheet/well_formed.hpp"
#include "still/exchange.hpp"
#include "vapour/congener_curve.hpp"

namespace lynearm::sheet {
namespace {

still::ToldRun told_run(bool congeners, bool cuts) {
  const vapour::BoilingCurve curve(units::Pressure::atmospheres(1.0));
  const vapour::CongenerCurve volatility(curve);
  still::Charge charge;
  charge.spirit =
      spirit::lot(units::Volume::litres(15.0), units::VolumeStrength::percent(28.0));
  if (congeners) {
    charge.congeners = still::usual_amounts(spirit::pure_alcohol(charge.spirit));
  }
  still::RunSetting setting;
  setting.head.loss = units::HeatLoss::watts_per_kelvin(1.2);
  setting.heating.power = units::Power::kilowatts(1.2);
  still::Stop stop;
  stop.spout_strength = units::VolumeStrength::percent(10.0);
  still::Run run = still::distil(charge, setting, curve, stop, &volatility);
  still::Asked asked;
  if (cuts) {
    asked.borders =
        still::Borders{units::Volume::millilitres(150.0), units::VolumeStrength::percent(73.0),
                       units::VolumeStrength::percent(62.0)};
  }
  const still::VapourFlow vapour{run.first().over_mol_per_s, run.first().leaving_ethanol};
  asked.conductance = still::conductance(vapour, {}, curve);
  asked.coolant = still::coolant_at_approaches(vapour, {}, curve);
  return still::tell(std::move(run), asked, curve);
}

std::size_t count_of(const std::string& text, const std::string& what) {
  std::size_t count = 0;
  for (std::size_t at = text.find(what); at != std::string::npos;
       at = text.find(what, at + 1)) {
    ++count;
  }
  return count;
}

TEST(RunPicture, has_its_labels_clear_in_either_system) {
  for (const units::System system : {units::System::metric, units::System::us}) {
    for (const bool cuts : {false, true}) {
      expect_clear(run_picture(told_run(true, cuts), "Spirit run of 15.0 L", system));
    }
  }
}

TEST(RunPicture, is_one_drawing_at_true_size) {
  // A second <svg> in it would be drawn at the scale of a screen, not of the paper.
  const Drawing drawing = run_picture(told_run(true, true), "A & B <1>", units::System::metric);
  EXPECT_EQ(fault_of_xml(drawing.svg.text), "");
  EXPECT_EQ(count_of(drawing.svg.text, "<svg"), 1u);
  EXPECT_LE(drawing.width_mm, 180.0);
  EXPECT_GT(drawing.height_mm, 120.0);
  EXPECT_LT(drawing.height_mm, 260.0);  // on one page of A4
  EXPECT_NE(drawing.svg.text.find("A &amp; B &lt;1&gt;"), std::string::npos);
}

TEST(RunPicture, without_congeners_has_one_plot) {
  const Drawing one = run_picture(told_run(false, true), "Run", units::System::metric);
  EXPECT_LT(one.height_mm,
            run_picture(told_run(true, true), "Run", units::System::metric).height_mm - 40.0);
  EXPECT_EQ(one.svg.text.find(">late<"), std::string::npos);
}

}  // namespace
}  // namespace lynearm::sheet
