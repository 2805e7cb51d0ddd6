#include "guide/block.h"
#include "guide/prose.h"
#include "guide/sections.h"
#include "guide/tutorial.h"
#include "model/outline.h"
#include "plan/supply/sheets.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <map>
#include <regex>
#include <set>
#include <string>
#include <vector>

using namespace leafwright;

namespace {

const std::vector<std::string>& samples() {
  static const std::vector<std::string> names{"orchard-gate", "kelp-lantern", "five-minute"};
  return names;
}

struct Made {
  Project project;
  guide::Document document;
};

// Only the cut list: how pieces lie on sheets is tested where it is worked out.
Made made(const std::string& sample) {
  Reading reading =
      read_project_file(std::string(LEAFWRIGHT_SOURCE_DIR) + "/samples/" + sample + "/project.xml");
  REQUIRE(reading.ok());
  supply::CuttingPlan sheets;
  sheets.lines = supply::cut_list(reading.project);
  guide::Document document = guide::tutorial(reading.project, sheets);
  return {std::move(reading.project), std::move(document)};
}

template <class Visit>
void each_block(const std::vector<guide::Block>& blocks, const Visit& visit) {
  for (const guide::Block& block : blocks) {
    visit(block);
    if (const auto* beside = std::get_if<guide::Beside>(&block.what)) {
      visit({beside->figure, block.place});
      each_block(beside->blocks, visit);
    }
    if (const auto* row = std::get_if<guide::FigureRow>(&block.what))
      for (const guide::Figure& figure : row->figures) visit({figure, block.place});
    if (const auto* steps = std::get_if<guide::Steps>(&block.what))
      for (const guide::Step& step : steps->steps)
        if (step.figure) visit({*step.figure, block.place});
  }
}

template <class Visit>
void each_block(const guide::Document& document, const Visit& visit) {
  for (const guide::Section& section : document.sections) each_block(section.blocks, visit);
}

std::vector<guide::Step> steps_of(const guide::Document& document,
                                  const std::string& section_name) {
  std::vector<guide::Step> out;
  for (const guide::Section& section : document.sections)
    if (section.name == section_name)
      each_block(section.blocks, [&](const guide::Block& block) {
        if (const auto* steps = std::get_if<guide::Steps>(&block.what))
          out.insert(out.end(), steps->steps.begin(), steps->steps.end());
      });
  return out;
}

bool names_letter(const guide::Inlines& inlines, const std::string& letter) {
  return std::any_of(inlines.begin(), inlines.end(), [&](const guide::Inline& one) {
    const auto* found = std::get_if<guide::PieceLetter>(&one);
    return found && found->letter == letter;
  });
}

} // namespace

TEST_CASE("every anchor is unique and every page reference leads to one") {
  for (const std::string& sample : samples()) {
    CAPTURE(sample);
    const Made one = made(sample);
    std::map<std::string, int> anchors;
    each_block(one.document, [&](const guide::Block& block) {
      if (const auto* heading = std::get_if<guide::Heading>(&block.what))
        if (!heading->anchor.empty()) ++anchors[heading->anchor];
      if (const auto* steps = std::get_if<guide::Steps>(&block.what))
        for (const guide::Step& step : steps->steps) ++anchors[step.anchor];
      if (const auto* drawing = std::get_if<guide::FullSize>(&block.what))
        if (!drawing->anchor.empty()) ++anchors[drawing->anchor];
    });
    for (const auto& anchor : anchors) {
      CAPTURE(anchor.first);
      CHECK(anchor.second == 1);
    }
    each_block(one.document, [&](const guide::Block& block) {
      if (const auto* steps = std::get_if<guide::Steps>(&block.what))
        for (const guide::Step& step : steps->steps)
          for (const guide::Inlines& text : step.text)
            for (const guide::Inline& part : text)
              if (const auto* page = std::get_if<guide::PageOf>(&part))
                CHECK(anchors.count(page->anchor) == 1);
    });
  }
}

TEST_CASE("a step that has an outline traced leads to that outline, not to its chapter") {
  const Made one = made("five-minute");
  Project project = one.project;
  // Cut out by hand, the panel of the sample needs an outline to trace.
  Card& card = project.cards.front();
  for (Piece& piece : card.pieces)
    if (piece.role != Piece::Role::Base) {
      piece.shape.outline = Shape::Outline::Oval;
      piece.cut = Piece::CutBy::Scissors;
      piece.die = -1;
    }
  const guide::Document document = guide::tutorial(project, {});
  std::map<std::string, std::string> outlines; // title of each full-size drawing, by its anchor
  each_block(document, [&](const guide::Block& block) {
    if (const auto* drawing = std::get_if<guide::FullSize>(&block.what))
      outlines[drawing->anchor] = drawing->title;
  });
  int references = 0;
  for (const guide::Step& step : steps_of(document, "card-" + card.id))
    for (const guide::Inlines& text : step.text)
      for (const guide::Inline& part : text)
        if (const auto* page = std::get_if<guide::PageOf>(&part)) {
          ++references;
          CAPTURE(page->anchor);
          REQUIRE(outlines.contains(page->anchor));
          // The outline is of a piece that the step traces.
          const std::string& title = outlines[page->anchor];
          const std::string piece = title.substr(title.rfind(", ") + 2);
          CHECK(guide::spoken(text).find(piece) != std::string::npos);
        }
  CHECK(references > 0);
}

