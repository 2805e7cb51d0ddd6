#include "guide/parcels/internal/parcel_words.h"
#include "guide/parcels/parcel_documents.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "guide/shop/shop_words.h"
#include "guide/tutorial.h"
#include "language/agreement.h"
#include "language/english.h"
#include "language/lists.h"
#include "language/weights.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/run.h"
#include "plan/tier/ledger.h"

#include <fmt/format.h>

#include <algorithm>
#include <string_view>
#include <utility>

namespace leafwright::guide {

namespace {

using orders::Contents;
using orders::Parcel;
using orders::PartLine;
using orders::SupplyLine;

constexpr std::size_t most_note = 400; // characters of a buyer's note that a slip repeats

std::string shortened(std::string_view text) {
  std::size_t count = 0;
  for (std::size_t i = 0; i < text.size(); ++i)
    if ((static_cast<unsigned char>(text[i]) & 0xC0U) != 0x80U && ++count > most_note)
      return std::string(text.substr(0, i)) + " …";
  return std::string(text);
}

class SlipMaker {
 public:
  SlipMaker(const Project& project, const PackingList& list)
      : project_(project), list_(list), ledger_(tiers::ledger_of(project)) {}

  Slip of_parcel(std::size_t index) const {
    const Parcel& parcel = list_.parcels.parcels.at(index);
    const Order& order = project_.run.orders.at(as_index(parcel.order));
    const supply::KitKind& kind = kind_of(parcel.kind);
    const std::string& tier = project_.tiers.at(as_index(kind.tier)).name;
    Slip slip;
    slip.place = order.place;
    const std::string kits =
        parcel.kits == 1 ? tier : fmt::format("{}\u00A0× {}", parcel.kits, tier);
    add(slip,
        Heading{2, {}, breakable(order.name), {}, kits + " · " + parcel_number(list_, index)});
    add(slip, small(plain(about(order, parcel))));
    add_whereabouts(slip, order, parcel);
    add_remarks(slip, order, parcel);
    add_contents(slip, kind, contents_of(parcel.kind), parcel.kits);
    add_words_of_buyer(slip, order);
    return slip;
  }

  Slip of_kind(std::size_t index) const {
    const supply::KitKind& kind = list_.parcels.kinds.at(index);
    Slip slip;
    add(slip, Heading{2,
                      {},
                      kind_name(project_, list_, index),
                      {},
                      "for each of " + words::figured(kind.kits, "kit")});
    add(slip, small(plain(mass_words(contents_of(static_cast<int>(index)), 1))));
    add_contents(slip, kind, contents_of(static_cast<int>(index)), 1);
    return slip;
  }

 private:
  template <class T>
  static void add(Slip& slip, T what) {
    slip.blocks.push_back(Block{std::move(what), {}});
  }
  const supply::KitKind& kind_of(int kind) const { return list_.parcels.kinds.at(as_index(kind)); }
  const Contents& contents_of(int kind) const { return list_.contents.at(as_index(kind)); }

  std::string mass_words(const Contents& contents, int kits) const {
    const Mass mass = orders::mass_of(project_, contents, kits);
    if (mass <= Mass{}) return "Weight not known.";
    std::string words =
        "About\u00A0" + words::parcel_weight(words::english_of(project_.language), mass);
    if (project_.run.wrapping <= Mass{}) words += ", without wrapping";
    if (!contents.mass.complete()) {
      std::vector<std::string> names;
      for (const ItemRef item : contents.mass.unknown) names.push_back(item_name(project_, item));
      if (contents.mass.envelopes_unknown) names.emplace_back("lettered envelopes");
      words += ". Not weighed: " + words::listed_apart(names);
    }
    return words + ". Check the " + std::string(words::terms(project_.language).shipping) +
           " with your carrier.";
  }

  std::string about(const Order& order, const Parcel& parcel) const {
    std::string words;
    for (const Order::Other& one : order.others)
      if (is_number_column(one.column)) words += "Order " + breakable(shortened(one.text)) + ". ";
    if (!order.region.empty()) words += "Region: " + breakable(order.region) + ". ";
    if (order.date) words += "Ordered " + words::day_text(project_.language, *order.date) + ". ";
    return words + mass_words(contents_of(parcel.kind), parcel.kits);
  }

  static void warn(Slip& slip, std::string title, const std::string& text) {
    add(slip, Notice{Notice::Kind::Warning, std::move(title), plain(text)});
  }

