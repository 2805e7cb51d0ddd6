#include "text/xml_text.h"

#include <doctest/doctest.h>

using leafwright::text::xml_text;

TEST_CASE("what XML 1.0 has no place for (2.2) is left out, all else is kept") {
  CHECK(xml_text("a<b & \"c\">\x01\x0B") == "a&lt;b &amp; &quot;c&quot;&gt;");
  CHECK(xml_text("x\uFFFEy\uFFFFz\uFFFD") == "xyz\uFFFD");
  CHECK(xml_text("½ é \U0001F33F") == "½ é \U0001F33F");
}
