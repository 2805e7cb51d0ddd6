#include "read/internal/vocabulary.h"

#include "measure/letters.h"
#include "read/source.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cstddef>
#include <string>

namespace leafwright::reading {
namespace {

constexpr std::size_t longest = 40; // names beyond are not compared: nobody means them by mistake

std::string plain(std::string_view word) {
  std::string out;
  for (const char c : word) {
    if (c == '-' || c == '_') continue;
    out += small_letter(c);
  }
  return out;
}

// Optimal string alignment; three rows are enough because a swap looks back two.
std::size_t distance(std::string_view a, std::string_view b) {
  std::array<std::array<std::size_t, longest + 1>, 3> rows{};
  const auto row = [&](std::size_t i) -> auto& { return rows.at(i % 3); };
  for (std::size_t j = 0; j <= b.size(); ++j) row(0).at(j) = j;
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row(i).at(0) = i;
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const std::size_t replaced = row(i - 1).at(j - 1) + (a[i - 1] == b[j - 1] ? 0 : 1);
      std::size_t best = std::min({replaced, row(i - 1).at(j) + 1, row(i).at(j - 1) + 1});
      const bool swapped = i > 1 && j > 1 && a[i - 1] == b[j - 2] && a[i - 2] == b[j - 1];
      if (swapped) best = std::min(best, row(i - 2).at(j - 2) + 1);
      row(i).at(j) = best;
    }
  }
  return row(a.size()).at(b.size());
}

} // namespace

std::string_view nearest_name(std::string_view word, std::span<const std::string_view> candidates) {
  const std::string wanted = plain(word);
  if (wanted.empty() || wanted.size() > longest) return {};
  std::size_t best = std::max<std::size_t>(1, (wanted.size() + 1) / 3) + 1;
  std::string_view nearest;
  for (const std::string_view candidate : candidates) {
    const std::string other = plain(candidate);
    if (other.empty() || other.size() > longest) continue;
    const std::size_t apart =
        other.size() > wanted.size() ? other.size() - wanted.size() : wanted.size() - other.size();
    if (apart >= best) continue;
    const std::size_t d = distance(wanted, other);
    if (d < best && d < wanted.size()) {
      best = d;
      nearest = candidate;
    }
  }
  return nearest;
}

std::string did_you_mean(std::string_view word, std::span<const std::string_view> candidates) {
  const std::string_view near = nearest_name(word, candidates);
  if (!near.empty()) return fmt::format("did you mean {}?", near);
  if (candidates.empty()) return "there is none to choose from";
  constexpr std::size_t most = 8;
  std::string list;
  for (std::size_t i = 0; i < candidates.size() && i < most; ++i)
    list += fmt::format("{}{}", i == 0 ? "" : ", ", candidates[i]);
  return fmt::format("choose one of: {}{}", list, candidates.size() > most ? " …" : "");
}

