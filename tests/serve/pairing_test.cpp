// Pairing and revoking a phone, from the code to the closed door.
#include "serve/pairing.hpp"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cctype>
#include <ctime>

#include "serve/access.hpp"
#include "serve/device_routes.hpp"
#include "serve/open_house.hpp"
#include "serve/token.hpp"

namespace lynearm::serve {
namespace {

using std::chrono::seconds;
using testing::HasSubstr;
using testing::Not;
using testing::StartsWith;

const Pairing::Time begin{};

TEST(PairingCode, OpensOnce) {
  Pairing pairing;
  const std::string code = pairing.offer(begin);
  EXPECT_FALSE(pairing.redeem("wrong", begin));
  EXPECT_TRUE(pairing.redeem(code, begin + seconds{299}));
  EXPECT_FALSE(pairing.redeem(code, begin + seconds{299}));
}

TEST(PairingCode, OpensAsItIsTyped) {
  EXPECT_EQ(code_typed("K7MQ 2r9xOfz38Iwn"), "k7mq-2r9x-0fz3-81wn");
  EXPECT_EQ(code_typed("../<k>"), "k");
  Pairing pairing;
  std::string typed = pairing.offer(begin);
  std::erase(typed, '-');
  for (char& c : typed) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  EXPECT_TRUE(pairing.redeem(typed, begin));
}

TEST(PairingCode, LastsFiveMinutes) {
  Pairing pairing;
  const std::string code = pairing.offer(begin);
  EXPECT_FALSE(pairing.redeem(code, begin + seconds{300}));
  EXPECT_FALSE(pairing.redeem(code, begin));  // gone for good
}

// The clock that Linux lets run on while the machine sleeps.
TEST(PairingCode, IsTimedByAClockThatCountsTheLaptopsSleep) {
  const auto since_boot = [] {
    timespec now{};
    clock_gettime(CLOCK_BOOTTIME, &now);
    return seconds{now.tv_sec} + std::chrono::nanoseconds{now.tv_nsec};
  };
  const auto before = since_boot();
  const auto told = WakingClock::now().time_since_epoch();
  EXPECT_LE(before, told);
  EXPECT_LE(told, since_boot());
}

TEST(PairingCode, IsReplacedByTheNext) {
  Pairing pairing;
  const std::string first = pairing.offer(begin);
  const std::string second = pairing.offer(begin);
  EXPECT_FALSE(pairing.redeem(first, begin));
  EXPECT_TRUE(pairing.redeem(second, begin));
}

/// A house open to the LAN. Over loopback, under a name that is not loopback's, one is a
/// stranger.
class LanHouse : public testing::Test {
 protected:
  static constexpr const char* away = "Host: tern.local\r\n";

  static std::string asked(const std::string& line, const std::string& headers,
                           const std::string& body) {
    return line + " HTTP/1.1\r\n" + headers +
           "Content-Type: application/json\r\nContent-Length: " + std::to_string(body.size()) +
           "\r\n\r\n" + body;
  }
  Answer ask(const std::string& line, const std::string& headers,
             const std::string& body = "") {
    Visitor visitor = house.visitor();
    visitor.send(asked(line, headers, body));
    return visitor.receive();
  }
  Answer on_laptop(const std::string& line) { return ask(line, "Host: 127.0.0.1\r\n"); }
  Answer on_phone(const std::string& line, const std::string& cookie,
                  const std::string& body = "") {
    return ask(line, std::string{away} + "Cookie: " + cookie + "\r\n", body);
  }
  std::string code() {
    const std::string body = on_laptop("POST /api/v1/pairing/codes").body;
    const std::size_t at = body.find("\"code\":\"");
    return at == std::string::npos ? "" : body.substr(at + 8, body.find('"', at + 8) - at - 8);
  }
  /// The cookie of a phone that was paired now.
  std::string paired(const std::string& name) {
    const Answer answer = ask("POST /api/v1/pairing", away,
                              R"({"code":")" + code() + R"(","name":")" + name + "\"}");
    EXPECT_EQ(answer.status, 201) << answer.body;
    const std::string cookie = answer.header("Set-Cookie");
    return cookie.substr(0, cookie.find(';'));
  }
  static std::string id_in(const std::string& json) {
    const std::size_t at = json.find("\"id\":\"");
    return json.substr(at + 6, 16);
  }

