#pragma once

#include "basics/parsed.h"
#include "output/internal/deflate/deflate.h"
#include "output/internal/pdf/haru.h"

#include <cstdint>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace leafwright::pdf {

// A stream, deflated at once so that only the small form is kept. libharu's own deflating is left
// alone: it is zlib's, works on one thread, and names the filter in a form that later tools undo.
Ref add_packed(Haru& haru, std::string entries, const std::string& data, const Packing& packing);

// The same for a stream that was reserved.
void fill_packed(Haru& haru, Ref stream, std::string entries, const std::string& data,
                 const Packing& packing);
// … and for one that is deflated already.
void fill_deflated(Haru& haru, Ref stream, std::string entries, const std::string& packed);

// An object's number and what stands between "obj" and "endobj".
struct Replacement {
  unsigned number = 0;
  std::string body;
};

struct ObjectStream {
  std::vector<unsigned> numbers; // of the objects in it
  std::string body;
};

// A document that this room has written, taken apart into its objects and put together again with
// the small ones packed (object streams and a cross-reference stream: ISO 32000-1, 7.5.7 and
// 7.5.8). It can be put together many times with some objects replaced, at the price of little more
// than copying the rest.
class Parts {
 public:
  // `plain` as libharu saves it: one cross-reference table, every object by itself. `open` are the
  // numbers of objects that will be replaced; the Info dictionary always may be. Anything else is a
  // misread.
  static Parsed<Parts> of(const std::string& plain, const Packing& packing,
                          std::span<const unsigned> open = {});

  // Every open object must be among the replacements, in any order; one that is not stays as it
  // was. `identity`: 32 hexadecimal digits for the trailer.
  std::string joined(std::string_view identity, std::span<const Replacement> replaced = {}) const;

  unsigned information() const { return information_; } // object number of the Info dictionary
  const std::string& identity() const { return identity_; }

 private:
  struct Loose { // written by itself: streams, and what may be replaced
    unsigned number = 0;
    std::string body;
    bool open = false;
  };

  unsigned root_ = 0, information_ = 0, count_ = 0;
  std::string identity_;
  Deflate effort_ = Deflate::Small;
  std::vector<Loose> loose_;
  std::vector<ObjectStream> packed_;
};

} // namespace leafwright::pdf
