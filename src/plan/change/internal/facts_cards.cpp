#include "measure/index.h"
#include "model/carrier.h"
#include "model/form.h"
#include "model/sticking.h"
#include "model/work.h"
#include "plan/change/internal/facts_builder.h"

#include <algorithm>

namespace leafwright::change {
namespace {

class CardWriter {
 public:
  CardWriter(std::vector<Thing>& things, const Project& project, int card)
      : things_(things), project_(project), index_(card), card_(project.cards.at(as_index(card))) {}

  void run() {
    write_card();
    for (std::size_t i = 0; i < card_.pieces.size(); ++i) write_piece(static_cast<int>(i));
    for (std::size_t i = 0; i < card_.ribbons.size(); ++i) write_ribbon(card_.ribbons[i], i);
    for (std::size_t i = 0; i < card_.embellishments.size(); ++i)
      write_embellishment(card_.embellishments[i], i);
    for (std::size_t i = 0; i < card_.steps.size(); ++i) write_step(card_.steps[i], i);
  }

 private:
  Writer begin(Kind kind, const std::string& id, std::string name, Place place) {
    Thing& thing = things_.emplace_back();
    thing.kind = kind;
    thing.key = id.empty() ? card_.id : card_.id + "/" + id;
    // Ids may be given by the reader and are then alike: "ribbon", "ribbon".
    const auto taken = [&](const std::string& key) {
      return std::any_of(things_.begin(), things_.end() - 1,
                         [&](const Thing& one) { return one.kind == kind && one.key == key; });
    };
    const std::string plain = thing.key;
    for (int n = 2; taken(thing.key); ++n) thing.key = fmt::format("{} {}", plain, n);
    thing.name = std::move(name);
    thing.card = index_;
    thing.place = place;
    return Writer(thing, project_);
  }

  std::string carrier(const Carrier& on) const {
    switch (on.kind) {
    case Carrier::Kind::Face:
      if (const Face* face = face_of(card_, on)) return face->id;
      return std::to_string(on.index);
    case Carrier::Kind::Piece: return id_at(card_.pieces, on.index);
    case Carrier::Kind::EnvelopeFront: return "envelope-front";
    case Carrier::Kind::EnvelopeInside: return "envelope-inside";
    }
    return {};
  }

  // The order in which things are laid on is the order of the steps.
  std::string build_text() const {
    static constexpr const char* kinds[] = {"piece", "ribbon", "embellishment", "stamping", "step"};
    std::vector<std::string> things;
    for (const Build& one : card_.build)
      things.push_back(one.kind == Build::Kind::Piece
                           ? id_at(card_.pieces, one.index)
                           : fmt::format("{} {}", word(one.kind, kinds), one.index + 1));
    return words::series(things);
  }

  void write_card() {
    Writer write = begin(Kind::Card, {}, card_.title, card_.place);
    write.put("number", std::int64_t{index_ + 1});
    write.put("title", card_.title);
    write.put("form", std::string(form_row(card_.form.kind).word));
    write.put("leaves", std::int64_t{card_.form.leaves});
    write.put("size", card_.finished);
    write.put("size name", card_.size_name);
    write.put("unfolded", card_.plan.unfolded);
    scores(write, "", card_.plan.scores);
    for (const PopUp& one : card_.pop_ups) {
      write.put("pop-up " + one.id, Size{one.width, one.height});
      write.put("pop-up " + one.id + " depth", one.depth);
      write.put("pop-up " + one.id + " at", one.left);
    }
    write.put("minutes", std::int64_t{card_.minutes});
    write.put("level", card_.level);
    write.put("intro", card_.intro);
    write.put("envelope", id_at(project_.envelopes, card_.envelope));
    write.picture("photograph", card_.picture, card_.picture_words);
    write.put("order of making", build_text());
    for (std::size_t i = 0; i < card_.tips.size(); ++i)
      write.put(fmt::format("tip {}", i + 1), card_.tips[i]);
    for (std::size_t i = 0; i < card_.face_stampings.size(); ++i) {
      const std::string name = fmt::format("stamping {}", i + 1);
      write.put(name + " on", carrier(card_.face_stampings[i].on));
      impression(write, name, card_.face_stampings[i].impression);
    }
  }

