#include "guide/internal/prose/step_words.h"
#include "guide/prose.h"
#include "language/words.h"
#include "measure/index.h"
#include "measure/letters.h"
#include "model/work.h"

#include <algorithm>
#include <array>
#include <variant>

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

Inlines author_text(const StepContext& context, const AuthorText& text) {
  return written(context.project, &context.card, text);
}

Inlines author_text(const Project& project, const AuthorText& text) {
  return written(project, nullptr, text);
}

namespace {

bool is_upper(char c) { return c >= 'A' && c <= 'Z'; }
bool is_lower(char c) { return c >= 'a' && c <= 'z'; }
// "Kraft" -> "kraft"; "A2" and "ISO" stay.
std::string without_capital(std::string_view name) {
  std::string out(name);
  if (out.size() >= 2 && is_upper(out[0]) && is_lower(out[1])) out[0] = small_letter(out[0]);
  return out;
}

// Detail behind a comma goes in front when it is a measure, else it is left to the list.
std::string detail_in_front(std::string_view name) {
  const std::size_t comma = name.find(", ");
  if (comma == std::string_view::npos) return std::string(name);
  const std::string_view detail = name.substr(comma + 2);
  std::string main = without_capital(name.substr(0, comma));
  if (detail.empty() || !is_digit(detail.front())) return main;
  return words::tie_measures(detail) + " " + main;
}

const StampImage* image_at(const Project& project, int set, int image) {
  const StampSet* found = find_at(project.stamp_sets, set);
  return found ? find_at(found->images, image) : nullptr;
}

std::string name_or_id(const std::string& name, const std::string& id) {
  if (!name.empty()) return name;
  std::string words = id;
  std::replace(words.begin(), words.end(), '-', ' ');
  return words;
}

} // namespace

std::string in_sentence(std::string_view listed_name) {
  return without_capital(detail_in_front(listed_name));
}

std::string stock_noun(const Project& project, int stock) {
  const Stock* found = find_at(project.stocks, stock);
  if (!found) return "paper";
  const std::string name = name_or_id(found->name, found->id);
  return found->kind == Stock::Kind::Patterned ? name : in_sentence(name);
}

std::string item_noun(const Project& project, ItemRef item) {
  if (item.kind == ItemKind::Stock) return stock_noun(project, item.index);
  const std::string name = item_name(project, item);
  const bool proper = item.kind == ItemKind::Pack || item.kind == ItemKind::StampSet;
  return proper ? name : in_sentence(name);
}

std::string ink_nouns(const Project& project, const std::vector<int>& inks) {
  std::vector<std::string> names;
  names.reserve(inks.size());
  for (const int ink : inks) names.push_back(item_noun(project, {ItemKind::Ink, ink}));
  return words::listed(names);
}

bool is_greeting(const StampImage& image) {
  return !image.artwork.empty() &&
         std::all_of(image.artwork.begin(), image.artwork.end(),
                     [](const Art& art) { return std::holds_alternative<TextArt>(art.what); });
}

std::string image_with_the(const Project& project, int set, int image) {
  const StampImage* found = image_at(project, set, image);
  if (!found) return "the image";
  const std::string name = name_or_id(found->name, found->id);
  if (is_greeting(*found)) return "“" + name + "”";
  return words::with_the(in_sentence(name));
}

std::string image_noun(const Project& project, int set, int image) {
  const StampImage* found = image_at(project, set, image);
  if (!found) return "image";
  const std::string name = name_or_id(found->name, found->id);
  if (is_greeting(*found)) return "“" + name + "” greeting";
  return std::string(words::without_article(in_sentence(name)));
}

std::string finish_tool_words(const Project& project, const Finish& finish) {
  return finish.tool >= 0 ? item_noun(project, {ItemKind::Tool, finish.tool}) : finish.with;
}

std::string piece_noun(const Piece& piece) {
  const std::string name = name_or_id(piece.name, piece.id);
  return std::string(words::without_article(name));
}

std::string face_words(const Card& card, int face) {
  const Face* found = find_at(card.plan.faces, face);
  return found ? found->words : "the card";
}

const Piece* piece_at(const Card& card, int index) { return find_at(card.pieces, index); }

std::string carrier_surface(const Project& project, const Card& card, const Carrier& on) {
  switch (on.kind) {
  case Carrier::Kind::Face:
    return card.pieces.empty() ? "card" : stock_noun(project, card.pieces.front().stock);
  case Carrier::Kind::Piece: {
    const Piece* piece = piece_at(card, on.index);
    return piece ? "the " + piece_noun(*piece) : "paper";
  }
  case Carrier::Kind::EnvelopeFront:
  case Carrier::Kind::EnvelopeInside: break;
  }
  return "the envelope";
}

void say_carrier(Prose& prose, const Card& card, const Carrier& on) {
  switch (on.kind) {
  case Carrier::Kind::Face: prose.say(face_words(card, on.index)); return;
  case Carrier::Kind::Piece: {
    const Piece* piece = piece_at(card, on.index);
    if (!piece) return;
    prose.say("the " + piece_noun(*piece)).letter(piece->letter);
    return;
  }
  case Carrier::Kind::EnvelopeFront: prose.say("the envelope front"); return;
  case Carrier::Kind::EnvelopeInside: prose.say("the inside of the envelope"); return;
  }
}

std::string piece_size_words(const Project& project, const Shape& shape, Size size) {
  if (is_round(shape) && size.width == size.height)
    return length_text(size.width, project.printing) + " across";
  return size_text(size, project.printing, true);
}

std::string tool_with_the(const Project& project, Work work) {
  const Tool* tool = find_at(project.tools, tool_for(project, work));
  return tool ? "the " + in_sentence(tool->name) : std::string{};
}

} // namespace leafwright::guide
