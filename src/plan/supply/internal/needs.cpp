#include "plan/supply/needs.h"

#include "measure/index.h"
#include "model/item.h"
#include "model/sticking.h"
#include "plan/supply/internal/buying_packs.h"
#include "plan/supply/internal/tool_use.h"
#include "plan/supply/sheets.h"

#include <algorithm>
#include <map>
#include <tuple>
#include <utility>

namespace leafwright::supply {

namespace {

constexpr Length corner = inches(0, 1, 4);     // tape left out at each corner
constexpr Length least_tape = inches(0, 1, 4); // shorter pieces of tape do not hold
constexpr Length least_overlap = inches(0, 1, 2);

// How many spacings have begun over `length`.
std::int64_t begun(std::int64_t whole, std::int64_t part) { return (whole + part - 1) / part; }

std::int64_t squares(const Adhesive& adhesive, Size piece) {
  const std::int64_t spacing = std::max<std::int64_t>(adhesive.spacing.nm, micrometres(100).nm);
  if (is_strip(piece, adhesive))
    return std::max<std::int64_t>(2, begun(std::max(piece.width.nm, piece.height.nm), spacing));
  const std::int64_t each = std::max<std::int64_t>(area({{spacing}, {spacing}}).um2, 1);
  return std::max<std::int64_t>(4, begun(area(piece).um2, each));
}

Length tape(const Adhesive& adhesive, Size piece) {
  if (is_strip(piece, adhesive))
    return std::max(std::max(piece.width, piece.height) - 2 * corner, least_tape);
  return std::max(2 * (piece.width + piece.height) - 4 * corner, least_tape);
}

} // namespace

bool is_strip(Size piece, const Adhesive& adhesive) {
  const Length shorter = std::min(piece.width, piece.height);
  if (adhesive.measured == Adhesive::Measured::ByCount) {
    const Length square = std::max(adhesive.piece.width, adhesive.piece.height);
    return shorter < (square > Length{} ? 2 * square : adhesive.spacing);
  }
  const Length width = adhesive.piece.width;
  return shorter < (width > Length{} ? 2 * width : 2 * corner);
}

Consumption consumption_of(const Adhesive& adhesive, const Attach& attach, Size piece) {
  const std::int64_t layers = std::max(attach.layers, 1);
  Consumption taken;
  if (adhesive.kind == Adhesive::Kind::Sheet) {
    taken.area = area(piece) * layers;
    return taken;
  }
  switch (adhesive.measured) {
  case Adhesive::Measured::ByCount:
    taken.count = (attach.count ? *attach.count : squares(adhesive, piece)) * layers;
    break;
  case Adhesive::Measured::ByLength:
    taken.length = (attach.length ? *attach.length : tape(adhesive, piece)) * layers;
    break;
  case Adhesive::Measured::ByMass:
    taken.mass = mass_of(area(piece), adhesive.spread) * layers;
    break;
  }
  return taken;
}

namespace {

// Edges in a row, of which neighbours meet.
Consumption along_edges(const Adhesive& adhesive, const Attach& attach,
                        const std::vector<Rect>& lines, Size piece) {
  const std::int64_t layers = std::max(attach.layers, 1);
  Length run{};
  Area covered{};
  for (const Rect& line : lines) {
    const bool upright = line.left() == Length{}
                             ? line.size.width < piece.width
                             : line.right() == piece.width && line.size.height > line.size.width;
    run += upright ? piece.height : piece.width;
    covered += area(line.size);
  }
  const auto ends = static_cast<std::int64_t>(lines.size() == 1   ? 2
                                              : lines.size() == 4 ? 4
                                                                  : lines.size() - 1);
  Consumption taken;
  if (adhesive.kind == Adhesive::Kind::Sheet) {
    taken.area = covered * layers;
    return taken;
  }
  switch (adhesive.measured) {
  case Adhesive::Measured::ByCount: {
    const std::int64_t spacing = std::max<std::int64_t>(adhesive.spacing.nm, micrometres(100).nm);
    const std::int64_t least = 2 * static_cast<std::int64_t>(lines.size());
    taken.count = (attach.count ? *attach.count : std::max(least, begun(run.nm, spacing))) * layers;
    break;
  }
  case Adhesive::Measured::ByLength:
    taken.length =
        (attach.length ? *attach.length : std::max(run - corner * ends, least_tape)) * layers;
    break;
  case Adhesive::Measured::ByMass: taken.mass = mass_of(covered, adhesive.spread) * layers; break;
  }
  return taken;
}

// A dab: one square, a short strip, or glue under the middle third.
Consumption in_the_middle(const Adhesive& adhesive, const Attach& attach, Size part) {
  if (adhesive.kind == Adhesive::Kind::Sheet) return consumption_of(adhesive, attach, part);
  const std::int64_t layers = std::max(attach.layers, 1);
  Consumption taken = consumption_of(adhesive, attach, part);
  if (adhesive.measured == Adhesive::Measured::ByCount && !attach.count) taken.count = layers;
  if (adhesive.measured == Adhesive::Measured::ByLength && !attach.length)
    taken.length = std::max(std::max(part.width, part.height), least_tape) * layers;
  return taken;
}

} // namespace

Consumption consumption_of(const Project& project, const Card& card, const Piece& piece) {
  const Adhesive* adhesive = find_at(project.adhesives, piece.attach.adhesive);
  if (!adhesive) return {};
  const std::vector<Rect> parts = stuck_parts(project, card, piece);
  using Where = Attach::Where;
  switch (piece.attach.where) {
  case Where::AllOver:
  case Where::LeftHalf:
  case Where::RightHalf:
  case Where::TopHalf:
  case Where::BottomHalf: return consumption_of(*adhesive, piece.attach, parts.front().size);
  case Where::Middle: return in_the_middle(*adhesive, piece.attach, parts.front().size);
  case Where::LeftEdge:
  case Where::RightEdge:
  case Where::TopEdge:
  case Where::BottomEdge:
  case Where::OpenLeft:
  case Where::OpenRight:
  case Where::OpenTop:
  case Where::OpenBottom:
  case Where::Frame: break;
  }
  return along_edges(*adhesive, piece.attach, parts, piece.size);
}

Consumption consumption_of(const Adhesive& adhesive, const RibbonUse& use, Length ribbon_width) {
  const Length overlap = std::max(use.extra, least_overlap);
  Consumption taken;
  if (adhesive.kind == Adhesive::Kind::Sheet) {
    taken.area = area({overlap, ribbon_width});
    return taken;
  }
  switch (adhesive.measured) {
  case Adhesive::Measured::ByCount: taken.count = 2; break;
  case Adhesive::Measured::ByLength: taken.length = overlap; break;
  case Adhesive::Measured::ByMass:
    taken.mass = mass_of(area({overlap, ribbon_width}), adhesive.spread);
    break;
  }
  return taken;
}

namespace {

bool larger(const Need::Part& a, const Need::Part& b) {
  const auto key = [](const Need::Part& part) {
    return std::tuple(-area(part.size).um2, -part.size.width.nm, -part.size.height.nm,
                      -part.length.nm, part.image);
  };
  return key(a) < key(b);
}

class Tally {
 public:
  explicit Tally(const Project& project) : project_(project) {}