  static void scores(Writer& write, const std::string& prefix, const std::vector<Score>& scores) {
    for (std::size_t i = 0; i < scores.size(); ++i) {
      const std::string name = fmt::format("{}score {}", prefix, i + 1);
      write.put(name, scores[i].at);
      write.put(name + " runs", std::string(scores[i].vertical ? "upright" : "across"));
      if (scores[i].mountain) write.put(name + " fold", std::string("mountain"));
    }
  }

  void impression(Writer& write, const std::string& name, const Impression& one) const {
    static constexpr const char* methods[] = {"plain", "second-generation", "sponged", "masked",
                                              "heat-embossed"};
    static constexpr const char* arranged[] = {"once", "row", "column", "grid", "scatter"};
    if (one.set >= 0 && as_index(one.set) < project_.stamp_sets.size()) {
      const StampSet& set = project_.stamp_sets[as_index(one.set)];
      write.put(name, id_at(set.images, one.image));
      if (project_.stamp_sets.size() > 1) write.put(name + " set", set.id);
    }
    std::vector<std::string> inks;
    for (const int ink : one.inks) inks.push_back(id_at(project_.inks, ink));
    write.put(name + " ink", words::series(inks));
    write.put(name + " method", word(one.method, methods));
    write.put(name + " arranged", word(one.arranged, arranged));
    write.put(name + " times", std::int64_t{one.times});
    if (one.fading) write.yes(name + " fading", true);
    if (one.columns != 1 || one.rows != 1)
      write.put(name + " grid", fmt::format("{} by {}", one.columns, one.rows));
    turn(write, name + " turned", one.rotation);
    for (std::size_t i = 0; i < one.places.size(); ++i)
      write.put(one.places.size() == 1 ? name + " place" : fmt::format("{} place {}", name, i + 1),
                one.places[i]);
    position(write, name, one.position);
  }

  static void turn(Writer& write, const std::string& name, Angle angle) {
    if (angle.udeg != 0) write.put(name, fmt::format("{}°", in_degrees(angle)));
  }
  // How the author said it; where it comes to lie is told beside it.
  static void position(Writer& write, const std::string& name, const Position& position) {
    write.put(name + " over", position.over);
  }

  void write_piece(int index) {
    static constexpr const char* roles[] = {"base", "panel", "band", "liner"};
    static constexpr const char* cuts[] = {"trimmer", "die", "punch", "scissors"};
    const Piece& piece = card_.pieces[as_index(index)];
    Writer write =
        begin(Kind::Piece, piece.id, piece.name.empty() ? piece.id : piece.name, piece.place);
    things_.back().piece = index;
    write.put("name", piece.name);
    write.put("letter", piece.letter);
    write.put("is", word(piece.role, roles));
    write.put("paper", id_at(project_.stocks, piece.stock));
    write.put("on", carrier(piece.on));
    write.put("size", piece.size);
    write.outline("shape", piece.shape);
    write.put("cut with", word(piece.cut, cuts));
    write.put("die", id_at(project_.dies, piece.die));
    if (piece.cut_from != piece.size) write.put("cut from", piece.cut_from);
    if (piece.role != Piece::Role::Base) write.put("place", piece.at);
    write.put("over", piece.position.over);
    turn(write, "turned", piece.rotation);
    attach(write, piece.attach);
    for (std::size_t i = 0; i < piece.stamped.size(); ++i)
      impression(write, fmt::format("stamp {}", i + 1), piece.stamped[i]);
    for (std::size_t i = 0; i < piece.windows.size(); ++i) {
      const std::string name = fmt::format("window {}", i + 1);
      write.outline(name + " shape", piece.windows[i].shape);
      write.put(name + " size", piece.windows[i].size);
      write.put(name + " place", piece.windows[i].at);
      write.put(name + " die", id_at(project_.dies, piece.windows[i].die));
      write.put(name + " id", piece.windows[i].id);
    }
    static constexpr const char* finishes[] = {
        "embossed",   "distressed", "edge inked", "corners rounded", "washed", "blended",
        "splattered", "coloured",   "foiled",     "stitched",        "torn",   "glittered"};
    for (std::size_t i = 0; i < piece.finishes.size(); ++i) {
      const Finish& finish = piece.finishes[i];
      const std::string name = fmt::format("finish {}", i + 1);
      write.put(name, word(finish.kind, finishes));
      write.put(name + " ink", id_at(project_.inks, finish.ink));
      if (finish.radius.nm != 0) write.put(name + " radius", finish.radius);
      write.put(name + " with", finish.with);
      write.put(name + " of", finish.area);
      if (finish.dry) write.put(name + " dries", std::int64_t{*finish.dry});
    }
    scores(write, "", piece.scores);
    write.put("under", words::series(piece.layers_below));
    write.put("on one card", std::int64_t{std::max(piece.copies, 1)});
    for (std::size_t i = 0; i < piece.more_at.size(); ++i)
      write.put(fmt::format("place {}", i + 2), piece.more_at[i]);
    if (piece.may_overhang) write.yes("may overhang", true);
    if (piece.equal_reveal_wanted) write.yes("equal reveal", true);
    write.put("without a die", piece.alternative_text);
  }

