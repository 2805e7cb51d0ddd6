#include "app/local_page/internal/guard.h"

#include "records/records.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <stdexcept>
#include <utility>
#include <vector>

#include <sys/random.h>

namespace leafwright::local_page {

namespace {

// A page that is dragged about sends an edit and some pictures for each frame.
constexpr double requests_a_second = 300, requests_at_once = 900;

// As long for a wrong secret as for the right one.
bool same(std::string_view a, std::string_view b) {
  if (a.size() != b.size()) return false;
  unsigned differs = 0;
  for (std::size_t i = 0; i < a.size(); ++i)
    differs |=
        static_cast<unsigned>(static_cast<unsigned char>(a[i]) ^ static_cast<unsigned char>(b[i]));
  return differs == 0;
}

Response plain_page(int status, std::string_view words) {
  Response response;
  response.status = status;
  response.type = "text/html; charset=utf-8";
  response.body = fmt::format("<!doctype html><html lang=\"en\"><meta charset=\"utf-8\">"
                              "<title>Leafwright</title><p>{}</p></html>\n",
                              words);
  return response;
}

} // namespace

Response refusal(int status, std::string_view error, std::string_view fix) {
  records::Json json(records::Json::Layout::OneLine);
  json.open_object().key("error").text(error).key("fix").text(fix).close_object();
  Response response;
  response.status = status;
  response.body = json.take();
  return response;
}

std::string random_digits(std::size_t bytes) {
  std::vector<unsigned char> random(bytes);
  if (getrandom(random.data(), random.size(), 0) != static_cast<ssize_t>(random.size()))
    throw std::runtime_error("the system gives no random numbers");
  std::string digits;
  for (const unsigned char byte : random) digits += fmt::format("{:02x}", byte);
  return digits;
}

Guard::Guard(int port, std::string token, std::string session)
    : port_(port), token_(std::move(token)), session_(std::move(session)),
      allowance_(requests_at_once) {}

std::string Guard::address() const { return fmt::format("http://127.0.0.1:{}", port_); }

void Guard::renew(std::string token) {
  const std::lock_guard lock(busy_);
  token_ = std::move(token);
}

bool Guard::known_host(std::string_view host) const {
  return host == fmt::format("127.0.0.1:{}", port_) || host == fmt::format("[::1]:{}", port_) ||
         host == fmt::format("localhost:{}", port_);
}

bool Guard::own_origin(const Request& request) const {
  return request.origin == "http://" + request.host;
}

// Cookies do not tell ports apart: two pages of ours must not take each other's.
bool Guard::has_cookie(const Request& request) const {
  const std::string wanted = fmt::format("leafwright-{}=", port_);
  std::string_view cookies = request.cookie;
  while (!cookies.empty()) {
    const std::size_t end = std::min(cookies.find(';'), cookies.size());
    std::string_view one = cookies.substr(0, end);
    cookies.remove_prefix(std::min(end + 1, cookies.size()));
    one.remove_prefix(std::min(one.find_first_not_of(' '), one.size()));
    if (one.starts_with(wanted) && same(one.substr(wanted.size()), session_)) return true;
  }
  return false;
}

bool Guard::too_many(double now) {
  const std::lock_guard lock(busy_);
  allowance_ = std::min(requests_at_once, allowance_ + (now - counted_at_) * requests_a_second);
  counted_at_ = now;
  if (allowance_ < 1) return true;
  allowance_ -= 1;
  return false;
}

std::optional<Response> Guard::exchange(const Request& request) {
  const std::string given = request.parameter("token");
  {
    const std::lock_guard lock(busy_);
    if (token_.empty() || !same(given, token_)) return std::nullopt;
    token_.clear();
  }
  Response response;
  response.status = 303;
  response.type = "text/plain";
  response.headers = {{"Location", "/"},
                      {"Set-Cookie", fmt::format("leafwright-{}={}; HttpOnly; SameSite=Strict; "
                                                 "Path=/",
                                                 port_, session_)}};
  return response;
}

std::optional<Response> Guard::stops(const Request& request, double now) {
  if (!known_host(request.host))
    return refusal(403, "This page answers to its own address alone.",
                   "Open the address that the program printed.");
  if (too_many(now)) {
    Response response = refusal(429, "Too many requests at once.", "Wait a moment.");
    response.headers.emplace_back("Retry-After", "1");
    return response;
  }
  const bool reads = request.method == "GET", writes = request.method == "POST";
  if (!reads && !writes) return refusal(405, "The page is read and changed, nothing else.", "");
  if (reads && request.path == "/" && !request.parameter("token").empty() && !has_cookie(request)) {
    if (auto opened = exchange(request)) return opened;
    return plain_page(403, "This address was used already. Press Enter where you started "
                           "Leafwright, or start it again, and open the new address.");
  }
  if (!has_cookie(request)) {
    if (request.path == "/")
      return plain_page(403, "Open the address that Leafwright printed when you started it.");
    return refusal(401, "This browser has not been let in.",
                   "Open the address that the program printed.");
  }
  if (reads && request.path == "/" && !request.parameter("token").empty()) {
    Response response; // opened a second time; the address shall not keep a secret
    response.status = 303;
    response.type = "text/plain";
    response.headers = {{"Location", "/"}};
    return response;
  }
  // A browser says where a request comes from; what comes from another site gets nothing.
  if (!request.origin.empty() && !own_origin(request))
    return refusal(403, "This was asked for by another page.", "Use this page itself.");
  if (request.path.starts_with("/api/") && !request.fetch_site.empty() &&
      request.fetch_site != "same-origin")
    return refusal(403, "This was asked for by another page.", "Use this page itself.");
  // Of events a browser names the site in one of the two ways.
  if (request.path == "/api/events" && request.origin.empty() && request.fetch_site.empty())
    return refusal(403, "Events go to this page alone.", "Use this page itself.");
  if (writes && !own_origin(request))
    return refusal(403, "A change without its origin is not taken.", "Use this page itself.");
  if (writes && request.type != "application/json" &&
      !request.type.starts_with("application/json;"))
    return refusal(415, "A change is sent as JSON.", "Use this page itself.");
  return std::nullopt;
}

void add_safe_headers(Response& response) {
  static constexpr std::array<std::pair<std::string_view, std::string_view>, 7> safe{{
      {"Content-Security-Policy",
       "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self' blob: data:; "
       "font-src 'self'; connect-src 'self'; frame-src 'self' blob:; base-uri 'none'; "
       "form-action 'self'; frame-ancestors 'none'"},
      {"X-Content-Type-Options", "nosniff"},
      {"Referrer-Policy", "no-referrer"},
      {"Cross-Origin-Resource-Policy", "same-origin"},
      {"Cross-Origin-Opener-Policy", "same-origin"},
      {"Permissions-Policy", "camera=(), microphone=(), geolocation=()"},
      {"Cache-Control", "no-store"},
  }};
  for (const auto& [name, value] : safe)
    if (std::ranges::find(response.headers, name, &std::pair<std::string, std::string>::first) ==
        response.headers.end())
      response.headers.emplace_back(name, value);
}

} // namespace leafwright::local_page