namespace {

constexpr std::string_view piece_children =
    "score* stamp* window* emboss* distress* ink-edge* round-corners* alternative*";
constexpr std::string_view piece_choices =
    "size|inset|width,height at|places raised|with squares|tape";

// One row for each attribute; those of a group, named with @, belong to all that list it.
// clang-format off
constexpr std::array attributes = {
    Attribute{"@thing", "id", "name-of-thing", true, "", "name by which other elements mean it"},
    Attribute{"@thing", "name", "words", false, "the id in words", "as it is printed"},
    Attribute{"@sold", "pack", "count", false, "1", "how many in a pack"},
    Attribute{"@sold", "price", "money", false, "", "of the pack"},
    Attribute{"@sold", "each", "words", false, "", "mass of one: 12 g"},
    Attribute{"@outline", "shape", "outline-word", false, "rectangle", "as in Outlines"},
    Attribute{"@outline", "grid", "grid", false, "the size", "units wide x high"},
    Attribute{"@outline", "outline", "path-data", false, "", "path data of a free outline"},
    Attribute{"@outline", "radius", "measure", false, "", "of corners, bumps or the hole of a tag"},
    Attribute{"@outline", "depth", "measure", false, "", "of a banner, a star or a tag"},
    Attribute{"@outline", "points", "count", false, "", "corners of a polygon or star"},
    Attribute{"@outline", "edge", "plain|stitched", false, "plain", "stitched draws a stitched line"},
    Attribute{"@piece", "id", "name-of-thing", true, "", "name by which other elements mean it"},
    Attribute{"@piece", "name", "words", false, "the id in words", "as it is printed"},
    Attribute{"@piece", "like", "scoped-name", false, "", "takes from that piece all that is not said here"},
    Attribute{"@piece", "stock", "name-of-thing", false, "", "id of a stock"},
    Attribute{"@piece", "on", "words", false, "front", "a face or another piece"},
    Attribute{"@piece", "size", "sides", false, "", "width x height"},
    Attribute{"@piece", "inset", "measure", false, "", "leaves the same on all sides"},
    Attribute{"@piece", "width", "measure", false, "", "instead of a size"},
    Attribute{"@piece", "height", "measure", false, "", "instead of a size"},
    Attribute{"@piece", "at", "position", false, "centred", "where it lies"},
    Attribute{"@piece", "places", "points", false, "", "top left corners, one for each"},
    Attribute{"@piece", "turn", "angle", false, "0", "degrees clockwise, about its middle"},
    Attribute{"@piece", "die", "name-of-thing", false, "", "id of a die"},
    Attribute{"@piece", "cut", "cut-by", false, "from die and shape", "with what it is cut to shape"},
    Attribute{"@piece", "cut-from", "sides", false, "1/8 in or 3 mm more on each side", "rectangle to cut first"},
    Attribute{"@piece", "raised", "words", false, "", "yes (the first foam) or id of an adhesive"},
    Attribute{"@piece", "with", "words", false, "first tape, else glue", "id of an adhesive, or nothing"},
    Attribute{"@piece", "layers", "count", false, "1", "of foam"},
    Attribute{"@piece", "squares", "count", false, "worked out", "your own number"},
    Attribute{"@piece", "tape", "measure", false, "worked out", "your own length"},
    Attribute{"@piece", "over-edge", "yes-no", false, "no", "it may reach beyond what it lies on"},
    Attribute{"@piece", "under", "names-of-things", false, "", "ids of things it is tucked under"},
    Attribute{"@stamping", "image", "scoped-name", true, "", "id of a stamp image"},
    Attribute{"@stamping", "ink", "names-of-things", false, "", "one id or several in order"},
    Attribute{"@stamping", "method", "plain|second-generation|sponged|masked|heat-embossed", false, "plain", "how it is stamped"},
    Attribute{"@stamping", "times", "count", false, "1", "how often"},
    Attribute{"@stamping", "fading", "yes-no", false, "no", "each next one without inking again"},
    Attribute{"@stamping", "columns", "count", false, "1", "of a grid"},
    Attribute{"@stamping", "rows", "count", false, "1", "of a grid"},
    Attribute{"@stamping", "turn", "angle", false, "0", "degrees clockwise, about its middle"},
    Attribute{"@stamping", "at", "position", false, "centred", "where it lies"},
    Attribute{"@stamping", "places", "points", false, "", "top left corners, one for each"},
    Attribute{"project", "version", "1", true, "", "1"},
    Attribute{"project", "id", "name-of-thing", true, "", "name by which other elements mean it"},
    Attribute{"project", "title", "words", true, "", "as it is printed"},
    Attribute{"project", "subtitle", "any-words", false, "", "below the title"},
    Attribute{"project", "language", "language", false, "en-US", "of the documents"},
    Attribute{"project", "units", "inch|mm", false, "inch", "of bare numbers and of what is printed"},
    Attribute{"project", "print-to", "step", false, "1/16 or 0.5", "mark of the ruler that printed lengths are rounded to"},
    Attribute{"project", "print-other", "yes-no", false, "no", "lists give sizes in the other unit, too"},
    Attribute{"project", "print-other-to", "step", false, "0.5 mm or 1/16", "the same for the unit beside it"},
    Attribute{"project", "currency", "currency", false, "USD", "ISO 4217"},
    Attribute{"project", "edition", "count", false, "1", "counts up with each change that buyers see"},
    Attribute{"project", "date", "words", false, "", "of this edition"},
    Attribute{"project", "accent", "colour", false, "#3d5e49", "the one accent color"},
    Attribute{"project", "paper", "letter|a4", false, "letter, with mm a4", "of the documents"},
    Attribute{"project", "level", "words", false, "", "words for the cover"},
    Attribute{"maker", "name", "words", true, "", "on the cover"},
    Attribute{"maker", "contact", "words", false, "", "where buyers reach you"},
    Attribute{"maker", "web", "words", false, "", "your page"},
    Attribute{"stock", "kind", "cardstock|patterned|vellum|clear|adhesive-sheet", false, "cardstock, or patterned with a pattern", "what paper it is"},
    Attribute{"stock", "weight", "words", false, "", "80 lb cover, 216 gsm"},
    Attribute{"stock", "caliper", "measure", false, "from the weight", "thickness of one sheet"},
    Attribute{"stock", "colour", "colour", false, "", "for drawing"},
    Attribute{"stock", "figure", "colour", false, "", "color of the pattern’s figures"},
    Attribute{"stock", "pattern", "plain|dots|stripes|checks|leaves|waves|speckle|hatch|blooms", false, "plain", "of the drawing"},
    Attribute{"stock", "repeat", "measure", false, "6 mm", "from one figure to the next"},
    Attribute{"stock", "upright", "yes-no", false, "no", "the pattern has a top: pieces may not be turned"},
    Attribute{"stock", "grain", "long|short|along-height|along-width", false, "", "of the sheet; long is along the longer side"},
    Attribute{"stock", "sheet", "sides", false, "", "a name such as letter or A4, or a size; or a sheet element for each size"},
    Attribute{"sheet", "size", "sides", true, "", "a name such as letter, or a size"},
    Attribute{"pack", "price", "money", false, "", "of the pack"},
    Attribute{"holds", "stock", "name-of-thing", true, "", "id of a stock"},
    Attribute{"holds", "sheets", "count", false, "1", "how many"},
    Attribute{"image", "size", "sides", true, "", "of the impression"},
    Attribute{"image", "grid", "grid", false, "the size", "units wide x high"},
    Attribute{"path", "d", "path-data", true, "", "SVG path data"},
    Attribute{"path", "line", "grid-measure", false, "", "drawn that thick instead of filled"},
    Attribute{"path", "tone", "share-of-one", false, "1", "how strong, 0 to 1"},
    Attribute{"path", "ink", "count", false, "1", "2 for the second ink of the stamping"},
    Attribute{"text", "face", "words", false, "display", "display, display-italic, text, or a font file"},
    Attribute{"text", "height", "grid-measure", true, "", "of the type"},
    Attribute{"text", "at", "grid-points", false, "the middle", "its middle"},
    Attribute{"text", "tone", "share-of-one", false, "1", "how strong, 0 to 1"},
    Attribute{"text", "ink", "count", false, "1", "2 for the second ink of the stamping"},
    Attribute{"shape", "outline", "outline-word", true, "", "as in Outlines"},
    Attribute{"shape", "grid", "grid", false, "the size", "units wide x high"},
    Attribute{"shape", "d", "path-data", false, "", "SVG path data"},
    Attribute{"shape", "radius", "grid-measure", false, "", "of corners, bumps or the hole of a tag"},
    Attribute{"shape", "depth", "grid-measure", false, "", "of a banner, a star or a tag"},
    Attribute{"shape", "points", "count", false, "", "corners of a polygon or star"},
    Attribute{"shape", "edge", "plain|stitched", false, "plain", "stitched draws a stitched line"},
    Attribute{"shape", "box", "words", false, "the whole", "left top width height"},
    Attribute{"shape", "line", "grid-measure", false, "", "drawn that thick instead of filled"},
    Attribute{"shape", "tone", "share-of-one", false, "1", "how strong, 0 to 1"},
    Attribute{"shape", "ink", "count", false, "1", "2 for the second ink of the stamping"},
    Attribute{"picture", "file", "file-name", true, "", "PNG or JPEG in the project’s folder"},
    Attribute{"picture", "box", "words", false, "the whole", "left top width height"},
    Attribute{"picture", "tone", "share-of-one", false, "1", "how strong, 0 to 1"},
    Attribute{"picture", "ink", "count", false, "1", "2 for the second ink of the stamping"},
    Attribute{"die", "size", "sides", true, "", "of what it cuts"},
    Attribute{"ink", "colour", "colour", false, "", "for drawing"},
    Attribute{"ink", "mark", "solid|lines|cross-lines|dots|rings|waves|open|diagonal", false, "solid", "printed with the color, so that inks are told apart in gray"},
    Attribute{"spool", "width", "measure", true, "", "of the ribbon"},
    Attribute{"spool", "thickness", "measure", false, "0.3 mm; of twine its width", "of the ribbon"},
    Attribute{"spool", "spool", "measure", false, "", "length of one spool"},
    Attribute{"spool", "colour", "colour", false, "", "for drawing"},
    Attribute{"embellishment", "size", "sides", true, "", "of one"},
    Attribute{"embellishment", "height", "measure", false, "2 mm", "what it adds to the thickness"},
    Attribute{"embellishment", "small-part", "yes-no", false, "yes", "can be swallowed: for the caution"},
    Attribute{"embellishment", "hard", "yes-no", false, "yes", "makes a letter rigid or uneven"},
    Attribute{"embellishment", "colour", "colour", false, "", "for drawing"},
    Attribute{"adhesive", "kind", "tape|glue|dots|foam|sheet", true, "", "how it is used up"},
    Attribute{"adhesive", "thickness", "measure", false, "", "of one layer"},
    Attribute{"adhesive", "width", "measure", false, "", "of the tape"},
    Attribute{"adhesive", "length", "measure", false, "", "of a roll"},
    Attribute{"adhesive", "piece", "sides", false, "", "size of one square or dot"},
    Attribute{"adhesive", "count", "count", false, "", "squares or dots in a pack"},
    Attribute{"adhesive", "spacing", "measure", false, "30 mm", "one square for about every spacing x spacing"},
    Attribute{"adhesive", "mass", "words", false, "", "contents"},
    Attribute{"adhesive", "spread", "words", false, "30 gsm", "glue used for an area"},
    Attribute{"tool", "for", "work-of-tools", false, "by risk and cut-length", "kinds of work it does"},
    Attribute{"tool", "risk", "none|blade|heat|pressure", false, "none", "what to beware of"},
    Attribute{"tool", "cut-length", "measure", false, "", "the longest cut of a trimmer"},
    Attribute{"tool", "smallest-strip", "measure", false, "", "the least it holds"},
    Attribute{"tool", "stack", "measure", false, "", "the thickest pile it cuts"},
    Attribute{"tool", "optional", "yes-no", false, "no", "one can do without"},
    Attribute{"envelope", "size", "sides", true, "", "a name such as A2, or a size as it lies"},
    Attribute{"envelope", "weight", "words", false, "", "80 lb cover, 216 gsm"},
    Attribute{"envelope", "colour", "colour", false, "", "for drawing"},
    Attribute{"card", "id", "name-of-thing", true, "", "name by which other elements mean it"},
    Attribute{"card", "title", "words", true, "", "as it is printed"},
    Attribute{"card", "form", "top-fold|side-fold|tent|gate|z|flat|tag|accordion|custom", true, "", "how it folds"},
    Attribute{"card", "leaves", "count", false, "", "of an accordion or a custom form"},
    Attribute{"card", "unfolded", "sides", false, "", "size of a custom form’s base"},
    Attribute{"card", "size", "sides", true, "", "closed: a name such as A2, or a size"},
    Attribute{"card", "minutes", "count", false, "", "to make one"},
    Attribute{"card", "level", "words", false, "", "words for the cover"},
    Attribute{"card", "envelope", "name-of-thing", false, "", "id of an envelope"},
    Attribute{"card", "picture", "file-name", false, "", "a photograph"},
    Attribute{"card", "picture-words", "words", false, "", "for those who cannot see it"},
    Attribute{"base", "id", "name-of-thing", false, "", "name by which other elements mean it"},
    Attribute{"base", "name", "words", false, "the id in words", "as it is printed"},
    Attribute{"base", "stock", "name-of-thing", true, "", "id of a stock"},
    Attribute{"base", "cut", "cut-by", false, "from die and shape", "with what it is cut to shape"},
    Attribute{"score", "at", "measure", true, "", "from the left or top edge"},
    Attribute{"score", "along", "height|width", false, "height", "which way it runs"},
    Attribute{"score", "fold", "valley|mountain", false, "valley", "which way"},
    Attribute{"card/stamp", "on", "words", true, "", "a face or the envelope"},
    Attribute{"window", "id", "name-of-thing", false, "", "name by which other elements mean it"},
    Attribute{"window", "size", "sides", false, "", "width x height"},
    Attribute{"window", "die", "name-of-thing", false, "", "id of a die"},
    Attribute{"window", "at", "position", false, "centred", "where it lies"},
    Attribute{"emboss", "with", "words", false, "", "folder in words"},
    Attribute{"distress", "with", "words", false, "", "tool in words"},
    Attribute{"ink-edge", "ink", "name-of-thing", true, "", "id of an ink"},
    Attribute{"ink-edge", "with", "words", false, "a sponge", "tool in words"},
    Attribute{"round-corners", "radius", "measure", true, "", "of the corners"},
    Attribute{"round-corners", "with", "words", false, "a corner rounder", "tool in words"},
    Attribute{"alternative", "uses", "names-of-things", false, "", "ids of the tools and supplies it takes besides"},
    Attribute{"ribbon", "id", "name-of-thing", false, "", "name by which other elements mean it"},
    Attribute{"ribbon", "of", "name-of-thing", true, "", "id of a ribbon or twine"},
    Attribute{"ribbon", "as", "band|wrap|bow|knot", false, "band", "how it is laid"},
    Attribute{"ribbon", "on", "words", false, "front", "a face or a piece"},
    Attribute{"ribbon", "along", "height|width", false, "width", "which way it runs"},
    Attribute{"ribbon", "at", "position", false, "", "of its center line"},
    Attribute{"ribbon", "extra", "measure", false, "by what it is", "for the overlap or the tie"},
    Attribute{"ribbon", "length", "measure", false, "", "the whole cut"},
    Attribute{"ribbon", "adhesive", "name-of-thing", false, "first tape, else glue", "id of an adhesive"},
    Attribute{"embellish", "id", "name-of-thing", false, "", "name by which other elements mean it"},
    Attribute{"embellish", "with", "name-of-thing", true, "", "id of an embellishment"},
    Attribute{"embellish", "on", "words", false, "front", "a face or another piece"},
    Attribute{"embellish", "times", "count", false, "1", "how often"},
    Attribute{"embellish", "at", "position", false, "centred", "where it lies"},
    Attribute{"embellish", "places", "points", false, "", "top left corners, one for each"},
    Attribute{"step", "for", "name-of-thing", false, "", "id of the thing whose step it replaces"},
    Attribute{"step", "instead-of", "work-of-steps", false, "fold stamp emboss ink distress stick", "the work that your words tell themselves"},
    Attribute{"step", "uses", "names-of-things", false, "", "ids of the tools and supplies it takes besides"},
    Attribute{"step", "title", "words", false, "as written for the thing", "of the step"},
    Attribute{"step", "picture", "file-name", false, "", "a photograph"},
    Attribute{"step", "picture-words", "words", false, "", "for those who cannot see it"},
    Attribute{"tier", "price", "money", false, "", "of one kit"},
    Attribute{"tier", "audience", "anyone|team", false, "anyone", "who may take it"},
    Attribute{"tier", "open", "until-reply-by|anytime", false, "until-reply-by", "how long"},
    Attribute{"tier", "shipping", "included|none|money", false, "", "included, none or an amount"},
    Attribute{"tier", "parts", "cut|uncut", false, "uncut", "whether its parts come cut"},
    Attribute{"tier", "ready", "ready-parts", false, "", "what is done to cut parts"},
    Attribute{"include", "item", "name-of-thing", true, "", "id of a supply, tutorial or parts"},
    Attribute{"include", "amount", "amount", false, "as needed", "as in 1/2 of a pack, 22 in, 4 sheets"},
    Attribute{"include", "gift", "yes-no", false, "no", "free with the kit"},
    Attribute{"include", "cards", "names-of-things", false, "all", "parts of these only"},
    Attribute{"include", "value", "money", false, "what the amount costs in a shop", "as you value it"},
    Attribute{"own", "item", "name-of-thing", false, "", "id of a supply"},
    Attribute{"own", "any", "names-of-things", false, "", "ids: one of several is enough"},
    Attribute{"swap", "allowed", "yes-no", false, "yes", "whether swaps are"},
    Attribute{"swap", "top-up", "yes-no", false, "no", "she may pay the difference"},
    Attribute{"swap", "over", "money", false, "", "only dearer items give credit"},
    Attribute{"swap", "most", "count", false, "any number", "how many"},
    Attribute{"swap", "round-down", "money", false, "", "credit, to a multiple"},
    Attribute{"choice", "item", "name-of-thing", true, "", "id of a supply"},
    Attribute{"choice", "amount", "amount", false, "whole", "as in an include"},
    Attribute{"choice", "value", "money", false, "what the amount costs in a shop", "as you value it"},
    Attribute{"choice", "most", "count", false, "1", "how often for one buyer"},
    Attribute{"run", "of-each", "count", false, "2", "cards of each design in a kit"},
    Attribute{"run", "spare", "number", false, "0", "percent cut beyond what is promised"},
    Attribute{"run", "spare-pieces", "number", false, "0", "so many more of each size"},
    Attribute{"run", "reply-by", "words", false, "", "Tue 2027-03-16"},
    Attribute{"run", "ship-by", "words", false, "", "Tue 2027-03-16"},
    Attribute{"run", "roster", "file-name", false, "", "a CSV file in the folder"},
    Attribute{"run", "wrapping", "words", false, "", "what an empty parcel weighs"},
    Attribute{"order", "name", "words", true, "", "of the buyer, or a number"},
    Attribute{"order", "address", "words", false, "", "its lines parted by a vertical bar"},
    Attribute{"order", "tier", "words", true, "", "id or name"},
    Attribute{"order", "quantity", "count", false, "1", "kits"},
    Attribute{"order", "owned", "words", false, "", "ids or names, parted by ;"},
    Attribute{"order", "swaps", "words", false, "", "ids or names, parted by ;"},
    Attribute{"order", "region", "words", false, "", "for postage"},
    Attribute{"order", "note", "words", false, "", "for the slip"},
    Attribute{"order", "date", "words", false, "", "a day"},
    Attribute{"supplier", "name", "words", true, "", "as you call them"},
    Attribute{"supplier", "lead-days", "number", true, "", "working days from ordering to arrival"},
    Attribute{"supplier", "items", "names-of-things", false, "all that no other has", "ids"},
    Attribute{"day-off", "date", "words", true, "", "a day"},
    Attribute{"day-off", "until", "words", false, "", "the last day"},
    Attribute{"day-off", "name", "words", false, "", "as you call it"},
    Attribute{"work", "days", "words", false, "mon tue wed thu fri", "of work"},
    Attribute{"work", "minutes-a-day", "count", false, "240", "of work"},
    Attribute{"work", "people", "count", false, "1", "who work"},
    Attribute{"work", "setting", "seconds", false, "30", "seconds to set the trimmer"},
    Attribute{"work", "cut", "seconds", false, "8", "seconds"},
    Attribute{"work", "die", "seconds", false, "40", "seconds for a pass"},
    Attribute{"work", "stamp", "seconds", false, "30", "seconds"},
    Attribute{"work", "part", "seconds", false, "6", "seconds to count out one kind"},
    Attribute{"work", "item", "seconds", false, "15", "seconds to lay in"},
    Attribute{"work", "parcel", "seconds", false, "180", "seconds to check, close and label"},
    Attribute{"labels", "paper", "sides", false, "the project’s", "of the sheet"},
    Attribute{"labels", "size", "sides", true, "", "of one label"},
    Attribute{"labels", "columns", "count", true, "", "across"},
    Attribute{"labels", "rows", "count", true, "", "down"},
    Attribute{"labels", "left", "measure", false, "0", "of the first label"},
    Attribute{"labels", "top", "measure", false, "0", "of the first label"},
    Attribute{"labels", "gap-across", "measure", false, "0", "between labels"},
    Attribute{"labels", "gap-down", "measure", false, "0", "between labels"},
    Attribute{"labels", "first", "count", false, "1", "the first free label"},
    Attribute{"class", "date", "words", false, "", "a day"},
    Attribute{"class", "start", "words", false, "", "10:00"},
    Attribute{"class", "places", "count", false, "", "at the tables, all together"},
    Attribute{"class", "tables", "count", false, "1", "how many"},
    Attribute{"class", "venue", "words", false, "", "where it is"},
    Attribute{"slot", "card", "name-of-thing", false, "", "id of a card"},
    Attribute{"slot", "title", "words", false, "", "as it is printed"},
    Attribute{"slot", "minutes", "count", false, "", "to make one"},
    Attribute{"slot", "kind", "talk|break", false, "talk", "what it is"},
    Attribute{"fees", "percent", "words", false, "", "kept back from each payment"},
    Attribute{"fees", "fixed", "money", false, "", "kept back from each payment"},
    Attribute{"postage", "up-to", "words", false, "any mass", "250 g, 8 oz"},
    Attribute{"postage", "cost", "money", true, "", "what it comes to"},
    Attribute{"packing", "cost", "money", true, "", "what it comes to"},
    Attribute{"outlay", "cost", "money", true, "", "what it comes to"},
    Attribute{"expect", "tier", "name-of-thing", true, "", "id of a tier"},
    Attribute{"expect", "kits", "number", true, "", "how many, before orders are in"},
    Attribute{"in-hand", "item", "name-of-thing", true, "", "id of a supply"},
    Attribute{"in-hand", "sheets", "count", false, "", "whole sheets"},
    Attribute{"in-hand", "count", "count", false, "", "how many"},
    Attribute{"in-hand", "length", "measure", false, "", "of ribbon"},
    Attribute{"in-hand", "offcut", "sides", false, "", "a piece of a sheet"},
};
// clang-format on

constexpr std::array rules = {
    ElementRule{"project", "", "intro? maker? caution* supplies! card+ tier* run? selling?"},
    ElementRule{"intro", "", "", true},
    ElementRule{"maker", "", "terms?"},
    ElementRule{"terms", "", "", true},
    ElementRule{"caution", "", "", true},
    ElementRule{"supplies", "",
                "stock* pack* stamps* die* ink* ribbon=spool* twine=spool* embellishment* "
                "adhesive* tool* envelope*"},
    ElementRule{"stock", "thing sold", "sheet*", false, {}, "sheet,pack?,price?,each?|<sheet>+"},
    ElementRule{"sheet", "sold", ""},
    ElementRule{"pack", "thing", "holds+"},
    ElementRule{"holds", "", ""},
    ElementRule{"stamps", "thing sold", "image+"},
    ElementRule{"image", "thing", "path* text* shape* picture*"},
    ElementRule{"path", "", ""},
    ElementRule{"text", "", "", true},
    ElementRule{"shape", "", "", false, {}, "outline|outline=free,grid,d"},
    ElementRule{"picture", "", ""},
    ElementRule{"die", "thing outline sold", ""},
    ElementRule{"ink", "thing sold", ""},
    ElementRule{"spool", "thing sold", ""},
    ElementRule{"embellishment", "thing outline sold", "path* text* shape* picture*"},
    ElementRule{"adhesive", "thing sold", ""},
    ElementRule{"tool", "thing sold", ""},
    ElementRule{"envelope", "thing sold", ""},

    ElementRule{"card",
                "",
                "intro? base! panel* band* liner* ribbon* embellish* stamp=card/stamp* step* tip*",
                false,
                {},
                "form=top-fold/side-fold/tent/gate/z/flat/tag|form=accordion,leaves|"
                "form=custom,unfolded,leaves? picture,picture-words|"},
    ElementRule{"base", "outline", piece_children},
    ElementRule{"panel", "piece outline", piece_children, false, piece_choices},
    ElementRule{"band", "piece outline", piece_children, false, piece_choices},
    ElementRule{"liner", "piece outline", piece_children, false, piece_choices},
    ElementRule{"score", "", ""},
    ElementRule{"stamp", "stamping", "", false, "at|places"},
    ElementRule{"card/stamp", "stamping", "", false, "at|places"},
    ElementRule{"window", "outline", ""},
    ElementRule{"emboss", "", ""},
    ElementRule{"distress", "", ""},
    ElementRule{"ink-edge", "", ""},
    ElementRule{"round-corners", "", ""},
    ElementRule{"alternative", "", "", true},
    ElementRule{"ribbon", "", ""},
    ElementRule{"embellish", "", "", false, "at|places"},
    ElementRule{"step", "", "tip? caution?", true, {}, "picture,picture-words|"},
    ElementRule{"tip", "", "", true},

    ElementRule{"tier", "thing", "blurb? include* own* swap?"},
    ElementRule{"blurb", "", "", true},
    ElementRule{"include", "", ""},
    ElementRule{"own", "", "", false, "item|any", "item|any"},
    ElementRule{"swap", "", "choice*"},
    ElementRule{"choice", "", ""},

    ElementRule{"run", "", "expect* in-hand* order* supplier* day-off* work? labels? class?"},
    ElementRule{"order", "", ""},
    ElementRule{"supplier", "", ""},
    ElementRule{"day-off", "", ""},
    ElementRule{"work", "", ""},
    ElementRule{"labels", "", ""},
    ElementRule{"class", "", "slot*"},
    ElementRule{"slot", "", "", false, "card|kind"},
    ElementRule{"selling", "", "fees? postage* packing? outlay*"},
    ElementRule{"fees", "", ""},
    ElementRule{"postage", "", ""},
    ElementRule{"packing", "", ""},
    ElementRule{"outlay", "", "", true},
    ElementRule{"expect", "", ""},
    ElementRule{"in-hand", "", "", false, "sheets|count|length sheets|offcut length|offcut",
                "sheets|count|length|offcut,count?"},
};

} // namespace

std::span<const ElementRule> element_rules() { return rules; }
std::span<const Attribute> attribute_rows() { return attributes; }

// Its name first, then what is its own, then what it shares.
std::vector<Attribute> attributes_of(const ElementRule& rule) {
  std::vector<Attribute> all;
  const auto add = [&](std::string_view owner) {
    for (const Attribute& one : attributes)
      if (one.element == owner) all.push_back(one);
  };
  std::string_view groups = rule.groups;
  if (groups.starts_with("thing")) {
    add("@thing");
    groups.remove_prefix(std::min<std::size_t>(6, groups.size()));
  }
  const bool piece = groups.starts_with("piece");
  if (!piece) add(rule.key);
  while (!groups.empty()) {
    const std::size_t end = std::min(groups.find(' '), groups.size());
    add("@" + std::string(groups.substr(0, end)));
    groups.remove_prefix(std::min(end + 1, groups.size()));
  }
  return all;
}

const ElementRule* rule_for(std::string_view key) {
  const auto found = std::find_if(rules.begin(), rules.end(),
                                  [&](const ElementRule& rule) { return rule.key == key; });
  return found == rules.end() ? nullptr : &*found;
}

} // namespace leafwright::reading
