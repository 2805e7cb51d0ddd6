#include "guide/prose/parts.h"

#include "guide/prose/base.h"
#include "guide/prose/fixing.h"
#include "guide/prose/naming.h"
#include "guide/prose/preparing.h"
#include "guide/prose/trimmings.h"

#include <algorithm>

namespace leafwright::guide {
namespace {

// Collects the things in the order met, each once.
class PartsLine {
 public:
  explicit PartsLine(const Project& project) : project_(project) {}

  void piece(const Piece& piece) {
    between();
    if (!piece.letter.empty()) {
      prose_.append(Inlines{PieceLetter{piece.letter}});
      prose_.say("\u00A0");
    }
    prose_.say(piece_noun(piece) + (piece.copies > 1 ? " × " + std::to_string(piece.copies) : ""));
  }
  void thing(const std::string& words) {
    if (words.empty() || std::find(said_.begin(), said_.end(), words) != said_.end()) return;
    said_.push_back(words);
    between();
    prose_.say(words);
  }
  void ink(int ink) {
    if (ink < 0 || std::find(inks_.begin(), inks_.end(), ink) != inks_.end()) return;
    inks_.push_back(ink);
    between();
    prose_.ink(ink);
    const std::string name = item_noun(project_, {ItemKind::Ink, ink});
    prose_.say(name.find("ink") == std::string::npos ? name + " ink" : name);
  }
  void impressions(const std::vector<Impression>& stamped) {
    for (const Impression& one : stamped)
      if (one.image >= 0) thing(image_noun(project_, one.set, one.image) + " stamp");
    for (const Impression& one : stamped)
      for (const int each : one.inks) ink(each);
    for (const Impression& one : stamped) {
      if (one.method == Impression::Method::Sponged) thing("a sponge");
      if (one.method == Impression::Method::SecondGeneration ||
          one.method == Impression::Method::Masked)
        thing("scrap paper");
      if (one.method == Impression::Method::HeatEmbossed) {
        tool("powder", "embossing powder");
        tool("heat", "heat tool");
      }
    }
  }
  void tool(std::string_view part, std::string_view otherwise) {
    const std::string found = tool_with_the(project_, part);
    thing(found.empty() ? std::string(otherwise) : found.substr(4)); // without "the "
  }
  Inlines done() const { return prose_.fragment(); }

 private:
  void between() {
    if (!prose_.empty())
      prose_.say(", ");
    else
      prose_.quiet("You need: ");
  }

  const Project& project_;
  Prose prose_;
  std::vector<std::string> said_;
  std::vector<int> inks_;
};

void add_preparing(PartsLine& line, const Telling& telling, const Piece& piece) {
  const Project& project = telling.project;
  if (piece.cut == Piece::CutBy::Die && !comes_die_cut(telling, piece))
    line.thing(item_noun(project, {ItemKind::Die, piece.die}));
  if (piece.cut == Piece::CutBy::Scissors) line.thing("scissors");
  for (const Window& window : piece.windows)
    if (window.die < 0 || !telling.ready.die_cut)
      line.thing(window.die >= 0 ? item_noun(project, {ItemKind::Die, window.die})
                                 : "a knife, ruler and mat");
  if (!comes_stamped(telling, piece)) line.impressions(piece.stamped);
  for (const Finish& finish : piece.finishes) {
    if (!finish.with.empty()) line.thing(finish.with);
    if (finish.kind == Finish::Kind::EdgeInked) {
      line.ink(finish.ink);
      if (finish.with.empty()) line.thing("a sponge");
    }
  }
}

} // namespace

Inlines piece_parts(const Telling& telling, const Together& pieces, Parts which) {
  PartsLine line(telling.project);
  for (const int index : pieces)
    if (const Piece* piece = piece_at(telling.card, index)) line.piece(*piece);
  const Piece& piece = first_of(telling, pieces);
  if (which != Parts::Fixing) add_preparing(line, telling, piece);
  if (which != Parts::Preparing) line.thing(adhesive_words(telling, pieces));
  if (piece.role == Piece::Role::Base && has_fold(telling.card)) {
    if (!tool_with_the(telling.project, "score").empty()) line.tool("score", "");
    if (!tool_with_the(telling.project, "bone folder").empty()) line.tool("bone folder", "");
  }
  return line.done();
}

Inlines ribbon_parts(const Telling& telling, const RibbonUse& use) {
  PartsLine line(telling.project);
  line.thing(ribbon_part(telling.project, use));
  if (use.adhesive >= 0) line.thing(item_noun(telling.project, {ItemKind::Adhesive, use.adhesive}));
  return line.done();
}

Inlines embellishment_parts(const Telling& telling, const EmbellishmentUse& use) {
  PartsLine line(telling.project);
  line.thing(embellishment_part(telling.project, use));
  return line.done();
}

Inlines stamping_parts(const Telling& telling, const std::vector<Impression>& stamped) {
  PartsLine line(telling.project);
  line.impressions(stamped);
  return line.done();
}

} // namespace leafwright::guide