  // With what else it travels, whether it does, and whether it may.
  void add_whereabouts(Slip& slip, const Order& order, const Parcel& parcel) const {
    std::vector<std::string> others;
    for (const int one : together(list_, parcel))
      if (const Parcel& other = at(list_.parcels.parcels, one); other.order != parcel.order)
        others.push_back(ordered_words(other));
    if (!others.empty())
      warn(slip, "One parcel.",
           "Pack it together with " + words::listed(others) + ". All of it weighs about\u00A0" +
               words::parcel_weight(words::english_of(project_.language),
                                    box_mass(project_, list_, parcel)) +
               ".");
    if (!order.sent.empty()) warn(slip, "Sent already.", breakable(shortened(order.sent)));
    if (order.picked_up) warn(slip, "She picks it up.", "It needs no label.");
    const tiers::LedgerLine* line = tiers::line_of(ledger_, parcel.order);
    const bool owes = line != nullptr && line->owed.minor > 0;
    if (owes && line->paid.minor > 0)
      warn(slip, "Not all is paid.",
           money_text(line->paid) + " came in, and " + money_text(line->owed) +
               " is still to come. Send it when it is in.");
    else if (owes || (order.status == OrderStatus::Open && !order.paid))
      warn(slip, "Not paid yet.", "Pack it now, and send it when the money is in.");
  }

  // "Full kit of Ada"
  std::string ordered_words(const Parcel& parcel) const {
    const Order& order = at(project_.run.orders, parcel.order);
    const std::string kits =
        parcel.kits == 1 ? std::string() : fmt::format("{}\u00A0× ", parcel.kits);
    return kits + tier_name(order) + " of " + breakable(order.name);
  }

  void add_remarks(Slip& slip, const Order& order, const Parcel& parcel) const {
    const orders::Change& change = list_.parcels.changes.at(as_index(parcel.kind));
    if (!change.empty()) {
      const std::string words = change_words(project_, change);
      warn(slip, change.taken.empty() ? "Left out, since she has it." : "Swapped.",
           words::sentence_case(words) + ". " + credit_words(change, parcel.kits));
    }
    if (parcel.late && project_.run.reply_by)
      warn(slip, "Late.",
           "Ordered after " + words::day_text(project_.language, project_.run.reply_by->date) +
               ".");
    if (parcel.repeated)
      warn(slip, "Twice?",
           "The same name has ordered " + tier_name(order) + " before. Ask before you pack.");
    if (const std::string asked = not_owned_words(project_, parcel); !asked.empty())
      warn(slip, "Does she own it?",
           tier_name(order) + " needs " + asked + ". The order does not say she has " +
               std::string(words::it_or_them(std::ssize(parcel.not_owned))) + ".");
  }
  const std::string& tier_name(const Order& order) const {
    return project_.tiers.at(as_index(order.tier)).name;
  }

  Inlines part_item(const PartLine& part, int kits) const {
    Prose prose;
    if (!part.letter.empty()) prose.append(Inlines{PieceLetter{part.letter}}).say("\u00A0");
    prose.strong(std::to_string(part.count * kits)).say(" ");
    const std::string name = part_name(project_, list_.pieces, part);
    // The name of a paper has no plural: "2 Kraft, 6 × 12 in".
    const bool share = part_card(project_, list_.pieces, part).empty();
    prose.say(part.count * kits > 1 && !share ? words::plural(name) : name);
    if (part.gift) prose.quiet(" gift");
    return prose.fragment();
  }

  // A list for each card, in the order of the letters; shares of sheets belong to none.
  std::vector<Ticks> parts_by_card(const Contents& contents, int kits) const {
    std::vector<Ticks> lists;
    for (const PartLine& part : contents.parts) {
      const std::string card = part_card(project_, list_.pieces, part);
      const std::string name = !card.empty()               ? "Card\u00A0" + card
                               : project_.cards.size() > 1 ? "Shares"
                                                           : std::string();
      auto same = std::find_if(lists.begin(), lists.end(),
                               [&](const Ticks& list) { return list.name == name; });
      if (same == lists.end()) {
        lists.push_back({card.empty() ? 3 : 4, {}, name});
        same = lists.end() - 1;
      }
      same->items.push_back(part_item(part, kits));
    }
    return lists;
  }

