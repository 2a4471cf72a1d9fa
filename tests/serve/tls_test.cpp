// The house's own certificate, and a request over TLS.
#include <arpa/inet.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <openssl/ssl.h>
#include <openssl/x509v3.h>
#include <sys/socket.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <filesystem>
#include <fstream>
#include <memory>

#include "base/error.hpp"
#include "serve/certificate.hpp"
#include "serve/open_house.hpp"

namespace lynearm::serve {
namespace {

class OwnCertificate : public testing::Test {
 protected:
  OwnCertificate() {
    std::filesystem::remove_all(folder);
    std::filesystem::create_directories(folder);
  }
  ~OwnCertificate() override { std::filesystem::remove_all(folder); }
  static std::string text(const std::string& file) {
    std::ifstream in{file};
    return {std::istreambuf_iterator<char>{in}, {}};
  }
  const std::string folder = testing::TempDir() + "lynearm_tls_" + std::to_string(::getpid());
  const std::vector<std::string> hosts{"tern.local", "192.168.1.5", "::1"};
};

TEST_F(OwnCertificate, IsMadeOnceAndKept) {
  const TlsFiles files = own_certificate(folder, hosts);
  const std::string first = text(files.certificate);
  EXPECT_THAT(first, testing::StartsWith("-----BEGIN CERTIFICATE-----"));
  EXPECT_EQ(text(own_certificate(folder, hosts).certificate), first);
  EXPECT_NE(text(own_certificate(folder, {"another.local"}).certificate), first);
}

TEST_F(OwnCertificate, KeepsItsKeyToItself) {
  struct stat about {};
  ASSERT_EQ(::stat(own_certificate(folder, hosts).key.c_str(), &about), 0);
  EXPECT_EQ(about.st_mode & 0777U, 0600U);
}

TEST_F(OwnCertificate, HasAFingerprintToCompare) {
  const std::string print = fingerprint(own_certificate(folder, hosts).certificate);
  EXPECT_EQ(print.size(), 32U * 3 - 1);
  EXPECT_EQ(print.find_first_not_of("0123456789ABCDEF:"), std::string::npos);
  EXPECT_THROW(static_cast<void>(fingerprint(folder + "/none")), base::InputError);
}

TEST_F(OwnCertificate, IsRefusedWhereItCannotBeKept) {
  EXPECT_THROW(static_cast<void>(own_certificate(folder + "/none", hosts)), base::InputError);
  EXPECT_THROW(static_cast<void>(own_certificate(folder, {"a b"})), base::InputError);
}

TEST_F(OwnCertificate, AnswersOverTlsUnderItsNames) {
  const TlsFiles files = own_certificate(folder, hosts);
  OpenHouse house{nullptr, [&](Options& options) { options.tls = files; }};

  const std::unique_ptr<SSL_CTX, decltype(&SSL_CTX_free)> context{
      SSL_CTX_new(TLS_client_method()), &SSL_CTX_free};
  ASSERT_EQ(SSL_CTX_load_verify_locations(context.get(), files.certificate.c_str(), nullptr),
            1);
  SSL_CTX_set_verify(context.get(), SSL_VERIFY_PEER, nullptr);
  const std::unique_ptr<SSL, decltype(&SSL_free)> seal{SSL_new(context.get()), &SSL_free};
  ASSERT_EQ(SSL_set1_host(seal.get(), "tern.local"), 1);
  const int number = ::socket(AF_INET, SOCK_STREAM, 0);
  sockaddr_in address{};
  address.sin_family = AF_INET;
  address.sin_port = htons(house.port());
  address.sin_addr.s_addr = htonl(INADDR_LOOPBACK);
  ASSERT_EQ(::connect(number, reinterpret_cast<const sockaddr*>(&address), sizeof address), 0);
  SSL_set_fd(seal.get(), number);
  ASSERT_EQ(SSL_connect(seal.get()), 1);
  const std::string request =
      "GET /healthz HTTP/1.1\r\nHost: localhost\r\n"
      "Connection: close\r\n\r\n";
  EXPECT_EQ(SSL_write(seal.get(), request.data(), static_cast<int>(request.size())),
            static_cast<int>(request.size()));
  std::string answer;
  std::array<char, 4096> bytes{};
  for (int got = 0; (got = SSL_read(seal.get(), bytes.data(), bytes.size())) > 0;) {
    answer.append(bytes.data(), static_cast<std::size_t>(got));
  }
  EXPECT_THAT(answer, testing::StartsWith("HTTP/1.1 200"));
  EXPECT_THAT(answer, testing::HasSubstr("{\"status\":\"well\"}"));
  ::close(number);

  // Plain HTTP at the same port is shown where to go, and gets nothing else.
  Visitor plain = house.visitor();
  const Answer shown = plain.get("/healthz?a=%20b");
  EXPECT_EQ(shown.status, 307);
  EXPECT_EQ(shown.header("Location"),
            "https://127.0.0.1:" + std::to_string(house.port()) + "/healthz?a=%20b");
  EXPECT_THAT(shown.body, testing::HasSubstr("This house speaks TLS"));
  EXPECT_THAT(shown.body, testing::Not(testing::HasSubstr("well")));
  EXPECT_EQ(plain.post("/healthz", "{}").status, 400);
  // Nor do bytes that are neither stay open for ever.
  Visitor neither = house.visitor();
  using namespace std::string_view_literals;
  neither.send("\x16\x03\x01\x02\x00nothing of a handshake"sv);
  EXPECT_TRUE(neither.is_closed(std::chrono::seconds{5}));
}

TEST_F(OwnCertificate, MustFitItsKey) {
  const TlsFiles files = own_certificate(folder, hosts);
  Events events;
  DevicesInMemory devices;
  Options options;
  options.port = 0;
  options.tls = TlsFiles{files.certificate, files.certificate};
  EXPECT_THROW(Server(options, Router{}, events, devices), base::InputError);
  options.tls = TlsFiles{folder + "/none", files.key};
  EXPECT_THROW(Server(options, Router{}, events, devices), base::InputError);
}

}  // namespace
}  // namespace lynearm::serve