  Pairing pairing;
  OpenHouse house{
      [this](Router& router, OpenHouse& open) {
        PairingHouse how;
        how.lan = true;
        how.names = {"tern.local"};
        how.port = [&open] { return open.port(); };
        add_device_routes(router, pairing, open.devices, open.events, how);
        router.on("GET", "/api/v1/batches", [](const Request&) { return json("[]"); });
        router.on("GET", "/api/v1/events", [&open](const Request& request) {
          Reply reply;
          reply.content_type = "text/event-stream";
          reply.stream = open.events.subscribe({"house"}, request.who->id);
          reply.stream->push(std::make_shared<const std::string>(event_text("", "begin", "")));
          return reply;
        });
        router.otherwise([](const Request&) { return json("\"page\""); });
      },
      [](Options& options) {
        options.lan = true;
        options.address = "127.0.0.1";
        options.names = {"tern.local"};
      }};
};

TEST_F(LanHouse, ShowsAStrangerOnlyThePageAndItsHealth) {
  EXPECT_EQ(ask("GET /", away).status, 200);
  EXPECT_EQ(ask("GET /pair", away).status, 200);
  EXPECT_EQ(ask("GET /healthz", away).status, 200);
  for (const char* line : {"GET /api/v1/batches", "GET /api/v1/devices", "GET /api/v1/events",
                           "DELETE /api/v1/devices/laptop", "POST /api/v1/pairing/codes"}) {
    EXPECT_EQ(ask(line, away).status, 401) << line;
    EXPECT_EQ(on_phone(line, "lynearm_device=made-up").status, 401) << line;
  }
}

TEST_F(LanHouse, GivesItsLaptopACodeWithAnAddressAndAPicture) {
  const Answer answer = on_laptop("POST /api/v1/pairing/codes");
  EXPECT_EQ(answer.status, 201);
  EXPECT_THAT(answer.body,
              HasSubstr("http://tern.local:" + std::to_string(house.port()) + "/"));
  EXPECT_THAT(answer.body, HasSubstr("\"lasts_s\":300"));
  EXPECT_THAT(answer.body, HasSubstr("<svg "));
  EXPECT_EQ(answer.header("Cache-Control"), "no-store");
}

TEST_F(LanHouse, PairsAPhoneThatThenBelongs) {
  const std::string cookie = paired("phone");
  EXPECT_THAT(cookie, StartsWith("lynearm_device="));
  EXPECT_EQ(on_phone("GET /api/v1/batches", cookie).status, 200);
  const Answer itself = on_phone("GET /api/v1/devices/this", cookie);
  EXPECT_THAT(itself.body, HasSubstr("\"name\":\"phone\""));
  EXPECT_THAT(itself.body, HasSubstr("\"this_one\":true"));
  const Answer all = on_laptop("GET /api/v1/devices");
  EXPECT_THAT(all.body, HasSubstr("\"name\":\"phone\""));
  EXPECT_THAT(all.body, HasSubstr("\"lan\":true,\"tls\":false"));
  EXPECT_EQ(on_phone("POST /api/v1/pairing/codes", cookie).status, 403);
}

TEST_F(LanHouse, TakesACodeOnlyOnce) {
  const std::string body = R"({"code":")" + code() + R"(","name":"a"})";
  const Answer first = ask("POST /api/v1/pairing", away, body);
  EXPECT_EQ(first.status, 201);
  EXPECT_THAT(first.header("Set-Cookie"), HasSubstr("; HttpOnly; SameSite=Strict"));
  const Answer second = ask("POST /api/v1/pairing", away, body);
  EXPECT_EQ(second.status, 403);
  EXPECT_EQ(second.header("Set-Cookie"), "");
}

TEST_F(LanHouse, TellsWhatIsWrongWithACall) {
  EXPECT_EQ(ask("POST /api/v1/pairing", away, "[").status, 422);
  const Answer bare = ask("POST /api/v1/pairing", away, R"({"name":7,"more":1})");
  EXPECT_EQ(bare.status, 422);
  for (const char* field : {"code", "name", "more"}) {
    EXPECT_THAT(bare.body, HasSubstr("\"field\":\"" + std::string{field} + "\""));
  }
  EXPECT_EQ(ask("POST /api/v1/pairing", away, R"({"code":"a","name":" "})").status, 422);
}

// All of these were told as missing.
TEST_F(LanHouse, TellsWhatStoodThereInACall) {
  const auto told = [&](const std::string& body) {
    return ask("POST /api/v1/pairing", away, body).body;
  };
  EXPECT_THAT(told("["), HasSubstr("body is \\\"no JSON\\\""));
  EXPECT_THAT(told("7"), HasSubstr("body is \\\"7\\\""));
  EXPECT_THAT(told(R"({"code":"a","name":"a","more":1})"), HasSubstr("more is not known here"));
  EXPECT_THAT(told(R"({"code":"a","name":"a","":1})"), HasSubstr(R"("\"\" is not known here)"));
  EXPECT_THAT(told(R"({"code":")" + std::string(65, 'c') + R"(","name":"a"})"),
              HasSubstr("code is \\\"a longer text\\\""));
  EXPECT_THAT(told(R"({"code":"a","name":")" + std::string(61, 'n') + "\"}"),
              HasSubstr("name is \\\"61 characters\\\""));
}

