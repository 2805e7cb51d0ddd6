#include "found.h"

#include "plan/fit/internal/case.h"
#include "read/read.h"

using namespace leafwright;
using namespace leafwright::testing;

namespace {

// A bare card of that finished size, so that only the base counts.
Project in_envelope(Size card_size, Size envelope) {
  return changed([=](Project& project, Card& card) {
    card.finished = card_size;
    card.pieces.resize(1);
    card.build.resize(1);
    card.ribbons.clear();
    card.embellishments.clear();
    refold(card, {Form::Kind::TopFold, 0});
    project.envelopes[0].size = envelope;
  });
}

bool fits_well(const Project& project) {
  return !says(project, "fit-envelope") && !says(project, "fit-envelope-snug") &&
         !says(project, "fit-envelope-thick");
}

Size mm(std::int64_t width, std::int64_t height) {
  return {millimetres(width), millimetres(height)};
}

} // namespace

// US announcement sizes (common practice): card, envelope.
TEST_CASE("announcement cards go into the envelopes of their name") {
  struct Pair {
    Size card, envelope;
  };
  const Pair pairs[] = {
      {{inches(4, 1, 4), inches(5, 1, 2)}, {inches(4, 3, 8), inches(5, 3, 4)}}, // A2
      {{inches(4, 1, 2), inches(6, 1, 4)}, {inches(4, 3, 4), inches(6, 1, 2)}}, // A6
      {{inches(5), inches(7)}, {inches(5, 1, 4), inches(7, 1, 4)}},             // A7
  };
  for (const Pair& pair : pairs) {
    CHECK(fits_well(in_envelope(pair.card, pair.envelope)));
    CHECK(fits_well(in_envelope(pair.card, pair.envelope.turned())));
  }
}

// ISO 269: a C6 envelope is 114 x 162 mm and takes an A6 card, 105 x 148 mm (ISO 216).
TEST_CASE("an A6 card goes into a C6 envelope and an A5 card into C5, not into C6") {
  CHECK(fits_well(in_envelope(mm(105, 148), mm(114, 162))));
  CHECK(fits_well(in_envelope(mm(148, 210), mm(162, 229))));
  CHECK(says(in_envelope(mm(148, 210), mm(114, 162)), "fit-envelope"));
}

TEST_CASE("a card larger than its envelope is told both sizes that would do") {
  const Findings some = found(
      in_envelope({inches(5), inches(7)}, {inches(4, 3, 8), inches(5, 3, 4)}), "fit-envelope");
  REQUIRE(some.size() == 1);
  CHECK(some[0].severity == Severity::Error);
  CHECK(plain(some[0].fix) == "choose an envelope of at least 5 1/8 × 7 1/8 in, "
                              "or a card of at most 4 1/4 × 5 5/8 in");
}

TEST_CASE("a card with a sixteenth to spare is snug") {
  CHECK(says(in_envelope({inches(4, 5, 16), inches(5, 1, 2)}, {inches(4, 3, 8), inches(5, 3, 4)}),
             "fit-envelope-snug"));
}

TEST_CASE("layers take up room that the flat card does not") {
  Project project = small_project();
  CHECK(fits_well(project));
  Card& card = project.cards[0];
  for (int i = 0; i < 3; ++i) {
    Piece slab = panel("slab", cream, on_face(front), {inches(4), inches(5)},
                       {inches(0, 1, 8), inches(0, 1, 4)});
    slab.attach = stuck_with(foam);
    add(card, slab);
  }
  CHECK_FALSE(says(project, "fit-envelope"));
  CHECK(says(project, "fit-envelope-thick"));
}

// USPS Domestic Mail Manual 201.1.1 and 201.2.1, as the design states them: 3 1/2 x 5 to
// 6 1/8 x 11 1/2 in, at most 1/4 in thick, length 1.3 to 2.5 times the height.
TEST_CASE("letters from 3 1/2 x 5 to 6 1/8 x 11 1/2 in are letters") {
  const auto size_says = [](Size size) {
    return says(changed([size](Project& p, Card&) { p.envelopes[0].size = size; }),
                "fit-mail-size");
  };
  CHECK_FALSE(size_says({inches(5), inches(3, 1, 2)}));
  CHECK_FALSE(size_says({inches(6, 1, 8), inches(11, 1, 2)}));
  CHECK(size_says({inches(4, 15, 16), inches(3, 1, 2)}));
  CHECK(size_says({inches(5), inches(3, 7, 16)}));
  CHECK(size_says({inches(6, 3, 16), inches(11)}));
  CHECK(size_says({inches(6), inches(11, 9, 16)}));
}

TEST_CASE("square and very long envelopes are noted with the lengths that would do") {
  const auto shape = [](Size size) {
    return found(changed([size](Project& p, Card&) { p.envelopes[0].size = size; }),
                 "fit-mail-shape");
  };
  CHECK(shape({inches(4, 3, 8), inches(5, 3, 4)}).empty()); // 1.314
  CHECK(shape({inches(4), inches(10)}).empty());            // 2.5
  CHECK(shape({inches(4), inches(10, 1, 16)}).size() == 1);
  const Findings square = shape({inches(5), inches(5)});
  REQUIRE(square.size() == 1);
  CHECK(plain(square[0].fix) == "at 5 in high, make it 6 1/2 in to 12 1/2 in long");
}

