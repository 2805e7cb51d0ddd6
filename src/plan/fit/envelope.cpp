#include "plan/fit/rules.h"

#include "plan/fit/limits.h"
#include "plan/fit/printed.h"

#include <fmt/format.h>

#include <algorithm>
#include <optional>

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

Finding& trace_envelope(Finding& finding, const Room& room, const Speaker& say) {
  finding.trace.push_back({room.envelope.place, fmt::format("{} is {}", room.envelope.name,
                                                            say.said(room.envelope.size))});
  return finding;
}

Size with_clearance(const Room& room, Length clearance) {
  return {room.card.width + clearance, room.card.height + clearance};
}

} // namespace

void envelope_too_small(const Case& c, Speaker& say) {
  const std::optional<Room> room = room_of(c);
  if (!room || room->clearance >= Length{}) return;
  const Length clearance = envelope_clearance(c.project.printing);
  trace_envelope(
      say(known(c.card.envelope_place, c.card.place),
          fmt::format("closed, “{}” is {} and does not go into {}, {}", c.card.title,
                      say.said(room->card), room->envelope.name, say.said(room->envelope_size)),
          fmt::format("an envelope {} larger each way (common practice)", say.said(clearance)),
          fmt::format("choose an envelope of at least {}, or a card of at most {}",
                      say.said(with_clearance(*room, clearance)),
                      say.said(Size{room->envelope_size.width - clearance,
                                    room->envelope_size.height - clearance}))),
      *room, say);
}

void envelope_snug(const Case& c, Speaker& say) {
  const std::optional<Room> room = room_of(c);
  const Length wanted = envelope_clearance(c.project.printing);
  if (!room || room->clearance < Length{} || room->clearance >= wanted) return;
  trace_envelope(say(known(c.card.envelope_place, c.card.place),
                     fmt::format("“{}”, {}, has only {} to spare in {}, {}", c.card.title,
                                 say.said(room->card), say.said(room->clearance),
                                 room->envelope.name, say.said(room->envelope_size)),
                     fmt::format("{} to spare each way (common practice)", say.said(wanted)),
                     fmt::format("choose an envelope of at least {}",
                                 say.said(with_clearance(*room, wanted)))),
                 *room, say);
}

void envelope_bulges(const Case& c, Speaker& say) {
  const std::optional<Room> room = room_of(c);
  if (!room || room->clearance < Length{}) return;
  const Length across = room->girth.width - room->envelope_size.width;
  const Length down = room->girth.height - room->envelope_size.height;
  if (across <= Length{} && down <= Length{}) return;
  const Size wanted = up_to_step(room->girth, c.project.printing.step);
  Finding& finding = trace_envelope(
      say(known(c.card.envelope_place, c.card.place),
          fmt::format("with its layers, {} at the thickest, “{}” takes up {} and {} is {}",
                      thickness_text(c.closed.thickness.most), c.card.title, say.said(wanted),
                      room->envelope.name, say.said(room->envelope_size)),
          "an envelope that reaches round the card, layers and all",
          fmt::format("choose an envelope of at least {}, or make the card flatter by {}",
                      say.said(wanted), thickness_text(std::max(across, down)))),
      *room, say);
  for (const Layer& layer : c.closed.thickness.layers)
    finding.trace.push_back(
        {c.card.place, fmt::format("{}: {}", layer.words, thickness_text(layer.thickness))});
}

} // namespace leafwright::fit