  void add_contents(Slip& slip, const supply::KitKind& kind, const Contents& contents,
                    int kits) const {
    const std::string in_each =
        kits > 1 ? ", for " + (kits == 2 ? std::string("both") : fmt::format("all {}", kits)) +
                       " kits together"
                 : std::string();
    if (!contents.parts.empty()) {
      add(slip, Heading{3, {}, "Pre-cut pieces, by envelope" + in_each, {}, {}});
      for (Ticks& ticks : parts_by_card(contents, kits)) add(slip, std::move(ticks));
    }
    Ticks ticks;
    ticks.columns = 3;
    for (const SupplyLine& line : contents.supplies)
      ticks.items.push_back(supply_item(project_, line, kits));
    if (contents.tutorial) {
      const std::string edition = edition_words(project_);
      ticks.items.push_back(Prose()
                                .strong("Tutorial")
                                .say(": send the PDF" + (edition.empty() ? "" : ", " + edition))
                                .fragment());
    }
    const Tier& tier = tier_at(project_, kind.tier);
    if (wants_letter_key(tier))
      ticks.items.push_back(
          Prose().strong("Letter key").say(": the page letters-" + tier.id).fragment());
    if (ticks.items.empty()) return;
    add(slip,
        Heading{
            3, {}, contents.parts.empty() ? "In the kit" + in_each : "Also in the kit", {}, {}});
    add(slip, std::move(ticks));
  }

  // What the buyer wrote, and columns of the roster that mean something to the maker alone.
  void add_words_of_buyer(Slip& slip, const Order& order) const {
    if (!order.note.empty())
      add(slip, body(Prose().strong("Note: ").say(breakable(shortened(order.note))).fragment()));
    std::vector<std::string> others;
    for (const Order::Other& one : order.others)
      if (!is_number_column(one.column))
        others.push_back(breakable(one.column) + ": " + breakable(shortened(one.text)));
    std::string words;
    for (const std::string& one : others) words += (words.empty() ? "" : " · ") + one;
    if (!words.empty()) add(slip, small(plain(words)));
  }

  const Project& project_;
  const PackingList& list_;
  tiers::Ledger ledger_;
};

void add_unposted(Section& section, const Project& project, const PackingList& list) {
  if (list.parcels.unposted.empty()) return;
  add(section, heading(2, {}, "Sent by e-mail"));
  Table table;
  table.caption = "Orders sent by e-mail";
  table.columns = {{plain("Name"), Column::Align::Left, 2.0, true},
                   {plain("Kit"), Column::Align::Left, 1.5, false},
                   {plain("Sent"), Column::Align::Centre, 0.4, false}};
  for (const Parcel& parcel : list.parcels.unposted) {
    const Order& order = project.run.orders.at(as_index(parcel.order));
    Row row;
    const bool open = order.status == OrderStatus::Open;
    row.cells = {plain(breakable(order.name) + (open ? " (not paid yet)" : "")),
                 plain(kind_name(project, list, as_index(parcel.kind))), Inlines{TickBox{}}};
    table.rows.push_back(std::move(row));
  }
  add(section, std::move(table));
}

} // namespace

PackingList packing_list(const Project& project, orders::Parcels parcels,
                         std::size_t rows_left_out) {
  PackingList list;
  list.parcels = std::move(parcels);
  list.pieces = orders::pieces_of(project, list.parcels);
  list.contents = orders::contents_of(project, list.parcels, list.pieces);
  list.rows_left_out = rows_left_out;
  return list;
}

Document packing_slips(const Project& project, const PackingList& list,
                       const ParcelOptions& options) {
  Document document = shop_document(project, "Packing slips", options.draft);
  const SlipMaker maker(project, list);
  Slips slips;
  for (std::size_t i = 0; i < list.parcels.parcels.size(); ++i)
    slips.slips.push_back(maker.of_parcel(i));
  if (project.run.orders.empty())
    for (std::size_t i = 0; i < list.parcels.kinds.size(); ++i) {
      const auto tier = as_index(list.parcels.kinds[i].tier);
      if (project.tiers.at(tier).shipping != Tier::Shipping::None)
        slips.slips.push_back(maker.of_kind(i));
    }
  Section rest{"slips-unposted", "Packing slips", {}};
  if (list.rows_left_out > 0)
    add(rest, Notice{Notice::Kind::Warning, "Not everybody has a slip.",
                     plain(words::sentence_case(words::counted(
                               static_cast<std::int64_t>(list.rows_left_out), "row")) +
                           " of the roster could not be read and " +
                           words::agreed("be", static_cast<std::int64_t>(list.rows_left_out)) +
                           " left out. Fix the roster and print again.")});
  add_unposted(rest, project, list);

  Section section{"slips", "Packing slips", {}};
  if (slips.slips.empty()) {
    add(section, body(plain("There is nothing to pack yet: no orders, and no kits expected.")));
  } else {
    // What is sent by e-mail takes the last slip's page where that has room.
    if (!rest.blocks.empty()) slips.slips.push_back({std::exchange(rest.blocks, {}), {}});
    add(section, std::move(slips));
  }
  document.sections.push_back(std::move(section));
  if (!rest.blocks.empty()) document.sections.push_back(std::move(rest));
  return document;
}

} // namespace leafwright::guide