  void add_card(int index) {
    const Card* card = find_at(project_.cards, index);
    if (!card) return;
    card_ = index;
    for (const Piece& piece : card->pieces) add_piece(piece);
    for (const RibbonUse& use : card->ribbons) add_ribbon(use);
    for (const EmbellishmentUse& use : card->embellishments)
      if (find_at(project_.embellishments, use.embellishment))
        need({ItemKind::Embellishment, use.embellishment}).count +=
            static_cast<std::int64_t>(use.places.size());
    for (const FaceStamping& stamping : card->face_stampings)
      add_impression(stamping.impression, 1);
    if (find_at(project_.envelopes, card->envelope))
      need({ItemKind::Envelope, card->envelope}).count += 1;
    for (const AuthorStep& step : card->steps) add_used(step.uses);
    for (const Piece& piece : card->pieces) add_used(piece.alternative_uses);
    for (std::size_t i = 0; i < project_.tools.size(); ++i) {
      const ToolUse use = tool_use(project_, *card, static_cast<int>(i));
      const ItemRef tool{ItemKind::Tool, static_cast<int>(i)};
      if (use == ToolUse::Yes) need(tool);
      if (use == ToolUse::Unknown) listed(tool);
    }
  }

  Needs take() {
    Needs needs;
    needs.reserve(entries_.size());
    for (auto& [key, entry] : entries_) {
      for (const auto& [part, count] : entry.parts) {
        auto [width, height, length, image] = part;
        entry.need.parts.push_back({{{width}, {height}}, {length}, image, count});
      }
      std::sort(entry.need.parts.begin(), entry.need.parts.end(), larger);
      needs.push_back(std::move(entry.need));
    }
    return needs;
  }

 private:
  using PartKey = std::tuple<std::int64_t, std::int64_t, std::int64_t, int>;
  struct Entry {
    Need need;
    std::map<PartKey, std::int64_t> parts;
  };

  Entry& entry(ItemRef item) {
    Entry& found = listed(item);
    if (found.need.cards.empty() || found.need.cards.back() != card_)
      found.need.cards.push_back(card_);
    return found;
  }
  // The entry, whichever card it is for.
  Entry& listed(ItemRef item) {
    const Group group = group_of(project_, item);
    Entry& found = entries_[{group, kind_row(item.kind).rank, item.index}];
    found.need.item = item;
    found.need.group = group;
    found.need.consumed = kind_row(item.kind).counted != KindRow::Counted::Things;
    return found;
  }
  Need& need(ItemRef item) { return entry(item).need; }

