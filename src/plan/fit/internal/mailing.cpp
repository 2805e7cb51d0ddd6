#include "model/region.h"
#include "plan/fit/internal/case.h"
#include "plan/fit/internal/rules.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>
#include <utility>

namespace leafwright::fit {

namespace {

struct Room {
  const Envelope& envelope;
  Size card;          // closed, flat, the way round in which it goes in best
  Size envelope_size; // the envelope the same way round as the card
  Size girth;         // the same way round
  Length clearance{}; // the lesser of the two, flat; negative when it does not go in
};

std::optional<Room> room_of(const Case& c) {
  const Envelope* envelope = find_at(c.project.envelopes, c.card.envelope);
  if (!envelope) return std::nullopt;
  const Size card{std::max(c.closed.outer.width, c.card.finished.width),
                  std::max(c.closed.outer.height, c.card.finished.height)};
  const Size girth{std::max(c.closed.girth_across, card.width),
                   std::max(c.closed.girth_down, card.height)};
  const auto clearance = [&](Size in_it) {
    return std::min(in_it.width - card.width, in_it.height - card.height);
  };
  const Size upright = envelope->size, turned = envelope->size.turned();
  const Size best = clearance(turned) > clearance(upright) ? turned : upright;
  return Room{*envelope, card, best, girth, clearance(best)};
}

Finding& trace_envelope(Finding& finding, const Room& room, const Reporter& report) {
  finding.trace.push_back({room.envelope.place, fmt::format("{} is {}", room.envelope.name,
                                                            report.unrounded(room.envelope.size))});
  return finding;
}

Size with_clearance(const Room& room, Length clearance) {
  return {room.card.width + clearance, room.card.height + clearance};
}

} // namespace

void envelope_too_small(const Case& c, Reporter& report) {
  const std::optional<Room> room = room_of(c);
  if (!room || room->clearance >= Length{}) return;
  const Length clearance = envelope_clearance(c.project.printing);
  trace_envelope(
      report(known(c.card.envelope_place, c.card.place),
             fmt::format("closed, “{}” is {} and does not fit into {}, {}", c.card.title,
                         report.unrounded(room->card), room->envelope.name,
                         report.unrounded(room->envelope_size)),
             fmt::format("an envelope {} larger each way (common practice)",
                         report.unrounded(clearance)),
             fmt::format("choose an envelope of at least {}, or a card of at most {}",
                         report.unrounded(with_clearance(*room, clearance)),
                         report.unrounded(Size{room->envelope_size.width - clearance,
                                               room->envelope_size.height - clearance}))),
      *room, report);
}

void envelope_snug(const Case& c, Reporter& report) {
  const std::optional<Room> room = room_of(c);
  const Length wanted = envelope_clearance(c.project.printing);
  if (!room || room->clearance < Length{} || room->clearance >= wanted) return;
  trace_envelope(
      report(known(c.card.envelope_place, c.card.place),
             fmt::format("“{}”, {}, has only {} to spare in {}, {}", c.card.title,
                         report.unrounded(room->card), report.unrounded(room->clearance),
                         room->envelope.name, report.unrounded(room->envelope_size)),
             fmt::format("{} to spare each way (common practice)", report.unrounded(wanted)),
             fmt::format("choose an envelope of at least {}",
                         report.unrounded(with_clearance(*room, wanted)))),
      *room, report);
}

std::string thickness_of(const Case& c, Length thickness) {
  return thickness_text(thickness, c.project.printing.unit);
}

void envelope_bulges(const Case& c, Reporter& report) {
  const std::optional<Room> room = room_of(c);
  if (!room || room->clearance < Length{}) return;
  const Length across = room->girth.width - room->envelope_size.width;
  const Length down = room->girth.height - room->envelope_size.height;
  if (across <= Length{} && down <= Length{}) return;
  const Size wanted = up_to_step(room->girth, c.project.printing.step);
  Finding& finding = trace_envelope(
      report(known(c.card.envelope_place, c.card.place),
             fmt::format("with its layers, {} at the thickest, “{}” takes up {} and {} is {}",
                         thickness_of(c, c.closed.thickness.most), c.card.title,
                         report.unrounded(wanted), room->envelope.name,
                         report.unrounded(room->envelope_size)),
             "an envelope that closes around the card with all its layers",
             fmt::format("choose an envelope of at least {}, or make the card flatter by {}",
                         report.unrounded(wanted), thickness_of(c, std::max(across, down)))),
      *room, report);
  for (const Layer& layer : c.closed.thickness.layers)
    finding.trace.push_back(
        {c.card.place, fmt::format("{}: {}", layer.words, thickness_of(c, layer.thickness))});
}

// A letter by the United States Postal Service's Domestic Mail Manual, 201.1.1 (size, thickness)
// and 201.2.1 (nonmachinable), in a project of that country. Elsewhere the same measures only say
// that it is worth asking, since each carrier has its own: no number of that manual is shown. All
// are notes.

namespace {

constexpr Size smallest{inches(5), inches(3, 1, 2)}; // length, height
constexpr Size largest{inches(11, 1, 2), inches(6, 1, 8)};
constexpr Length thinnest = micrometres(178);       // 0.007 in = 0.1778 mm
constexpr Length thinnest_large = micrometres(229); // 0.009 in, above 4 1/4 in high or 6 in long
constexpr Size large{inches(6), inches(4, 1, 4)};
constexpr Length thickest = inches(0, 1, 4);

// The length of a letter is its longer side.
std::optional<Size> letter_of(const Case& c) {
  const Envelope* envelope = find_at(c.project.envelopes, c.card.envelope);
  if (!envelope) return std::nullopt;
  return Size{std::max(envelope->size.width, envelope->size.height),
              std::min(envelope->size.width, envelope->size.height)};
}

// What a rule expects: in the United States with its section, elsewhere in general.
struct PostalRule {
  std::string_view states;
  std::string_view section;
  std::string_view elsewhere;
};

std::string expected(const Case& c, const PostalRule& rule) {
  if (!in_united_states(c.project))
    return fmt::format("{}; check with your carrier", rule.elsewhere);
  return fmt::format("{} (USPS DMM {}, for example; check with your carrier)", rule.states,
                     rule.section);
}

std::string mend(const Case& c, std::string in_states, std::string_view elsewhere) {
  return in_united_states(c.project) ? std::move(in_states) : std::string(elsewhere);
}

Place place_of(const Case& c) { return known(c.card.envelope_place, c.card.place); }

} // namespace

void mail_size(const Case& c, Reporter& report) {
  const std::optional<Size> letter = letter_of(c);
  if (!letter) return;
  const bool small = !fits(smallest, *letter), big = !fits(*letter, largest);
  if (!small && !big) return;
  report(place_of(c),
         in_united_states(c.project)
             ? fmt::format("the envelope of “{}”, {}, is too {} for a letter", c.card.title,
                           report.unrounded(*letter), small ? "small" : "large")
             : fmt::format("the envelope of “{}”, {}, is {} for a letter", c.card.title,
                           report.unrounded(*letter), small ? "small" : "large"),
         expected(c, {fmt::format("a letter from {} to {}", report.unrounded(smallest),
                                  report.unrounded(largest)),
                      "201.1.1", "a size that goes as a letter"}),
         mend(c,
              small ? fmt::format("use an envelope of at least {}", report.unrounded(smallest))
                    : "send it as a large envelope, or make it smaller",
              small ? "ask your carrier, or use a larger envelope"
                    : "ask your carrier, or make it smaller"));
}

void mail_thickness(const Case& c, Reporter& report) {
  const std::optional<Size> letter = letter_of(c);
  if (!letter || !c.closed.thickness.unknown.empty()) return;
  const Length thick = thickness_in_envelope(c.project, c.card);
  const bool is_large = letter->width > large.width || letter->height > large.height;
  const Length least = is_large ? thinnest_large : thinnest;
  if (thick > thickest)
    report(place_of(c),
           fmt::format("in its envelope “{}” is {} thick", c.card.title, thickness_of(c, thick)),
           expected(c, {fmt::format("a letter of at most {}", thickness_of(c, thickest)), "201.1.1",
                        "a letter as thick as letters may be"}),
           mend(c,
                fmt::format("make it {} flatter, or send it as a package",
                            thickness_of(c, thick - thickest)),
                "ask your carrier, make it flatter, or send it as a parcel"));
  else if (thick < least)
    report(
        place_of(c),
        fmt::format("in its envelope “{}” is only {} thick", c.card.title, thickness_of(c, thick)),
        expected(c, {fmt::format("a letter of at least {}", is_large ? "0.009 in" : "0.007 in"),
                     "201.1.1", "a letter as stiff as machines need it"}),
        "use a heavier paper");
}

void mail_shape(const Case& c, Reporter& report) {
  const std::optional<Size> letter = letter_of(c);
  if (!letter || letter->height <= Length{}) return;
  // Whole numbers: length / height from 13/10 to 25/10.
  const bool square = letter->width * 10 < letter->height * 13;
  if (!square && letter->width * 10 <= letter->height * 25) return;
  const Length step = c.project.printing.step;
  report(place_of(c),
         fmt::format("the envelope of “{}”, {}, is {} than {} times as long as high", c.card.title,
                     report.unrounded(*letter), square ? "less" : "more", square ? "1.3" : "2.5"),
         expected(c, {"a length of 1.3 to 2.5 times the height, or a surcharge", "201.2.1",
                      "an oblong that machines sort, or perhaps a surcharge"}),
         mend(c,
              fmt::format("at {} high, make it {} to {} long", report.unrounded(letter->height),
                          report.unrounded(up_to_step(letter->height * 13 / 10, step)),
                          report.unrounded(down_to_step(letter->height * 25 / 10, step))),
              "ask your carrier what this shape costs"));
}

void mail_uneven(const Case& c, Reporter& report) {
  if (!letter_of(c) || !c.closed.thickness.uneven) return;
  report(place_of(c),
         fmt::format("raised parts make “{}” uneven, {} at the thickest", c.card.title,
                     thickness_of(c, c.closed.thickness.most)),
         expected(c, {"a letter of even thickness, or a surcharge", "201.2.1",
                      "a letter of even thickness, or perhaps a surcharge"}),
         "pad it with a sheet, or hand it over at the counter");
}

void mail_rigid(const Case& c, Reporter& report) {
  if (!letter_of(c) || !c.closed.thickness.rigid) return;
  report(place_of(c), fmt::format("“{}” holds something hard", c.card.title),
         expected(c, {"a letter that bends, or a surcharge", "201.2.1",
                      "a letter that bends, or perhaps a surcharge"}),
         "hand it over at the counter, or send it in a padded envelope");
}

} // namespace leafwright::fit
