#include "plan/change/compare.h"

#include "measure/index.h"
#include "model/work.h"
#include "plan/change/internal/facts_builder.h"

#include <type_traits>

namespace leafwright::change {

const FactValue* Thing::find(std::string_view fact) const {
  for (const Fact& one : facts)
    if (one.name == fact) return &one.worth;
  return nullptr;
}

std::string Writer::piece_name(int index) const {
  const Card* card = find_at(project_.cards, thing_.card);
  const Piece* piece = card ? find_at(card->pieces, index) : nullptr;
  if (!piece) return {};
  return piece->name.empty() ? piece->id : piece->name;
}

// Names are told by what they stand for, so that a new size is a new sentence.
void Writer::put(std::string name, const AuthorText& text) {
  std::string words;
  for (const TextPart& part : text) {
    switch (part.kind) {
    case TextPart::Kind::Words: words += part.words; break;
    case TextPart::Kind::Thing:
      words += part.thing ? item(*part.thing) : piece_name(part.piece);
      if (!part.words.empty()) words += part.words;
      break;
    case TextPart::Kind::Length: words += exact_text(part.length); break;
    case TextPart::Kind::Size: words += exact_text(part.size); break;
    case TextPart::Kind::Number: words += std::to_string(part.number); break;
    }
  }
  put(std::move(name), std::move(words));
}

std::string path_text(const Path& path) {
  std::string text;
  for (const Segment& one : path)
    text += fmt::format("{} {} {} {} {} {} {};", static_cast<int>(one.kind), one.control1.x.nm,
                        one.control1.y.nm, one.control2.x.nm, one.control2.y.nm, one.end.x.nm,
                        one.end.y.nm);
  return text;
}

void Writer::outline(const std::string& name, const Shape& shape) {
  static constexpr const char* outlines[] = {"rectangle", "rounded",   "circle", "oval", "polygon",
                                             "star",      "scalloped", "banner", "tag",  "free"};
  put(name, word(shape.outline, outlines));
  if (shape.edge == Shape::Edge::Stitched) put(name + " edge", std::string("stitched"));
  if (shape.radius.nm != 0) put(name + " radius", shape.radius);
  if (shape.depth.nm != 0) put(name + " depth", shape.depth);
  if (shape.count != 0) put(name + " points", std::int64_t{shape.count});
  if (!shape.path.empty()) drawn(name + " drawing", path_text(shape.path));
  put(name + " drawing box", shape.path_size);
}

void Writer::artwork(const std::string& name, const Artwork& artwork) {
  std::string exact;
  const auto box = [](Rect rect) {
    return fmt::format("{} {} {} {}", rect.origin.x.nm, rect.origin.y.nm, rect.size.width.nm,
                       rect.size.height.nm);
  };
  for (const Art& art : artwork) {
    exact += fmt::format("[{} {} ", art.tone, art.ink);
    exact += std::visit(
        [&](const auto& what) -> std::string {
          using What = std::decay_t<decltype(what)>;
          if constexpr (std::is_same_v<What, TextArt>)
            return fmt::format("text {} {} {} {} {}", what.text, what.face, what.height.nm,
                               what.at.x.nm, what.at.y.nm);
          else if constexpr (std::is_same_v<What, PathArt>)
            return fmt::format("path {} {} ", what.filled, what.stroke.nm) + path_text(what.path);
          else if constexpr (std::is_same_v<What, ShapeArt>)
            return fmt::format("shape {} {} {} {} {} {} {} ", what.filled, what.stroke.nm,
                               static_cast<int>(what.shape.outline), what.shape.radius.nm,
                               what.shape.depth.nm, what.shape.count, box(what.box)) +
                   path_text(what.shape.path);
          else
            return "picture " +
                   (what.picture >= 0 && as_index(what.picture) < project_.pictures.size()
                        ? project_.pictures[as_index(what.picture)].path
                        : std::string()) +
                   " " + box(what.box);
        },
        art.what);
    exact += "]";
  }
  drawn(name, std::move(exact));
}

void Writer::sold(const Sold& sold) {
  put("pack", std::int64_t{sold.count});
  put("price", sold.price);
  put("mass", sold.each);
}

void Writer::picture(const std::string& name, int index, const std::string& words) {
  if (index >= 0 && as_index(index) < project_.pictures.size()) {
    const Picture& picture = project_.pictures[as_index(index)];
    put(name, picture.path);
    drawn(name + " content", picture.bytes);
  }
  put(name + " words", words);
}

std::string Writer::items(const std::vector<ItemRef>& refs) const {
  std::vector<std::string> names;
  for (const ItemRef ref : refs) names.push_back(item(ref));
  return words::series(names);
}

std::string Writer::amount(const Amount& amount) const {
  switch (amount.kind) {
  case Amount::Kind::AsNeeded: return "as needed";
  case Amount::Kind::Whole:
    return amount.count == 1 ? "whole" : fmt::format("{} whole", amount.count);
  case Amount::Kind::Share: return fmt::format("{}/{}", amount.numerator, amount.denominator);
  case Amount::Kind::Length: return exact_text(amount.length);
  case Amount::Kind::Count: return std::to_string(amount.count);
  case Amount::Kind::Sheets:
    return amount.piece == Size{} ? fmt::format("{} sheets", amount.count)
                                  : fmt::format("{} of {}", amount.count, exact_text(amount.piece));
  }
  return {};
}

std::vector<Thing> facts_of(const Project& project) {
  std::vector<Thing> things;
  Thing& head = things.emplace_back();
  head.key = "project";
  head.name = project.title;
  Writer write(head, project);
  write.put("id", project.id);
  write.put("title", project.title);
  write.put("subtitle", project.subtitle);
  write.put("language", project.language);
  write.put("intro", project.intro);
  write.put("maker", project.maker.name);
  write.put("contact", project.maker.contact);
  write.put("web", project.maker.web);
  write.put("terms", project.maker.terms);
  write.put("units", std::string(project.printing.unit == Unit::Inch ? "inch" : "mm"));
  write.put("print-to", project.printing.step);
  write.put("print-other", std::string(project.printing.print_other ? "yes" : "no"));
  write.put("print-other-to", project.printing.other_step);
  write.put("currency", std::string(project.currency.code));
  write.put("edition", std::int64_t{project.edition});
  if (project.date) write.put("date", iso_text(*project.date));
  write.put("accent", project.accent);
  write.put("paper", project.paper);
  write.put("level", project.level);
  for (std::size_t i = 0; i < project.cautions.size(); ++i)
    write.put(fmt::format("caution {}", i + 1), project.cautions[i]);
  for (std::size_t i = 0; i < project.cards.size(); ++i)
    add_card_things(things, project, static_cast<int>(i));
  add_supplies(things, project);
  add_tiers(things, project);
  add_run(things, project);
  return things;
}

namespace {

template <class T>
Writer begin(std::vector<Thing>& things, const Project& project, const char* noun, const T& what) {
  Thing& thing = things.emplace_back();
  thing.kind = Kind::Supply;
  thing.key = std::string(noun) + " " + what.id;
  thing.name = what.name.empty() ? what.id : what.name;
  thing.place = what.place;
  Writer write(thing, project);
  write.put("name", what.name);
  return write;
}

void write_stock(Writer write, const Stock& stock) {
  static constexpr const char* kinds[] = {"cardstock",      "patterned", "vellum",      "clear",
                                          "adhesive sheet", "foil",      "glitter",     "mirror",
                                          "fabric",         "chipboard", "watercolour", "magnet"};
  static constexpr const char* patterns[] = {"plain", "dots",    "stripes", "checks", "leaves",
                                             "waves", "speckle", "hatch",   "blooms"};
  static constexpr const char* grains[] = {"unknown", "along the height", "along the width"};
  write.put("kind", word(stock.kind, kinds));
  for (std::size_t i = 0; i < stock.sheets.size(); ++i) {
    const SheetOffer& offer = stock.sheets[i];
    const std::string name = i == 0 ? "sheet" : fmt::format("sheet {}", i + 1);
    write.put(name, offer.size);
    write.put(name + " name", offer.name);
    write.put(name + " pack", std::int64_t{offer.sold.count});
    write.put(name + " price", offer.sold.price);
    write.put(name + " mass", offer.sold.each);
  }
  write.put("weight", stock.grammage);
  write.put("weight as written", stock.weight_words);
  write.put("thickness", stock.caliper);
  write.yes("thickness estimated", stock.caliper_estimated);
  write.put("colour", stock.colour);
  write.put("colour of figures", stock.figure);
  write.put("pattern", word(stock.pattern, patterns));
  write.put("repeat", stock.repeat);
  write.yes("upright", stock.upright);
  write.put("grain", word(stock.grain, grains));
}

void write_adhesive(Writer write, const Adhesive& one) {
  static constexpr const char* kinds[] = {"tape", "glue", "dots", "foam", "sheet"};
  static constexpr const char* measured[] = {"by length", "by count", "by mass"};
  write.put("kind", word(one.kind, kinds));
  write.put("measured", word(one.measured, measured));
  write.put("thickness", one.thickness);
  write.put("length", one.length);
  write.put("one piece", one.piece);
  write.put("in a pack", std::int64_t{one.per_pack});
  write.put("contents", one.mass);
  write.put("spacing", one.spacing);
  write.put("spread", one.spread);
  write.sold(one.sold);
}

void write_tool(Writer write, const Tool& tool) {
  static constexpr const char* risks[] = {"none", "blade", "heat", "pressure"};
  write.put("risk", word(tool.risk, risks));
  write.put("for", words_of(tool.works));
  write.put("cuts", tool.cut_length);
  write.put("smallest strip", tool.smallest_strip);
  write.put("stack", tool.stack_height);
  write.yes("optional", tool.optional_use);
  write.sold(tool.sold);
}

void write_stamp_set(Writer write, const StampSet& one) {
  for (const StampImage& image : one.images) {
    write.put("image " + image.id, image.size);
    write.put("image " + image.id + " name", image.name);
    write.artwork("image " + image.id + " drawing", image.artwork);
  }
  write.sold(one.sold);
}

void write_ribbon(Writer write, const Ribbon& one) {
  write.put("kind", std::string(one.kind == Ribbon::Kind::Twine ? "twine" : "ribbon"));
  write.put("width", one.width);
  write.put("thickness", one.thickness);
  write.put("spool", one.spool);
  write.put("colour", one.colour);
  write.sold(one.sold);
}

void write_embellishment(Writer write, const Embellishment& one) {
  write.put("size", one.size);
  write.put("height", one.height);
  write.yes("small part", one.small_part);
  write.yes("hard", one.hard);
  write.outline("shape", one.shape);
  write.artwork("drawing", one.artwork);
  write.put("colour", one.colour);
  write.sold(one.sold);
}

} // namespace

void add_supplies(std::vector<Thing>& things, const Project& project) {
  for (const Stock& one : project.stocks) write_stock(begin(things, project, "stock", one), one);
  for (const Pack& one : project.packs) {
    Writer write = begin(things, project, "pack", one);
    for (std::size_t i = 0; i < one.lines.size(); ++i)
      write.put(
          fmt::format("holds {}", i + 1),
          fmt::format("{} × {}", one.lines[i].sheets, id_at(project.stocks, one.lines[i].stock)));
    write.put("price", one.price);
  }
  for (const StampSet& one : project.stamp_sets)
    write_stamp_set(begin(things, project, "stamps", one), one);
  for (const Die& one : project.dies) {
    Writer write = begin(things, project, "die", one);
    write.put("size", one.size);
    write.outline("shape", one.shape);
    write.sold(one.sold);
  }
  static constexpr const char* marks[] = {"solid", "lines", "cross-lines", "dots",
                                          "rings", "waves", "open",        "diagonal"};
  for (const Ink& one : project.inks) {
    Writer write = begin(things, project, "ink", one);
    write.put("colour", one.colour);
    write.put("mark", word(one.mark, marks));
    write.sold(one.sold);
  }
  for (const Ribbon& one : project.ribbons)
    write_ribbon(begin(things, project, "ribbon", one), one);
  for (const Embellishment& one : project.embellishments)
    write_embellishment(begin(things, project, "embellishment", one), one);
  for (const Adhesive& one : project.adhesives)
    write_adhesive(begin(things, project, "adhesive", one), one);
  for (const Tool& one : project.tools)
    if (!one.implied) write_tool(begin(things, project, "tool", one), one);
  for (const Envelope& one : project.envelopes) {
    Writer write = begin(things, project, "envelope", one);
    write.put("size", one.size);
    write.put("size name", one.size_name);
    write.put("weight", one.grammage);
    write.put("colour", one.colour);
    write.sold(one.sold);
  }
}

} // namespace leafwright::change
