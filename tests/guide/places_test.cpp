#include "guide/figure/scenes.h"
#include "guide/prose.h"
#include "language/words.h"
#include "read/read.h"

#include <doctest/doctest.h>

#include <fmt/format.h>

#include <algorithm>
#include <random>
#include <regex>
#include <span>
#include <string>
#include <vector>

// A place that a step says in words is measured in the drawing beside it from the same edge, to the
// same part of the thing, with the same number.

using namespace leafwright;

namespace {

Reading read(const std::string& path) {
  return read_project_file(std::string(LEAFWRIGHT_SOURCE_DIR) + "/" + path);
}

std::string spaced(std::string text) {
  for (std::size_t at = text.find("\u00A0"); at != std::string::npos; at = text.find("\u00A0"))
    text.replace(at, 2, " ");
  return text;
}

struct Said {
  std::string number, edge;
  bool past = false, middle = false;
};

// "1 1/2 in from the left", "2 mm and 4 mm from the top", "1/4 in from the right and the bottom"
std::vector<Said> places_said(const std::string& text) {
  static const std::regex place(
      "((?:≈ ?)?[0-9][0-9 /.]*) (?:in|mm) (from|past|below) the (left|right|top|bottom|fold)"
      "(?: and the (left|right|top|bottom))?");
  std::vector<Said> all;
  std::size_t begin = 0;
  for (std::sregex_iterator at(text.begin(), text.end(), place), end; at != end; ++at) {
    const auto where = static_cast<std::size_t>(at->position());
    const std::size_t stop = text.rfind(". ", where);
    begin = stop == std::string::npos ? 0 : stop + 2;
    const std::string before = text.substr(begin, where - begin);
    const bool middle = before.find("middle ") != std::string::npos &&
                        before.find("left, middle and right") == std::string::npos;
    const bool tied = before.find("Tie it in a") != std::string::npos;
    for (const int group : {3, 4})
      if ((*at)[static_cast<std::size_t>(group)].matched)
        all.push_back(
            {(*at)[1], (*at)[static_cast<std::size_t>(group)], (*at)[2] == "past", middle || tied});
  }
  return all;
}

// Whether one end of a dimension stands on the named edge of what carries the thing, and the other
// on the thing.
bool is_drawn(const figure::Dimension& drawn, const Said& said) {
  if (spaced(drawn.words) != said.number || !drawn.from_of || !drawn.to_of) return false;
  const bool level = absolute(drawn.to.x - drawn.from.x) > absolute(drawn.to.y - drawn.from.y);
  const auto low = [&](const Rect& rect) { return level ? rect.left() : rect.top(); };
  const auto high = [&](const Rect& rect) { return level ? rect.right() : rect.bottom(); };
  const auto at = [&](Point point) { return level ? point.x : point.y; };
  const auto fits = [&](Point edge, const Rect& carrier, Point other, const Rect& thing,
                        bool near) {
    const Length line = near ? low(carrier) : high(carrier);
    if (at(edge) != line || (near ? at(other) < line : at(other) > line) != said.past) return false;
    if (*drawn.from_of == *drawn.to_of) return at(other) != low(thing) && at(other) != high(thing);
    if (said.middle)
      return low(thing) == high(thing) || thing.size.width.nm == 0 || thing.size.height.nm == 0;
    return low(thing) < high(thing) && at(other) == (near ? low(thing) : high(thing));
  };
  const auto either = [&](bool near) {
    return fits(drawn.from, *drawn.from_of, drawn.to, *drawn.to_of, near) ||
           fits(drawn.to, *drawn.to_of, drawn.from, *drawn.from_of, near);
  };
  if (said.edge == "fold") return either(true) || either(false);
  if (level != (said.edge == "left" || said.edge == "right")) return false;
  return either(said.edge == "left" || said.edge == "top");
}

// A slanted carrier slants its distances, too: none is drawn.
void check_places(const Project& project, int& places) {
  for (const Card& card : project.cards) {
    const guide::Steps steps = guide::steps_of({project, card}, "card");
    for (const guide::Step& step : steps.steps) {
      std::string text;
      for (const guide::Inlines& paragraph : step.text) text += guide::spoken(paragraph) + " ";
      text = spaced(text);
      REQUIRE(step.figure);
      const auto& drawn = step.figure->scene.dimensions;
      for (const Said& said : places_said(text)) {
        INFO(project.title, ", ", card.title, ", step ", step.number, ": ", text);
        std::string all;
        for (const figure::Dimension& one : drawn)
          all += fmt::format(" [{} {:.1f},{:.1f} to {:.1f},{:.1f}]", one.words, in_mm(one.from.x),
                             in_mm(one.from.y), in_mm(one.to.x), in_mm(one.to.y));
        INFO("drawn:", all);
        CHECK_MESSAGE(
            std::ranges::any_of(drawn, [&](const auto& one) { return is_drawn(one, said); }),
            said.number, said.past ? " past the " : " from the ", said.edge);
        ++places;
      }
    }
  }
}

} // namespace

