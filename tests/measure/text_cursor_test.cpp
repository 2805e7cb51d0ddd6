#include "show.h"

#include "measure/letters.h"

#include <string>
#include <string_view>
#include <vector>

using namespace leafwright::detail;
using namespace std::string_view_literals;

namespace {

std::vector<char32_t> letters_of(std::string_view text) {
  std::vector<char32_t> letters;
  for (TextCursor cursor(text); !cursor.done(); cursor.advance()) letters.push_back(cursor.peek());
  return letters;
}

} // namespace

TEST_CASE("text is read character by character, from one byte to four") {
  CHECK(letters_of("a¼×″😀") == std::vector<char32_t>{U'a', U'¼', U'×', U'″', U'😀'});
  CHECK(TextCursor("").peek() == end_of_text);
}

// Unicode 15, section 3.9, tables 3-7 and 3-8: one U+FFFD per broken byte is allowed there too.
TEST_CASE("overlong, surrogate, out-of-range and cut-off sequences are broken bytes") {
  for (const std::string_view text :
       {"\xC0\x80"sv, "\xC1\xBF"sv, "\xE0\x9F\xBF"sv, "\xED\xA0\x80"sv, "\xF0\x8F\xBF\xBF"sv,
        "\xF4\x90\x80\x80"sv, "\xF5\x80\x80\x80"sv, "\x80"sv, "\xC2"sv, "\xE2\x82"sv,
        "\xF0\x9F\x98"sv}) {
    for (const char32_t letter : letters_of(text)) CHECK(letter == not_a_letter);
    CHECK(letters_of(text).size() == text.size());
  }
}

TEST_CASE("what is shown in a finding is short, visible and valid") {
  CHECK(shown("4 1/4") == "4 1/4");
  CHECK(shown("") == "nothing");
  CHECK(shown("4\0\x1B"sv) == "4\\x00\\x1b");
  CHECK(shown("\xFFz") == "\\xffz");
  CHECK(shown(std::string(1000, 'a')) == std::string(40, 'a') + "…");
  CHECK(shown(std::string(40, 'a')) == std::string(40, 'a'));
}
