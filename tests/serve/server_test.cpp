// A running server, asked over a socket: routes, errors, keep-alive, what a reply carries.
#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <stdexcept>

#include "base/error.hpp"
#include "serve/open_house.hpp"

namespace lynearm::serve {
namespace {

using testing::HasSubstr;
using testing::Not;

void fill(Router& router, OpenHouse&) {
  router
      .on("GET", "/api/v1/batches/{batch}",
          [](const Request& request) {
            return json("\"" + request.parameter("batch") + " " +
                        std::string{request.asked("units").value_or("none")} + " " +
                        request.who->name + "\"");
          })
      .on("POST", "/api/v1/entries",
          [](const Request& request) {
            Reply reply = json(request.body);
            reply.status = 201;
            return reply;
          })
      .on("POST", "/api/v1/bad",
          [](const Request&) -> Reply {
            throw base::InputError{"mash.volume", "3 kg", "a volume"};
          })
      .on("GET", "/api/v1/stuck",
          [](const Request&) -> Reply {
            throw base::NotConverged{"bubble point", "secret"};
          })
      .on("GET", "/api/v1/fault",
          [](const Request&) -> Reply { throw std::runtime_error{"disk of secret"}; })
      .on("DELETE", "/api/v1/devices/{id}", [](const Request&) { return nothing(); })
      .otherwise([](const Request&) {
        Reply reply;
        reply.content_type = "text/html; charset=utf-8";
        reply.body = "<p>page</p>";
        return reply;
      });
}

class RunningServer : public testing::Test {
 protected:
  OpenHouse house{fill};
  Visitor visitor{house.visitor()};
};

TEST_F(RunningServer, AnswersARouteWithItsParametersAndQuery) {
  const Answer answer = visitor.get("/api/v1/batches/tern%207?units=us");
  EXPECT_EQ(answer.status, 200);
  EXPECT_EQ(answer.body, "\"tern 7 us this computer\"");
  EXPECT_EQ(answer.header("Content-Type"), "application/json");
  EXPECT_EQ(answer.header("Cache-Control"), "no-store");
  EXPECT_THAT(answer.header("Content-Security-Policy"), HasSubstr("default-src 'none'"));
  EXPECT_THAT(answer.header("Date"), HasSubstr("GMT"));
}

TEST_F(RunningServer, KeepsTheConnectionForTheNextRequest) {
  for (int i = 0; i < 20; ++i) {
    const Answer answer = visitor.post("/api/v1/entries", "{\"n\":" + std::to_string(i) + "}");
    EXPECT_EQ(answer.status, 201);
    EXPECT_EQ(answer.body, "{\"n\":" + std::to_string(i) + "}");
  }
}

TEST_F(RunningServer, AnswersRequestsThatWereSentTogetherInTheirOrder) {
  visitor.send(
      "GET /api/v1/batches/1 HTTP/1.1\r\nHost: localhost\r\n\r\n"
      "GET /healthz HTTP/1.1\r\nHost: localhost\r\n\r\n"
      "GET /api/v1/batches/3 HTTP/1.1\r\nHost: localhost\r\nConnection: close\r\n\r\n");
  EXPECT_THAT(visitor.receive().body, HasSubstr("1 none"));
  EXPECT_EQ(visitor.receive().body, "{\"status\":\"well\"}");
  EXPECT_THAT(visitor.receive().body, HasSubstr("3 none"));
  EXPECT_TRUE(visitor.is_closed());
}

TEST_F(RunningServer, AnswersHeadWithoutABody) {
  visitor.send("HEAD /healthz HTTP/1.1\r\nHost: localhost\r\n\r\n");
  const Answer head = visitor.receive(true);
  EXPECT_EQ(head.status, 200);
  EXPECT_EQ(head.header("Content-Length"), "17");
  EXPECT_EQ(visitor.get("/healthz").body,
            "{\"status\":\"well\"}");  // nothing of HEAD's in between
}

TEST_F(RunningServer, AnswersOldClients) {
  visitor.send("GET /healthz HTTP/1.0\r\nHost: localhost\r\n\r\n");
  EXPECT_EQ(visitor.receive().status, 200);
  EXPECT_TRUE(visitor.is_closed());
}

TEST_F(RunningServer, TellsAProblemForAnUnknownPathOrMethod) {
  const Answer unknown = visitor.get("/api/v1/vats");
  EXPECT_EQ(unknown.status, 404);
  EXPECT_EQ(unknown.header("Content-Type"), "application/problem+json");
  EXPECT_THAT(unknown.body, HasSubstr("\"type\":\"/problems/not-found\""));
  const Answer wrong = visitor.post("/api/v1/batches/7", "{}");
  EXPECT_EQ(wrong.status, 405);
  EXPECT_EQ(wrong.header("Allow"), "GET, HEAD");
}

TEST_F(RunningServer, GivesThePageForItsOwnPaths) {
  const Answer page = visitor.get("/batch/7/mash");
  EXPECT_EQ(page.status, 200);
  EXPECT_EQ(page.body, "<p>page</p>");
}

TEST_F(RunningServer, TellsBadInputAtItsField) {
  const Answer answer = visitor.post("/api/v1/bad", "{}");
  EXPECT_EQ(answer.status, 422);
  EXPECT_EQ(answer.header("Content-Type"), "application/problem+json");
  EXPECT_THAT(answer.body, HasSubstr("\"field\":\"mash.volume\""));
}

TEST_F(RunningServer, TellsOfAFaultOnlyAnIdAndTheLogTheRest) {
  for (const char* path : {"/api/v1/fault", "/api/v1/stuck"}) {
    const Answer answer = visitor.get(path);
    EXPECT_EQ(answer.status, 500);
    EXPECT_THAT(answer.body, Not(HasSubstr("secret")));
    const std::size_t at = answer.body.find("\"fault\":\"");
    ASSERT_NE(at, std::string::npos);
    const std::string id = answer.body.substr(at + 9, 16);
    EXPECT_THAT(house.logged(), HasSubstr("fault " + id));
  }
  EXPECT_THAT(house.logged(), HasSubstr("disk of secret"));
}

TEST_F(RunningServer, WantsJson) {
  visitor.send(
      "POST /api/v1/entries HTTP/1.1\r\nHost: localhost\r\n"
      "Content-Type: text/plain\r\nContent-Length: 2\r\n\r\n{}");
  EXPECT_EQ(visitor.receive().status, 415);
  Visitor second = house.visitor();
  second.send(
      "POST /api/v1/entries HTTP/1.1\r\nHost: localhost\r\n"
      "Content-Type: Application/JSON; charset=utf-8\r\nContent-Length: 2\r\n\r\n{}");
  EXPECT_EQ(second.receive().status, 201);
}

TEST_F(RunningServer, TakesABodyInChunks) {
  visitor.send(
      "POST /api/v1/entries HTTP/1.1\r\nHost: localhost\r\n"
      "Content-Type: application/json\r\nTransfer-Encoding: chunked\r\n\r\n"
      "3\r\n[1,\r\n");
  visitor.send("2\r\n2]\r\n0\r\n\r\n");
  EXPECT_EQ(visitor.receive().body, "[1,2]");
}

TEST_F(RunningServer, AsksForABodyThatWaitsToBeAskedFor) {
  visitor.send(
      "POST /api/v1/entries HTTP/1.1\r\nHost: localhost\r\nExpect: 100-continue\r\n"
      "Content-Type: application/json\r\nContent-Length: 2\r\n\r\n");
  EXPECT_EQ(visitor.receive().status, 100);
  visitor.send("{}");
  EXPECT_EQ(visitor.receive().status, 201);
}

TEST_F(RunningServer, SendsNothingWhereThereIsNothingToTell) {
  visitor.send("DELETE /api/v1/devices/7 HTTP/1.1\r\nHost: localhost\r\n\r\n");
  const Answer answer = visitor.receive();
  EXPECT_EQ(answer.status, 204);
  EXPECT_EQ(answer.header("Content-Length"), "");
  EXPECT_EQ(answer.header("Content-Type"), "");
  EXPECT_EQ(visitor.get("/healthz").status, 200);
}

TEST_F(RunningServer, RefusesWhatIsNoRequest) {
  for (const char* bytes :
       {"nonsense\r\n\r\n", "GET / HTTP/3.0\r\n\r\n", "GET / HTTP/1.1\r\nHost : a\r\n\r\n",
        "POST / HTTP/1.1\r\nHost: a\r\nContent-Length: 1\r\nContent-Length: 2\r\n\r\n",
        "POST / HTTP/1.1\r\nHost: a\r\nContent-Length: 1\r\nTransfer-Encoding: chunked\r\n\r\n",
        "GET /../secret HTTP/1.1\r\nHost: localhost\r\n\r\n", "GET / HTTP/1.1\r\n\r\n"}) {
    Visitor one = house.visitor();
    one.send(bytes);
    EXPECT_EQ(one.receive().status, 400) << bytes;
  }
}

// RFC 9112, sections 6.1 and 6.3: a body of which nobody knows where it ends. What follows is
// not read as another request.
TEST_F(RunningServer, RefusesATransferCodingThatItDoesNotKnow) {
  for (const char* coding :
       {"Transfer-Encoding: gzip\r\nContent-Length: 2", "Transfer-Encoding: gzip",
        "Transfer-Encoding: gzip, chunked", "Transfer-Encoding: gzip\r\nContent-Length: 0"}) {
    Visitor one = house.visitor();
    one.send(std::string("POST /api/v1/entries HTTP/1.1\r\nHost: localhost\r\n"
                         "Content-Type: application/json\r\n") +
             coding + "\r\n\r\n{}GET /healthz HTTP/1.1\r\nHost: localhost\r\n\r\n");
    EXPECT_EQ(one.receive().status, 501) << coding;
    EXPECT_NE(one.receive().status, 200) << coding;
  }
  Visitor old = house.visitor();
  old.send(
      "POST /api/v1/entries HTTP/1.0\r\nHost: localhost\r\nContent-Type: "
      "application/json\r\nTransfer-Encoding: chunked\r\n\r\n2\r\n{}\r\n0\r\n\r\n");
  EXPECT_EQ(old.receive().status, 501);
}

TEST_F(RunningServer, RefusesForeignHostsAndSites) {
  visitor.send("GET /healthz HTTP/1.1\r\nHost: elsewhere.example\r\n\r\n");
  EXPECT_EQ(visitor.receive().status, 421);
  EXPECT_EQ(
      visitor.post("/api/v1/entries", "{}", "Origin: http://elsewhere.example\r\n").status,
      403);
  Visitor second = house.visitor();
  EXPECT_EQ(second.get("/api/v1/batches/7", "Sec-Fetch-Site: cross-site\r\n").status, 403);
}

TEST_F(RunningServer, LogsWithoutBodiesQueriesAndTokens) {
  visitor.post("/api/v1/entries?code=hush1", "{\"a\":\"hush2\"}",
               "Cookie: lynearm_device=hush3\r\nAuthorization: Bearer hush4\r\n");
  visitor.get("/api/v1/vats?code=hush5");
  EXPECT_THAT(house.logged(), HasSubstr("POST /api/v1/entries 201"));
  EXPECT_THAT(house.logged(), HasSubstr("GET /api/v1/vats 404"));
  EXPECT_THAT(house.logged(), Not(HasSubstr("hush")));
}

TEST(Server, WithoutTheLanListensNowhereElse) {
  Events events;
  DevicesInMemory devices;
  Options options;
  options.port = 0;
  options.address = "0.0.0.0";
  EXPECT_THROW(Server(options, Router{}, events, devices), base::InputError);
  options.address = "not an address";
  EXPECT_THROW(Server(options, Router{}, events, devices), base::InputError);
}

TEST(Server, TellsOfAPortThatIsTaken) {
  OpenHouse house;
  Events events;
  DevicesInMemory devices;
  Options options;
  options.port = house.port();
  EXPECT_THROW(Server(options, Router{}, events, devices), base::InputError);
}

}  // namespace
}  // namespace lynearm::serve
