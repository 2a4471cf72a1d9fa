#include "serve/problem.hpp"

#include <utility>

#include "base/error.hpp"
#include "serve/token.hpp"
#include "wire/faults_json.hpp"
#include "wire/problem_json.hpp"

namespace lynearm::serve {

namespace {

Reply document(int status, std::string text) {
  Reply reply;
  reply.status = status;
  reply.content_type = wire::problem_media_type;
  reply.body = std::move(text);
  return reply;
}

Told fault(std::string kind, std::string title, std::string reason) {
  Told out;
  out.id = short_id();
  out.reason = std::move(reason);
  out.reply = document(
      500, wire::problem_json({std::move(kind), std::move(title), 500,
                               "The log of the house tells more under the id in \"fault\".",
                               out.id}));
  return out;
}

}  // namespace

Reply problem(int status, std::string kind, std::string title, std::string detail) {
  return document(status, wire::problem_json({std::move(kind), std::move(title), status,
                                              std::move(detail), ""}));
}

Told told(const std::exception_ptr& error) {
  try {
    std::rethrow_exception(error);
  } catch (const base::InputError& bad) {
    return {document(wire::faults_status, wire::faults_json(bad)), "", ""};
  } catch (const base::NotConverged& none) {
    return fault("no-answer", "The model could not answer", none.what());
  } catch (const std::exception& other) {
    return fault("fault", "A fault inside the house", other.what());
  } catch (...) {
    return fault("fault", "A fault inside the house", "something that is no std::exception");
  }
}

}  // namespace lynearm::serve
