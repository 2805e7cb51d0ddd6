#pragma once

#include "model/supply.h"

#include <optional>
#include <string>
#include <vector>

namespace leafwright {

// Text by the author in which names stand for measures: "Tape {mat}, {mat.size}, to the front".
struct TextPart {
  enum class Kind {
    Words,  // `words` as written
    Thing,  // the name (and the letter) of `thing` or of piece `piece`
    Length, // `length`, printed as the project prints lengths
    Size,   // `size`
    Number, // `number`
  };
  Kind kind = Kind::Words;
  std::string words;
  Length length{};
  Size size{};
  std::int64_t number = 0;
  int piece = -1; // index into the card's pieces, for Thing
  std::optional<ItemRef> thing;
};
using AuthorText = std::vector<TextPart>;

// --- Form -------------------------------------------------------------------------------------

struct Form {
  enum class Kind { TopFold, SideFold, Tent, Gate, Z, Accordion, Flat, Tag, Easel, Custom };
  Kind kind = Kind::TopFold;
  int leaves = 0; // Accordion and Custom
  friend constexpr bool operator==(const Form&, const Form&) = default;
};

// A straight score across the whole of a piece, measured from its left (vertical) or top edge.
struct Score {
  bool vertical = false;
  Length at{};
  bool mountain = false; // seen from the side that shows inside; valley otherwise
  friend constexpr bool operator==(const Score&, const Score&) = default;
};

// How a card is looked at. Inside is the card opened flat.
enum class View { Front, Inside, Back };

// A part of the base that things can lie on, in the words of the project file: "front", "inside",
// "inside-top", "inside-left", "back", "left", "right" (gates), "flap", "middle" (Z), "leaf-2".
struct Face {
  std::string id;
  std::string words; // in a sentence: "the front", "the inside, below the fold"
  Size size;
  struct Seen {
    View view = View::Front;
    Point at; // top left corner of the face in that view
  };
  std::vector<Seen> seen;
};

// A leaf of the base and where it comes to lie when the card is closed: a point (x, y) of the
// unfolded base goes to (sign.x * x + by.x, sign.y * y + by.y) on the closed front.
struct Leaf {
  Rect on_base;
  int sign_x = 1, sign_y = 1;
  Point by;
  bool turned_over() const { return (sign_x < 0) != (sign_y < 0); }
};

// What a form makes of a size; form.h has a row for each and makes it.
struct FormPlan {
  Size unfolded;             // of the base
  std::vector<Score> scores; // on the unfolded base as it lies with its inside up
  std::vector<Face> faces;
  Size front_view, inside_view, back_view; // sizes of the three views; 0 when there is none
  std::vector<Leaf> leaves; // between the scores, row by row from the top left of the unfolded base
  // The leaves that make the closed front, from left to right. Empty: one front, its leaf unknown.
  std::vector<int> front_leaves;
  int leaves_behind = 1; // that peep out behind the closed front in a picture
};

// --- Position ---------------------------------------------------------------------------------

// How the author said where a thing lies; `at` of the thing is computed from it.
struct Position {
  enum class Across { Centre, FromLeft, FromRight };
  enum class Down { Centre, FromTop, FromBottom };
  Across across = Across::Centre;
  Down down = Down::Centre;
  Length dx{}, dy{}; // distance of the thing's own edge from the named edge; offset from centre
  std::string over;  // "over ribbon": id of the thing it is centred on, or empty
  Place place;
};

// What a thing lies on.
struct Carrier {
  enum class Kind { Face, Piece, EnvelopeFront, EnvelopeInside };
  Kind kind = Kind::Face;
  int index = 0; // into the card's faces or pieces
  friend constexpr bool operator==(const Carrier&, const Carrier&) = default;
};

// --- Pieces and what is done to them ------------------------------------------------------------

struct Attach {
  // Which part of its back is stuck, seen from the front; sticking.h has their words and places.
  enum class Where {
    AllOver,
    LeftHalf, // of what lies across an opening: as far as that
    RightHalf,
    TopHalf,
    BottomHalf,
    LeftEdge,
    RightEdge,
    TopEdge,
    BottomEdge,
    OpenLeft, // the three other edges: a pocket
    OpenRight,
    OpenTop,
    OpenBottom,
    Frame, // all round its edge, or its window
    Middle,
  };
  int adhesive = -1;   // index into Project::adhesives; -1 = not stuck (base, slipped in)
  bool raised = false; // foam or several layers of it
  int layers = 1;
  std::optional<int> count;     // the author's own number of squares or dots
  std::optional<Length> length; // the author's own length of tape
  Where where = Where::AllOver;
  Place where_place;
};

// One image stamped one or more times.
struct Impression {
  enum class Method { Plain, SecondGeneration, Sponged, Masked, HeatEmbossed };
  enum class Arranged { Once, Row, Column, Grid, Scatter };
  int set = -1, image = -1;
  std::vector<int> inks; // at least one, except Sponged-free masks
  Method method = Method::Plain;
  Arranged arranged = Arranged::Once;
  int times = 1;
  bool fading = false;       // each next one without inking again
  int columns = 1, rows = 1; // Grid
  Angle rotation{};
  std::vector<Point> places; // top left corner of each impression on its carrier, before rotation
  Position position;
  Place place;
};

struct Window { // an opening cut out of a piece
  // A half round cut out of the middle of an edge, so that a finger reaches what lies behind.
  enum class Notch { None, Top, Right, Bottom, Left };
  Shape shape;
  Size size;
  Point at; // top left corner on the piece
  int die = -1;
  Notch notch = Notch::None;
  std::string id;
  Place place;
};

// What is done to a piece beside cutting and stamping; technique.h has a row for each.
struct Finish {
  enum class Kind {
    Embossed,
    Distressed,
    EdgeInked,
    CornersRounded,
    Washed,
    Blended, // through a stencil
    Splattered,
    Coloured,
    Foiled,
    Stitched,
    Torn,
    Glittered,
  };
  enum class Edge { All, Top, Right, Bottom, Left };
  Kind kind = Kind::Embossed;
  int ink = -1;
  int tool = -1;          // folder or stencil among the project's tools
  Length radius{};        // CornersRounded; of Stitched the distance from the edge
  Edge edge = Edge::All;  // Torn
  std::string with;       // folder or tool as the author named it
  std::string area;       // "the petals"; empty: all of it
  std::optional<int> dry; // minutes, as the author says
  std::size_t images = 0; // of its piece, stamped before it
  Place place;
};

struct Piece {
  // Defined in special_members.cpp.
  Piece();
  Piece(const Piece&);
  Piece(Piece&&) noexcept;
  Piece& operator=(const Piece&);
  Piece& operator=(Piece&&) noexcept;
  ~Piece();

