// The stream: widths to scale, nothing lost in the drawing, labels clear of each other.
#include "sheet/stream.hpp"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>

#include "base/error.hpp"
#include "sheet/drawings.hpp"
#include "sheet/examples.hpp"
#include "sheet/stream_layout.hpp"

namespace lynearm::sheet {
namespace {

TEST(Stream, of_a_batch_has_its_labels_clear) {
  const Stream stream = draw(stream_of_a_batch());
  expect_clear(stream);
  EXPECT_DOUBLE_EQ(stream.width_mm, 170.0);
}

TEST(Stream, draws_every_flow_at_one_scale) {
  const auto flows = stream_of_a_batch();
  const Stream stream = draw(flows);
  for (std::size_t i = 0; i < flows.size(); ++i) {
    EXPECT_NEAR(stream.flow_mm[i], flows[i].amount.litres() * stream.mm_per_litre, 1e-12);
  }
}

TEST(Stream, the_band_is_at_each_place_what_came_in_less_what_has_left) {
  const auto flows = stream_of_a_batch();
  const StreamLayout layout = lay_out(flows, {});
  double litres = 4.62 + 0.80;
  double upper = layout.upper.front().y;
  double lower = layout.lower.front().y;
  EXPECT_NEAR(lower - upper, litres * layout.mm_per_litre, 1e-9);
  std::size_t u = 1;
  std::size_t l = 1;
  for (const Branch& branch : layout.branches) {
    const Step& step = branch.up ? layout.upper.at(u++) : layout.lower.at(l++);
    (branch.up ? upper : lower) = step.y;
    litres += (branch.course == Course::in ? 1.0 : -1.0) * branch.width / layout.mm_per_litre;
    EXPECT_NEAR(std::abs(step.y - step.before), branch.width, 1e-9);
    EXPECT_NEAR(lower - upper, litres * layout.mm_per_litre, 1e-9);
  }
  double leaving = 0.0;
  for (const EndPiece& piece : layout.exits) leaving += piece.bottom - piece.top;
  EXPECT_NEAR(leaving, lower - upper, 1e-9);
}

TEST(Stream, shows_what_does_not_add_up) {
  const auto of = [](double out) {
    return draw({flow("Run", "wash", 4.0, Course::in), flow("Run", "pot", 0.3, Course::lost),
                 flow("Run", "spirit", out, Course::out)});
  };
  const auto named = [](const Stream& stream) {
    return std::any_of(stream.labels.begin(), stream.labels.end(),
                       [](const Label& label) { return label.lines.front() == "unaccounted"; });
  };
  EXPECT_FALSE(named(of(3.7)));
  EXPECT_TRUE(named(of(3.6)));
  EXPECT_NEAR(of(3.6).unaccounted_litres, 0.1, 1e-12);
  EXPECT_TRUE(named(of(3.8)));
  EXPECT_NEAR(of(3.8).unaccounted_litres, -0.1, 1e-12);
  expect_clear(of(3.8));
}

TEST(Stream, that_loses_more_than_it_has_is_refused_with_the_place) {
  try {
    (void)draw({flow("Run", "wash", 1.0, Course::in), flow("Run", "pot", 1.3, Course::lost)});
    FAIL() << "1.3 L came out of 1 L";
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().front().field, "flows[1].amount");
    EXPECT_EQ(error.faults().front().accepted, "at most the 1.00 L that is left");
  }
  EXPECT_THROW((void)draw(std::vector<Flow>{}), base::BrokenInvariant);
}

TEST(Stream, keeps_labels_clear_for_any_flows) {
  std::mt19937 draw_from(9);
  std::uniform_real_distribution<double> share(0.0, 1.0);
  for (int round = 0; round < 100; ++round) {
    std::vector<Flow> flows = {flow("Mash", "grain", 5.0, Course::in)};
    const int count = 1 + round % 22;
    double left = 5.0;
    for (int i = 0; i < count; ++i) {
      const double r = share(draw_from);
      const Course course = r < 0.6   ? Course::lost
                            : r < 0.8 ? Course::kept
                            : r < 0.9 ? Course::out
                                      : Course::in;
      const double amount = (share(draw_from) < 0.3 ? 0.003 : 0.3) * left * share(draw_from);
      left += course == Course::in ? amount : -amount;
      flows.push_back({"Stage " + std::to_string(i / 4),
                       "a flow with some name " + std::to_string(i),
                       units::Volume::litres(amount), course});
    }
    flows.push_back(flow("Bottle", "bottles", left * share(draw_from), Course::out));
    flows.push_back(flow("Bottle", "a drop", 0.0001, Course::out));
    expect_clear(draw(flows));
    if (HasFailure()) FAIL() << "round " << round;
  }
}

}  // namespace
}  // namespace lynearm::sheet
