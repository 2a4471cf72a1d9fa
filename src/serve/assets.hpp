// The page's own files, embedded in the program when it is built (tools/embed_assets.py). Any
// path that is no file is a place within the page, and gets the page.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "serve/reply.hpp"
#include "serve/request.hpp"
#include "serve/router.hpp"

namespace lynearm::serve {

/// One file. The views are of the program's own constant bytes.
struct Asset {
  std::string_view path;          ///< "/assets/page-3fk29d.js"
  std::string_view content_type;  ///< media type, with charset where there is one
  std::string_view tag;           ///< of its bytes, without quote marks
  std::string_view bytes;
  std::string_view packed;  ///< the same by gzip; empty where that is not shorter
  bool for_ever = false;    ///< its name changes with its bytes
};

/// What was embedded, sorted by path. Holds "/index.html".
[[nodiscard]] const std::vector<Asset>& embedded_assets();

class Assets {
 public:
  /// assets     sorted by path, with "/index.html"; live longer than this
  explicit Assets(const std::vector<Asset>& assets) : assets_(&assets) {}

  /// The file at the request's path; "/index.html" for a path without a dot in its last part;
  /// 404 for another. 304 when the client has it already; packed when it takes gzip.
  [[nodiscard]] Reply answer(const Request& request) const;

  /// Has the router answer every unknown path outside /api/ so. Keeps a copy of this.
  void add_to(Router& router) const;

 private:
  [[nodiscard]] const Asset* find(std::string_view path) const;

  const std::vector<Asset>* assets_;
};

/// True when an Accept-Encoding takes gzip ("gzip;q=0" does not).
[[nodiscard]] bool takes_gzip(std::string_view accept_encoding);

/// True when `tag`, with its quote marks, is among those of an If-None-Match.
[[nodiscard]] bool names_tag(std::string_view if_none_match, std::string_view tag);

}  // namespace lynearm::serve