TEST_CASE("a booklet to work from names no price, and no kit of the team") {
  const std::regex amount("[$€£][0-9]|[0-9]\\s*(?:€|EUR|USD|GBP)");
  for (const std::string& sample : samples()) {
    const Made one = made(sample);
    for (int tier = -1; tier < static_cast<int>(one.project.tiers.size()); ++tier) {
      CAPTURE(sample);
      CAPTURE(tier);
      guide::TutorialOptions options;
      options.tier = tier;
      const guide::Document document = guide::tutorial(one.project, {}, options);
      const std::string text = guide::dump(document);
      std::smatch found;
      const bool priced = std::regex_search(text, found, amount);
      CAPTURE(found.str());
      CHECK_FALSE(priced);
      for (const Tier& other : one.project.tiers) {
        // The team's own edition says whose it is.
        if (other.audience != Tier::Audience::Team ||
            (tier >= 0 && &other == &one.project.tiers[static_cast<std::size_t>(tier)]))
          continue;
        CHECK(text.find(other.name) == std::string::npos);
      }
    }
  }
}

TEST_CASE("every drawing has words for those who cannot see it") {
  for (const std::string& sample : samples()) {
    CAPTURE(sample);
    int drawings = 0;
    each_block(made(sample).document, [&](const guide::Block& block) {
      if (const auto* figure = std::get_if<guide::Figure>(&block.what)) {
        ++drawings;
        CHECK_FALSE(figure->scene.alternative.empty());
      }
      if (const auto* guide_page = std::get_if<guide::FullSize>(&block.what))
        CHECK_FALSE(guide_page->scene.alternative.empty());
      if (const auto* cover = std::get_if<guide::Cover>(&block.what))
        for (const figure::Scene& scene : cover->cards) CHECK_FALSE(scene.alternative.empty());
    });
    CHECK(drawings > 0);
  }
}

TEST_CASE("every piece of a card is named in one of its steps") {
  for (const std::string& sample : samples()) {
    const Made one = made(sample);
    for (const Card& card : one.project.cards) {
      const std::vector<guide::Step> steps = steps_of(one.document, "card-" + card.id);
      for (const Piece& piece : card.pieces) {
        CAPTURE(sample);
        CAPTURE(card.id);
        CAPTURE(piece.id);
        CHECK(std::any_of(steps.begin(), steps.end(), [&](const guide::Step& step) {
          return std::any_of(step.text.begin(), step.text.end(), [&](const guide::Inlines& text) {
            return names_letter(text, piece.letter);
          });
        }));
      }
    }
  }
}

// Every printed length that the model can give for a card: sizes, places, distances, scores,
// ribbons. The test works them out by itself, by subtracting boxes.
TEST_CASE("every length in a generated step is a length of the model") {
  for (const std::string& sample : samples()) {
    const Made one = made(sample);
    const Printing& how = one.project.printing;
    for (const Card& card : one.project.cards) {
      std::set<std::string> known;
      const auto know = [&](Length length) { known.insert(number_text(absolute(length), how)); };
      const auto know_size = [&](Size size) {
        know(size.width);
        know(size.height);
      };
      const auto know_box = [&](Size carrier, Point at, Size size) {
        know_size(size);
        know(at.x);
        know(at.y);
        know(carrier.width - at.x - size.width);
        know(carrier.height - at.y - size.height);
      };
      const auto carrier = [&](const Carrier& on) -> Size {
        const auto index = static_cast<std::size_t>(on.index);
        if (on.kind == Carrier::Kind::Face) return card.plan.faces.at(index).size;
        if (on.kind == Carrier::Kind::Piece) return card.pieces.at(index).size;
        return one.project.envelopes.at(static_cast<std::size_t>(card.envelope)).size;
      };
      const auto know_stamps = [&](Size on, const std::vector<Impression>& stamped) {
        for (const Impression& impression : stamped) {
          if (impression.image < 0) continue;
          const auto& set = one.project.stamp_sets.at(static_cast<std::size_t>(impression.set));
          const Size size = set.images.at(static_cast<std::size_t>(impression.image)).size;
          const Size outer = bounds(turned(outline_path({}, size), impression.rotation, {})).size;
          for (const Point at : impression.places)
            know_box(
                on,
                {at.x - (outer.width - size.width) / 2, at.y - (outer.height - size.height) / 2},
                outer);
        }
      };
      know_size(card.finished);
      for (const Piece& piece : card.pieces) {
        know_size(piece.cut_from);
        know_size(piece.size);
        know(piece.shape.depth);
        know(piece.shape.radius * 2);
        if (piece.role != Piece::Role::Base) know_box(carrier(piece.on), piece.at, piece.size);
        for (const Score& score : piece.scores) know(score.at);
        for (const Window& window : piece.windows) know_box(piece.size, window.at, window.size);
        for (const Finish& finish : piece.finishes) know(finish.radius);
        know_stamps(piece.size, piece.stamped);
        if (piece.die >= 0)
          know_size(one.project.dies.at(static_cast<std::size_t>(piece.die)).size);
      }
      for (const Window& window : card.pieces.front().windows) know_size(window.size);
      for (const Score& score : card.plan.scores) know(score.at);
      for (const FaceStamping& face : card.face_stampings)
        know_stamps(carrier(face.on), {face.impression});
      for (const RibbonUse& ribbon : card.ribbons) {
        know(ribbon.cut());
        know(ribbon.at);
      }
      for (const EmbellishmentUse& use : card.embellishments)
        for (const Point at : use.places)
          know_box(carrier(use.on), at,
                   one.project.embellishments.at(static_cast<std::size_t>(use.embellishment)).size);

      // A number before a unit or a times sign, with a fraction or decimals and ≈.
      const std::regex length("(≈?(?:[0-9]+\u00A0)?[0-9]+(?:[./][0-9]+)?)\u00A0(?:in|mm|×)");
      for (const guide::Step& step : steps_of(one.document, "card-" + card.id)) {
        const bool own =
            std::any_of(card.steps.begin(), card.steps.end(),
                        [&](const AuthorStep& each) { return each.title == step.title; });
        if (own) continue; // the author may write what she likes
        for (const guide::Inlines& text : step.text) {
          const std::string words = guide::spoken(text);
          for (std::sregex_iterator at(words.begin(), words.end(), length), end; at != end; ++at) {
            CAPTURE(sample);
            CAPTURE(step.anchor);
            const std::string number = (*at)[1].str();
            CAPTURE(number);
            CAPTURE(words);
            CHECK((known.count(number) == 1 || known.count("≈" + number) == 1));
          }
        }
      }
    }
  }
}