TEST_CASE("a place said in words is drawn from the same edge: samples") {
  for (const char* path :
       {"samples/orchard-gate/project.xml", "samples/kelp-lantern/project.xml",
        "samples/five-minute/project.xml", "tests/guide/sentences/metric-british.xml",
        "tests/guide/sentences/resale-edition.xml", "tests/guide/sentences/single-card.xml"}) {
    const Reading reading = read(path);
    REQUIRE(reading.ok());
    int places = 0;
    check_places(reading.project, places);
    MESSAGE(path, ": ", places, " places");
  }
}

namespace {

// Cards of one or two panels somewhere, stamped, with a window, ornaments and ribbon; whether they
// would fit is not asked.
class RandomCards {
 public:
  explicit RandomCards(unsigned seed) : random_(seed) {}

  std::string project(bool metric) {
    metric_ = metric;
    std::string xml = fmt::format(
        "<project xmlns=\"urn:leafwright:project\" version=\"1\" id=\"r\" title=\"Random\" "
        "units=\"{}\" language=\"{}\"><supplies>"
        "<stock id=\"kraft\" name=\"Kraft\" weight=\"216 gsm\" sheet=\"letter\"/>"
        "<stock id=\"cream\" name=\"Cream\" weight=\"216 gsm\" sheet=\"letter\"/>"
        "<stamps id=\"set\" name=\"Set\"><image id=\"leaf\" name=\"leaf\" size=\"{}\"/></stamps>"
        "<ink id=\"moss\" name=\"Moss\" colour=\"#7f9c74\"/>"
        "<ribbon id=\"silk\" name=\"Silk ribbon\" width=\"{}\" colour=\"#bb5b3b\"/>"
        "<embellishment id=\"gem\" name=\"Gem\" size=\"4 x 4 mm\" shape=\"circle\" "
        "colour=\"#f7fbfb\"/>"
        "<adhesive id=\"tape\" name=\"Tape\" kind=\"tape\" length=\"{}\"/></supplies>",
        metric ? "mm" : "inch", metric ? "en-GB" : "en-US", metric ? "12 x 14" : "1/2 x 5/8",
        metric ? "10" : "3/8", metric ? "10000" : "315");
    for (int i = 0; i < 8; ++i) xml += card(i);
    return xml + "</project>";
  }

