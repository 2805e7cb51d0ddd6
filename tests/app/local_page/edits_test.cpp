#include "texts.h"

#include "app/system/json_value.h"

#include <doctest/doctest.h>

#include <string>

// What each change makes of the bytes of a file: the rest of it stays as it was.

using namespace leafwright;
using namespace leafwright::local_page;
using namespace leafwright::test;
using What = Wish::What;

namespace {

std::string after(const Wish& wish) {
  Session session(small_project);
  return done(session, wish) ? session.now().bytes : "refused";
}

Key key(std::string_view name, std::string_view id = {}) {
  return key_of(keyed(small_project), name, id);
}

} // namespace

TEST_CASE("an attribute gets another value between its own quotes") {
  CHECK(after(set_wish(key("panel", "mat"), "inset", "1/4")) ==
        with(small_project, "inset=\"1/8\"", "inset=\"1/4\""));
  CHECK(after(set_wish(key("project"), "title", "Ann's \"<b>\" & co")) ==
        with(small_project, "'One \"small\" set'", "'Ann&apos;s \"&lt;b>\" &amp; co'"));
}

TEST_CASE("an attribute that is not there comes behind the last") {
  CHECK(after(set_wish(key("stock", "cream"), "price", "4.50")) ==
        with(small_project, "           sheet=\"letter\"/>",
             "           sheet=\"letter\" price=\"4.50\"/>"));
}

TEST_CASE("an attribute is taken out with the blanks before it") {
  Wish out = set_wish(key("stock", "cream"), "sheet", "");
  out.remove = true;
  CHECK(after(out) == with(small_project, "\n           sheet=\"letter\"/>", "/>"));
}

TEST_CASE("an attribute that the vocabulary does not have is refused") {
  CHECK(after(set_wish(key("panel", "mat"), "colour", "red")) == "refused");
  CHECK(after(set_wish(key("panel", "mat"), "x=\"1\" y", "2")) == "refused");
}

TEST_CASE("what XML cannot hold is refused, and nothing changes") {
  Session session(small_project);
  CHECK_FALSE(done(session, set_wish(key("project"), "title", std::string("a\x01z"))));
  CHECK(session.now().bytes == small_project);
  CHECK(session.undo_steps().empty());
}

TEST_CASE("words change where they stand, comments and elements among them stay") {
  Wish words = wish(What::Text, key("step"));
  words.words = "Glue {mat} & press.";
  CHECK(after(words) == with(small_project, "Tape it <!-- well --> down.",
                             "Glue {mat} &amp; press. <!-- well --> "));
  CHECK(after(wish(What::Text, key("panel", "mat"))) == "refused"); // it holds none
}

TEST_CASE("an element is added behind the last of its kind, as far in as the others") {
  Wish add = wish(What::Add, key("supplies"));
  add.element = {"stock", "", {{"id", "sky"}, {"colour", "#aaccee"}}, {}};
  CHECK(after(add) == with(small_project, "           sheet=\"letter\"/>\n  </supplies>",
                           "           sheet=\"letter\"/>\n    <stock id=\"sky\" "
                           "colour=\"#aaccee\"/>\n  </supplies>"));
}

TEST_CASE("an element is added in front of another, whose comment stays with it") {
  Wish add = wish(What::Add, key("card"), key("panel", "mat"));
  add.element = {"panel", "", {{"stock", "cream"}}, {}};
  CHECK(after(add) == with(small_project, "<base stock=\"kraft\"/>\n",
                           "<base stock=\"kraft\"/>\n    <panel id=\"panel\" stock=\"cream\"/>\n"));
}

TEST_CASE("an element comes with what it may not be without") {
  Wish add = wish(What::Add, key("project"));
  add.element = {"card", "", {{"title", "Two"}, {"form", "flat"}, {"size", "A2"}}, {}};
  add.element.children.push_back({"base", "", {{"stock", "kraft"}}, {}});
  CHECK(after(add) == with(small_project, "  </card>\n",
                           "  </card>\n  <card id=\"card\" title=\"Two\" form=\"flat\" "
                           "size=\"A2\">\n    <base stock=\"kraft\"/>\n  </card>\n"));
}

