#pragma once

#include "measure/amounts/amounts.h"
#include "model/finding.h"
#include "model/outline.h"

#include <cstdint>
#include <initializer_list>
#include <optional>
#include <string>
#include <vector>

// What a maker buys, owns and uses. Every thing has a unique `id` within the project, a `name` as
// it is printed ("Windfall dots") and the place where it was written.

namespace leafwright {

// How a thing is sold; price of the whole pack. A thing without a price is priced at nothing and a
// rule says so where prices matter.
struct Sold {
  int count = 1; // sheets, pieces or spools in a pack
  std::optional<Money> price;
  Mass each{}; // mass of one, when it is not computed from an area; 0 = unknown
};

struct SheetOffer {
  std::string name; // "letter", "12 × 12 in"
  Size size;        // as held: pattern upright
  Sold sold;
  Place place;
};

struct Stock {
  // What each bears, stock_kind.h says.
  enum class Kind {
    Cardstock,
    Patterned,
    Vellum,
    Clear, // acetate
    AdhesiveSheet,
    Foil,
    Glitter,
    Mirror,
    Fabric,
    Chipboard,
    Watercolour,
    Magnet,
  };
  // Patterns are drawn procedurally; the names describe the drawing.
  enum class Pattern { Plain, Dots, Stripes, Checks, Leaves, Waves, Speckle, Hatch, Blooms };
  enum class Grain { Unknown, AlongHeight, AlongWidth }; // of the sheet as held
  std::string id, name;
  Place place;
  Kind kind = Kind::Cardstock;
  std::vector<SheetOffer> sheets; // at least one
  Grammage grammage{};            // 0 = unknown
  std::string weight_words;       // as written: "80 lb cover"
  Length caliper{};               // thickness of one sheet; estimated from grammage when not given
  bool caliper_estimated = false;
  Colour colour{240, 235, 225};
  Colour figure{160, 160, 160}; // colour of the pattern's figures
  Pattern pattern = Pattern::Plain;
  Length repeat = millimetres(6); // distance from one figure to the next
  bool upright = false;           // the pattern has a top: pieces may not be turned
  Grain grain = Grain::Unknown;
};

// A pack that holds sheets of several stocks (two patterns, two sheets each).
struct Pack {
  std::string id, name;
  Place place;
  struct Line {
    int stock = -1; // index into Project::stocks; its first sheet offer is the size meant
    int sheets = 1;
  };
  std::vector<Line> lines;
  std::optional<Money> price;
};

struct Die {
  std::string id, name;
  Place place;
  Size size; // what it cuts out
  Shape shape;
  Sold sold;
};

struct StampImage {
  std::string id, name;
  Place place;
  Size size;
  Artwork artwork;
};
struct StampSet {
  std::string id, name;
  Place place;
  std::vector<StampImage> images;
  Sold sold;
};

struct Ink {
  enum class Mark { Solid, Lines, CrossLines, Dots, Rings, Waves, Open, Diagonal };
  enum class Kind { Unsaid, Dye, Pigment, Solvent };
  std::string id, name;
  Place place;
  Colour colour;
  Mark mark = Mark::Solid; // printed with the colour, so that it is told apart in grey
  Kind kind = Kind::Unsaid;
  Sold sold;
};

struct Ribbon {
  enum class Kind { Ribbon, Twine };
  std::string id, name;
  Place place;
  Kind kind = Kind::Ribbon;
  Length width{}, thickness = micrometres(300);
  Length spool{}; // length of one bolt or spool
  Colour colour;
  Sold sold;
};

struct Embellishment {
  std::string id, name;
  Place place;
  Size size;
  Length height = millimetres(2); // adds to the thickness of the card
  bool small_part = true;         // for the caution
  bool hard = true;               // makes a letter rigid or uneven
  Shape shape;
  Artwork artwork;
  Colour colour;
  Sold sold;
};

struct Adhesive {
  enum class Kind { Tape, Glue, Dots, Foam, Sheet };
  enum class Measured { ByLength, ByCount, ByMass };
  std::string id, name;
  Place place;
  Kind kind = Kind::Tape;
  Measured measured = Measured::ByLength;
  Length thickness{}; // of one layer
  Length length{};    // ByLength: one roll; Sold::count rolls a pack
  Size piece{};       // ByCount: one square or dot; ByLength: width in `width`
  int per_pack = 0;   // ByCount: squares in a pack
  Mass mass{};        // ByMass: contents
  Length spacing =
      millimetres(30); // ByCount: one for about every spacing x spacing, at least 4 (2 on strips)
  Grammage spread{};   // ByMass: glue used per area covered
  Sold sold;
};

// Kinds of work at the table; work.h has their words. `Cut` is any way of cutting to shape, as a
// step tells it; the five before it are what tools do.
enum class Work {
  Trim,
  HandCut,
  Knife,
  DieCut,
  Punch,
  Hole,
  Cut,
  Round,
  Score,
  Fold,
  Stamp,
  StampOff,
  Heat,
  Powder,
  Emboss,
  Ink,
  Distress,
  Stick,
  Light,
  Wash,
  Blend,
  Splatter,
  ColourIn,
  Foil,
  Stitch,
  Tear,
  Glitter,
};

class Works {
 public:
  constexpr Works() = default;
  constexpr Works(std::initializer_list<Work> list) {
    for (const Work work : list) add(work);
  }
  constexpr bool has(Work work) const { return (bits_ & bit(work)) != 0; }
  constexpr bool empty() const { return bits_ == 0; }
  constexpr bool meets(Works other) const { return (bits_ & other.bits_) != 0; }
  constexpr Works& add(Work work) {
    bits_ |= bit(work);
    return *this;
  }
  constexpr Works& add(Works other) {
    bits_ |= other.bits_;
    return *this;
  }
  friend constexpr bool operator==(Works, Works) = default;

 private:
  static constexpr std::uint32_t bit(Work work) { return 1U << static_cast<unsigned>(work); }
  std::uint32_t bits_ = 0;
};

struct Tool {
  enum class Risk { None, Blade, Heat, Pressure };
  std::string id, name;
  Place place;
  Risk risk = Risk::None;
  Works works;          // what it is for
  bool implied = false; // not written by the maker: the work of a card calls for it
  // A straight trimmer's limits; 0 = unknown.
  Length cut_length{}, smallest_strip{}, stack_height{};
  // Of an embossing folder or a stencil: what it covers, and what it leaves; 0 = unknown.
  Size size{};
  Stock::Pattern pattern = Stock::Pattern::Plain;
  bool optional_use = false;
  Sold sold;
};

struct Envelope {
  std::string id, name;
  Place place;
  Size size;
  std::string size_name; // "A2"
  Grammage grammage{};
  Colour colour{250, 248, 243};
  Sold sold;
};

// Any of the things above, and what a tier may also hold.
enum class ItemKind {
  Stock,
  Pack,
  Die,
  StampSet,
  Ink,
  Ribbon,
  Embellishment,
  Adhesive,
  Tool,
  Envelope,
  Tutorial, // this document
  Parts,    // the cut parts of cards
};
struct ItemRef {
  ItemKind kind = ItemKind::Stock;
  int index = -1; // into the project's list of that kind; -1 for Tutorial and Parts
  friend constexpr bool operator==(ItemRef, ItemRef) = default;
};

} // namespace leafwright
