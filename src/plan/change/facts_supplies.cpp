#include "plan/change/facts_builder.h"

namespace leafwright::change {
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
  static constexpr const char* kinds[] = {"cardstock", "patterned", "vellum", "clear",
                                          "adhesive sheet"};
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
  write.put("cuts", tool.cut_length);
  write.put("smallest strip", tool.smallest_strip);
  write.put("stack", tool.stack_height);
  write.yes("optional", tool.optional_use);
  write.sold(tool.sold);
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
  for (const StampSet& one : project.stamp_sets) {
    Writer write = begin(things, project, "stamps", one);
    for (const StampImage& image : one.images) {
      write.put("image " + image.id, image.size);
      write.put("image " + image.id + " name", image.name);
      write.artwork("image " + image.id + " drawing", image.artwork);
    }
    write.sold(one.sold);
  }
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
  for (const Ribbon& one : project.ribbons) {
    Writer write = begin(things, project, "ribbon", one);
    write.put("kind", std::string(one.kind == Ribbon::Kind::Twine ? "twine" : "ribbon"));
    write.put("width", one.width);
    write.put("thickness", one.thickness);
    write.put("spool", one.spool);
    write.put("colour", one.colour);
    write.sold(one.sold);
  }
  for (const Embellishment& one : project.embellishments) {
    Writer write = begin(things, project, "embellishment", one);
    write.put("size", one.size);
    write.put("height", one.height);
    write.yes("small part", one.small_part);
    write.yes("hard", one.hard);
    write.outline("shape", one.shape);
    write.artwork("drawing", one.artwork);
    write.put("colour", one.colour);
    write.sold(one.sold);
  }
  for (const Adhesive& one : project.adhesives)
    write_adhesive(begin(things, project, "adhesive", one), one);
  for (const Tool& one : project.tools) write_tool(begin(things, project, "tool", one), one);
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
