#include "serve/tls.hpp"

#include "base/error.hpp"

namespace lynearm::serve {

namespace ssl = boost::asio::ssl;

ssl::context tls_context(const TlsFiles& files) {
  ssl::context context{ssl::context::tls_server};
  context.set_options(ssl::context::default_workarounds | ssl::context::no_sslv2 |
                      ssl::context::no_sslv3 | ssl::context::no_tlsv1 |
                      ssl::context::no_tlsv1_1 | ssl::context::no_compression);
  SSL_CTX_set_options(context.native_handle(), SSL_OP_NO_RENEGOTIATION);
  boost::system::error_code error;
  context.use_certificate_chain_file(files.certificate, error);
  if (error) {
    throw base::InputError{"tls.certificate", files.certificate, "a certificate in a PEM file"};
  }
  context.use_private_key_file(files.key, ssl::context::pem, error);
  if (error || SSL_CTX_check_private_key(context.native_handle()) != 1) {
    throw base::InputError{"tls.key", files.key,
                           "the private key of the certificate, unencrypted, in a PEM file"};
  }
  return context;
}

}  // namespace lynearm::serve
