#pragma once

#include "measure/amounts/amounts.h"
#include "model/card.h"
#include "model/outline.h"
#include "read/document.h"
#include "read/internal/resolver.h"
#include "read/read.h"

#include <optional>
#include <string_view>
#include <vector>

namespace leafwright::reading {

// The outline attributes of a die, a piece, a window or an embellishment.
Shape shape_of(Context& context, const Element& element);
// SVG 1.1 path data (8.3): M L H V C S Q T A Z, absolute and relative. A number counts `per_x`
// nanometres across and `per_y` down. Quadratic curves and arcs become cubic ones; an arc is cut
// into quarters or less, which keeps it within 0.03 % of its radius.
Parsed<Path> parse_path(std::string_view text, double per_x, double per_y);
// The drawings inside an image or an embellishment of the given size.
Artwork artwork_of(Context& context, const Element& element, Size size);
// Loads a picture of the project; -1 after a finding.
int picture_of(Context& context, const Element& element, std::string_view attribute);

// Splits the author's words at {braces} and works out what stands in them; `card` may be -1 for
// text of the whole project.
AuthorText author_text(Resolver& resolver, const Value& value, int card);

// Fills the cards of the project: pieces, ribbons, embellishments, stamping, steps, in order.
void build_cards(Resolver& resolver);

// A <stamp> on a carrier of the card.
Impression impression_of(Resolver& resolver, const Element& element, int card, Draft::On on);

// Top left corners of `times` things of one size in a row, a column or a grid: spaces alike between
// them and at both ends, or edge to edge between `margin`s when a margin is said.
std::vector<Length> spread(Length whole, Length own, int count, std::optional<Length> margin);
// Points that look scattered and are the same each time: a low-discrepancy sequence in the room
// that is left.
std::vector<Point> scattered(Size whole, Size own, int count);

// <column> elements of the run, when the tiers are read.
void read_columns(Context& context, const std::vector<Element>& columns);
// <order> elements of the run.
void read_orders(Context& context, const std::vector<Element>& orders);

// A side, and the outline, of a piece that runs round another piece or a die; nothing when it does
// not. `depth` counts how many run round each other.
std::optional<Length> side_around(Resolver& resolver, int draft, Axis axis);
std::optional<Shape> shape_around(Resolver& resolver, int draft, int depth = 0);

// The pop-ups of a base: each becomes a face of the card's plan.
void read_pop_ups(Context& context, Card& card, const Element& base);

// <score>, with the place as it is measured from the edge.
Score score_of(Context& context, const Element& element);
// A base, panel, band or liner with everything on it; `draft` is its number.
Piece piece_of(Resolver& resolver, int draft);
Carrier carrier_of(const Resolver& resolver, Draft::On on);
// A position as the author said it, with its distances worked out.
Position position_of(Resolver& resolver, const std::optional<Value>& value, int card);
// The adhesive meant by `raised` or `with`, else the first that suits.
Attach attach_of(Resolver& resolver, int draft);
int usual_adhesive(const Project& project, bool raised);

// <run>
void read_run(Resolver& resolver, const Element& run);
// A date with or without its weekday; nothing, after a finding, when it is none.
std::optional<StatedDate> date_of(Context& context, const Element& element, std::string_view name);

// Fees, postage and outlays; postage sorted by mass.
void read_selling(Context& context, const Element& selling);

// <tier>
void read_tiers(Resolver& resolver, const std::vector<Element>& tiers);
// `as needed`, `whole`, `2 whole`, `1/2 of a pack`, `22 in`, `20`, `4 sheets`, `2 of 6 x 12`.
Parsed<Amount> parse_amount(std::string_view text, Unit bare);

// What <run> says of time and place: <supplier>, <day-off>, <work>, <labels> and <class>.
void read_workdays(Resolver& resolver, const Element& run);

} // namespace leafwright::reading
