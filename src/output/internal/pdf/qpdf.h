#pragma once

#include "basics/parsed.h"

#include <qpdf/qpdf-c.h>

#include <memory>
#include <string>
#include <string_view>

// qpdf by its C interface: it turns every exception into a value, and clang 14, which checks this
// code, cannot read qpdf's C++ headers in C++20.

namespace leafwright::pdf {

// A document in memory. Handles of objects live as long as it does.
class Qpdf {
 public:
  Qpdf();

  // False with `why()` set when it is no PDF, or locked and the password does not open it. `bytes`
  // must outlive this. Faults of the file are not mended on the way.
  bool read(const std::string& bytes, const std::string& password = {}) const;
  bool ok() const { return document_ != nullptr; }
  // What went wrong last, in qpdf's words; empty when nothing did.
  std::string why() const;

  qpdf_data get() const { return document_.get(); }
  qpdf_oh root() const { return qpdf_get_root(get()); }
  qpdf_oh key(qpdf_oh dictionary, const char* name) const;
  void set(qpdf_oh dictionary, const char* name, qpdf_oh value) const;
  // An object from its spelling: "[0 0 10 10]".
  qpdf_oh parse(const std::string& spelling) const;
  // A text string as UTF-8, empty when it is none.
  std::string text(qpdf_oh string) const;
  std::string name(qpdf_oh object) const; // without its slash
  // A stream's data with its filters undone; empty when they cannot be.
  std::string data(qpdf_oh stream) const;
  // An indirect stream of this data; qpdf deflates it when writing.
  qpdf_oh add_stream(std::string_view data) const;

  // The whole file with object streams and an identity that follows from the content.
  Parsed<std::string> write() const;
  // The bytes after the caller has set up writing itself; for write() and for locking.
  Parsed<std::string> written() const;

 private:
  struct Cleanup {
    void operator()(qpdf_data document) const { qpdf_cleanup(&document); }
  };
  std::unique_ptr<_qpdf_data, Cleanup> document_;
};

// Gives back what qpdf has allocated for a caller.
void release(unsigned char* bytes);

inline bool broke(QPDF_ERROR_CODE code) { return (code & QPDF_ERRORS) != 0; }

} // namespace leafwright::pdf