// They could be paired, and nobody would have found them in the list.
TEST_F(LanHouse, TakesNoNameThatCannotBeSeen) {
  for (const char* name : {"\u0085\u200B", "\u202Enohp", "\uFEFF", "two\u2028lines"}) {
    const std::string body = R"({"code":")" + code() + R"(","name":")" + name + "\"}";
    EXPECT_EQ(ask("POST /api/v1/pairing", away, body).status, 422) << name;
  }
  EXPECT_NE(paired("Töchterchens Telefon 📱"), "");
}

TEST_F(LanHouse, ARevokedPhoneIsOutAtOnceAndItsStreamEnds) {
  const std::string lost = paired("lost");
  const std::string kept = paired("kept");
  Visitor stream = house.visitor();
  stream.send(asked("GET /api/v1/events", std::string{away} + "Cookie: " + lost + "\r\n", ""));
  EXPECT_NE(stream.read_until("\n\n"), "");
  const std::string lost_id = id_in(on_phone("GET /api/v1/devices/this", lost).body);

  EXPECT_EQ(on_phone("DELETE /api/v1/devices/" + lost_id, kept).status, 403);
  EXPECT_EQ(on_laptop("DELETE /api/v1/devices/" + lost_id).status, 204);
  EXPECT_TRUE(stream.is_closed(seconds{5}));
  EXPECT_EQ(on_phone("GET /api/v1/batches", lost).status, 401);
  EXPECT_EQ(on_phone("GET /api/v1/batches", kept).status, 200);
  EXPECT_EQ(on_laptop("DELETE /api/v1/devices/" + lost_id).status, 404);

  const std::string kept_id = id_in(on_phone("GET /api/v1/devices/this", kept).body);
  const Answer leaving = on_phone("DELETE /api/v1/devices/" + kept_id, kept);
  EXPECT_EQ(leaving.status, 204);
  EXPECT_THAT(leaving.header("Set-Cookie"), HasSubstr("Max-Age=0"));
}

TEST_F(LanHouse, NeverLogsACodeOrAToken) {
  const std::string cookie = paired("phone");
  const std::string next = code();
  on_phone("GET /api/v1/batches", cookie);
  EXPECT_THAT(house.logged(), HasSubstr("POST /api/v1/pairing 201"));
  EXPECT_THAT(house.logged(), Not(HasSubstr(next)));
  EXPECT_THAT(house.logged(), Not(HasSubstr(cookie.substr(cookie.find('=') + 1))));
}

TEST(ClosedHouse, GivesNoCodes) {
  Pairing pairing;
  OpenHouse house{[&](Router& router, OpenHouse& open) {
    add_device_routes(router, pairing, open.devices, open.events, {});
  }};
  EXPECT_EQ(house.visitor().post("/api/v1/pairing/codes", "").status, 409);
  EXPECT_THAT(house.visitor().get("/api/v1/devices").body, HasSubstr("\"lan\":false"));
}

TEST(HouseUnderTls, TellsTheFingerprintToCompare) {
  Pairing pairing;
  PairingHouse how;
  how.tls = true;
  how.fingerprint = "0A:1B:2C";
  OpenHouse house{[&](Router& router, OpenHouse& open) {
    add_device_routes(router, pairing, open.devices, open.events, how);
  }};
  EXPECT_THAT(house.visitor().get("/api/v1/devices").body,
              HasSubstr("\"tls\":true,\"fingerprint\":\"0A:1B:2C\""));
}

}  // namespace
}  // namespace lynearm::serve
