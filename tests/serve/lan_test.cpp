// Who is of the LAN, and a house that listens for IPv4 and IPv6 at one port.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <stdexcept>

#include "serve/lan_addresses.hpp"
#include "serve/net_address.hpp"
#include "serve/open_house.hpp"

namespace lynearm::serve {
namespace {

using boost::asio::ip::make_address;

TEST(Near, IsThisMachineAndAPrivateNet) {
  // RFC 1918, RFC 3927, RFC 6598, RFC 4193, RFC 4291 section 2.5.6
  for (const char* text : {"127.0.0.1", "10.0.0.1", "172.16.0.1", "172.31.255.255",
                           "192.168.1.5", "169.254.1.1", "100.64.0.1", "100.127.255.255", "::1",
                           "fe80::1", "fd00::2", "fc00::1", "::ffff:192.168.1.5"}) {
    EXPECT_TRUE(is_near(make_address(text))) << text;
  }
  // Outside by one on either side; and the nets kept for documents, which no machine has.
  for (const char* text : {"9.255.255.255", "11.0.0.0", "172.15.255.255", "172.32.0.0",
                           "192.167.255.255", "192.169.0.0", "100.63.255.255", "100.128.0.0",
                           "203.0.113.5", "2001:db8::1", "fe00::1", "::ffff:203.0.113.5"}) {
    EXPECT_FALSE(is_near(make_address(text))) << text;
  }
}

TEST(Near, OffersOnlyAddressesThatAreIt) {
  for (const std::string& text : lan_addresses()) EXPECT_TRUE(is_near(make_address(text)));
}

TEST(OpenToTheLan, AnswersByIpv4AndIpv6AtOnePort) {
  OpenHouse house{nullptr, [](Options& options) { options.lan = true; }};
  EXPECT_EQ(house.visitor().get("/healthz").status, 200);
  try {
    Visitor six{house.port(), true};
    six.send("GET /healthz HTTP/1.1\r\nHost: [::1]:" + std::to_string(house.port()) +
             "\r\n\r\n");
    EXPECT_EQ(six.receive().status, 200);
    // A name that was bent to the house is refused by IPv6 as well.
    six.send("GET /healthz HTTP/1.1\r\nHost: [fd00::99]\r\n\r\n");
    EXPECT_EQ(six.receive().status, 421);
  } catch (const std::runtime_error&) {
    GTEST_SKIP() << "this machine has no IPv6";
  }
}

TEST(Closed, ListensOnThisMachineOnly) {
  OpenHouse house;
  EXPECT_EQ(house.visitor().get("/healthz").status, 200);
  EXPECT_THROW((Visitor{house.port(), true}), std::runtime_error);
}

}  // namespace
}  // namespace lynearm::serve