 private:
  template <class T>
  T one_of(std::initializer_list<T> all) {
    return *(all.begin() + static_cast<std::ptrdiff_t>(random_() % all.size()));
  }
  std::string length(int from, int to) {
    const int eighths = from + static_cast<int>(random_() % static_cast<unsigned>(to - from));
    return metric_ ? fmt::format("{}", eighths * 3) : fmt::format("{}/8", eighths);
  }
  std::string place(int most) {
    const std::string across =
        one_of<int>({0, 1, 2}) == 0
            ? "centre"
            : length(1, most) + one_of<const char*>({" from left", " from right"});
    const std::string down =
        one_of<int>({0, 1, 2}) == 0
            ? "centre"
            : length(1, most) + one_of<const char*>({" from top", " from bottom"});
    return across == down ? across : across + ", " + down;
  }
  std::string turn() {
    return one_of<const char*>({"", "", "", " turn=\"-7\"", " turn=\"90\"", " turn=\"180\""});
  }
  std::string stamp(int most) {
    switch (random_() % 4) {
    case 0:
      return fmt::format("<stamp image=\"leaf\" ink=\"moss\" at=\"{}\"{}/>", place(most), turn());
    case 1:
      return fmt::format("<stamp image=\"leaf\" ink=\"moss\" times=\"3\" at=\"row, {} from {}\"/>",
                         length(1, most), one_of<const char*>({"top", "bottom"}));
    case 2:
      return fmt::format("<stamp image=\"leaf\" ink=\"moss\" places=\"{0}, {1}; {0}, {2}\"/>",
                         length(1, 4), length(1, 4), length(10, 14));
    default: return {};
    }
  }
  std::string card(int index) {
    const std::string face = one_of<const char*>({"front", "front", "inside"});
    std::string xml =
        fmt::format("<card id=\"c{0}\" title=\"Card {0}\" form=\"{1}\" size=\"A2\" minutes=\"10\">"
                    "<base stock=\"kraft\"/>",
                    index, one_of<const char*>({"top-fold", "side-fold", "gate", "flat", "tent"}));
    if (xml.find("\"flat\"") == std::string::npos || face == "front") {
      xml +=
          fmt::format("<panel id=\"mat\" stock=\"cream\" on=\"{}\" size=\"{} x {}\" at=\"{}\">{}",
                      face, length(20, 28), length(24, 32), place(6), stamp(8));
      if (random_() % 4 == 0)
        xml += fmt::format("<window id=\"hole\" size=\"{} x {}\" at=\"{}\"/>", length(4, 7),
                           length(4, 7), place(5));
      xml += "</panel>";
      xml += fmt::format(
          "<panel id=\"top\" stock=\"cream\" on=\"mat\" size=\"{} x {}\" at=\"{}\"{}>{}</panel>",
          length(6, 12), length(6, 12), place(6), turn(), stamp(3));
      xml += fmt::format("<embellish with=\"gem\" on=\"mat\" at=\"{}\"/>", place(9));
    }
    xml += fmt::format("<ribbon of=\"silk\" at=\"{} from top\"/>", length(6, 30));
    xml +=
        stamp(9).empty()
            ? ""
            : fmt::format("<stamp image=\"leaf\" ink=\"moss\" on=\"front\" at=\"{}\"/>", place(9));
    return xml + "</card>";
  }

  std::mt19937 random_;
  bool metric_ = false;
};

} // namespace

TEST_CASE("a place said in words is drawn from the same edge: random cards") {
  int places = 0;
  for (unsigned seed = 1; seed <= 60; ++seed) {
    INFO("seed ", seed);
    const Reading reading = read_project(RandomCards(seed).project(seed % 2 == 0), "random.xml");
    for (const Finding& finding : reading.findings) INFO(finding.found);
    REQUIRE(reading.ok());
    check_places(reading.project, places);
  }
  CHECK(places > 1000);
}

TEST_CASE("the drawing of a step shows nothing that comes later") {
  for (const char* path :
       {"samples/orchard-gate/project.xml", "samples/kelp-lantern/project.xml"}) {
    const Reading reading = read(path);
    REQUIRE(reading.ok());
    for (const Card& card : reading.project.cards)
      for (std::size_t i = 0; i < card.build.size(); ++i) {
        Card until = card;
        until.build.resize(i + 1);
        INFO(card.title, ", entry ", i);
        const auto drawn = [&](const Card& one) {
          const figure::Scene scene = figure::step(reading.project, one, std::span(&i, 1), false);
          return figure::fingerprint_of(scene, figure::Look{});
        };
        CHECK(drawn(until) == drawn(card));
      }
  }
}
