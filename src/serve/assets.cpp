#include "serve/assets.hpp"

#include <fmt/format.h>

#include <algorithm>
#include <string>

#include "serve/problem.hpp"

namespace lynearm::serve {

namespace {

std::string_view trimmed(std::string_view text) {
  while (text.starts_with(' ') || text.starts_with('\t')) text.remove_prefix(1);
  while (text.ends_with(' ') || text.ends_with('\t')) text.remove_suffix(1);
  return text;
}

/// Takes the first part of a list off it.
std::string_view next_of(std::string_view& list, char separator) {
  const std::size_t end = std::min(list.find(separator), list.size());
  const std::string_view part = trimmed(list.substr(0, end));
  list.remove_prefix(std::min(end + 1, list.size()));
  return part;
}

/// "q=0", "q=0.0", "q=0.000"
bool is_zero_weight(std::string_view parameter) {
  return (parameter.starts_with("q=0") || parameter.starts_with("Q=0")) &&
         parameter.substr(3).find_first_not_of(".0") == std::string_view::npos;
}

bool is_page(std::string_view path) {
  return path.substr(path.rfind('/') + 1).find('.') == std::string_view::npos;
}

}  // namespace

bool takes_gzip(std::string_view accept_encoding) {
  while (!accept_encoding.empty()) {
    std::string_view one = next_of(accept_encoding, ',');
    if (next_of(one, ';') == "gzip") return !is_zero_weight(trimmed(one));
  }
  return false;
}

bool names_tag(std::string_view if_none_match, std::string_view tag) {
  while (!if_none_match.empty()) {
    std::string_view one = next_of(if_none_match, ',');
    if (one.starts_with("W/")) one.remove_prefix(2);
    if (one == tag || one == "*") return true;
  }
  return false;
}

const Asset* Assets::find(std::string_view path) const {
  const auto found =
      std::lower_bound(assets_->begin(), assets_->end(), path,
                       [](const Asset& asset, std::string_view at) { return asset.path < at; });
  return found != assets_->end() && found->path == path ? &*found : nullptr;
}

Reply Assets::answer(const Request& request) const {
  const Asset* asset = find(request.path);
  if (asset == nullptr && is_page(request.path)) asset = find("/index.html");
  if (asset == nullptr) return problem(404, "not-found", "There is nothing at this address");

  const bool packed =
      !asset->packed.empty() && takes_gzip(request.header("accept-encoding").value_or(""));
  // The two forms are two representations, so each has its own tag (RFC 9110 section 8.8.3).
  const std::string tag = fmt::format("\"{}{}\"", asset->tag, packed ? "-gz" : "");
  Reply reply;
  reply.content_type = asset->content_type;
  reply.headers = {
      {"ETag", tag},
      {"Cache-Control", asset->for_ever ? "public, max-age=31536000, immutable" : "no-cache"}};
  if (!asset->packed.empty()) reply.headers.emplace_back("Vary", "Accept-Encoding");
  if (names_tag(request.header("if-none-match").value_or(""), tag)) {
    reply.status = 304;
    return reply;
  }
  if (packed) reply.headers.emplace_back("Content-Encoding", "gzip");
  reply.body = packed ? asset->packed : asset->bytes;
  return reply;
}

void Assets::add_to(Router& router) const {
  router.otherwise([assets = *this](const Request& request) { return assets.answer(request); });
}

}  // namespace lynearm::serve