  enum class Role { Base, Panel, Band, Liner };
  enum class CutBy { Trimmer, Die, Punch, Scissors };
  std::string id, name; // name in a sentence: "dotted mat"
  std::string
      letter; // "A".. within the whole project, by the reader; same size + stock + shape share none
  Place place, size_place, at_place;
  Role role = Role::Panel;
  int stock = -1;
  Carrier on;
  Size size; // as cut, before rotation; of the base: unfolded
  Shape shape;
  CutBy cut = CutBy::Trimmer;
  int die = -1;
  Size cut_from{}; // rectangle to cut first for a die or scissors; equals size for trimmer pieces
  Point at;        // top left corner of `size`, before rotation, on the carrier
  Position position;
  Angle rotation{}; // about its own centre
  Attach attach;
  std::vector<Impression> stamped;
  std::vector<Window> windows;
  std::vector<Finish> finishes;
  std::vector<Score> scores;
  std::vector<std::string> layers_below; // ids it is tucked under or woven with; usually empty
  int copies = 1;                        // alike on one card, at `more_at` after the first
  std::vector<Point> more_at;
  bool may_overhang = false;        // the author wants it to reach beyond its carrier
  bool equal_reveal_wanted = false; // given as an inset: the same reveal on all sides
  std::string alternative;          // "if you have no die: ..." the author's words, may hold names
  AuthorText alternative_text;
  std::vector<ItemRef> alternative_uses; // what it takes beside scissors
};

struct RibbonUse {
  enum class As { Band, Wrap, Bow, Knot };
  std::string id;
  Place place;
  int ribbon = -1;
  As as = As::Band;
  Carrier on;
  bool vertical = false;
  Length at{};                 // of its centre line, from the top (from the left when vertical)
  Length path{};               // once along or around what it lies on
  Length extra{};              // overlap or tie allowance
  std::optional<Length> given; // the author's own cut length
  Length cut() const { return given ? *given : path + extra; }
  int adhesive = -1;
};

struct EmbellishmentUse {
  std::string id;
  Place place;
  int embellishment = -1;
  Carrier on;
  std::vector<Point> places; // top left corners, one for each
  Position position;
};

// --- The making ---------------------------------------------------------------------------------

// What happens next, in the order written: this is both the layer order and the order of steps.
struct Build {
  enum class Kind { Piece, Ribbon, Embellishment, Stamping, Step };
  Kind kind = Kind::Piece;
  int index = -1; // into pieces, ribbons, embellishments, face_stampings or steps
};

// A box that stands up as the card opens: two slits across a fold of the base, scored between their
// ends and along its own edge. Its front is a face of the card.
struct PopUp {
  std::string id;
  Place place;
  int face = -1;            // of the plan
  Length left{}, width{};   // along the fold
  Length height{}, depth{}; // as it stands in the opened card
};

struct FaceStamping { // straight onto the base or the envelope
  Carrier on;
  Impression impression;
};

struct AuthorStep {
  Place place;
  std::string title;
  AuthorText text;
  std::string for_id; // replaces the generated step of that thing; empty = a step of its own
  // The work that `text` tells in place of ours; without it see usually_replaced().
  std::optional<Works> instead_of;
  std::vector<ItemRef> uses; // beside what the thing itself takes
  AuthorText tip;
  AuthorText caution;
  int picture = -1;          // a photograph, index into Project::pictures
  std::string picture_words; // its alternative text
};

struct Card {
  // Defined in special_members.cpp.
  Card();
  Card(const Card&);
  Card(Card&&) noexcept;
  Card& operator=(const Card&);
  Card& operator=(Card&&) noexcept;
  ~Card();

  std::string id, title;
  Place place;
  Form form;
  Size finished; // closed
  std::string size_name;
  FormPlan plan;
  int minutes = 0; // 0 = not said
  std::string level;
  AuthorText intro;
  std::vector<Piece> pieces; // the base first
  std::vector<RibbonUse> ribbons;
  std::vector<EmbellishmentUse> embellishments;
  std::vector<FaceStamping> face_stampings;
  std::vector<AuthorStep> steps;
  std::vector<PopUp> pop_ups;
  std::vector<Build> build;
  std::vector<AuthorText> tips;
  int envelope = -1; // index into Project::envelopes; -1 = none
  Place envelope_place;
  int picture = -1; // photograph of the finished card
  std::string picture_words;
};

} // namespace leafwright
