#include "texts.h"

#include <doctest/doctest.h>

#include <fstream>
#include <iterator>
#include <random>
#include <string>
#include <vector>

// Undoing, redoing, and putting together what two have changed.

using namespace leafwright;
using namespace leafwright::local_page;
using namespace leafwright::test;
using What = Wish::What;

TEST_CASE("undo gives the very bytes and keys back, redo the new ones") {
  Session session(small_project);
  const KeyedText before = session.now();
  REQUIRE(done(session, wish(What::Remove, key_of(before, "panel", "mat"))));
  const KeyedText after = session.now();
  REQUIRE(session.undo());
  CHECK(session.now().bytes == before.bytes);
  CHECK(session.now().keys == before.keys);
  CHECK_FALSE(session.unsaved());
  REQUIRE(session.redo());
  CHECK(session.now().bytes == after.bytes);
  CHECK(session.now().keys == after.keys);
  CHECK_FALSE(session.redo());
}

TEST_CASE("elements keep their keys through changes elsewhere") {
  Session session(small_project);
  const Key label = key_of(session.now(), "panel", "label"), step = key_of(session.now(), "step");
  REQUIRE(done(session, wish(What::Duplicate, key_of(session.now(), "panel", "mat"))));
  REQUIRE(done(session, set_wish(key_of(session.now(), "project"), "subtitle", "Long words")));
  CHECK(key_of(session.now(), "panel", "label") == label);
  CHECK(key_of(session.now(), "step") == step);
}

TEST_CASE("what is typed without a pause is one step") {
  Session session(small_project);
  const Key project = key_of(session.now(), "project");
  REQUIRE(done(session, set_wish(project, "title", "A"), "title", 1.0));
  REQUIRE(done(session, set_wish(project, "title", "Ab"), "title", 1.4));
  REQUIRE(done(session, set_wish(project, "title", "Abc"), "title", 2.0)); // a pause of 0.6 s
  CHECK(session.undo_steps().size() == 2);
  REQUIRE(session.undo());
  CHECK(session.now().bytes == with(small_project, "'One \"small\" set'", "'Ab'"));
  REQUIRE(session.undo());
  CHECK(session.now().bytes == small_project);
}

TEST_CASE("what is typed and taken back without a pause leaves nothing to undo") {
  Session session(small_project);
  const Key mat = key_of(session.now(), "panel", "mat");
  REQUIRE(done(session, set_wish(mat, "inset", "1/4"), "inset", 1.0));
  REQUIRE(done(session, set_wish(mat, "inset", "1/8"), "inset", 1.2));
  CHECK(session.now().bytes == small_project);
  CHECK(session.undo_steps().empty());
}

TEST_CASE("of several changes all are made or none") {
  Session session(small_project);
  const Key mat = key_of(session.now(), "panel", "mat");
  std::vector<edit::Written> written;
  const auto no =
      session.edit({set_wish(mat, "inset", "1/4"), set_wish(mat, "nothing", "1")}, {}, 0, written);
  CHECK(no.has_value());
  CHECK(session.now().bytes == small_project);
}

TEST_CASE("a change after undoing ends what could be redone") {
  Session session(small_project);
  const Key mat = key_of(session.now(), "panel", "mat");
  REQUIRE(done(session, set_wish(mat, "inset", "1/4")));
  REQUIRE(session.undo());
  REQUIRE(done(session, set_wish(mat, "inset", "3/8")));
  CHECK_FALSE(session.redo());
}

TEST_CASE("changes to different attributes are both kept") {
  const std::string mine = with(small_project, "inset=\"1/8\"", "inset=\"1/4\"");
  const std::string theirs =
      with(with(small_project, "title=\"One\"", "title=\"First\""), "#cfae83", "#ccaa88");
  const Merge both = merged(small_project, mine, theirs);
  REQUIRE(both.bytes);
  CHECK(*both.bytes == with(theirs, "inset=\"1/8\"", "inset=\"1/4\""));
  CHECK(both.theirs.size() == 2);
}

TEST_CASE("the same change made twice is one change") {
  const std::string both = with(small_project, "inset=\"1/8\"", "inset=\"1/4\"");
  CHECK(merged(small_project, both, both).bytes == both);
}

TEST_CASE("two values for one attribute are not put together") {
  const Merge both = merged(small_project, with(small_project, "inset=\"1/8\"", "inset=\"1/4\""),
                            with(small_project, "inset=\"1/8\"", "inset=\"3/8\""));
  CHECK_FALSE(both.bytes);
  REQUIRE(both.theirs.size() == 1);
  CHECK(both.theirs.front().where == "card one / panel mat: inset");
  CHECK(both.theirs.front().after == "3/8");
}

TEST_CASE("an element that one takes out and the other changes is not put together") {
  Session session(small_project);
  REQUIRE(done(session, wish(What::Remove, key_of(session.now(), "panel", "mat"))));
  CHECK_FALSE(merged(small_project, session.now().bytes,
                     with(small_project, "inset=\"1/8\"", "inset=\"3/8\""))
                  .bytes);
}

TEST_CASE("another text comes in byte for byte, and can be undone") {
  Session session(small_project);
  const std::string theirs = with(with(small_project, "<!-- the mat -->", "<!-- the  MAT -->"),
                                  "title=\"One\"", "title=\"First\"");
  session.replace(theirs, "what was changed outside");
  CHECK(session.now().bytes == theirs);
  REQUIRE(session.undo());
  CHECK(session.now().bytes == small_project);
}

namespace {

std::string sample_bytes() {
  std::ifstream file(LEAFWRIGHT_SOURCE_DIR "/samples/five-minute/project.xml", std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

Wish random_wish(const KeyedText& text, std::mt19937& random) {
  const auto any = [&] { return text.keys[random() % text.keys.size()]; };
  static const std::vector<std::string> names{"title", "name", "size", "inset", "stock", "colour"};
  static const std::vector<std::string> values{"1/8", "a & b", "\"it's\"", "<3", "4 x 5", ""};
  static const std::vector<std::string> tags{"panel", "stock", "step", "tip", "card", "score"};
  Wish one = wish(static_cast<What>(random() % 6), any());
  if (random() % 2 == 0) one.before = any();
  one.name = names[random() % names.size()];
  one.words = values[random() % values.size()];
  one.remove = random() % 5 == 0;
  one.element = {tags[random() % tags.size()], values[random() % values.size()], {}, {}};
  return one;
}

} // namespace

TEST_CASE("ten thousand changes are taken back to the same bytes and made again") {
  std::mt19937 random(20270316);
  const std::string first = sample_bytes();
  Session session(first);
  const std::vector<Key> first_keys = session.now().keys;
  int made = 0;
  for (int i = 0; i < 10'000; ++i) {
    // A project that has grown is taken back a little, as people do.
    if (session.now().bytes.size() > 3 * first.size())
      while (session.now().bytes.size() > 2 * first.size()) session.undo();
    made += done(session, random_wish(session.now(), random)) ? 1 : 0;
  }
  CHECK(made > 2'000);
  const KeyedText last = session.now();
  const std::size_t steps = session.undo_steps().size();
  while (session.undo()) {
  }
  CHECK(session.now().bytes == first);
  CHECK(session.now().keys == first_keys);
  for (std::size_t i = 0; i < steps; ++i) REQUIRE(session.redo());
  CHECK(session.now().bytes == last.bytes);
  CHECK(session.now().keys == last.keys);
}
