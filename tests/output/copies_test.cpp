#include "output/copies.h"
#include "output/internal/copies/foot_room.h"
#include "sample.h"
#include "tools.h"

#include <doctest/doctest.h>

#include <string>

using namespace leafwright;
using tools::run_on;

namespace {

const page::Laid& document() {
  static const page::Laid laid = sample::document();
  return laid;
}
const copies::CopyStamper& press() {
  static const Parsed<copies::CopyStamper> made =
      copies::CopyStamper::made(document(), sample::fonts(), sample::pictures(), {});
  REQUIRE(made.ok());
  return *made;
}
std::string copy_for(const copies::Recipient& recipient) {
  const auto bytes = press().copy(recipient);
  REQUIRE(bytes.ok());
  return *bytes;
}
const copies::Recipient zoe{"Zoë Křížová-Ångström", "2027/014", "Edition 3"};

bool holds(const std::string& text, std::string_view part) {
  return text.find(part) != std::string::npos;
}

copies::Lock lock() {
  copies::Lock given;
  given.owner_password = "a long walk by the river";
  return given;
}

} // namespace

TEST_CASE("a copy says on every page for whom it is") {
  const std::string bytes = copy_for(zoe);
  CHECK(run_on(bytes, "qpdf --check {}").status == 0);
  for (const char* page : {"1", "2"}) {
    const auto text =
        run_on(bytes, std::string("pdftotext -layout -f ") + page + " -l " + page + " {} -");
    CHECK_MESSAGE(
        holds(text.output, "Prepared for Zoë Křížová-Ångström · order 2027/014 · Edition 3"),
        text.output);
  }
}

TEST_CASE("a copy says in its metadata for whom it is, for the document and for each page") {
  const std::string bytes = copy_for(zoe);
  const auto info = run_on(bytes, "pdfinfo -custom {}");
  CHECK(holds(info.output, "Zoë Křížová-Ångström"));
  CHECK(holds(info.output, "2027/014"));
  CHECK(holds(run_on(bytes, "pdfinfo -meta {}").output, "<made:order>2027/014</made:order>"));
  const auto pages = run_on(bytes, "qpdf --qdf --object-streams=disable {} -");
  std::size_t count = 0;
  for (std::size_t at = 0;
       (at = pages.output.find("<made:prepared-for>Zoë Křížová-Ångström", at)) != std::string::npos;
       ++at)
    ++count;
  CHECK(count == 2); // the document's packet, and the one that both pages share
}

TEST_CASE("a stamp is no part of what is read aloud, and the tree is that of the document") {
  const auto stamped = run_on(copy_for(zoe), "pdfinfo -struct-text {}");
  CHECK_FALSE(holds(stamped.output, "Prepared for"));
  const auto plain = pdf::write_pdf(document(), sample::fonts(), sample::pictures());
  REQUIRE(plain.ok());
  CHECK(stamped.output == run_on(*plain, "pdfinfo -struct-text {}").output);
}

TEST_CASE("copies differ from each other and not from themselves") {
  CHECK(copy_for(zoe) == copy_for(zoe));
  CHECK(copy_for(zoe) != copy_for({"Ada", "2", ""}));
  CHECK_FALSE(holds(run_on(copy_for({"Ada", "2", ""}), "pdftotext {} -").output, "Zoë"));
}

TEST_CASE("what is not known is left out of the stamp") {
  CHECK(copies::stamp_words({"Ada", "", ""}) == "Prepared for Ada");
  CHECK(copies::stamp_words({"", "7", "Edition 1"}) == "order 7 · Edition 1");
}

TEST_CASE("characters that the font lacks are named") {
  CHECK(press().missing(zoe).empty());
  CHECK(press().missing({"李 Li", "", ""}) == std::vector<char32_t>{U'李'});
}

TEST_CASE("a long name is set smaller, and one without end does not fit") {
  CHECK(press().fits({std::string(100, 'n'), "1", ""}));
  CHECK_FALSE(press().fits({std::string(400, 'n'), "1", ""}));
}

TEST_CASE("the stamp keeps clear of what is printed at the foot") {
  page::LaidPage page;
  page.size = {millimetres(140), millimetres(216)};
  const Length size = points(7);
  const Length free = *copies::foot_baseline(page, size);
  CHECK(free == page.size.height - millimetres(8));
  page.items.emplace_back(sample::run("foot", {millimetres(10), millimetres(206)}));
  const auto below = copies::foot_baseline(page, size);
  REQUIRE(below.has_value());
  CHECK(*below >= free);
  CHECK(*below - size * 3 / 4 > millimetres(206) + points(10) / 4);
  page.items.emplace_back(sample::run("deep", {millimetres(10), millimetres(213)}));
  CHECK_FALSE(copies::foot_baseline(page, size).has_value());
}

TEST_CASE("a locked copy opens by itself, cannot be changed, and is read aloud all the same") {
  const auto bytes = copies::locked(copy_for(zoe), lock());
  REQUIRE(bytes.ok());
  const auto shown = run_on(*bytes, "qpdf --show-encryption {}");
  CHECK(holds(shown.output, "R = 6"));
  CHECK(holds(shown.output, "AESv3"));
  CHECK(holds(shown.output, "extract for accessibility: allowed"));
  CHECK(holds(shown.output, "extract for any purpose: not allowed"));
  CHECK(holds(shown.output, "print high resolution: allowed"));
  CHECK(holds(shown.output, "modify other: not allowed"));
  CHECK(holds(run_on(*bytes, "pdftotext {} -").output, "Zoë"));
  CHECK_FALSE(holds(*bytes, "river"));
}

TEST_CASE("a copy with an opening password stays shut without it") {
  copies::Lock shut = lock();
  shut.open_password = "grün";
  const auto bytes = copies::locked(copy_for(zoe), shut);
  REQUIRE(bytes.ok());
  CHECK(run_on(*bytes, "pdftotext {} -").status != 0);
  CHECK(holds(run_on(*bytes, "pdftotext -upw grün {} -").output, "Zoë"));
}

TEST_CASE("a lock is read line by line") {
  const auto read = copies::read_lock("# kept in the safe\r\nowner-password:  two words \r\n\n"
                                      "open-password: x:y\nallow: print, annotate\n");
  REQUIRE(read.ok());
  CHECK((*read).owner_password == "two words");
  CHECK((*read).open_password == "x:y");
  CHECK((*read).print);
  CHECK((*read).annotate);
  CHECK_FALSE((*read).copy);
  CHECK_FALSE((*read).change);
}

TEST_CASE("what is wrong with a lock is said without telling its secrets") {
  for (const char* text : {"owner-password: swordfish\nallow: swordfish", "swordfish",
                           "passwort: swordfish", "open-password: swordfish"}) {
    const auto read = copies::read_lock(text);
    REQUIRE_FALSE(read.ok());
    const ParseError& why = read.parse_error();
    CHECK_FALSE(holds(why.found + why.expected + why.fix, "swordfish"));
  }
}
