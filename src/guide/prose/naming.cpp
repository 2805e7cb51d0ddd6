#include "guide/prose/naming.h"

#include "guide/words/article.h"
#include "guide/words/list.h"
#include "guide/words/tie.h"
#include "measure/index.h"
#include "measure/letters.h"

#include <algorithm>
#include <variant>

namespace leafwright::guide {
namespace {

bool is_upper(char c) { return c >= 'A' && c <= 'Z'; }
bool is_lower(char c) { return c >= 'a' && c <= 'z'; }
bool is_digit(char c) { return c >= '0' && c <= '9'; }

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

bool holds_ignoring_case(std::string_view text, std::string_view part) {
  const auto same = [](char a, char b) { return small_letter(a) == small_letter(b); };
  return std::search(text.begin(), text.end(), part.begin(), part.end(), same) != text.end();
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

Size carrier_size(const Project& project, const Card& card, const Carrier& on) {
  switch (on.kind) {
  case Carrier::Kind::Face: {
    const Face* face = find_at(card.plan.faces, on.index);
    return face ? face->size : card.finished;
  }
  case Carrier::Kind::Piece: {
    const Piece* piece = piece_at(card, on.index);
    return piece ? piece->size : card.finished;
  }
  case Carrier::Kind::EnvelopeFront:
  case Carrier::Kind::EnvelopeInside: break;
  }
  const Envelope* envelope = find_at(project.envelopes, card.envelope);
  return envelope ? envelope->size : card.finished;
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
  case Carrier::Kind::EnvelopeFront: prose.say("the front of the envelope"); return;
  case Carrier::Kind::EnvelopeInside: prose.say("the inside of the envelope"); return;
  }
}

std::string piece_size_words(const Project& project, const Shape& shape, Size size) {
  if (is_round(shape) && size.width == size.height)
    return length_text(size.width, project.printing) + " across";
  return size_text(size, project.printing, true);
}

std::string tool_with_the(const Project& project, std::string_view words) {
  for (const Tool& tool : project.tools)
    if (holds_ignoring_case(tool.name, words)) return "the " + in_sentence(tool.name);
  return {};
}

} // namespace leafwright::guide
