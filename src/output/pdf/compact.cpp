#include "output/pdf/compact.h"

#include <qpdf/qpdf-c.h>

#include <fmt/format.h>

#include <memory>

namespace leafwright::pdf {
namespace {

struct Cleanup {
  void operator()(qpdf_data document) const { qpdf_cleanup(&document); }
};
using Document = std::unique_ptr<_qpdf_data, Cleanup>;

} // namespace

// By qpdf's C interface: it turns every exception into a value, and clang 14, which checks this
// code, cannot read qpdf's C++ headers in C++20.
Parsed<std::string> compacted(const std::string& pdf) {
  const Document document(qpdf_init());
  const auto failed = [&document] {
    std::string why = "no memory";
    if (document != nullptr && qpdf_has_error(document.get()) != QPDF_FALSE)
      why = qpdf_get_error_full_text(document.get(), qpdf_get_error(document.get()));
    return Misread{0, 0, fmt::format("the finished PDF could not be packed: {}", why),
                   "a whole document", "write it without packing"};
  };
  const auto broke = [](QPDF_ERROR_CODE code) { return (code & QPDF_ERRORS) != 0; };
  if (document == nullptr) return failed();
  qpdf_silence_errors(document.get());
  qpdf_set_suppress_warnings(document.get(), QPDF_TRUE);
  if (broke(qpdf_read_memory(document.get(), "document", pdf.data(), pdf.size(), nullptr)) ||
      broke(qpdf_init_write_memory(document.get())))
    return failed();
  qpdf_set_object_stream_mode(document.get(), qpdf_o_generate);
  qpdf_set_deterministic_ID(document.get(), QPDF_TRUE);
  if (broke(qpdf_write(document.get()))) return failed();
  const auto* bytes = reinterpret_cast<const char*>(qpdf_get_buffer(document.get()));
  return std::string(bytes, qpdf_get_buffer_length(document.get()));
}

} // namespace leafwright::pdf
