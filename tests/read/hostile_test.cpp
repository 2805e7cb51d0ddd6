#include "support.h"

#include <cstdio>
#include <filesystem>

#include <sys/stat.h>
#include <unistd.h>

using namespace leafwright;
using namespace leafwright::test;
using namespace std::string_literals;

namespace {

std::string first_code(const Reading& reading) {
  return reading.findings.empty() ? "none" : reading.findings.front().code;
}

const std::string head = R"(<project xmlns="urn:leafwright:project" version="1" id="p" title="P">)";

} // namespace

TEST_CASE("a file cut off anywhere is refused with a finding") {
  const std::string text = file_text(sample_path("five-minute"));
  const std::size_t end = text.rfind('>');
  for (std::size_t length = 0; length < end; length += 13) {
    const Reading reading = read_text(std::string_view(text).substr(0, length));
    CAPTURE(length);
    CHECK_FALSE(reading.ok());
  }
}

TEST_CASE("what the XML library would let pass is a finding of ours") {
  struct Row {
    std::string text;
    std::string_view code;
  };
  for (const Row& row : {
           Row{"", "read-empty"},
           Row{"   \n", "read-empty"},
           Row{"just words", "read-xml"},
           Row{"<?xml version=\"1.0\"?><!-- only -->", "read-empty"},
           Row{"<!DOCTYPE project><project/>", "read-doctype"},
           Row{"<!DOCTYPE p [<!ENTITY a \"&b;&b;\"><!ENTITY b \"&c;&c;\">]><p>&a;</p>",
               "read-doctype"},
           Row{"<?xml version=\"1.0\" encoding=\"ISO-8859-1\"?><project/>", "read-encoding"},
           Row{"<?xml version=\"1.1\"?><project/>", "read-xml"},
           Row{" <?xml version=\"1.0\"?><project/>", "read-xml"},
           Row{"<project a=\"1\" a=\"2\"/>", "read-twice"},
           Row{"<project/><project/>", "read-xml"},
           Row{"<project/>words", "read-xml"},
           Row{"words<project/>", "read-xml"},
           Row{"<project>&nbsp;</project>", "read-entity"},
           Row{"<project a=\"&#0;\"/>", "read-entity"},
           Row{"<project a=\"&#xD800;\"/>", "read-entity"},
           Row{"<project a=\"&#99999999999;\"/>", "read-entity"},
           Row{"<project a=\"&#x;\"/>", "read-entity"},
           Row{"<project>a & b</project>", "read-entity"},
           Row{"<project a=\"<\"/>", "read-xml"},
           Row{"<project a=1/>", "read-xml"},
           Row{"<project a/>", "read-xml"},
           Row{"<project a=\"1\"b=\"2\"/>", "read-xml"},
           Row{"<project></projekt>", "read-xml"},
           Row{"<a><b></a></b>", "read-xml"},
           Row{"</project>", "read-xml"},
           Row{"<project", "read-truncated"},
           Row{"<project>", "read-truncated"},
           Row{"<project a=\"1", "read-truncated"},
           Row{"<project><!-- a", "read-truncated"},
           Row{"<project><![CDATA[ a", "read-truncated"},
           Row{"<project><?pi", "read-truncated"},
           Row{"<project><!-- a -- b --></project>", "read-xml"},
           Row{"<project>]]></project>", "read-xml"},
           Row{"<project>< b/></project>", "read-xml"},
           Row{"<1project/>", "read-xml"},
           Row{"<![CDATA[x]]><project/>", "read-xml"},
           Row{"<project/>\0"s, "read-encoding"},
           Row{"<project a=\"\0\"/>"s, "read-encoding"},
           Row{"<project a=\"\x01\"/>", "read-encoding"},
           Row{"<project a=\"\xE4\"/>", "read-encoding"},         // Latin-1 ä
           Row{"<project a=\"\xC0\xAF\"/>", "read-encoding"},     // overlong
           Row{"<project a=\"\xED\xA0\x80\"/>", "read-encoding"}, // surrogate
           Row{"<project a=\"\xEF\xBF\xBF\"/>", "read-encoding"}, // U+FFFF
           Row{"<project a=\"\uFDD0\"/>", "read-encoding"},
           Row{"<project a=\"\U0010FFFF\"/>", "read-encoding"},
           Row{"<project a=\"&#x1FFFE;\"/>", "read-entity"},
           Row{"\xFF\xFE<\0p\0/\0>\0"s, "read-encoding"}, // UTF-16, little end first
           Row{"\0<\0p\0/\0>"s, "read-encoding"},
           Row{"\xEF\xBB\xBF", "read-empty"},
           Row{"<x:project xmlns:x=\"urn:leafwright:project\"/>", "read-not-a-project"},
           Row{"<html/>", "read-not-a-project"},
       }) {
    CAPTURE(row.text);
    const Reading reading = read_text(row.text);
    CAPTURE(all_text(reading));
    CHECK(has_code(reading, row.code));
    CHECK_FALSE(reading.ok());
  }
}