  // What a step names beside what its thing takes: counted things once for each time, all else is
  // at hand.
  void add_used(const std::vector<ItemRef>& uses) {
    for (const ItemRef item : uses) {
      if (item_name(project_, item).empty()) continue;
      need(item).count += kind_row(item.kind).counted == KindRow::Counted::Pieces ? 1 : 0;
    }
  }

  void add_piece(const Piece& piece) {
    const Card* card = find_at(project_.cards, card_);
    const std::int64_t copies = std::max(piece.copies, 1);
    const Size cut = rectangle_of(piece);
    if (find_at(project_.stocks, piece.stock)) {
      Entry& stock = entry({ItemKind::Stock, piece.stock});
      stock.need.count += copies;
      stock.need.area += area(cut) * copies;
      stock.parts[{cut.width.nm, cut.height.nm, 0, -1}] += copies;
    }
    if (find_at(project_.dies, piece.die)) need({ItemKind::Die, piece.die}).count += copies;
    for (const Window& window : piece.windows)
      if (find_at(project_.dies, window.die)) need({ItemKind::Die, window.die}).count += copies;
    for (const Impression& impression : piece.stamped) add_impression(impression, copies);
    for (const Finish& finish : piece.finishes)
      if (find_at(project_.inks, finish.ink)) need({ItemKind::Ink, finish.ink}).count += copies;
    if (find_at(project_.adhesives, piece.attach.adhesive))
      add_adhesive(piece.attach.adhesive, consumption_of(project_, *card, piece), copies);
  }

  void add_adhesive(int index, const Consumption& taken, std::int64_t times) {
    Need& adhesive = need({ItemKind::Adhesive, index});
    adhesive.count += taken.count * times;
    adhesive.length += taken.length * times;
    adhesive.mass += taken.mass * times;
    adhesive.area += taken.area * times;
  }

  void add_ribbon(const RibbonUse& use) {
    const Ribbon* ribbon = find_at(project_.ribbons, use.ribbon);
    if (!ribbon) return;
    Entry& cut = entry({ItemKind::Ribbon, use.ribbon});
    cut.need.count += 1;
    cut.need.length += use.cut();
    cut.parts[{0, 0, use.cut().nm, -1}] += 1;
    if (const Adhesive* adhesive = find_at(project_.adhesives, use.adhesive))
      add_adhesive(use.adhesive, consumption_of(*adhesive, use, ribbon->width), 1);
  }

  // A fading row is inked once; everything else is inked for each impression.
  void add_impression(const Impression& impression, std::int64_t copies) {
    const std::int64_t times = std::max(impression.times, 1);
    if (find_at(project_.stamp_sets, impression.set)) {
      Entry& set = entry({ItemKind::StampSet, impression.set});
      set.need.count += times * copies;
      set.parts[{0, 0, 0, impression.image}] += times * copies;
    }
    for (const int ink : impression.inks)
      if (find_at(project_.inks, ink))
        need({ItemKind::Ink, ink}).count += (impression.fading ? 1 : times) * copies;
  }

  const Project& project_;
  int card_ = -1;
  std::map<std::tuple<Group, int, int>, Entry> entries_;
};

void multiply(Needs& needs, std::int64_t times) {
  for (Need& need : needs) {
    need.count *= times;
    need.area = need.area * times;
    need.length = need.length * times;
    need.mass = need.mass * times;
    for (Need::Part& part : need.parts) part.count *= times;
  }
}

} // namespace

std::string_view group_words(Group group) {
  switch (group) {
  case Group::Cardstock: return "Cardstock";
  case Group::Patterned: return "Patterned paper";
  case Group::RibbonAndEmbellishments: return "Ribbon and embellishments";
  case Group::StampsDiesInks: return "Stamps, dies and inks";
  case Group::AdhesivesAndTools: return "Adhesives and tools";
  case Group::Envelopes: break;
  }
  return "Envelopes";
}

Needs needs_of(const Project& project, int card) {
  Tally tally(project);
  tally.add_card(card);
  return tally.take();
}

Needs needs_of_set(const Project& project) {
  Tally tally(project);
  for (std::size_t i = 0; i < project.cards.size(); ++i) tally.add_card(static_cast<int>(i));
  return tally.take();
}

Needs needs_of_kit(const Project& project, int kits) {
  Needs needs = needs_of_set(project);
  multiply(needs, std::int64_t{std::max(kits, 0)} * std::max(project.run.of_each, 0));
  return needs;
}

const Need* find(const Needs& needs, ItemRef item) {
  const auto found = std::find_if(needs.begin(), needs.end(),
                                  [item](const Need& need) { return need.item == item; });
  return found == needs.end() ? nullptr : &*found;
}

} // namespace leafwright::supply