  void attach(Writer& write, const Attach& attach) const {
    write.put("stuck with", id_at(project_.adhesives, attach.adhesive));
    if (attach.raised) write.yes("raised", true);
    if (attach.layers != 1) write.put("layers of foam", std::int64_t{attach.layers});
    if (attach.count) write.put("squares", std::int64_t{*attach.count});
    if (attach.length) write.put("tape", *attach.length);
    if (is_stuck_in_part(attach))
      write.put("stuck behind", std::string(sticking_row(attach.where).word));
  }

  void write_ribbon(const RibbonUse& use, std::size_t i) {
    static constexpr const char* as[] = {"band", "wrap", "bow", "knot"};
    const std::string id = use.id.empty() ? fmt::format("ribbon {}", i + 1) : use.id;
    Writer write = begin(Kind::Ribbon, id,
                         use.ribbon >= 0 ? item_name(project_, {ItemKind::Ribbon, use.ribbon}) : id,
                         use.place);
    write.put("of", id_at(project_.ribbons, use.ribbon));
    write.put("as", word(use.as, as));
    write.put("on", carrier(use.on));
    write.yes("upright", use.vertical);
    write.put("place", use.at);
    write.put("cut length", use.cut());
    write.put("path", use.path);
    write.put("extra", use.extra);
    write.yes("length given", use.given.has_value());
    write.put("stuck with", id_at(project_.adhesives, use.adhesive));
  }

  void write_embellishment(const EmbellishmentUse& use, std::size_t i) {
    const std::string id = use.id.empty() ? fmt::format("embellishment {}", i + 1) : use.id;
    Writer write = begin(Kind::Embellishment, id,
                         use.embellishment >= 0
                             ? item_name(project_, {ItemKind::Embellishment, use.embellishment})
                             : id,
                         use.place);
    write.put("with", id_at(project_.embellishments, use.embellishment));
    write.put("on", carrier(use.on));
    write.put("count", static_cast<std::int64_t>(use.places.size()));
    for (std::size_t n = 0; n < use.places.size(); ++n)
      write.put(fmt::format("place {}", n + 1), use.places[n]);
    write.put("over", use.position.over);
  }

  void write_step(const AuthorStep& step, std::size_t i) {
    const std::string id = fmt::format("step {}", i + 1);
    Writer write = begin(Kind::Step, id, step.title.empty() ? id : step.title, step.place);
    write.put("title", step.title);
    write.put("words", step.text);
    write.put("for", step.for_id);
    write.put("instead of", step.instead_of ? words_of(*step.instead_of) : std::string{});
    for (std::size_t n = 0; n < step.uses.size(); ++n)
      write.put(fmt::format("uses {}", n + 1), item_id(project_, step.uses[n]));
    write.put("tip", step.tip);
    write.put("caution", step.caution);
    write.picture("photograph", step.picture, step.picture_words);
  }

  std::vector<Thing>& things_;
  const Project& project_;
  int index_;
  const Card& card_;
};

} // namespace

void add_card_things(std::vector<Thing>& things, const Project& project, int card) {
  CardWriter(things, project, card).run();
}

} // namespace leafwright::change
