#include "guide/figure/internal/alternative.h"

#include "language/english.h"
#include "language/words.h"
#include "measure/index.h"
#include "measure/letters.h"
#include "model/carrier.h"
#include "model/sticking.h"

#include <fmt/format.h>

#include <string_view>

namespace leafwright::figure {

namespace {

std::string on_words(const Card& card, const Carrier& on) {
  switch (on.kind) {
  case Carrier::Kind::Face:
    if (const Face* face = face_of(card, on)) return "on " + face->words;
    break;
  case Carrier::Kind::Piece:
    if (const Piece* piece = piece_of(card, on)) return "on the " + piece_name(*piece);
    break;
  case Carrier::Kind::EnvelopeFront: return "on the front of the envelope";
  case Carrier::Kind::EnvelopeInside: return "inside the envelope";
  }
  return {};
}

std::string with_comma(std::string words, const std::string& more) {
  if (more.empty()) return words;
  return words.empty() ? more : std::move(words) + ", " + more;
}

std::string outline_words(const Piece& piece) {
  switch (piece.shape.outline) {
  case Shape::Outline::Circle: return "round";
  case Shape::Outline::Oval: return "oval";
  case Shape::Outline::Scalloped: return "scalloped";
  case Shape::Outline::ScallopedCircle: return "round and scalloped";
  case Shape::Outline::Star: return "a star";
  case Shape::Outline::Banner: return "a banner with a swallow tail";
  case Shape::Outline::Tag: return "a tag with a hole";
  case Shape::Outline::Rounded: return "with rounded corners";
  case Shape::Outline::Rectangle:
  case Shape::Outline::Polygon:
  case Shape::Outline::Free: break;
  }
  return {};
}

std::string piece_words(const Project& project, const Card& card, const Piece& piece) {
  std::string words = piece_name(piece);
  if (piece.copies > 1) words = fmt::format("{} of the {}", piece.copies, words);
  words = with_comma(words, piece_size(piece, project.printing));
  words = with_comma(words, outline_words(piece));
  words = with_comma(words, on_words(card, piece.on));
  if (const Size carrier = carrier_size(project, card, piece.on); carrier != Size{}) {
    Gaps gaps = measured_gaps(carrier, {piece.at, piece.size}, piece.rotation);
    // What goes round has no ends to measure from.
    if (piece.size.width > carrier.width) gaps.left = gaps.right = {};
    if (piece.size.height > carrier.height) gaps.top = gaps.bottom = {};
    words = with_comma(words, where_words(gaps, piece.position, project));
  }
  if (piece.rotation.udeg != 0)
    words = with_comma(words, fmt::format("turned {:g}° {}", std::abs(in_degrees(piece.rotation)),
                                          piece.rotation.udeg > 0 ? "clockwise" : "anticlockwise"));
  if (piece.attach.raised) words = with_comma(words, "raised");
  if (is_stuck_in_part(piece.attach))
    words =
        with_comma(words, fmt::format("stuck behind {}", sticking_row(piece.attach.where).words));
  if (!piece.windows.empty())
    words = with_comma(words, piece.windows.size() == 1
                                  ? "with a window"
                                  : fmt::format("with {} windows", piece.windows.size()));
  std::vector<std::string> images;
  for (const Impression& impression : piece.stamped)
    images.push_back(image_words(project, impression));
  if (!images.empty()) words = with_comma(words, "stamped with " + words::listed(images));
  return words;
}

std::string ribbon_name(const Project& project, const RibbonUse& use) {
  if (use.ribbon < 0 || use.ribbon >= static_cast<int>(project.ribbons.size())) return "ribbon";
  return lower_first(project.ribbons.at(as_index(use.ribbon)).name);
}

std::string embellishment_name(const Project& project, const EmbellishmentUse& use) {
  if (use.embellishment < 0 || use.embellishment >= static_cast<int>(project.embellishments.size()))
    return "embellishment";
  return lower_first(project.embellishments.at(as_index(use.embellishment)).name);
}

std::string ribbon_words(const Project& project, const Card& card, const RibbonUse& use) {
  std::string words = ribbon_name(project, use);
  switch (use.as) {
  case RibbonUse::As::Band: words += " laid across"; break;
  case RibbonUse::As::Wrap: words += " wrapped around"; break;
  case RibbonUse::As::Bow: words += " tied in a bow"; break;
  case RibbonUse::As::Knot: words += " tied in a knot"; break;
  }
  words = with_comma(words, on_words(card, use.on));
  return with_comma(words,
                    fmt::format("its middle {} from the {}", length_text(use.at, project.printing),
                                use.vertical ? "left" : "top"));
}

std::string stage_name(const Card& card, Stage stage) {
  switch (stage) {
  case Stage::Front: return fmt::format("Front of the card “{}”", card.title);
  case Stage::Inside: return fmt::format("The card “{}” opened flat", card.title);
  case Stage::Back: return fmt::format("Back of the card “{}”", card.title);
  case Stage::EnvelopeFront: return fmt::format("Front of the envelope of “{}”", card.title);
  case Stage::EnvelopeInside:
    return fmt::format("Envelope of “{}”, opened, from the back", card.title);
  }
  return {};
}

} // namespace

std::string lower_first(std::string words) {
  // Words in capitals (an "A2 base") stay as they are.
  if (words.size() > 1 && is_capital(words[0]) && is_letter(words[1]) && !is_capital(words[1]))
    words[0] = small_letter(words[0]);
  return words;
}

std::string sentence(std::string words) {
  if (words.empty()) return words;
  if (words.back() != '.') words += '.';
  return leafwright::words::sentence_case(words);
}

std::string piece_name(const Piece& piece) { return piece.name.empty() ? piece.id : piece.name; }

std::string shape_size(const Shape& shape, Size size, const Printing& printing) {
  if (is_round(shape) && size.width == size.height)
    return length_text(size.width, printing) + " across";
  return size_text(size, printing, shape.outline == Shape::Outline::Rectangle);
}

std::string piece_size(const Piece& piece, const Printing& printing) {
  return shape_size(piece.shape, piece.size, printing);
}

std::string stock_name(const Project& project, int stock) {
  const Stock* found = find_at(project.stocks, stock);
  return found ? lower_first(found->name) : "card";
}

std::string image_words(const Project& project, const Impression& impression) {
  std::string words = "an image";
  if (const StampSet* set = find_at(project.stamp_sets, impression.set))
    if (const StampImage* image = find_at(set->images, impression.image))
      words = "“" + image->name + "”";
  if (impression.places.size() > 1)
    words += " " + leafwright::words::times_words(std::ssize(impression.places));
  std::vector<std::string> inks;
  for (const int ink : impression.inks)
    if (const Ink* found = find_at(project.inks, ink)) inks.push_back(lower_first(found->name));
  if (!inks.empty()) words += " in " + words::listed(inks);
  if (impression.fading) words += ", each paler than the last";
  switch (impression.method) {
  case Impression::Method::SecondGeneration: words += ", pale"; break;
  case Impression::Method::Sponged: words += ", sponged"; break;
  case Impression::Method::HeatEmbossed: words += ", heat-embossed"; break;
  case Impression::Method::Masked: words += ", masked"; break;
  case Impression::Method::Plain: break;
  }
  return words;
}

std::string where_words(const Gaps& gaps, const Position& said, const Project& project) {
  const std::string centred(words::terms(project.language).centered);
  const bool across = alike(gaps.left, gaps.right);
  const bool down = alike(gaps.top, gaps.bottom);
  const std::string middle = gaps.of_middle ? "its middle " : "";
  if (across && down)
    return alike(gaps.left, gaps.top) && gaps.left.nm > 0 && !gaps.of_middle
               ? length_text(gaps.left, project.printing) + " from every edge"
               : centred;
  const auto from = [&](Edge edge) {
    static constexpr std::array<std::string_view, 4> names{"left", "top", "right", "bottom"};
    const Length gap = gap_at(gaps, edge);
    const std::string name(names.at(static_cast<std::size_t>(edge)));
    if (alike(gap, {})) return "even with the " + name;
    return length_text(absolute(gap), project.printing) +
           (gap.nm < 0 ? " past the " : " from the ") + name;
  };
  if (across) return centred + " across, " + middle + from(measured_down(gaps, said));
  if (down) return middle + from(measured_across(gaps, said)) + ", " + centred + " up and down";
  return middle + from(measured_across(gaps, said)) + ", " + from(measured_down(gaps, said));
}

std::string build_words(const Project& project, const Card& card, const Build& build) {
  if (build.index < 0) return {};
  const auto index = as_index(build.index);
  switch (build.kind) {
  case Build::Kind::Piece:
    if (index < card.pieces.size() && card.pieces.at(index).role != Piece::Role::Base)
      return piece_words(project, card, card.pieces.at(index));
    break;
  case Build::Kind::Ribbon:
    if (index < card.ribbons.size()) return ribbon_words(project, card, card.ribbons.at(index));
    break;
  case Build::Kind::Embellishment:
    if (index < card.embellishments.size()) {
      const EmbellishmentUse& use = card.embellishments.at(index);
      const std::string name = embellishment_name(project, use);
      return with_comma(words::counted(std::ssize(use.places), name), on_words(card, use.on));
    }
    break;
  case Build::Kind::Stamping:
    if (index < card.face_stampings.size()) {
      const FaceStamping& stamping = card.face_stampings.at(index);
      return with_comma(image_words(project, stamping.impression) + " stamped",
                        on_words(card, stamping.on));
    }
    break;
  case Build::Kind::Step: break;
  }
  return {};
}

std::string short_name(const Project& project, const Card& card, const Build& build) {
  if (build.index < 0) return {};
  const auto index = as_index(build.index);
  switch (build.kind) {
  case Build::Kind::Piece:
    if (index < card.pieces.size()) return piece_name(card.pieces.at(index));
    break;
  case Build::Kind::Ribbon:
    if (index < card.ribbons.size()) return ribbon_name(project, card.ribbons.at(index));
    break;
  case Build::Kind::Embellishment:
    if (index < card.embellishments.size()) {
      const EmbellishmentUse& use = card.embellishments.at(index);
      const std::string name = embellishment_name(project, use);
      return use.places.size() > 1 ? words::counted(std::ssize(use.places), name) : name;
    }
    break;
  case Build::Kind::Stamping:
    if (index < card.face_stampings.size())
      return image_words(project, card.face_stampings.at(index).impression);
    break;
  case Build::Kind::Step: break;
  }
  return {};
}

std::string stage_words(const Project& project, const Card& card, const Staging& staging,
                        std::size_t count) {
  std::string words = stage_name(card, staging.stage());
  const bool envelope =
      staging.stage() == Stage::EnvelopeFront || staging.stage() == Stage::EnvelopeInside;
  if (!envelope && !card.pieces.empty())
    words += fmt::format(": {} base {}", stock_name(project, card.pieces.front().stock),
                         size_text(staging.size(), project.printing));
  else
    words += ", " + size_text(staging.size(), project.printing);
  for (std::size_t i = 0; i < std::min(count, card.build.size()); ++i) {
    const Build& build = card.build.at(i);
    const std::optional<Carrier> on = carrier_of(card, build);
    if (!on || !staging.carrier(*on)) continue;
    if (const std::string more = build_words(project, card, build); !more.empty())
      words += "; " + more;
  }
  return words + ".";
}

namespace {

std::string piece_looks(const Project& project, const Piece& piece) {
  std::string words = piece_name(piece);
  if (piece.copies > 1) words = fmt::format("{} of the {}", piece.copies, words);
  words = with_comma(words, outline_words(piece));
  if (piece.rotation.udeg != 0) words = with_comma(words, "at a slant");
  if (piece.attach.raised) words = with_comma(words, "raised");
  if (!piece.windows.empty())
    words = with_comma(words, piece.windows.size() == 1 ? "with a window" : "with windows");
  std::vector<std::string> images;
  for (const Impression& impression : piece.stamped)
    images.push_back(image_words(project, impression));
  if (!images.empty()) words = with_comma(words, "stamped with " + words::listed(images));
  return words;
}

std::string ribbon_looks(const Project& project, const RibbonUse& use) {
  switch (use.as) {
  case RibbonUse::As::Band: return ribbon_name(project, use) + " laid across";
  case RibbonUse::As::Wrap: return ribbon_name(project, use) + " wrapped around";
  case RibbonUse::As::Bow: return ribbon_name(project, use) + " tied in a bow";
  case RibbonUse::As::Knot: return ribbon_name(project, use) + " tied in a knot";
  }
  return ribbon_name(project, use);
}

std::string build_looks(const Project& project, const Card& card, const Build& build) {
  if (build.index < 0) return {};
  const auto index = as_index(build.index);
  switch (build.kind) {
  case Build::Kind::Piece:
    if (index < card.pieces.size() && card.pieces.at(index).role != Piece::Role::Base)
      return piece_looks(project, card.pieces.at(index));
    return {};
  case Build::Kind::Ribbon:
    return index < card.ribbons.size() ? ribbon_looks(project, card.ribbons.at(index)) : "";
  case Build::Kind::Stamping:
    return index < card.face_stampings.size()
               ? image_words(project, card.face_stampings.at(index).impression) + " stamped on it"
               : "";
  case Build::Kind::Embellishment:
  case Build::Kind::Step: break;
  }
  return short_name(project, card, build);
}

} // namespace

std::string looks_words(const Project& project, const Card& card, const Staging& staging) {
  std::string words = stage_name(card, staging.stage());
  const bool envelope =
      staging.stage() == Stage::EnvelopeFront || staging.stage() == Stage::EnvelopeInside;
  std::vector<std::string> parts;
  if (!envelope && !card.pieces.empty())
    parts.push_back(stock_name(project, card.pieces.front().stock) + " base");
  for (const Build& build : card.build) {
    const std::optional<Carrier> on = carrier_of(card, build);
    if (!on || !staging.carrier(*on)) continue;
    if (std::string more = build_looks(project, card, build); !more.empty())
      parts.push_back(std::move(more));
  }
  for (std::size_t i = 0; i < parts.size(); ++i) words += (i == 0 ? ": " : "; ") + parts.at(i);
  return words + ".";
}

} // namespace leafwright::figure
