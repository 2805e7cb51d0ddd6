#include "plan/fit/internal/case.h"

#include "language/words.h"
#include "measure/print_length.h"
#include "model/carrier.h"
#include "plan/fit/internal/cover.h"
#include "plan/fit/internal/slabs.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace leafwright::fit {

namespace {

std::vector<Weighted> seen_from_the_side(std::vector<Weighted> weights) {
  for (Weighted& item : weights)
    item.box = {{item.box.origin.y, item.box.origin.x}, item.box.size.turned()};
  return weights;
}

Length width_of(const std::vector<Interval>& profile) {
  return profile.empty() ? Length{} : profile.back().to - profile.front().from;
}

} // namespace

ClosedCard closed_card(const Project& project, const Card& card) {
  ClosedCard closed;
  const std::vector<Weighted> weights = weights_of(pile_of(project, card));
  const Cover across = cover_of(weights);
  const Cover down = cover_of(seen_from_the_side(weights));
  closed.outer = {width_of(across.profile), width_of(down.profile)};
  if (weights.empty()) closed.outer = card.finished; // no caliper is known
  closed.girth_across = std::max(half_girth(across.profile), closed.outer.width);
  closed.girth_down = std::max(half_girth(down.profile), closed.outer.height);
  closed.thickness = thickness_of(project, card);
  return closed;
}

Finding& Reporter::operator()(Place place, std::string found, std::string expected,
                              std::string fix) {
  Finding finding;
  finding.severity = rule_.severity;
  finding.code = rule_.id;
  finding.place = place;
  finding.found = std::move(found);
  finding.expected = std::move(expected);
  finding.fix = std::move(fix);
  findings_.push_back(std::move(finding));
  return findings_.back();
}

std::string Reporter::unrounded(Length length) const {
  return leafwright::unrounded(length, project_.printing);
}
std::string Reporter::unrounded(Size size) const {
  return leafwright::unrounded(size, project_.printing);
}

std::string the(const Piece& piece) {
  return "the " + (piece.name.empty() ? piece.id : piece.name);
}

std::string the(const Piece& piece, const Card& card) {
  return fmt::format("{} of “{}”", the(piece), card.title);
}

std::string carrier_words(const Card& card, Carrier carrier) {
  switch (carrier.kind) {
  case Carrier::Kind::Face:
    if (const Face* face = face_of(card, carrier)) return face->words;
    break;
  case Carrier::Kind::Piece:
    if (const Piece* piece = piece_of(card, carrier)) return the(*piece);
    break;
  case Carrier::Kind::EnvelopeFront: return "the envelope";
  case Carrier::Kind::EnvelopeInside: return "the inside of the envelope";
  }
  return "what carries it";
}

Place carrier_place(const Card& card, Carrier carrier) {
  if (const Piece* piece = piece_of(card, carrier)) return known(piece->size_place, piece->place);
  if (carrier.kind == Carrier::Kind::Face) return card.place;
  return known(card.envelope_place, card.place);
}

Place known(Place first, Place second) { return first.line > 0 ? first : second; }

bool Past::any() const {
  return left > Length{} || right > Length{} || top > Length{} || bottom > Length{};
}

Past past(Rect inner, Rect outer) {
  const auto over = [](Length by) { return std::max(by, Length{}); };
  return {over(outer.left() - inner.left()), over(inner.right() - outer.right()),
          over(outer.top() - inner.top()), over(inner.bottom() - outer.bottom())};
}

std::string past_words(const Past& over, const Reporter& speaker) {
  std::vector<std::string> parts;
  const auto add = [&](Length by, const char* edge) {
    if (by > Length{})
      parts.push_back(fmt::format("{} past the {} edge", speaker.unrounded(by), edge));
  };
  add(over.left, "left");
  add(over.right, "right");
  add(over.top, "top");
  add(over.bottom, "bottom");
  return words::listed(parts);
}

std::string move_words(const Past& over, const Reporter& speaker) {
  std::vector<std::string> parts;
  const auto add = [&](Length by, const char* way) {
    if (by > Length{}) parts.push_back(fmt::format("{} {}", speaker.unrounded(by), way));
  };
  add(over.left, "to the right");
  add(over.right, "to the left");
  add(over.top, "down");
  add(over.bottom, "up");
  return "move it " + words::listed(parts);
}

namespace {

std::int64_t begun(std::int64_t whole, std::int64_t part) {
  return whole <= 0 ? 0 : (whole + part - 1) / part;
}

} // namespace

std::string thickness_text(Length thickness, Unit first) {
  const std::int64_t tenths = begun(thickness.nm, nm_per_mm / 10);
  const std::int64_t hundredths = begun(thickness.nm, nm_per_inch / 100);
  const std::string mm_text = fmt::format("{}.{}", tenths / 10, tenths % 10);
  const std::string inch_text = fmt::format("{}.{:02}", hundredths / 100, hundredths % 100);
  constexpr std::string_view both = "{} {} ({} {})";
  return first == Unit::Inch ? fmt::format(both, inch_text, "in", mm_text, "mm")
                             : fmt::format(both, mm_text, "mm", inch_text, "in");
}

Length up_to_step(Length length, Length step) {
  return step > Length{} ? step * begun(length.nm, step.nm) : length;
}

Length down_to_step(Length length, Length step) {
  return step > Length{} ? step * (length.nm / step.nm) : length;
}

Size up_to_step(Size size, Length step) {
  return {up_to_step(size.width, step), up_to_step(size.height, step)};
}

} // namespace leafwright::fit
