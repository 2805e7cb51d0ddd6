#include "plan/calendar/work_time.h"

#include "measure/index.h"
#include "model/technique.h"

#include <algorithm>

namespace leafwright::calendar {

namespace {

struct Touches {
  std::int64_t dies = 0, impressions = 0;
};

std::int64_t impressions_of(const Impression& one) {
  return std::max<std::int64_t>(static_cast<std::int64_t>(one.places.size()), 1);
}

// What is done to one piece with dies and stamps.
Touches touches_of(const Card& card, const Piece& piece) {
  Touches touches;
  if (piece.cut == Piece::CutBy::Die) ++touches.dies;
  for (const Window& window : piece.windows)
    if (window.die >= 0) ++touches.dies;
  for (const Impression& one : piece.stamped) touches.impressions += impressions_of(one);
  if (piece.role == Piece::Role::Base)
    for (const FaceStamping& one : card.face_stampings)
      if (one.on.kind == Carrier::Kind::Face) touches.impressions += impressions_of(one.impression);
  return touches;
}

} // namespace

WorkTime work_time_of(const Project& project, const supply::Buying& buying,
                      const orders::Parcels& parcels, std::span<const orders::Contents> contents) {
  WorkTime work;
  for (const supply::StockSheets& stock : buying.sheets.stocks)
    for (const supply::SheetLayout& pattern : stock.layouts) {
      work.settings += pattern.work.settings;
      work.strokes += pattern.work.strokes;
    }
  for (std::size_t k = 0; k < std::min(parcels.kinds.size(), contents.size()); ++k) {
    const supply::KitKind& kind = parcels.kinds[k];
    const Tier& tier = project.tiers.at(as_index(kind.tier));
    if (tier.shipping == Tier::Shipping::None) continue;
    work.kits += kind.kits;
    work.items += kind.kits * static_cast<std::int64_t>(contents[k].supplies.size());
    work.envelopes += kind.kits * static_cast<std::int64_t>(contents[k].parts.size());
    for (const orders::PartLine& part : contents[k].parts) {
      if (part.line < 0) continue;
      const supply::PieceRef ref = buying.sheets.lines.at(as_index(part.line)).piece;
      if (ref.card < 0) continue;
      const Card& card = project.cards.at(as_index(ref.card));
      const Touches touches = touches_of(card, card.pieces.at(as_index(ref.piece)));
      if (tier.die_cut) work.dies += kind.kits * part.count * touches.dies;
      if (tier.stamped) work.impressions += kind.kits * part.count * touches.impressions;
    }
  }
  work.parcels =
      project.run.orders.empty() ? work.kits : static_cast<std::int64_t>(parcels.boxes.size());
  const WorkRates& rates = project.run.work;
  work.cutting = work.settings * rates.setting + work.strokes * rates.cut;
  work.readying = work.dies * rates.die + work.impressions * rates.stamp;
  work.packing =
      work.envelopes * rates.part + work.items * rates.item + work.parcels * rates.parcel;
  return work;
}

namespace {

constexpr int welcome_minutes = 10, tidy_minutes = 10, break_minutes = 15, until_break = 90;
constexpr int minutes_a_step = 3;

} // namespace

int Timetable::minutes() const {
  int all = 0;
  for (const TimetableLine& line : lines) all += line.minutes;
  return all;
}

int minutes_of(const Card& card) {
  const int dry = drying_minutes(card);
  if (card.minutes > 0) return card.minutes + dry;
  return std::max(minutes_a_step * static_cast<int>(card.build.size()), minutes_a_step) + dry;
}

Timetable timetable_of(const Project& project) {
  Timetable timetable;
  const ClassDay day = project.run.class_day.value_or(ClassDay{});
  int at = day.start;
  const auto add = [&](ClassSlot::Kind kind, std::string title, int card, int minutes) {
    timetable.lines.push_back({kind, std::move(title), card, at, minutes});
    at += minutes;
  };
  const auto add_card = [&](int card, const std::string& title, int minutes) {
    const Card& of = project.cards.at(as_index(card));
    add(ClassSlot::Kind::Card, title.empty() ? of.title : title, card,
        minutes > 0 ? minutes : minutes_of(of));
  };
  if (!day.slots.empty()) {
    for (const ClassSlot& slot : day.slots) {
      if (slot.kind == ClassSlot::Kind::Card) {
        if (slot.card >= 0) add_card(slot.card, slot.title, slot.minutes);
        continue;
      }
      const bool rest = slot.kind == ClassSlot::Kind::Break;
      add(slot.kind, slot.title.empty() ? (rest ? "Break" : "Talk") : slot.title, -1, slot.minutes);
    }
    return timetable;
  }
  add(ClassSlot::Kind::Talk, "Welcome, tools and paper", -1, welcome_minutes);
  int since_break = welcome_minutes;
  for (std::size_t card = 0; card < project.cards.size(); ++card) {
    const int minutes = minutes_of(project.cards[card]);
    if (card > 0 && since_break + minutes > until_break) {
      add(ClassSlot::Kind::Break, "Break", -1, break_minutes);
      since_break = 0;
    }
    add_card(static_cast<int>(card), {}, minutes);
    since_break += minutes;
  }
  add(ClassSlot::Kind::Talk, "Tidy up, questions", -1, tidy_minutes);
  return timetable;
}

} // namespace leafwright::calendar
