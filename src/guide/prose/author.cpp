#include "guide/prose/author.h"

#include "guide/prose/naming.h"
#include "guide/words/count.h"
#include "guide/words/tie.h"
#include "measure/letters.h"

#include <algorithm>
#include <array>

namespace leafwright::guide {
namespace {

bool is_one_of(std::string_view word, std::initializer_list<std::string_view> list) {
  return std::find(list.begin(), list.end(), word) != list.end();
}

// Whether the words before a name bring an article with them, perhaps with an adjective or two
// between: "the", "your finished". A preposition, a verb's object or a comma ends the search.
bool has_article(std::string_view before) {
  for (int looked_at = 0; looked_at < 3; ++looked_at) {
    while (!before.empty() && before.back() == ' ') before.remove_suffix(1);
    if (before.empty()) return false;
    const std::size_t space = before.rfind(' ');
    const std::string word =
        small_letters(space == std::string_view::npos ? before : before.substr(space + 1));
    if (is_one_of(word, {"the", "a", "an", "your", "each", "every", "this", "that", "these",
                         "those", "both", "its", "their", "another", "any", "no", "second"}))
      return true;
    if (std::string_view(".,:;!?)").find(word.back()) != std::string_view::npos) return false;
    if (is_one_of(word,
                  {"of",     "on",     "to",     "in",     "into",   "onto",  "under", "over",
                   "with",   "and",    "or",     "from",   "at",     "by",    "for",   "between",
                   "below",  "above",  "behind", "beside", "around", "round", "along", "through",
                   "across", "inside", "until",  "than",   "that"}))
      return false;
    if (space == std::string_view::npos) return false;
    before.remove_suffix(before.size() - space);
  }
  return false;
}

void say_thing(Prose& prose, const Project& project, const Card* card, const TextPart& part) {
  const bool bare = !has_article(spoken(prose.fragment()));
  const std::string article = bare ? "the " : "";
  if (card && part.piece >= 0) {
    const Piece* piece = piece_at(*card, part.piece);
    if (!piece) return;
    prose.say(article + piece_noun(*piece)).letter(piece->letter);
  } else if (part.thing) {
    prose.say(article + item_noun(project, *part.thing));
  } else {
    prose.say(article + part.words);
  }
}

Inlines written(const Project& project, const Card* card, const AuthorText& text) {
  Prose prose;
  for (const TextPart& part : text) {
    switch (part.kind) {
    case TextPart::Kind::Words: prose.say(words::tie_measures(part.words)); break;
    case TextPart::Kind::Thing: say_thing(prose, project, card, part); break;
    case TextPart::Kind::Length: prose.say(length_text(part.length, project.printing)); break;
    case TextPart::Kind::Size: prose.say(size_text(part.size, project.printing, true)); break;
    case TextPart::Kind::Number: prose.say(words::count_words(part.number)); break;
    }
  }
  return prose.sentence();
}

} // namespace

Inlines author_text(const Telling& telling, const AuthorText& text) {
  return written(telling.project, &telling.card, text);
}

Inlines author_text(const Project& project, const AuthorText& text) {
  return written(project, nullptr, text);
}

} // namespace leafwright::guide
