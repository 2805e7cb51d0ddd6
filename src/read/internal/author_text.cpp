#include "read/internal/elements.h"

#include "measure/index.h"
#include "measure/letters.h"
#include "read/document.h"

#include <fmt/format.h>

#include <algorithm>

namespace leafwright::reading {
namespace {

bool is_plain_name(std::string_view text) {
  return !text.empty() && text.find_first_of(" .+*()×÷") == std::string_view::npos &&
         !detail::is_digit(static_cast<unsigned char>(text.front())) && text.front() != '.';
}

class TextReader {
 public:
  TextReader(Resolver& resolver, const Value& value, int card)
      : resolver_(resolver), value_(value), card_(card) {}

  AuthorText run() {
    const std::string_view text = value_.view();
    std::string words;
    for (std::size_t i = 0; i < text.size(); ++i) {
      const bool doubled = i + 1 < text.size() && text[i + 1] == text[i];
      if ((text[i] == '{' || text[i] == '}') && doubled) {
        words += text[i++];
      } else if (text[i] == '}') {
        resolver_.fail(value_, {i, i + 1}, "read-braces", "{name} or }} for the sign itself",
                       "write { before it, or double it", "} without {");
      } else if (text[i] == '{') {
        const std::size_t end = text.find_first_of("{}", i + 1);
        if (end == std::string_view::npos || text[end] == '{') {
          resolver_.fail(value_, {i, i + 1}, "read-braces", "} after the name",
                         "close it with }, or write {{ for the sign itself", "{ without }");
          words += text[i];
          continue;
        }
        flush(words);
        insert(trimmed_span(text, {i + 1, end}), {i, end + 1});
        i = end;
      } else {
        words += text[i];
      }
    }
    flush(words);
    return std::move(parts_);
  }

 private:
  void flush(std::string& words) {
    if (words.empty()) return;
    TextPart part;
    part.words = std::move(words);
    parts_.push_back(std::move(part));
    words.clear();
  }

  void insert(Span span, Span braces) {
    const std::string_view text = slice(value_.view(), span);
    if (text.empty()) {
      resolver_.fail(value_, braces, "read-braces", "a name such as {mat} or {mat.size}",
                     "write a name between the braces", "{} with nothing in it");
      return;
    }
    if (is_plain_name(text)) {
      if (!insert_thing(span)) insert_measure(span); // which says what is wrong
      return;
    }
    insert_measure(span);
  }

  bool insert_thing(Span span) {
    const std::string_view name = slice(value_.view(), span);
    const Ref ref = resolver_.find(card_, name);
    const Project& project = resolver_.context().project;
    TextPart part;
    part.kind = TextPart::Kind::Thing;
    if (const auto* draft = std::get_if<DraftRef>(&ref)) {
      const Draft& one = resolver_.drafts().at(draft->draft);
      switch (one.kind) {
      case Draft::Kind::Base:
      case Draft::Kind::Piece:
        if (one.card != card_) return insert_words(name_of(one));
        part.piece = one.index;
        break;
      case Draft::Kind::Ribbon: part.thing = ItemRef{ItemKind::Ribbon, one.item}; break;
      case Draft::Kind::Embellishment:
        part.thing = ItemRef{ItemKind::Embellishment, one.item};
        break;
      case Draft::Kind::Window: return insert_words("window");
      }
      if (part.thing && part.thing->index < 0) part.thing.reset();
    } else if (const auto* face = std::get_if<FaceRef>(&ref)) {
      const Card& card = project.cards.at(as_index(face->card));
      return insert_words(card.plan.faces.at(as_index(face->face)).words);
    } else if (const auto* card = std::get_if<CardRef>(&ref)) {
      return insert_words(project.cards.at(as_index(card->card)).title);
    } else if (const auto* supply = std::get_if<SupplyRef>(&ref)) {
      const Supply& one = supply->supply;
      if (one.kind == Supply::Kind::Image)
        return insert_words(
            project.stamp_sets.at(as_index(one.set)).images.at(as_index(one.image)).name);
      part.thing = one.item;
    } else {
      return false;
    }
    parts_.push_back(std::move(part));
    return true;
  }

  static std::string name_of(const Draft& draft) {
    const auto name = draft.element.attribute("name");
    return name ? name->text() : name_from_id(draft.id);
  }

  bool insert_words(std::string words) {
    TextPart part;
    part.words = std::move(words);
    parts_.push_back(std::move(part));
    return true;
  }

  void insert_measure(Span span) {
    bool saw_size = false;
    const auto width = resolver_.worth(value_, span, card_, Axis::Width, &saw_size);
    if (!width) return;
    TextPart part;
    if (saw_size) {
      const auto height = resolver_.worth(value_, span, card_, Axis::Height, &saw_size);
      if (!height) return;
      const auto w = as_length(*width, resolver_.unit()), h = as_length(*height, resolver_.unit());
      if (!w || !h) return too_large(span);
      part.kind = TextPart::Kind::Size;
      part.size = {*w, *h};
    } else if (width->kind == Quantity::Kind::Number) {
      if (width->value.below != 1) {
        resolver_.fail(value_, span, "read-unit", "a whole number or a length",
                       "multiply it by a length", "a number with a fraction");
        return;
      }
      part.kind = TextPart::Kind::Number;
      part.number = static_cast<std::int64_t>(
          std::clamp<Wide>(width->value.above, -Wide{1'000'000'000}, Wide{1'000'000'000}));
    } else {
      const auto length = as_length(*width, resolver_.unit());
      if (!length) return too_large(span);
      part.kind = TextPart::Kind::Length;
      part.length = *length;
    }
    parts_.push_back(std::move(part));
  }

  void too_large(Span span) {
    resolver_.fail(value_, span, "read-too-large", "a length up to 100 m", "check the calculation");
  }

  Resolver& resolver_;
  const Value& value_;
  int card_;
  AuthorText parts_;
};

} // namespace

AuthorText author_text(Resolver& resolver, const Value& value, int card) {
  return TextReader(resolver, value, card).run();
}

} // namespace leafwright::reading
