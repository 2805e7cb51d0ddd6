#pragma once

#include "basics/parsed.h"

#include <hpdf.h>
#include <hpdf_doc.h>

#include <deque>
#include <memory>
#include <string>
#include <vector>

// The internal headers have no guard of their own for C++ (they do for `extern "C"`).

// The only place that knows libharu and its insides. libharu 2.3.0 owns the file: object numbers,
// cross-reference table, page tree, header and trailer. What stands in a dictionary is written by
// us as text, through libharu's hook for it: libharu's own values are single precision, its arrays
// and strings are bounded, and each costs an allocation.

namespace leafwright::pdf {

// An indirect object, printed as "12 0 R".
struct Ref {
  unsigned number = 0;
  friend bool operator==(Ref, Ref) = default;
};
void append_ref(std::string& out, Ref ref);
std::string ref_text(Ref ref);

class Haru {
 public:
  Haru();

  // A dictionary that can be referred to at once and filled later; unfilled it is << >>.
  Ref reserve();
  // `entries` is what stands between << and >>.
  void fill(Ref dictionary, std::string entries);
  Ref add(std::string entries);
  // A stream that can be referred to at once and filled later; unfilled it is empty.
  Ref reserve_stream();
  void fill_stream(Ref stream, std::string entries, const std::string& data);
  // `data` as it is to stand in the file; `entries` names its filters. Length is added here.
  Ref add_stream(std::string entries, const std::string& data);
  // A page at the end of the document, filled like a dictionary; Type and Parent are added here.
  Ref add_page();

  void set_catalogue(std::string entries); // besides Type and Pages
  void set_information(std::string entries);
  void set_identity(std::string hexadecimal); // both halves of the trailer's ID

  // The whole file, or libharu's error number in `found`.
  Parsed<std::string> save();

 private:
  struct Object {
    HPDF_Dict dictionary = nullptr;
    std::string entries;
    // libharu reads a page's `attr` as its own record: ours begins with it.
    struct PageRecord {
      HPDF_PageAttr_Rec libharu{};
      const std::string* entries = nullptr;
    };
    std::unique_ptr<PageRecord> page;
  };
  struct DocumentDeleter {
    void operator()(HPDF_Doc document) const { HPDF_Free(document); }
  };

  Ref keep(HPDF_Dict dictionary);
  void write_entries_of(HPDF_Dict dictionary, std::string entries);
  Object* find(Ref ref);

  // Declared before the document, so that they outlive it: libharu's objects point to them.
  std::deque<Object> objects_;  // those made here; libharu's own are in none of them
  std::deque<std::string> own_; // entries of catalogue, information and trailer
  std::unique_ptr<std::remove_pointer_t<HPDF_Doc>, DocumentDeleter> document_;
  std::vector<Object*> by_number_;
  std::size_t stream_bytes_ = 0;
};

} // namespace leafwright::pdf
