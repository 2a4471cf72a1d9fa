#include "store/devices.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/error.hpp"
#include "store/entries.hpp"
#include "store/house.hpp"
#include "store/temporary_folder.hpp"

namespace lynearm::store {
namespace {

using test::noon;
using ::testing::ElementsAre;

Device phone(const std::string& id, char digit, std::int64_t minutes = 0) {
  const journal::Moment paired{noon.milliseconds + minutes * 60'000};
  return {id, "phone " + id, std::string(64, digit), paired, paired, std::nullopt};
}

class DevicesTest : public ::testing::Test {
 protected:
  void open() {
    house_.reset();
    house_ = std::make_unique<House>(Place{.folder = folder_.path(), .database = ""});
  }
  void SetUp() override { open(); }
  Devices& devices() { return house_->devices(); }

  test::TemporaryFolder folder_;
  std::unique_ptr<House> house_;
};

TEST_F(DevicesTest, APairedDeviceIsFoundByItsTokenAlsoAfterARestart) {
  devices().add(phone("b", '2', 1));
  devices().add(phone("a", '1', 0));
  open();
  EXPECT_EQ(devices().find(std::string(64, '1')), phone("a", '1', 0));
  EXPECT_EQ(devices().find(std::string(64, '3')), std::nullopt);
  EXPECT_THAT(devices().list(), ElementsAre(phone("a", '1', 0), phone("b", '2', 1)));
}

TEST_F(DevicesTest, ARevokedDeviceIsGoneForGood) {
  devices().add(phone("a", '1'));
  EXPECT_TRUE(devices().revoke("a", {noon.milliseconds + 1}));
  EXPECT_FALSE(devices().revoke("a", {noon.milliseconds + 2}));
  EXPECT_FALSE(devices().revoke("none", noon));
  EXPECT_EQ(devices().find(std::string(64, '1')), std::nullopt);
  open();
  EXPECT_EQ(devices().find(std::string(64, '1')), std::nullopt);
  ASSERT_EQ(devices().list().size(), 1U);
  EXPECT_EQ(devices().list()[0].revoked, (journal::Moment{noon.milliseconds + 1}));
  // Its token does not come back with another name.
  EXPECT_THROW(devices().add(phone("b", '1')), base::InputError);
}

TEST_F(DevicesTest, WhatIsMalformedIsRefusedAllTogether) {
  Device device = phone("", 'A');
  device.name = "";
  try {
    devices().add(device);
    FAIL();
  } catch (const base::InputError& error) {
    EXPECT_EQ(error.faults().size(), 3U);
  }
  devices().add(phone("a", '1'));
  EXPECT_THROW(devices().add(phone("a", '2')), base::InputError);
  EXPECT_EQ(devices().list().size(), 1U);
}

TEST_F(DevicesTest, WhenADeviceWasSeenIsWrittenDownNowAndThen) {
  devices().add(phone("a", '1'));
  devices().seen("a", {noon.milliseconds + 1000});  // too soon to be worth the disk
  EXPECT_EQ(devices().list()[0].last_seen, noon);
  devices().seen("a", {noon.milliseconds + 600'000});
  open();
  EXPECT_EQ(devices().list()[0].last_seen.milliseconds, noon.milliseconds + 600'000);
}

}  // namespace
}  // namespace lynearm::store
