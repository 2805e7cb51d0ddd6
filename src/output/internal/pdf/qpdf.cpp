#include "output/internal/pdf/qpdf.h"

#include <fmt/format.h>

#include <cstdlib>

namespace leafwright::pdf {
namespace {

struct Free {
  void operator()(unsigned char* bytes) const { release(bytes); }
};

} // namespace

void release(unsigned char* bytes) {
  std::free(bytes); // NOLINT(cppcoreguidelines-no-malloc): qpdf allocates it so
}

Qpdf::Qpdf() : document_(qpdf_init()) {
  if (document_ == nullptr) return;
  qpdf_silence_errors(get());
  qpdf_set_suppress_warnings(get(), QPDF_TRUE);
}

bool Qpdf::read(const std::string& bytes, const std::string& password) const {
  return ok() && !broke(qpdf_read_memory(get(), "document", bytes.data(), bytes.size(),
                                         password.empty() ? nullptr : password.c_str()));
}

std::string Qpdf::why() const {
  if (!ok()) return "no memory";
  if (qpdf_has_error(get()) == QPDF_FALSE) return {};
  return qpdf_get_error_full_text(get(), qpdf_get_error(get()));
}

qpdf_oh Qpdf::key(qpdf_oh dictionary, const char* name) const {
  return qpdf_oh_get_key_if_dict(get(), dictionary, name);
}
void Qpdf::set(qpdf_oh dictionary, const char* name, qpdf_oh value) const {
  qpdf_oh_replace_key(get(), dictionary, name, value);
}
qpdf_oh Qpdf::parse(const std::string& spelling) const {
  return qpdf_oh_parse(get(), spelling.c_str());
}

std::string Qpdf::text(qpdf_oh string) const {
  if (qpdf_oh_is_string(get(), string) == QPDF_FALSE) return {};
  std::size_t length = 0;
  const char* bytes = qpdf_oh_get_binary_utf8_value(get(), string, &length);
  return {bytes, length};
}
std::string Qpdf::name(qpdf_oh object) const {
  if (qpdf_oh_is_name(get(), object) == QPDF_FALSE) return {};
  return qpdf_oh_get_name(get(), object) + 1;
}

std::string Qpdf::data(qpdf_oh stream) const {
  if (qpdf_oh_is_stream(get(), stream) == QPDF_FALSE) return {};
  unsigned char* bytes = nullptr;
  std::size_t length = 0;
  QPDF_BOOL filtered = QPDF_FALSE;
  const QPDF_ERROR_CODE code =
      qpdf_oh_get_stream_data(get(), stream, qpdf_dl_generalized, &filtered, &bytes, &length);
  const std::unique_ptr<unsigned char, Free> owned(bytes);
  if (broke(code) || filtered == QPDF_FALSE || bytes == nullptr) return {};
  return {reinterpret_cast<const char*>(bytes), length};
}

qpdf_oh Qpdf::add_stream(std::string_view data) const {
  const qpdf_oh stream = qpdf_oh_new_stream(get());
  qpdf_oh_replace_stream_data(get(), stream, reinterpret_cast<const unsigned char*>(data.data()),
                              data.size(), qpdf_oh_new_null(get()), qpdf_oh_new_null(get()));
  return stream;
}

Parsed<std::string> Qpdf::write() const {
  if (ok() && !broke(qpdf_init_write_memory(get()))) {
    qpdf_set_object_stream_mode(get(), qpdf_o_generate);
    qpdf_set_deterministic_ID(get(), QPDF_TRUE);
  }
  return written();
}

Parsed<std::string> Qpdf::written() const {
  if (!ok() || qpdf_has_error(get()) != QPDF_FALSE || broke(qpdf_write(get())))
    return ParseError{0, 0, fmt::format("the PDF could not be written: {}", why()),
                      "a whole document", "free some memory, or report it"};
  const auto* bytes = reinterpret_cast<const char*>(qpdf_get_buffer(get()));
  return std::string(bytes, qpdf_get_buffer_length(get()));
}

} // namespace leafwright::pdf
