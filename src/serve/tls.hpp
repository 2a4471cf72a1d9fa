// TLS for a house that is opened to the LAN: the context of the sockets.
#pragma once

#include <boost/asio/ssl/context.hpp>

#include "serve/options.hpp"

namespace lynearm::serve {

/// TLS 1.2 and 1.3, no renegotiation, the user's certificate.
///
/// throws     InputError for a file that is missing, is no PEM, or a key of another certificate
[[nodiscard]] boost::asio::ssl::context tls_context(const TlsFiles& files);

}  // namespace lynearm::serve
