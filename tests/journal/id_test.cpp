#include "journal/id.hpp"

#include <gtest/gtest.h>
#include <rapidcheck/gtest.h>

namespace lynearm::journal {
namespace {

// RFC 9562, Appendix A.6: unix_ts_ms 0x017F22E279B0 (Tuesday, 22 February 2022, 2:22:22.00 PM
// GMT-05:00), rand_a 0xCC3, rand_b 0b01, 0x8C4DC0C0C07398F, printed as below.
TEST(Id, IsMadeAsInTheExampleOfTheStandard) {
  const Id id = Id::version_7(Moment{0x017F22E279B0},
                              {0x0C, 0xC3, 0x18, 0xC4, 0xDC, 0x0C, 0x0C, 0x07, 0x39, 0x8F});
  EXPECT_EQ(print(id), "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
  EXPECT_EQ(read_id("017F22E2-79B0-7CC3-98C4-DC0C0C07398F"), id);
  EXPECT_EQ(print(id.made()), "2022-02-22T19:22:22.000Z");
  EXPECT_EQ(id.version(), 7);
  EXPECT_EQ(id.bytes()[8] >> 6U, 0b10U);
}

TEST(Id, TakesVersionAndVariantFromNoRandomBit) {
  const Id id =
      Id::version_7(Moment{1}, {0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF, 0xFF});
  EXPECT_EQ(print(id), "00000000-0001-7fff-bfff-ffffffffffff");
}

TEST(Id, IsNotReadFromAnyOtherText) {
  for (const char* text :
       {"", "017f22e2-79b0-7cc3-98c4-dc0c0c07398", "017f22e2-79b0-7cc3-98c4-dc0c0c07398ff",
        "017f22e279b07cc398c4dc0c0c07398f", "017f22e2-79b0-7cc3-98c4_dc0c0c07398f",
        "017f22e2-79b0-7cc3-98c4-dc0c0c07398g", "{17f22e2-79b0-7cc3-98c4-dc0c0c07398}",
        "017f22e27-9b0-7cc3-98c4-dc0c0c07398f", " 17f22e2-79b0-7cc3-98c4-dc0c0c07398f"}) {
    EXPECT_FALSE(read_id(text)) << text;
  }
}

TEST(Id, NilNamesNothing) {
  EXPECT_TRUE(Id{}.is_nil());
  EXPECT_EQ(read_id("00000000-0000-0000-0000-000000000000"), Id{});
  EXPECT_FALSE(Id::version_7(Moment{0}, {}).is_nil());
}

RC_GTEST_PROP(IdProperty, PrintsAndReadsBack, ()) {
  std::array<std::uint8_t, 16> bytes{};
  for (auto& byte : bytes) byte = *rc::gen::arbitrary<std::uint8_t>();
  RC_ASSERT(read_id(print(Id(bytes))) == Id(bytes));
}

RC_GTEST_PROP(IdProperty, SortsByMaking, ()) {
  const auto earlier = *rc::gen::inRange<std::int64_t>(0, (std::int64_t{1} << 48) - 1);
  const auto later = *rc::gen::inRange<std::int64_t>(earlier + 1, std::int64_t{1} << 48);
  std::array<std::uint8_t, 10> one{}, other{};
  for (auto& byte : one) byte = *rc::gen::arbitrary<std::uint8_t>();
  for (auto& byte : other) byte = *rc::gen::arbitrary<std::uint8_t>();
  const Id a = Id::version_7({earlier}, one);
  const Id b = Id::version_7({later}, other);
  RC_ASSERT(a < b);
  RC_ASSERT(print(a) < print(b));
  RC_ASSERT(a.made().milliseconds == earlier);
}

}  // namespace
}  // namespace lynearm::journal
