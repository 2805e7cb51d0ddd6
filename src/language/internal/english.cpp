#include "language/english.h"

#include "measure/letters.h"

#include <algorithm>
#include <array>

namespace leafwright::words {
namespace {

constexpr std::array<std::string_view, 6> british_places{"gb", "ie", "au", "nz", "za", "in"};

constexpr Terms american{"centered", "center", "all around", "color",   "gray", "millimeters",
                         "shipping", "ship",   "ships",      "shipped", "roll"};
constexpr Terms british{"centred", "centre", "all round", "colour", "grey", "millimetres",
                        "postage", "post",   "posts",     "posted", "reel"};

} // namespace

English english_of(std::string_view language) {
  const std::string tag = small_letters(language);
  if (!tag.starts_with("en-")) return English::American;
  const std::string_view place = std::string_view(tag).substr(3, 2);
  const bool known =
      std::find(british_places.begin(), british_places.end(), place) != british_places.end();
  return known ? English::British : English::American;
}

bool is_written(std::string_view language) {
  const std::string tag = small_letters(language);
  return tag.empty() || tag == "en" || tag.starts_with("en-");
}

const Terms& terms(English english) { return english == English::British ? british : american; }

std::string day_text(English english, Date date) {
  const std::string day_first = date_text(date); // "16 March 2027"
  if (english == English::British || !date.ok()) return day_first;
  const std::size_t after_day = day_first.find(' ');
  const std::size_t after_month = day_first.rfind(' ');
  return day_first.substr(after_day + 1, after_month - after_day - 1) + " " +
         day_first.substr(0, after_day) + "," + day_first.substr(after_month);
}

std::string long_day_text(English english, Date date) {
  const std::string long_text = date_long_text(date); // "Tuesday 16 March 2027"
  if (english == English::British || !date.ok()) return long_text;
  return long_text.substr(0, long_text.find(' ')) + ", " + day_text(english, date);
}

int count_of_words(std::string_view sentence) {
  int count = 0;
  bool inside = false;
  for (std::size_t i = 0; i < sentence.size(); ++i) {
    const bool no_break = sentence.substr(i).starts_with("\u00A0");
    const bool blank = sentence[i] == ' ' || sentence[i] == '\n' || no_break;
    if (blank) {
      inside = false;
      if (no_break) ++i;
      continue;
    }
    const bool says = is_digit(sentence[i]) || small_letter(sentence[i]) != sentence[i] ||
                      (sentence[i] >= 'a' && sentence[i] <= 'z');
    if (says && !inside) {
      inside = true;
      ++count;
    }
  }
  return count;
}

} // namespace leafwright::words
