#include "spirit/reading.hpp"

#include <gtest/gtest.h>

#include "spirit/density.hpp"
#include "spirit/strength.hpp"

namespace lynearm::spirit {
namespace {

using units::parse;
using units::try_parse;

constexpr Scale every_scale[] = {Scale::percent_vol,      Scale::percent_vol_15C,
                                 Scale::percent_vol_60F,  Scale::percent_mass,
                                 Scale::us_proof,         Scale::density,
                                 Scale::specific_gravity, Scale::specific_gravity_60F};

TEST(Reading, is_read_on_every_scale) {
  EXPECT_EQ(parse<Reading>("62.4 %vol"), (Reading{62.4, Scale::percent_vol}));
  EXPECT_EQ(parse<Reading>("62.4 %vol at 60 F"), (Reading{62.4, Scale::percent_vol_60F}));
  EXPECT_EQ(parse<Reading>("62.4 %vol 15 C"), (Reading{62.4, Scale::percent_vol_15C}));
  EXPECT_EQ(parse<Reading>("125 proof"), (Reading{125.0, Scale::us_proof}));
  EXPECT_EQ(parse<Reading>("54.5 %mass"), (Reading{54.5, Scale::percent_mass}));
  EXPECT_EQ(parse<Reading>("912.5 kg/m3").scale, Scale::density);
  EXPECT_NEAR(parse<Reading>("0.9125 g/mL").figure, 912.5, 1e-9);
  EXPECT_EQ(parse<Reading>("0.9126 SG"), (Reading{0.9126, Scale::specific_gravity}));
  EXPECT_EQ(parse<Reading>("0.9126 SG 20/20"), (Reading{0.9126, Scale::specific_gravity}));
  EXPECT_EQ(parse<Reading>("0.9126 SG 60/60 °F"),
            (Reading{0.9126, Scale::specific_gravity_60F}));
  EXPECT_EQ(parse<Reading>("0.9126 60/60"), (Reading{0.9126, Scale::specific_gravity_60F}));
}

TEST(Reading, printed_is_read_back) {
  for (const Scale scale : every_scale) {
    const Reading reading = reading_of(units::MassFraction::percent(52.09), scale);
    const Reading back = parse<Reading>(print(reading));
    EXPECT_EQ(back.scale, scale) << words(scale);
    EXPECT_NEAR(back.figure, reading.figure, 0.0501) << words(scale);
  }
}

TEST(Reading, that_no_spirit_gives_is_refused) {
  for (const char* text : {"62.4", "62.4 %", "101 %vol", "201 proof", "-1 %vol", "0.9126",
                           "1.2 SG", "600 kg/m3", "9126 kg/m3", "62,4 %vol", "nan %vol", "",
                           "SG", "0.9 SG 20/60", "1e400 SG", "0.91 kg"}) {
    EXPECT_FALSE(try_parse<Reading>(text)) << text;
  }
  EXPECT_EQ(
      try_parse<Reading>("62,4 %vol").accepted,
      "a reading such as \"62.4 %vol\", \"125 proof\", \"54.5 %mass\", "
      "\"0.9126 g/mL\" or \"0.9126 SG\", with a point as decimal mark and no separator of "
      "thousands");
}

// The scales part: the same mixture has these figures (our own, from the definitions).
TEST(Reading, of_one_mixture_differs_by_scale) {
  const units::MassFraction half = mass_fraction(units::VolumeStrength::percent(50.0));
  EXPECT_NEAR(volume_strength_60F(half).percent(), 49.94, 0.005);
  EXPECT_NEAR(volume_strength_15C(half).percent(), 49.93, 0.005);
  EXPECT_NEAR(proof(half).degrees(), 2.0 * volume_strength_60F(half).percent(), 1e-12);
}

TEST(Reading, of_gravity_is_inverted_exactly) {
  for (int i = 0; i <= 100; ++i) {
    const units::MassFraction p = units::MassFraction::percent(i);
    EXPECT_NEAR(mass_fraction(specific_gravity(p)).percent(), i, 1e-8);
    EXPECT_NEAR(mass_fraction(specific_gravity_60F(p)).percent(), i, 1e-8);
    EXPECT_NEAR(mass_fraction(volume_strength_15C(p)).percent(), i, 1e-10);
    EXPECT_NEAR(mass_fraction(volume_strength_60F(p)).percent(), i, 1e-10);
  }
}

}  // namespace
}  // namespace lynearm::spirit