TEST_CASE("an element that may stand there once is not added twice, nor where it cannot stand") {
  Wish add = wish(What::Add, key("card"));
  add.element = {"base", "", {{"stock", "cream"}}, {}};
  CHECK(after(add) == "refused");
  add.element.tag = "tier";
  CHECK(after(add) == "refused");
}

TEST_CASE("an empty element is opened for its first child") {
  Wish add = wish(What::Add, key("panel", "mat"));
  add.element = {"round-corners", "", {{"radius", "1/4"}}, {}};
  CHECK(after(add) == with(small_project, "inset=\"1/8\"/>",
                           "inset=\"1/8\">\n      <round-corners radius=\"1/4\"/>\n    </panel>"));
}

TEST_CASE("a copy stands behind its original under an id that is free") {
  CHECK(after(wish(What::Duplicate, key("panel", "mat"))) ==
        with(small_project, "inset=\"1/8\"/>\n",
             "inset=\"1/8\"/>\n    <panel id=\"mat-2\" stock=\"cream\" on=\"front\" "
             "inset=\"1/8\"/>\n"));
}

TEST_CASE("an element goes with its line, what follows on the line stays") {
  CHECK(after(wish(What::Remove, key("panel", "label"))) ==
        with(small_project,
             "\n    <panel id=\"label\" stock=\"kraft\" on=\"mat\" size=\"3 x 1\"></panel>", ""));
  CHECK(after(wish(What::Remove, key("stock", "kraft"))) ==
        with(small_project, "<stock id=\"kraft\" colour=\"#cfae83\" sheet=\"letter\"/>", ""));
  CHECK(after(wish(What::Remove, key("project"))) == "refused");
}

TEST_CASE("a moved element keeps its key and its bytes") {
  Session session(small_project);
  const Key label = key("panel", "label");
  REQUIRE(done(session, wish(What::Move, label, key("panel", "mat"))));
  const std::string line =
      "\n    <panel id=\"label\" stock=\"kraft\" on=\"mat\" size=\"3 x 1\"></panel>";
  CHECK(session.now().bytes == with(with(small_project, line, ""), "<base stock=\"kraft\"/>",
                                    "<base stock=\"kraft\"/>" + line));
  CHECK(key_of(session.now(), "panel", "label") == label);
}

TEST_CASE("nothing is moved into itself") {
  CHECK(after(wish(What::Move, key("card"), key("panel", "mat"))) == "refused");
}

TEST_CASE("JSON is read as RFC 8259 has it") {
  CHECK(app::parse_json("{\"a\":[1,-2.5e3,true,null,\"\\u00e9\\ud83d\\ude00\\n\"]}")
            ->find("a")
            ->list.at(4)
            .text == "é😀\n");
  for (const char* wrong :
       {"", "{", "[1,]", "{\"a\"}", "\"\\ud83d\"", "\"a\nb\"", "01x", "nul", "[1] 2", "\"\\x\""})
    CHECK_MESSAGE(!app::parse_json(wrong), wrong);
  CHECK_FALSE(app::parse_json(std::string(100'000, '[')));
}

TEST_CASE("JSON is read to a bounded depth, in valid UTF-8, and whole") {
  const auto nested = [](std::size_t depth) {
    return std::string(depth, '[') + std::string(depth, ']');
  };
  CHECK(app::parse_json(nested(16)));
  CHECK_FALSE(app::parse_json(nested(17)));
  CHECK_FALSE(app::parse_json("\"\xff\""));
  CHECK_FALSE(app::parse_json("{} {}"));
  CHECK_FALSE(app::parse_json("{\"a\":"));
  const auto value = app::parse_json("{\"a\":[1,-2.5,true,null,\"\\ud83c\\udf4e\"]}");
  REQUIRE(value);
  const app::JsonValue* list = value->find("a");
  REQUIRE(list != nullptr);
  REQUIRE(list->list.size() == 5);
  CHECK(list->list[1].number == -2.5);
  CHECK(list->list[4].text == "\U0001F34E");
}

TEST_CASE("an attribute in its American spelling is changed where it stands") {
  const std::string american = with(small_project, "colour=\"#cfae83\"", "color=\"#cfae83\"");
  Session session(american);
  REQUIRE(done(session, set_wish(key_of(session.now(), "stock", "kraft"), "colour", "#111111")));
  CHECK(session.now().bytes == with(american, "#cfae83", "#111111"));
}