TEST_CASE("a changed measure changes the author's sentence") {
  ReadOptions options;
  options.overrides = {"trees/mat.inset=1/4"};
  Reading reading = read_project_file(
      std::string(LEAFWRIGHT_SOURCE_DIR) + "/samples/orchard-gate/project.xml", options);
  REQUIRE(reading.ok());
  supply::CuttingPlan sheets;
  sheets.lines = supply::cut_list(reading.project);
  const std::string text = guide::dump(guide::tutorial(reading.project, sheets));
  CHECK(text.find("1/4\u00A0in of kraft all around. Keep the dots upright.") != std::string::npos);
}

TEST_CASE("sections come in the order of the booklet and none is empty") {
  const Made one = made("orchard-gate");
  std::vector<std::string> names;
  for (const guide::Section& section : one.document.sections) {
    names.push_back(section.name);
    CHECK_FALSE(section.blocks.empty());
  }
  const std::vector<std::string> expected{"cover",       "contents",     "reading",    "supplies",
                                          "cut-list",    "cut-diagrams", "card-trees", "card-gate",
                                          "card-window", "templates",    "colophon"};
  CHECK(names == expected);
  CHECK(one.document.edition == "Edition\u00A03 · March 2, 2027");
}

TEST_CASE("every paper, ribbon, die and small thing that a kit takes is pictured once") {
  const Made booklet = made("orchard-gate");
  std::set<std::string> pictured;
  std::size_t count = 0;
  each_block(booklet.document, [&](const guide::Block& block) {
    const auto* row = std::get_if<guide::FigureRow>(&block.what);
    if (row == nullptr || !row->swatches) return;
    for (const guide::Figure& figure : row->figures) {
      pictured.insert(figure.scene.alternative);
      ++count;
    }
  });
  CHECK(pictured.size() == count);
  const Project& project = booklet.project;
  // The sample's cards use all that its kit lists of these.
  CHECK(count == project.stocks.size() + project.ribbons.size() + project.dies.size() +
                     project.embellishments.size());
}

TEST_CASE("a cover says how long each card takes") {
  const Made booklet = made("orchard-gate");
  CHECK(guide::effort_words(booklet.project) ==
        "About 35 to 45\u00A0min each · confident beginner");
  CHECK(guide::effort_words(made("five-minute").project) == "About 15\u00A0min");
  Project longer = booklet.project;
  longer.cards.back().minutes = 90;
  CHECK(guide::effort_words(longer).starts_with("About 35\u00A0min to 1\u00A0h\u00A030\u00A0min each"));
}

TEST_CASE("cautions are only those that the project calls for") {
  const std::string five = guide::dump(made("five-minute").document);
  CHECK(five.find("Blades.") != std::string::npos);
  CHECK(five.find("Hot tools.") == std::string::npos);
  CHECK(five.find("Small parts.") == std::string::npos);
  const std::string orchard = guide::dump(made("orchard-gate").document);
  CHECK(orchard.find("Hot tools. The heat gun") != std::string::npos);
  CHECK(orchard.find("Small parts. Clear domes") != std::string::npos);
}
