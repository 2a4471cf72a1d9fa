#include "store/postgresql_server.hpp"

#include <fcntl.h>
#include <grp.h>
#include <pwd.h>
#include <signal.h>
#include <sys/prctl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <chrono>
#include <stdexcept>
#include <thread>

#include "store/postgresql/connection.hpp"

namespace lynearm::store::test {
namespace {

namespace fs = std::filesystem;
using postgresql::Connection;

// The newest .../postgresql/NN/bin that has a server; empty when there is none.
std::string programs() {
  std::string found;
  std::error_code none;
  for (const auto& version : fs::directory_iterator("/usr/lib/postgresql", none)) {
    const fs::path bin = version.path() / "bin";
    if (fs::exists(bin / "postgres", none) && fs::exists(bin / "initdb", none)) {
      found = std::max(found, bin.string());
    }
  }
  return found;
}

}  // namespace

std::unique_ptr<PostgresqlServer> PostgresqlServer::make() {
  const std::string found = programs();
  if (found.empty()) return nullptr;
  if (::geteuid() == 0 && ::getpwnam("postgres") == nullptr) return nullptr;
  return std::unique_ptr<PostgresqlServer>(new PostgresqlServer(found));
}

PostgresqlServer::PostgresqlServer(std::string bin) : programs_(std::move(bin)) {
  if (const passwd* const user = ::getpwnam("postgres"); ::geteuid() == 0 && user != nullptr) {
    if (::chown(folder_.path().c_str(), user->pw_uid, user->pw_gid) != 0) {
      throw std::runtime_error("the folder cannot be given to postgres");
    }
  }
  const pid_t made =
      spawn({programs_ + "/initdb", "-D", (folder_ / "data").string(), "-U", "postgres",
             "--auth=trust", "-E", "UTF8", "--locale=C.UTF-8", "--no-sync"});
  int status = 0;
  ::waitpid(made, &status, 0);
  if (status != 0) throw std::runtime_error("initdb failed");
  start();
  Connection connection(uri("postgres", "postgres"));
  connection.run("CREATE ROLE keeper LOGIN");
  connection.run("CREATE ROLE officer LOGIN");
}

PostgresqlServer::~PostgresqlServer() {
  if (server_ > 0) end(SIGQUIT);
}

pid_t PostgresqlServer::spawn(const std::vector<std::string>& words) const {
  std::vector<char*> arguments;
  for (const std::string& word : words) arguments.push_back(const_cast<char*>(word.c_str()));
  arguments.push_back(nullptr);
  const std::string log = (folder_ / "log").string();
  const passwd* const user = ::geteuid() == 0 ? ::getpwnam("postgres") : nullptr;
  const uid_t uid = user == nullptr ? ::getuid() : user->pw_uid;
  const gid_t gid = user == nullptr ? ::getgid() : user->pw_gid;
  const pid_t child = ::fork();
  if (child != 0) return child;
  if (user != nullptr &&
      (::setgroups(0, nullptr) != 0 || ::setgid(gid) != 0 || ::setuid(uid) != 0)) {
    ::_exit(120);
  }
  ::prctl(PR_SET_PDEATHSIG, SIGQUIT);  // it does not outlive the test, however that ends
  const int out = ::open(log.c_str(), O_WRONLY | O_CREAT | O_APPEND, 0600);
  ::dup2(out, 1);
  ::dup2(out, 2);
  if (::chdir("/") == 0) ::execv(arguments[0], arguments.data());
  ::_exit(121);
}

void PostgresqlServer::start() {
  const auto until = std::chrono::steady_clock::now() + std::chrono::seconds(60);
  while (std::chrono::steady_clock::now() < until) {
    if (server_ <= 0) {
      server_ = spawn({programs_ + "/postgres", "-D", (folder_ / "data").string(), "-k",
                       folder_.path().string(), "-c", "listen_addresses=", "-c",
                       "max_connections=60"});
    }
    std::this_thread::sleep_for(std::chrono::milliseconds(30));
    if (::waitpid(server_, nullptr, WNOHANG) == server_) {
      server_ = -1;  // children of one that was killed still hold its memory: tried again
      continue;
    }
    try {
      const Connection connection(uri("postgres", "postgres"));
      return;
    } catch (const Trouble&) {
    }
  }
  throw std::runtime_error("the server does not answer");
}

void PostgresqlServer::end(int signal) {
  ::kill(server_, signal);
  ::waitpid(server_, nullptr, 0);
  server_ = -1;
}

std::string PostgresqlServer::new_database() {
  const std::string name = "house" + std::to_string(++databases_);
  Connection connection(uri("postgres", "postgres"));
  connection.run("CREATE DATABASE " + name + " OWNER keeper");
  return name;
}

std::string PostgresqlServer::uri(const std::string& database, const std::string& role) const {
  return "postgresql:///" + database + "?host=" + folder_.path().string() + "&user=" + role;
}

PostgresqlServer* shared_server() {
  static const std::unique_ptr<PostgresqlServer> server = PostgresqlServer::make();
  return server.get();
}

}  // namespace lynearm::store::test
