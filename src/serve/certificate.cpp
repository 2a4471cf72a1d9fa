#include "serve/certificate.hpp"

#include <fcntl.h>
#include <fmt/format.h>
#include <openssl/bio.h>
#include <openssl/evp.h>
#include <openssl/pem.h>
#include <openssl/x509v3.h>
#include <sys/stat.h>
#include <unistd.h>

#include <array>
#include <cstdio>
#include <memory>

#include "base/error.hpp"
#include "serve/host.hpp"
#include "serve/token.hpp"

namespace lynearm::serve {

namespace {

template <auto Free>
struct Freed {
  template <class T>
  void operator()(T* held) const {
    Free(held);
  }
};
using Key = std::unique_ptr<EVP_PKEY, Freed<&EVP_PKEY_free>>;
using Certificate = std::unique_ptr<X509, Freed<&X509_free>>;
using Extension = std::unique_ptr<X509_EXTENSION, Freed<&X509_EXTENSION_free>>;
using Stream = std::unique_ptr<BIO, Freed<&BIO_free_all>>;
using File = std::unique_ptr<std::FILE, Freed<&std::fclose>>;

constexpr long day_s = 86'400;
constexpr long lasts_days = 397;
constexpr long renew_days = 30;

void add(X509* certificate, int kind, const std::string& value) {
  X509V3_CTX context;
  X509V3_set_ctx_nodb(&context);
  X509V3_set_ctx(&context, certificate, certificate, nullptr, nullptr, 0);
  const Extension extension{X509V3_EXT_conf_nid(nullptr, &context, kind, value.c_str())};
  base::ensure(extension && X509_add_ext(certificate, extension.get(), -1) == 1,
               "an extension of the certificate is well formed");
}

Certificate make(EVP_PKEY* key, const std::vector<std::string>& hosts) {
  Certificate made{X509_new()};
  base::ensure(made != nullptr, "there is memory for a certificate");
  X509_set_version(made.get(), 2);
  const std::string serial = fmt::format("1{}", short_id());
  BIGNUM* number = nullptr;
  BN_hex2bn(&number, serial.c_str());
  BN_to_ASN1_INTEGER(number, X509_get_serialNumber(made.get()));
  BN_free(number);
  // A phone whose clock is behind by an hour still takes it.
  X509_gmtime_adj(X509_getm_notBefore(made.get()), -day_s);
  X509_gmtime_adj(X509_getm_notAfter(made.get()), (lasts_days - 1) * day_s);
  X509_set_pubkey(made.get(), key);
  X509_NAME* name = X509_get_subject_name(made.get());
  const std::string title = "Lynearm house";
  X509_NAME_add_entry_by_txt(name, "CN", MBSTRING_UTF8,
                             reinterpret_cast<const unsigned char*>(title.c_str()), -1, -1, 0);
  X509_set_issuer_name(made.get(), name);
  std::string alternatives;
  for (const std::string& text : hosts) {
    const auto host =
        read_host(text.find(':') == std::string::npos ? text : fmt::format("[{}]", text));
    if (!host) throw base::InputError{"name", text, "a host name or address, without port"};
    if (!alternatives.empty()) alternatives += ",";
    alternatives += (host->literal ? "IP:" : "DNS:") + host->name;
  }
  add(made.get(), NID_basic_constraints, "critical,CA:FALSE");
  add(made.get(), NID_key_usage, "critical,digitalSignature");
  add(made.get(), NID_ext_key_usage, "serverAuth");
  if (!alternatives.empty()) add(made.get(), NID_subject_alt_name, alternatives);
  base::ensure(X509_sign(made.get(), key, EVP_sha256()) > 0, "the house signs its certificate");
  return made;
}

Certificate read(const std::string& file) {
  const Stream in{BIO_new_file(file.c_str(), "r")};
  if (!in) return nullptr;
  return Certificate{PEM_read_bio_X509(in.get(), nullptr, nullptr, nullptr)};
}

bool names(X509* certificate, const std::string& host) {
  return X509_check_host(certificate, host.c_str(), 0, X509_CHECK_FLAG_NEVER_CHECK_SUBJECT,
                         nullptr) == 1 ||
         X509_check_ip_asc(certificate, host.c_str(), 0) == 1;
}

bool still_good(const TlsFiles& files, const std::vector<std::string>& hosts) {
  const Certificate certificate = read(files.certificate);
  if (!certificate || ::access(files.key.c_str(), R_OK) != 0) return false;
  int days = 0;
  int seconds = 0;
  if (ASN1_TIME_diff(&days, &seconds, nullptr, X509_get0_notAfter(certificate.get())) != 1 ||
      days < renew_days) {
    return false;
  }
  for (const std::string& host : hosts) {
    if (!names(certificate.get(), host)) return false;
  }
  return true;
}

/// Opens a file that nobody else may read, whatever the umask and whatever stood there.
File only_mine(const std::string& path) {
  std::remove(path.c_str());
  const int number = ::open(path.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0600);
  if (number < 0) return nullptr;
  return File{::fdopen(number, "w")};
}

}  // namespace

TlsFiles own_certificate(const std::string& folder, const std::vector<std::string>& hosts) {
  const TlsFiles files{folder + "/house-certificate.pem", folder + "/house-key.pem"};
  if (still_good(files, hosts)) return files;
  const Key key{EVP_EC_gen("P-256")};
  base::ensure(key != nullptr, "OpenSSL knows P-256");
  const Certificate certificate = make(key.get(), hosts);
  const File key_file = only_mine(files.key);
  const File certificate_file = only_mine(files.certificate);
  if (!key_file || !certificate_file ||
      PEM_write_PrivateKey(key_file.get(), key.get(), nullptr, nullptr, 0, nullptr, nullptr) !=
          1 ||
      PEM_write_X509(certificate_file.get(), certificate.get()) != 1) {
    throw base::InputError{"data folder", folder, "a folder that can be written"};
  }
  return files;
}

std::string fingerprint(const std::string& certificate_file) {
  const Certificate certificate = read(certificate_file);
  std::array<unsigned char, EVP_MAX_MD_SIZE> bytes{};
  unsigned count = 0;
  if (!certificate || X509_digest(certificate.get(), EVP_sha256(), bytes.data(), &count) != 1) {
    throw base::InputError{"tls.certificate", certificate_file, "a certificate in a PEM file"};
  }
  std::string text;
  for (unsigned i = 0; i < count; ++i) {
    text += fmt::format("{}{:02X}", i == 0 ? "" : ":", bytes.at(i));
  }
  return text;
}

}  // namespace lynearm::serve
