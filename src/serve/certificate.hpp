// A certificate that the house makes for itself, for TLS on the LAN. Nobody vouches for it: the
// phone warns once, and the fingerprint on the laptop's screen is what to compare.
#pragma once

#include <string>
#include <vector>

#include "serve/options.hpp"

namespace lynearm::serve {

/// The files house-certificate.pem and house-key.pem in `folder`; made where they are missing,
/// do not name all of `hosts`, or end within 30 days. P-256, 397 days (what phones take), the
/// key readable by its owner only.
///
/// hosts      names and addresses
/// throws     InputError for a folder that cannot be written
[[nodiscard]] TlsFiles own_certificate(const std::string& folder,
                                       const std::vector<std::string>& hosts);

/// SHA-256 of a certificate as browsers show it, "AB:12:...".
///
/// throws     InputError for a file that holds none
[[nodiscard]] std::string fingerprint(const std::string& certificate_file);

}  // namespace lynearm::serve