TEST_CASE("every word about the post sends the reader to her carrier") {
  Project project = changed([](Project& p, Card&) {
    p.envelopes[0].size = {inches(6), inches(6)};
  });
  project.adhesives[foam].thickness = millimetres(9);
  int seen = 0;
  for (const Finding& finding : fit::check(project)) {
    if (!finding.code.starts_with("fit-mail")) continue;
    CHECK(finding.severity == Severity::Note);
    CHECK(finding.expected.find("check with your carrier") != std::string::npos);
    ++seen;
  }
  CHECK(seen == 4); // thickness, shape, uneven, rigid
}

TEST_CASE("in another country no word about the post speaks of the United States") {
  const auto words = [](std::string_view language, std::string_view currency) {
    Project project = changed([](Project& p, Card&) {
      p.envelopes[0].size = {inches(12), inches(12)};
    });
    project.adhesives[foam].thickness = millimetres(9);
    project.language = language;
    project.currency = *parse_currency(currency);
    std::string all;
    int seen = 0;
    for (const Finding& finding : fit::check(project)) {
      if (!finding.code.starts_with("fit-mail")) continue;
      CHECK(finding.expected.find("check with your carrier") != std::string::npos);
      all += finding.found + finding.expected + finding.fix;
      ++seen;
    }
    CHECK(seen == 5); // size, thickness, shape, uneven, rigid
    return all;
  };
  for (const auto& [language, currency] :
       {std::pair{"en-GB", "GBP"}, {"en-GB", "USD"}, {"en-US", "EUR"}, {"de", "EUR"}}) {
    CAPTURE(language);
    CHECK(words(language, currency).find("USPS") == std::string::npos);
    CHECK(words(language, currency).find("11 1/2") == std::string::npos);
  }
  for (const std::string_view language : {"en-US", "en", "es-US", "en-Latn-US"})
    CHECK(words(language, "USD").find("USPS DMM 201.1.1") != std::string::npos);
}

TEST_CASE("what is placed on an upright envelope lies on it, not off its edge") {
  const std::string text = R"(<project xmlns="urn:leafwright:project" version="1" id="p" title="P">
<supplies><stock id="kraft" sheet="letter" weight="80 lb cover"/><ink id="moss"/>
<stamps id="set"><image id="tree" size="1 x 1"/></stamps>
<envelope id="tall" size="4 x 6"/><adhesive id="tape" kind="tape" length="300"/></supplies>
<card id="c" title="C" form="flat" size="3 3/4 x 5 3/4" envelope="tall"><base stock="kraft"/>
<panel id="liner" stock="kraft" on="envelope-inside" size="2 x 3" at="1/8 from right, 1/8 from bottom" with="tape"/>
<stamp image="tree" ink="moss" on="envelope-front" at="centre, 1/8 from bottom"/></card></project>)";
  const Reading reading = read_project(text, "here/p.xml");
  std::string told;
  for (const Finding& finding : reading.findings) told += finding.found + "; ";
  CHECK(told == "");
  CHECK_FALSE(says(reading.project, "fit-off-card"));
  CHECK_FALSE(says(reading.project, "fit-image"));
}

TEST_CASE("a letter thicker than a quarter of an inch is noted, one in doubt is not") {
  Project project = small_project();
  CHECK_FALSE(says(project, "fit-mail-thickness"));
  project.adhesives[foam].thickness = millimetres(6);
  CHECK(says(project, "fit-mail-thickness"));
  project.stocks[dots].caliper = {};
  CHECK_FALSE(says(project, "fit-mail-thickness"));
}

TEST_CASE("a flat card is neither uneven nor rigid") {
  const Project flat =
      in_envelope({inches(4, 1, 4), inches(5, 1, 2)}, {inches(4, 3, 8), inches(5, 3, 4)});
  CHECK_FALSE(says(flat, "fit-mail-uneven"));
  CHECK_FALSE(says(flat, "fit-mail-rigid"));
  CHECK(says(small_project(), "fit-mail-uneven"));
  CHECK(says(small_project(), "fit-mail-rigid"));
}

TEST_CASE("thicknesses are printed in both units and never rounded down") {
  CHECK(fit::thickness_text(micrometres(5101), Unit::Millimetre) == "5.2 mm (0.21 in)");
  CHECK(fit::thickness_text(micrometres(5101), Unit::Inch) == "0.21 in (5.2 mm)");
  CHECK(fit::thickness_text(inches(0, 1, 4), Unit::Millimetre) == "6.4 mm (0.25 in)");
  CHECK(fit::thickness_text({}, Unit::Millimetre) == "0.0 mm (0.00 in)");
}
