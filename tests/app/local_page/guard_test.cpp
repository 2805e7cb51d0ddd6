#include "app/local_page/internal/guard.h"

#include <doctest/doctest.h>

#include <algorithm>

// Who is answered. The headers are those of the Fetch standard and RFC 6265; a page elsewhere can
// choose none of Host, Origin and Cookie.

using namespace leafwright::local_page;

namespace {

constexpr int port = 41'234;

Request fair() {
  Request request;
  request.method = "GET";
  request.path = "/api/project";
  request.host = "127.0.0.1:41234";
  request.fetch_site = "same-origin";
  request.cookie = "other=1; leafwright-41234=session";
  return request;
}
Request fair_change() {
  Request request = fair();
  request.method = "POST";
  request.path = "/api/edit";
  request.origin = "http://127.0.0.1:41234";
  request.type = "application/json";
  return request;
}

int status(const Request& request) {
  Guard guard(port, "token", "session");
  const auto stopped = guard.stops(request, 0);
  return stopped ? stopped->status : 200;
}
template <class Change>
int status_with(Request request, Change change) {
  change(request);
  return status(request);
}

} // namespace

TEST_CASE("the page itself is answered") {
  CHECK(status(fair()) == 200);
  CHECK(status(fair_change()) == 200);
  CHECK(status_with(fair(), [](auto& r) { r.host = "[::1]:41234"; }) == 200);
}

TEST_CASE("another host is not: a name may be made to point here") {
  for (const char* host : {"", "127.0.0.1", "127.0.0.1:80", "evil.example:41234",
                           "127.0.0.1:41234.evil.example", "127.0.0.1:412345", "0.0.0.0:41234"})
    CHECK_MESSAGE(status_with(fair(), [&](auto& r) { r.host = host; }) == 403, host);
}

TEST_CASE("without the session there is nothing") {
  for (const char* cookie :
       {"", "leafwright-41234=", "leafwright-41234=sessio", "leafwright-41234=session2",
        "xleafwright-41234=session", "leafwright-41235=session"})
    CHECK_MESSAGE(status_with(fair(), [&](auto& r) { r.cookie = cookie; }) == 401, cookie);
}

TEST_CASE("a change needs the page's own origin") {
  for (const char* origin : {"", "null", "http://evil.example", "http://127.0.0.1:41235",
                             "https://127.0.0.1:41234", "http://localhost:41234"})
    CHECK_MESSAGE(status_with(fair_change(), [&](auto& r) { r.origin = origin; }) == 403, origin);
}

TEST_CASE("a change is JSON, which a form of another page cannot send") {
  CHECK(status_with(fair_change(), [](auto& r) { r.type = "text/plain"; }) == 415);
  CHECK(status_with(fair_change(), [](auto& r) { r.type = "application/json; charset=utf-8"; }) ==
        200);
}

TEST_CASE("what another site asks for is not answered, reading or not") {
  CHECK(status_with(fair(), [](auto& r) { r.fetch_site = "cross-site"; }) == 403);
  CHECK(status_with(fair(), [](auto& r) { r.fetch_site = "same-site"; }) == 403); // another port
  CHECK(status_with(fair(), [](auto& r) { r.origin = "http://evil.example"; }) == 403);
}

TEST_CASE("events need to say where they are read") {
  const auto events = [](auto& r) { r.path = "/api/events", r.fetch_site = ""; };
  CHECK(status_with(fair(), events) == 403);
  CHECK(status_with(fair(), [&](auto& r) { events(r), r.origin = "http://127.0.0.1:41234"; }) ==
        200);
}

TEST_CASE("other methods are refused") {
  for (const char* method : {"PUT", "DELETE", "OPTIONS", "HEAD", "PATCH"})
    CHECK(status_with(fair(), [&](auto& r) { r.method = method; }) == 405);
}

TEST_CASE("the token opens the page once, for a cookie that scripts and other sites cannot have") {
  Guard guard(port, "token", "session");
  Request opening = fair();
  opening.path = "/";
  opening.cookie.clear();
  opening.fetch_site = "none";
  opening.query = {{"token", "wrong"}};
  CHECK(guard.stops(opening, 0)->status == 403);
  opening.query = {{"token", "token"}};
  const auto opened = guard.stops(opening, 0);
  REQUIRE(opened->status == 303);
  const auto cookie =
      std::ranges::find(opened->headers, "Set-Cookie", [](const auto& one) { return one.first; });
  REQUIRE(cookie != opened->headers.end());
  CHECK(cookie->second == "leafwright-41234=session; HttpOnly; SameSite=Strict; Path=/");
  CHECK(guard.stops(opening, 0)->status == 403);
  guard.renew("fresh");
  opening.query = {{"token", "fresh"}};
  CHECK(guard.stops(opening, 0)->status == 303);
}

TEST_CASE("too many requests at once are told to wait, and answered again later") {
  Guard guard(port, "token", "session");
  int refused = 0;
  for (int i = 0; i < 10'000; ++i)
    if (const auto stopped = guard.stops(fair(), 1.0); stopped && stopped->status == 429) ++refused;
  CHECK(refused > 8'000);
  CHECK_FALSE(guard.stops(fair(), 2.0));
}

TEST_CASE("every answer keeps the page to itself") {
  Response response;
  add_safe_headers(response);
  const auto value = [&](std::string_view name) {
    for (const auto& [key, words] : response.headers)
      if (key == name) return words;
    return std::string();
  };
  CHECK(value("Content-Security-Policy").find("default-src 'none'") == 0);
  CHECK(value("Content-Security-Policy").find("unsafe") == std::string::npos);
  CHECK(value("X-Content-Type-Options") == "nosniff");
  CHECK(value("Referrer-Policy") == "no-referrer");
  CHECK(value("Access-Control-Allow-Origin").empty());
}