TEST_CASE("an end tag that closes the wrong element says where the open one begins") {
  const Reading reading = read_text("<a>\n  <b>\n</a>");
  CHECK(all_text(reading) == "here/p.xml:3:1: error: </a>. Expected: </b>. Fix: close <b> first, "
                             "or mend the name. [read-xml]\n"
                             "  </a>\n"
                             "  ^^^^\n"
                             "  here/p.xml:2:3: <b> begins here\n");
}

TEST_CASE("elements nested ten thousand deep are refused") {
  std::string deep;
  for (int i = 0; i < 10'000; ++i) deep += "<a>";
  CHECK(first_code(read_text(deep)) == "read-too-deep");
}

TEST_CASE("a file beyond the limit is refused before it is parsed") {
  ReadOptions options;
  options.most_bytes = 1000;
  const Reading reading = read_text(head + std::string(2000, ' ') + "</project>", options);
  CHECK(codes(reading) == std::vector<std::string>{"read-too-large"});
}

TEST_CASE("a hundred thousand faults are counted, not kept") {
  std::string text = head + "<supplies>";
  for (int i = 0; i < 100'000; ++i) text += "<x/>";
  const Reading reading = read_text(text + "</supplies></project>");
  CHECK(reading.findings.size() == 501);
  CHECK(reading.findings.back().code == "read-more");
}

TEST_CASE("a huge number of attributes, cards, ids and points is read or refused, never endless") {
  std::string attributes = "<project";
  for (int i = 0; i < 100'000; ++i) attributes += " a" + std::to_string(i) + "=\"\"";
  CHECK(first_code(read_text(attributes + "/>")) == "read-too-many");

  std::string cards;
  for (int i = 0; i < 3'000; ++i)
    cards += "</card><card id=\"c" + std::to_string(i) +
             "\" title=\"T\" form=\"flat\" size=\"A2\"><base stock=\"kraft\"/>"
             "<panel id=\"p\" stock=\"kraft\" inset=\"1/8\"/>";
  const Reading many = read_text(project_with(cards));
  CHECK(all_text(many) == "");
  CHECK(many.project.cards.size() == 3'001);
  // The 6001st in an alphabet of 23: 11 x 23 x 23 + 7 x 23 + 21.
  CHECK(many.project.cards.back().pieces.back().letter == "LGX");

  std::string points;
  for (int i = 0; i < 50'000; ++i) points += "1, 1;";
  CHECK(has_code(read_text(project_with("<panel id=\"p\" stock=\"kraft\" size=\"1 x 1\" places=\"" +
                                        points + "\"/>")),
                 "read-too-many"));
}

TEST_CASE("numbers beyond measure are findings, not overflow") {
  for (const char* size :
       {"1e400 x 1", "99999999999999999999999 x 1", "1/99999999999999999999 x 1", "-1 x 1", "0 x 1",
        "0.00000000000000000001 x 1", "200000 mm x 1",
        "999999999999 * 999999999999 * 99999999999 x 1", "NaN x 1", "inf x 1", "0x10 x 1"}) {
    CAPTURE(size);
    const Reading reading = read_text(
        project_with("<panel id=\"p\" stock=\"kraft\" size=\"" + std::string(size) + "\"/>"));
    CHECK_FALSE(reading.ok());
  }
  for (const char* attribute : {"minutes=\"99999999999\"", "minutes=\"-1\"", "minutes=\"1.5\"",
                                "minutes=\" \"", "minutes=\"0x10\""}) {
    CAPTURE(attribute);
    std::string text = project_with("");
    text.insert(text.find(" title=\"C\""), " " + std::string(attribute));
    CHECK(has_code(read_text(text), "read-number"));
  }
}

TEST_CASE("things that lie on each other or are like each other in a circle are told") {
  const Reading on = read_text(
      project_with("<panel id=\"a\" stock=\"kraft\" on=\"b\" size=\"1 x 1\" at=\"centre\"/>"
                   "<panel id=\"b\" stock=\"kraft\" on=\"a\" size=\"1 x 1\"/>"));
  CHECK(has_code(on, "read-circle"));
  const Reading like =
      read_text(project_with("<panel id=\"a\" like=\"b\"/><panel id=\"b\" like=\"a\"/>"));
  CHECK(has_code(like, "read-circle"));
  CHECK_FALSE(read_text(project_with("<panel id=\"a\" like=\"a\"/>")).ok());
}

TEST_CASE("a file on disk that is none is a finding") {
  const std::filesystem::path folder =
      std::filesystem::path(LEAFWRIGHT_BINARY_DIR) / "hostile-files";
  std::filesystem::create_directories(folder);
  const std::string pipe = (folder / "pipe").string(), loop = (folder / "loop").string();
  std::remove(pipe.c_str());
  std::remove(loop.c_str());
  REQUIRE(mkfifo(pipe.c_str(), 0600) == 0);
  REQUIRE(symlink("loop", loop.c_str()) == 0);
  for (const std::string& path : {pipe, loop, folder.string(), (folder / "none.xml").string(),
                                  "/dev/zero"s, ""s, "a\0b"s, std::string(5000, 'a')}) {
    CAPTURE(path);
    CHECK(codes(read_project_file(path)) == std::vector<std::string>{"read-no-file"});
  }
  std::filesystem::remove_all(folder);
}

TEST_CASE("a picture behind a link out of the folder is refused on a real disk") {
  const std::filesystem::path folder =
      std::filesystem::path(LEAFWRIGHT_BINARY_DIR) / "hostile-links";
  std::filesystem::create_directories(folder / "in");
  std::filesystem::remove(folder / "in" / "a.png");
  std::filesystem::create_symlink("../secret.png", folder / "in" / "a.png");
  FILE* secret = std::fopen((folder / "secret.png").string().c_str(), "wb");
  REQUIRE(secret != nullptr);
  std::fclose(secret);
  const Reading reading =
      read_project(project_with("<step picture=\"a.png\" picture-words=\"w\">s</step>"),
                   (folder / "in" / "p.xml").string());
  CHECK(codes(reading) == std::vector<std::string>{"read-outside"});
  std::filesystem::remove_all(folder);
}

TEST_CASE("a code point that is no character is told with its place and how to mend it") {
  const Reading raw = read_text("<project a=\"x\U0001FFFE\"/>");
  CHECK(all_text(raw) ==
        "here/p.xml:1:14: error: U+1FFFE, which is no character. Expected: text. Fix: delete "
        "it, or write the letter that was meant. [read-encoding]\n"
        "  <project a=\"x\U0001FFFE\"/>\n"
        "               ^\n");
  const Reading reference = read_text(head + "&#xFFFF;</project>");
  CHECK(all_text(reference).find("delete it: XML has no character of this number") !=
        std::string::npos);
}

TEST_CASE("a bare & costs no more in a long text than in a short one") {
  for (const std::size_t n : {1'000U, 2'000U, 4'000U}) {
    const std::string text(n, '&');
    std::size_t looked_at = 0;
    for (std::size_t i = 0; i < n; ++i) looked_at += reading::reference_at(text, i).looked_at;
    CHECK(looked_at <= n * reading::longest_reference);
  }
  const Reading reading =
      read_text(head + "<intro>" + std::string(200'000, '&') + "</intro></project>");
  CHECK(reading.findings.back().code == "read-more");
}

TEST_CASE("a reference is read up to its semicolon, however its number is written") {
  CHECK(reading::reference_at("a&amp;b", 1).text == "&");
  CHECK(reading::reference_at("a&amp;b", 1).length == 5);
  CHECK(reading::reference_at("&#x10FFFD;", 0).length == 10);
  CHECK(reading::reference_at("&amp", 0).text.empty());
  CHECK(reading::reference_at("& b;", 0).text.empty());
}
