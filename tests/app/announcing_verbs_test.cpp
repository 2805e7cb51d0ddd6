#include "shop.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <string>

// Rundown and announcements as files, through the command line. Outside checks: pdfinfo and
// pdftotext (poppler).

namespace fs = std::filesystem;
using namespace leafwright;
using namespace leafwright::app;

using leafwright::test::run_program;
using leafwright::test::sample;
using leafwright::test::Shop;

namespace {

void write_template(const Shop& shop, const std::string& name, const std::string& text) {
  fs::create_directories(shop.path("announcing"));
  std::ofstream(shop.path("announcing/" + name), std::ios::binary) << text;
}

} // namespace

TEST_CASE("a rundown is a PDF of few pages, a text for the prompter and cues") {
  const tools::Folder folder;
  REQUIRE(run_program({"rundown", sample("orchard-gate"), "-o", folder.path()}).code == Done);
  const std::string pdf = tools::read_file(folder.path("orchard-gate-rundown.pdf"));
  CHECK(tools::run_on(pdf, "pdfinfo {} | grep '^Pages'").output.find(" 3\n") != std::string::npos);
  CHECK(tools::run_on(pdf, "pdftotext -layout {} -").output.find("Under the trees") !=
        std::string::npos);
  CHECK(tools::read_file(folder.path("orchard-gate-rundown.txt")).starts_with("Orchard Gate ("));
  CHECK(tools::read_file(folder.path("orchard-gate-rundown.vtt")).starts_with("WEBVTT\n\n"));
}

TEST_CASE("the team's rundown stands in the team's own folder") {
  const tools::Folder folder;
  REQUIRE(run_program({"rundown", sample("kelp-lantern"), "-o", folder.path()}).code == Done);
  CHECK(fs::exists(folder.path("team/kelp-lantern-rundown-team.txt")));
  CHECK(tools::read_file(folder.path("kelp-lantern-rundown.txt")).find("Table set") ==
        std::string::npos);
}

TEST_CASE("announcements are a folder of texts, each within the length its name says") {
  const tools::Folder folder;
  const auto ran = run_program({"announcements", sample("orchard-gate"), "-o", folder.path()});
  REQUIRE(ran.code == Done);
  CHECK(ran.error.find("announcing-") == std::string::npos);
  for (const char* name : {"email.txt", "caption-80.txt", "caption-280.txt", "caption-2200.txt",
                           "pictures.txt", "reminder.txt", "last-call.txt", "after.txt"}) {
    CAPTURE(name);
    const std::string text =
        tools::read_file(folder.path("orchard-gate-announcements/" + std::string(name)));
    CHECK_FALSE(text.empty());
    CHECK(text.find('{') == std::string::npos);
  }
  CHECK(tools::read_file(folder.path("orchard-gate-announcements/made-for.json"))
            .find(R"("send": "2027-03-13")") != std::string::npos);
}

TEST_CASE("a template beside the project takes the place of ours, and may be one more") {
  const Shop shop("name,tier\nAda,full\n");
  write_template(shop, "email.txt", "Mine: {title}\n");
  write_template(shop, "blog.txt", "Post: {title}\n");
  REQUIRE(shop.make("announcements").code == Done);
  CHECK(shop.out("p-announcements/email.txt").starts_with("Mine: "));
  CHECK(shop.out("p-announcements/blog.txt").starts_with("Post: "));
}

TEST_CASE("an unknown field of a template stops the work and names those there are") {
  const Shop shop("name,tier\nAda,full\n");
  write_template(shop, "email.txt", "{tittle}\n");
  const auto ran = shop.make("announcements");
  CHECK(ran.code != Done);
  CHECK(ran.error.find("{tittle}") != std::string::npos);
  CHECK(ran.error.find("{title}") != std::string::npos);
}

TEST_CASE("after a change of price, status names the texts that would read otherwise") {
  const Shop shop("name,tier\nAda,full\n");
  REQUIRE(shop.make("announcements").code == Done);
  const auto status = [&] {
    return run_program({"status", shop.path("out"), shop.path("project.xml")});
  };
  const auto current = status();
  CHECK_MESSAGE(current.code == Done, current.out);
  std::string project = tools::read_file(shop.path("project.xml"));
  project.replace(project.find("price=\"30\""), 10, "price=\"32\"");
  std::ofstream(shop.path("project.xml"), std::ios::binary) << project;
  const auto old = status();
  CHECK(old.code == FoundErrors);
  CHECK(old.out.find("old      " + shop.path("out/p-announcements/email.txt")) !=
        std::string::npos);
  CHECK(old.out.find("current  " + shop.path("out/p-announcements/pictures.txt")) !=
        std::string::npos);
}
