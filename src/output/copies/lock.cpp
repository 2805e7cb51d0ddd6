#include "output/copies/lock.h"

#include "measure/letters.h"
#include "output/pdf/qpdf.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::copies {
namespace {

constexpr std::size_t longest_password = 127; // bytes of UTF-8 (ISO 32000-2, 7.6.4.3.3)

bool read_allowed(std::string_view words, Lock& to) {
  to.print = to.copy = to.annotate = to.change = false;
  while (!words.empty()) {
    const std::size_t end = std::min(words.find_first_of(" ,\t"), words.size());
    const std::string_view word = words.substr(0, end);
    words.remove_prefix(std::min(end + 1, words.size()));
    if (word.empty() || word == "nothing") continue;
    if (word == "print")
      to.print = true;
    else if (word == "copy")
      to.copy = true;
    else if (word == "annotate")
      to.annotate = true;
    else if (word == "change")
      to.change = true;
    else
      return false;
  }
  return true;
}

} // namespace

Parsed<Lock> read_lock(std::string_view text) {
  constexpr const char* expected =
      "lines owner-password: ..., open-password: ... and allow: print copy annotate change";
  Lock lock;
  int number = 0;
  while (!text.empty()) {
    const std::size_t end = std::min(text.find('\n'), text.size());
    const std::string_view line = trimmed(text.substr(0, end));
    text.remove_prefix(std::min(end + 1, text.size()));
    ++number;
    if (line.empty() || line.front() == '#') continue;
    const auto fault = [number, expected](std::string_view what) {
      return Misread{0, 0, fmt::format("line {} of the lock {}", number, what), expected,
                     "mend that line"};
    };
    const std::size_t colon = line.find(':');
    if (colon == std::string_view::npos) return fault("has no colon");
    const std::string_view key = trimmed(line.substr(0, colon));
    const std::string_view value = trimmed(line.substr(colon + 1));
    if (key == "owner-password" || key == "open-password") {
      if (value.size() > longest_password) return fault("has a password of more than 127 bytes");
      (key == "owner-password" ? lock.owner_password : lock.open_password) = value;
    } else if (key == "allow") {
      if (!read_allowed(value, lock))
        return fault("allows something other than print, copy, annotate or change");
    } else {
      return fault("begins with a word that is none of the three");
    }
  }
  if (lock.owner_password.empty())
    return Misread{0, 0, "the lock has no owner password", expected, "add owner-password: ..."};
  return lock;
}

Parsed<std::string> locked(const std::string& pdf, const Lock& lock) {
  pdf::Qpdf document;
  if (!document.read(pdf) || pdf::broke(qpdf_init_write_memory(document.get())))
    return Misread{0, 0, fmt::format("the copy cannot be locked: {}", document.why()),
                   "a whole document", "make it anew"};
  const auto flag = [](bool on) { return on ? QPDF_TRUE : QPDF_FALSE; };
  qpdf_set_r6_encryption_parameters2(
      document.get(), lock.open_password.c_str(), lock.owner_password.c_str(), QPDF_TRUE,
      flag(lock.copy), flag(lock.change), flag(lock.annotate), flag(lock.annotate),
      flag(lock.change), lock.print ? qpdf_r3p_full : qpdf_r3p_none, QPDF_TRUE);
  return document.written();
}

} // namespace leafwright::copies
