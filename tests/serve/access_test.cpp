#include "serve/access.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <set>

#include "serve/token.hpp"

namespace lynearm::serve {
namespace {

Request from(Peer peer, Pairs headers) {
  Request request;
  request.method = "GET";
  request.peer = std::move(peer);
  request.headers = std::move(headers);
  return request;
}

const Peer here{"127.0.0.1", "127.0.0.1", true};
const Peer phone{"192.168.1.20", "192.168.1.5", false};

TEST(Tokens, AreLongAndNeverTheSame) {
  std::set<std::string> seen;
  for (int i = 0; i < 200; ++i) {
    const std::string token = new_token();
    EXPECT_EQ(token.size(), 43U);
    EXPECT_EQ(token.find_first_not_of("ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz"
                                      "0123456789-_"),
              std::string::npos);
    EXPECT_TRUE(seen.insert(token).second);
  }
  EXPECT_THAT(new_code(), testing::MatchesRegex("([0-9abcdefghjkmnpqrstvwxyz]{4}-?){4}"));
  EXPECT_EQ(new_code().size(), 19U);
  EXPECT_EQ(short_id().size(), 16U);
}

TEST(Tokens, AreKeptAsBlake2b) {
  // RFC 7693 gives BLAKE2b of 512 bits; this is the 256-bit hash of "abc", from Python's
  // hashlib.blake2b(b"abc", digest_size=32), an implementation of its own.
  EXPECT_EQ(hash_of("abc"), "bddd813c634239723171ef3fee98579b94964e3bb1cb3e427262c8c068d52319");
}

TEST(Access, OfAClosedHouseIsTheLaptops) {
  const DevicesInMemory devices;
  const Access access{false, devices};
  EXPECT_EQ(access.who(from(here, {{"host", "127.0.0.1:8420"}})), laptop());
}

TEST(Access, OfAnOpenHouseIsTheLaptopsOnlyUnderALoopbackName) {
  const DevicesInMemory devices;
  const Access access{true, devices};
  EXPECT_EQ(access.who(from(here, {{"host", "localhost:8420"}})), laptop());
  EXPECT_EQ(access.who(from(here, {{"host", "[::1]:8420"}})), laptop());
  EXPECT_FALSE(access.who(from(here, {{"host", "tern.local:8420"}})));
  EXPECT_FALSE(access.who(from(phone, {{"host", "127.0.0.1:8420"}})));
  EXPECT_FALSE(access.who(from(phone, {{"host", "192.168.1.5:8420"}})));
}

TEST(Access, IsNotTheLaptopsThroughSomebodyWhoPassesItOn) {
  const DevicesInMemory devices;
  const Access access{true, devices};
  for (const char* name : {"x-forwarded-for", "forwarded", "via", "x-real-ip"}) {
    EXPECT_FALSE(access.who(from(here, {{"host", "localhost"}, {name, "1"}}))) << name;
  }
}

TEST(Access, IsADevicesByItsToken) {
  DevicesInMemory devices;
  const std::string token = new_token();
  const Device known{"ab12", "phone", {}, false};
  devices.remember(known, hash_of(token));
  const Access access{true, devices};
  EXPECT_EQ(access.who(from(phone, {{"cookie", "a=1; lynearm_device=" + token + "; b=2"}})),
            known);
  EXPECT_EQ(access.who(from(phone, {{"authorization", "Bearer " + token}})), known);
  for (const std::string& cookie :
       {std::string{"lynearm_device="}, "lynearm_device=" + token + "x",
        "xlynearm_device=" + token, "lynearm_device=" + hash_of(token), std::string(500, 'a'),
        std::string{";;=;"}}) {
    EXPECT_FALSE(access.who(from(phone, {{"cookie", cookie}}))) << cookie;
  }
  EXPECT_TRUE(devices.revoke("ab12"));
  EXPECT_FALSE(access.who(from(phone, {{"authorization", "Bearer " + token}})));
  EXPECT_FALSE(devices.revoke("ab12"));
}

TEST(Access, KnowsAStrangerWithoutAskingTheDevices) {
  const DevicesInMemory devices;
  const Access access{true, devices};
  EXPECT_FALSE(access.may_be_known(from(phone, {{"host", "192.168.1.5"}})));
  EXPECT_TRUE(access.may_be_known(from(phone, {{"cookie", "lynearm_device=x"}})));
}

TEST(Cookie, CannotBeReadByScriptsNorSentAcrossSites) {
  EXPECT_EQ(cookie("abc", false),
            "lynearm_device=abc; Max-Age=31536000; Path=/; HttpOnly; SameSite=Strict");
  EXPECT_EQ(cookie("", true),
            "lynearm_device=; Max-Age=0; Path=/; HttpOnly; SameSite=Strict; Secure");
}

}  // namespace
}  // namespace lynearm::serve
