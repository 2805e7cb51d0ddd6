#include <clocale>
#include <cstdlib>
#include <locale>
#include <string>

// With LEAFWRIGHT_COMMA_LOCALE set, every test of this program runs where numbers are written
// 1.234,5: by the C library when such a locale is installed, and by a facet of our own for the C++
// library in any case.

namespace {

class CommaNumbers : public std::numpunct<char> {
 protected:
  char do_decimal_point() const override { return ','; }
  char do_thousands_sep() const override { return '.'; }
  std::string do_grouping() const override { return "\3"; }
};

bool comma_locale_set() {
  if (std::getenv("LEAFWRIGHT_COMMA_LOCALE") == nullptr) return false;
  std::locale::global(std::locale(std::locale::classic(), new CommaNumbers));
  for (const char* name : {"de_DE.UTF-8", "de_DE.utf8", "fr_FR.UTF-8", "sv_SE.UTF-8"}) {
    if (std::setlocale(LC_ALL, name) != nullptr) break;
  }
  return true;
}

[[maybe_unused]] const bool set_before_any_test = comma_locale_set();

} // namespace
