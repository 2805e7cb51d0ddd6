#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

// A letter that is ready to be sent, as a file that mail programs open (RFC 5322 and MIME: RFC 2045
// to 2047, 2231): one text in UTF-8, and files with it. Nothing is sent from here.

namespace leafwright::mail {

struct Address {
  std::string name, address; // "Ada Reed", "ada@fenmoor.example"
};
struct Attached {
  std::string name, type;             // "tutorial.pdf", "application/pdf"
  const std::string* bytes = nullptr; // outlives the letter: many may have the same
};
struct Letter {
  Address from, to; // an empty address is left out
  std::string subject, text;
  std::int64_t date = 0; // seconds since 1970, UTC
  std::vector<Attached> attached;
};

// Its bytes, lines ended by CR LF and none longer than 78 characters. Line ends and controls in
// names and subject become blanks, so that nothing written by a buyer is a header of its own.
std::string written(const Letter& letter);

} // namespace leafwright::mail
