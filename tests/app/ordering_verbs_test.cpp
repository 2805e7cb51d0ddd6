#include "shop.h"
#include "ua_rules.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <string>

// The order form, confirmations and what follows from payments, through the command line. Outside
// checks: qpdf, pdftotext (poppler); the drafts are read in tests/outside/mail_test.py.

namespace fs = std::filesystem;
using namespace leafwright;
using namespace leafwright::app;

using leafwright::test::count_of;
using leafwright::test::run_program;
using leafwright::test::sample;
using leafwright::test::Shop;

TEST_CASE("an order form is a PDF with named fields, a page and questions as text") {
  const tools::Folder folder;
  const auto ran = run_program({"order-form", sample("orchard-gate"), "-o", folder.path()});
  REQUIRE(ran.code == Done);
  CHECK(ran.error.find("warning") == std::string::npos);
  const std::string pdf = tools::read_file(folder.path("orchard-gate-order-form.pdf"));
  for (const std::string& breach : ua::breaches(pdf)) FAIL_CHECK(breach);
  const int fields = ua::count_of(pdf, "Form");
  CHECK(fields > 10);
  const std::string json = tools::run_on(pdf, "qpdf --json --json-key=acroform {}").output;
  CHECK(count_of(json, "\"fullname\"") == static_cast<std::size_t>(fields));
  CHECK(count_of(json, "\"alternativename\": \"\"") == 0);
  CHECK(json.find("\"fullname\": \"tier-full\"") != std::string::npos);
  CHECK(json.find("\"alternativename\": \"Your name\"") != std::string::npos);
  CHECK(tools::run_on(pdf, "qpdf --check {}").output.find("No syntax") != std::string::npos);
  CHECK(tools::run_on(pdf, "pdftotext -layout {} -").output.find("Which option?") !=
        std::string::npos);
  CHECK(tools::read_file(folder.path("orchard-gate-order-form.txt")).find("column: tier") !=
        std::string::npos);
  CHECK(
      tools::read_file(folder.path("orchard-gate-order-form.html")).starts_with("<!doctype html>"));
}

TEST_CASE("the team's order form stands in the team's own folder") {
  const tools::Folder folder;
  REQUIRE(run_program({"order-form", sample("kelp-lantern"), "-o", folder.path()}).code == Done);
  CHECK(fs::exists(folder.path("team/kelp-lantern-order-form-team.pdf")));
}

TEST_CASE("what came in stands on the slip, in the table of parcels and in the money report") {
  const Shop shop("name,tier,status,paid,refunded\n"
                  "Ada,full,,10.00,\nBo,full,,,\nCy,full,,0,\nDi,,cancelled,\"25,00\",5\n");
  REQUIRE(shop.make("packing-slips").code == Done);
  const std::string slips = shop.text_of("private/p-packing-slips.pdf");
  CHECK(count_of(slips, "Not all is paid.") == 1);
  CHECK(count_of(slips, "Not paid yet.") == 1);
  const std::string csv = shop.out("private/p-parcels.csv");
  CHECK(csv.find(",due,received,returned,owed,sent,picked_up,status,") != std::string::npos);
  REQUIRE(shop.make("money").code == Done);
  const std::string money =
      tools::run_on(shop.out("private/p-money.pdf"), "pdftotext {} - | tr '\\n' ' '").output;
  CHECK(money.find("So far $35.00 came in, $5.00 went back") != std::string::npos);
  CHECK(money.find("Two orders still owe you") != std::string::npos);
  CHECK(money.find("You have $20.00 to give back, for one order.") != std::string::npos);
}

TEST_CASE("orders of one parcel have one label and one number; what is sent or fetched has none") {
  const Shop shop("name,tier,parcel,sent,picked up,address\n"
                  "Ada,full,reed,,,1 Lane\nBo,full,,,,2 Lane\nCy,paper,Reed,,,1 lane\n"
                  "Di,full,,RR 12 34,,3 Lane\nEd,full,,,yes,4 Lane\n");
  REQUIRE(shop.make("labels").code == Done);
  const std::string labels = shop.text_of("private/p-labels.pdf");
  CHECK(labels.find("Ada") != std::string::npos);
  CHECK(labels.find("Bo") != std::string::npos);
  for (const char* name : {"Cy", "Di", "Ed"}) CHECK(labels.find(name) == std::string::npos);
  REQUIRE(shop.make("packing-slips").code == Done);
  const std::string slips = shop.text_of("private/p-packing-slips.pdf");
  CHECK(count_of(slips, "parcel 1 of 4") == 2);
  CHECK(count_of(slips, "One parcel.") == 2);
  CHECK(slips.find("Sent already.") != std::string::npos);
  CHECK(slips.find("She picks it up.") != std::string::npos);
  CHECK(shop.check().error.find("order-two-addresses") == std::string::npos);
  const Shop apart("name,tier,parcel,address\nAda,full,a,1 Lane\nAda,paper,a,2 Lane\n");
  CHECK(apart.check().error.find("roster.csv:3:1: warning: Ada travels with Ada") !=
        std::string::npos);
}

TEST_CASE("drafts name buyers and stand in the private folder; all does not make them") {
  const Shop shop("name,tier,e-mail\nAda,full,ada@x.example\nBo,booklet,none\n");
  const auto ran = shop.make("confirmations");
  REQUIRE(ran.code == Done);
  CHECK(count_of(ran.error, "[confirmation-no-address]") == 1);
  CHECK(ran.error.find("one order without an e-mail address: line 3") != std::string::npos);
  CHECK(fs::exists(shop.path("out/private/p-confirmations/0001.eml")));
  CHECK(fs::exists(shop.path("out/private/p-confirmations/0002.eml")));
  const Shop other("name,tier,e-mail\nAda,full,ada@x.example\n");
  REQUIRE(other.make("all").code == Done);
  CHECK_FALSE(fs::exists(other.path("out/private/p-confirmations")));
}

TEST_CASE("a carrier's table has the address line by line, and the country with its code") {
  const Shop shop(
      "name,tier,address,country\n"
      "Ada,full,\"Ada\n1 Lane\nDublin\nireland\",\nBo,full,\"2 Weg\nBerlin\",DE\n"
      "Cy,full,\"3 Lane\nFloor 2\nYard\nVillage\nShire\nUSA\",\nDi,paper,4 Lane,home\n");
  REQUIRE(shop.make("packing-slips").code == Done);
  const std::string csv = shop.out("private/p-carrier.csv");
  CHECK(csv.find("\r\n1,Ada,1 Lane,Dublin,,,Ireland,IE,,") != std::string::npos);
  CHECK(csv.find("\r\n2,Bo,2 Weg,Berlin,,,Germany,DE,,") != std::string::npos);
  CHECK(csv.find("\r\n3,Cy,3 Lane,Floor 2,Yard,\"Village, Shire\",United States,US,,") !=
        std::string::npos);
  CHECK(csv.find("\r\n4,Di,4 Lane,,,,,,,") != std::string::npos); // no country that is known
}
