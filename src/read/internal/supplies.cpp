#include "model/item.h"
#include "read/internal/catalogue.h"
#include "read/internal/elements.h"
#include "read/internal/fields.h"

#include <fmt/format.h>

#include <array>

namespace leafwright::reading {
namespace {

template <class T>
T begun(Context& context, const Element& element) {
  T thing;
  thing.id = id_of(context, element);
  thing.name = words_of(element, "name", name_from_id(thing.id));
  thing.place = element.place();
  return thing;
}

Sold sold_of(Context& context, const Element& element) {
  Sold sold;
  sold.count = whole_number(context, element, "pack", 1);
  sold.price = money_of(context, element, "price");
  sold.each = mass_of(context, element, "each");
  return sold;
}

// Of one sheet whose weight is not said either (common practice).
Length usual_caliper(Stock::Kind kind) {
  switch (kind) {
  case Stock::Kind::Patterned:
  case Stock::Kind::Vellum:
  case Stock::Kind::Clear:
  case Stock::Kind::AdhesiveSheet: return micrometres(120);
  case Stock::Kind::Cardstock:
  case Stock::Kind::Foil:
  case Stock::Kind::Mirror:
  case Stock::Kind::Fabric: return micrometres(300);
  case Stock::Kind::Glitter: return micrometres(450);
  case Stock::Kind::Watercolour: return micrometres(500);
  case Stock::Kind::Magnet: return micrometres(700);
  case Stock::Kind::Chipboard: break;
  }
  return millimetres(1);
}

// Caliper is not always printed on the pack. Bulk of about 1.3 cm³/g for uncoated card and 1.2 for
// text papers (common practice); vellum is denser, clear sheets are said by their maker.
Length estimated_caliper(const Stock& stock) {
  if (stock.grammage.mg_per_m2 <= 0) return usual_caliper(stock.kind);
  const std::int64_t hundredths =
      stock.kind == Stock::Kind::Vellum || stock.kind == Stock::Kind::Clear
          ? 90
          : (stock.kind == Stock::Kind::Cardstock ? 130 : 120);
  // g/m² x cm³/g = µm: here mg/m² x hundredths / 100 000 in µm, x 1000 in nm.
  return {stock.grammage.mg_per_m2 * hundredths / 100};
}

SheetOffer offer_of(Context& context, const Element& element, std::string_view attribute) {
  SheetOffer offer;
  offer.place = element.attribute_place(attribute);
  offer.size = size_of(context, element, attribute, {inches(8, 1, 2), inches(11)}, sheet_sizes());
  offer.name = words_of(element, attribute);
  if (!find_size(sheet_sizes(), offer.name)) offer.name.clear();
  offer.sold = sold_of(context, element);
  return offer;
}

void read_stock(Context& context, const Element& element) {
  Stock stock = begun<Stock>(context, element);
  stock.pattern = choice_of(context, element, "pattern", pattern_words, Stock::Pattern::Plain);
  const bool patterned = stock.pattern != Stock::Pattern::Plain;
  stock.kind = choice_of(context, element, "kind", stock_words,
                         patterned ? Stock::Kind::Patterned : Stock::Kind::Cardstock);
  stock.grammage = grammage_of(context, element, "weight");
  stock.weight_words = words_of(element, "weight");
  stock.caliper = length_of(context, element, "caliper", {});
  stock.caliper_estimated = stock.caliper.nm == 0;
  if (stock.caliper_estimated) stock.caliper = estimated_caliper(stock);
  stock.colour = colour_of(context, element, "colour", stock.colour);
  stock.figure = colour_of(context, element, "figure", stock.figure);
  stock.repeat = length_of(context, element, "repeat", stock.repeat);
  if (stock.repeat < micrometres(200)) {
    if (const auto value = element.attribute("repeat"))
      note(context, *value, "read-measure", "a pattern that repeats after 0.2 mm or more",
           "write the distance from one figure to the next");
    stock.repeat = millimetres(6);
  }
  stock.upright = yes_no(context, element, "upright", false);

  const std::vector<Element> sheets = element.children("sheet");
  for (const Element& sheet : sheets) stock.sheets.push_back(offer_of(context, sheet, "size"));
  const bool both = element.has("sheet") && !sheets.empty();
  if (both || (!element.has("sheet") && sheets.empty())) {
    context.journal.error(both ? "read-either-or" : "read-missing-attribute",
                          both ? element.attribute_place("sheet") : element.place(),
                          both ? "both sheet=\"…\" and <sheet>" : "<stock> without a sheet size",
                          "sheet=\"…\", or a <sheet> for each size",
                          both ? "delete one of the two" : "write sheet=\"letter\" or a measure");
  }
  for (const std::string_view name : {"pack", "price", "each"}) {
    if (sheets.empty() || !element.has(name)) continue;
    context.journal.error("read-either-or", element.attribute_place(name),
                          fmt::format("{} on a <stock> that lists its sheets", name),
                          fmt::format("{} on each <sheet>", name), "move it into the <sheet>");
  }
  if (sheets.empty()) stock.sheets.push_back(offer_of(context, element, "sheet"));

  const Size first = stock.sheets.front().size;
  const bool tall = first.height >= first.width;
  switch (choice_of(context, element, "grain", grain_words, GrainWord::Unknown)) {
  case GrainWord::Long:
    stock.grain = tall ? Stock::Grain::AlongHeight : Stock::Grain::AlongWidth;
    break;
  case GrainWord::Short:
    stock.grain = tall ? Stock::Grain::AlongWidth : Stock::Grain::AlongHeight;
    break;
  case GrainWord::AlongHeight: stock.grain = Stock::Grain::AlongHeight; break;
  case GrainWord::AlongWidth: stock.grain = Stock::Grain::AlongWidth; break;
  case GrainWord::Unknown: break;
  }
  context.project.stocks.push_back(std::move(stock));
}

void read_stamps(Context& context, const Element& element) {
  StampSet set = begun<StampSet>(context, element);
  set.sold = sold_of(context, element);
  for (const Element& child : element.children("image")) {
    StampImage image = begun<StampImage>(context, child);
    image.size = size_of(context, child, "size", {inches(1), inches(1)});
    image.artwork = artwork_of(context, child, image.size);
    set.images.push_back(std::move(image));
  }
  context.project.stamp_sets.push_back(std::move(set));
}

void read_die(Context& context, const Element& element) {
  Die die = begun<Die>(context, element);
  die.size = size_of(context, element, "size", {inches(1), inches(1)});
  die.shape = shape_of(context, element);
  die.sold = sold_of(context, element);
  context.project.dies.push_back(std::move(die));
}

void read_ink(Context& context, const Element& element) {
  Ink ink = begun<Ink>(context, element);
  ink.colour = colour_of(context, element, "colour", ink.colour);
  ink.mark = choice_of(context, element, "mark", mark_words, Ink::Mark::Solid);
  ink.kind = choice_of(context, element, "kind", ink_words, Ink::Kind::Unsaid);
  ink.sold = sold_of(context, element);
  context.project.inks.push_back(std::move(ink));
}

void read_ribbon(Context& context, const Element& element) {
  Ribbon ribbon = begun<Ribbon>(context, element);
  ribbon.kind = element.is("twine") ? Ribbon::Kind::Twine : Ribbon::Kind::Ribbon;
  ribbon.width = length_of(context, element, "width", inches(0, 1, 4));
  const bool twine = ribbon.kind == Ribbon::Kind::Twine;
  ribbon.thickness =
      length_of(context, element, "thickness", twine ? ribbon.width : ribbon.thickness);
  ribbon.spool = length_of(context, element, "spool", {});
  ribbon.colour = colour_of(context, element, "colour", {150, 140, 120});
  ribbon.sold = sold_of(context, element);
  context.project.ribbons.push_back(std::move(ribbon));
}

void read_embellishment(Context& context, const Element& element) {
  Embellishment thing = begun<Embellishment>(context, element);
  thing.size = size_of(context, element, "size", {millimetres(4), millimetres(4)});
  thing.height = length_of(context, element, "height", thing.height);
  thing.small_part = yes_no(context, element, "small-part", true);
  thing.hard = yes_no(context, element, "hard", true);
  thing.shape = shape_of(context, element);
  if (!element.has("shape")) thing.shape.outline = Shape::Outline::Oval;
  thing.artwork = artwork_of(context, element, thing.size);
  thing.colour = colour_of(context, element, "colour", {230, 230, 230});
  thing.sold = sold_of(context, element);
  context.project.embellishments.push_back(std::move(thing));
}

// What must be known to compute consumption depends on how the adhesive is used up.
void read_adhesive(Context& context, const Element& element) {
  Adhesive glue = begun<Adhesive>(context, element);
  glue.kind = choice_of(context, element, "kind", adhesive_words, Adhesive::Kind::Tape);
  using Kind = Adhesive::Kind;
  using Measured = Adhesive::Measured;
  glue.measured = glue.kind == Kind::Glue                              ? Measured::ByMass
                  : glue.kind == Kind::Dots || glue.kind == Kind::Foam ? Measured::ByCount
                                                                       : Measured::ByLength;
  const Length usual = glue.kind == Kind::Foam   ? micrometres(1500)
                       : glue.kind == Kind::Glue ? Length{}
                                                 : micrometres(60);
  glue.thickness = length_of(context, element, "thickness", usual);
  glue.length = length_of(context, element, "length", {});
  glue.piece = size_of(context, element, "piece", {});
  if (element.has("width")) glue.piece.width = length_of(context, element, "width", {});
  if (glue.piece.width.nm == 0)
    glue.piece = glue.measured == Measured::ByCount ? Size{millimetres(9), millimetres(9)}
                                                    : Size{millimetres(8), {}};
  glue.per_pack = whole_number(context, element, "count", 0);
  glue.mass = mass_of(context, element, "mass");
  glue.spread = grammage_of(context, element, "spread");
  if (glue.kind == Kind::Glue && glue.spread.mg_per_m2 == 0) glue.spread = {30'000};
  glue.spacing = length_of(context, element, "spacing", glue.spacing);
  if (glue.spacing < millimetres(2)) glue.spacing = millimetres(30);
  glue.sold = sold_of(context, element);
  context.project.adhesives.push_back(std::move(glue));
}

// What a tool is for when its maker does not say: a blade that cuts so far is a trimmer.
Works usual_works(const Tool& tool) {
  if (tool.cut_length > Length{}) return {Work::Trim};
  switch (tool.risk) {
  case Tool::Risk::Blade: return {Work::HandCut, Work::Knife};
  case Tool::Risk::Heat: return {Work::Heat};
  case Tool::Risk::Pressure: return {Work::DieCut, Work::Emboss};
  case Tool::Risk::None: break;
  }
  return {};
}

void read_tool(Context& context, const Element& element) {
  Tool tool = begun<Tool>(context, element);
  tool.risk = choice_of(context, element, "risk", risk_words, Tool::Risk::None);
  tool.cut_length = length_of(context, element, "cut-length", {});
  tool.smallest_strip = length_of(context, element, "smallest-strip", {});
  tool.stack_height = length_of(context, element, "stack", {});
  tool.size = size_of(context, element, "size", {});
  tool.pattern = choice_of(context, element, "pattern", pattern_words, Stock::Pattern::Plain);
  tool.works = works_of(context, element, "for", WorkOf::Tools).value_or(usual_works(tool));
  tool.optional_use = yes_no(context, element, "optional", false);
  tool.sold = sold_of(context, element);
  context.project.tools.push_back(std::move(tool));
}

// Named envelopes lie as they are addressed, the longer side across; a measure is taken as written.
void read_envelope(Context& context, const Element& element) {
  Envelope envelope = begun<Envelope>(context, element);
  envelope.size =
      size_of(context, element, "size", {inches(5, 3, 4), inches(4, 3, 8)}, envelope_sizes());
  const std::string written = words_of(element, "size");
  if (find_size(envelope_sizes(), written)) {
    envelope.size_name = written;
    if (envelope.size.height > envelope.size.width) envelope.size = envelope.size.turned();
  }
  envelope.grammage = grammage_of(context, element, "weight");
  envelope.colour = colour_of(context, element, "colour", envelope.colour);
  envelope.sold = sold_of(context, element);
  context.project.envelopes.push_back(std::move(envelope));
}

void read_pack(Context& context, const Element& element, const Catalogue& catalogue) {
  Pack pack = begun<Pack>(context, element);
  pack.price = money_of(context, element, "price");
  for (const Element& child : element.children("holds")) {
    const int stock = catalogue.index_of(context, child, "stock", ItemKind::Stock);
    const int sheets = whole_number(context, child, "sheets", 1, 1, 10'000);
    if (stock >= 0) pack.lines.push_back({stock, sheets});
  }
  context.project.packs.push_back(std::move(pack));
}

struct SupplyReader {
  std::string_view element;
  ItemKind kind;
  void (*read)(Context&, const Element&);
};
constexpr std::array supply_readers = {
    SupplyReader{"stock", ItemKind::Stock, read_stock},
    SupplyReader{"stamps", ItemKind::StampSet, read_stamps},
    SupplyReader{"die", ItemKind::Die, read_die},
    SupplyReader{"ink", ItemKind::Ink, read_ink},
    SupplyReader{"ribbon", ItemKind::Ribbon, read_ribbon},
    SupplyReader{"twine", ItemKind::Ribbon, read_ribbon},
    SupplyReader{"embellishment", ItemKind::Embellishment, read_embellishment},
    SupplyReader{"adhesive", ItemKind::Adhesive, read_adhesive},
    SupplyReader{"tool", ItemKind::Tool, read_tool},
    SupplyReader{"envelope", ItemKind::Envelope, read_envelope},
};

} // namespace

Catalogue read_supplies(Context& context, const Element& supplies) {
  Catalogue catalogue;
  std::vector<Element> packs; // read last: they name stocks, which may follow
  const auto add = [&](const Element& element, ItemRef item) {
    catalogue.add(context, element, {Supply::Kind::Item, item, -1, -1, {}});
  };
  for (const Element& element : supplies.children()) {
    for (const SupplyReader& reader : supply_readers) {
      if (!element.is(reader.element)) continue;
      reader.read(context, element);
      const ItemRef item{reader.kind, count_of(context.project, reader.kind) - 1};
      add(element, item);
      int image = 0;
      if (item.kind == ItemKind::StampSet)
        for (const Element& child : element.children("image"))
          catalogue.add(context, child, {Supply::Kind::Image, item, item.index, image++, {}});
    }
    if (element.is("pack")) {
      add(element, {ItemKind::Pack, static_cast<int>(packs.size())});
      packs.push_back(element);
    }
  }
  for (const Element& pack : packs) read_pack(context, pack, catalogue);
  return catalogue;
}

} // namespace leafwright::reading
