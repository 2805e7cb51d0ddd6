#include "guide/prose/told.h"

#include "measure/letters.h"

#include <algorithm>
#include <string>
#include <string_view>

namespace leafwright::guide {
namespace {

struct Heard {
  bool cutting = false, corners = false, rounding = false;
};

void hear(Heard& heard, std::string_view word) {
  const auto begins = [&](std::string_view stem) { return word.starts_with(stem); };
  if (word == "die" || word == "dies" || begins("die-") || begins("cut") || begins("punch") ||
      begins("trace") || begins("trim") || begins("snip") || word == "scissors" || word == "knife")
    heard.cutting = true;
  heard.corners = heard.corners || begins("corner");
  heard.rounding = heard.rounding || begins("round") || begins("punch");
}

void hear_all(Heard& heard, std::string_view text) {
  std::string word;
  for (const char c : text) {
    const char low = small_letter(c);
    if ((low >= 'a' && low <= 'z') || low == '-') {
      word += low;
      continue;
    }
    hear(heard, word);
    word.clear();
  }
  hear(heard, word);
}

void hear_all(Heard& heard, const AuthorText& text) {
  for (const TextPart& part : text) {
    if (part.kind == TextPart::Kind::Words) hear_all(heard, std::string_view(part.words));
    if (part.thing && part.thing->kind == ItemKind::Die) heard.cutting = true;
  }
}

bool names(const AuthorText& text, int piece) {
  return std::ranges::any_of(text, [piece](const TextPart& part) { return part.piece == piece; });
}

} // namespace

Told told_of(const Telling& telling, int piece, const AuthorStep& own) {
  Heard heard;
  hear_all(heard, own.text);
  for (const AuthorStep& step : telling.card.steps)
    if (step.for_id.empty() && names(step.text, piece)) hear_all(heard, step.text);
  return {heard.cutting, heard.corners && heard.rounding};
}

} // namespace leafwright::guide
