#pragma once

#include "app/local_page/internal/exchange.h"

#include <mutex>
#include <optional>
#include <string>
#include <string_view>

// Who may ask for anything: the browser that was opened with this launch's token, for a page of
// ours, and nobody else on the machine or in another tab. A page elsewhere can send requests to
// 127.0.0.1 but can neither choose Host and Origin nor hold the cookie; a name that was made to
// point here has another Host.

namespace leafwright::local_page {

// So many bytes of the system's randomness, in hexadecimal digits.
std::string random_digits(std::size_t bytes);

class Guard {
 public:
  // `token` opens the page once; the cookie that it is exchanged for holds `session`.
  Guard(int port, std::string token, std::string session);

  // What is answered instead of the thing asked for; nothing when all is well. `now` in seconds.
  std::optional<Response> stops(const Request& request, double now);
  // A new token in place of the used one.
  void renew(std::string token);

  std::string address() const; // "http://127.0.0.1:41234"

 private:
  bool known_host(std::string_view host) const;
  bool own_origin(const Request& request) const;
  bool has_cookie(const Request& request) const;
  bool too_many(double now);
  std::optional<Response> exchange(const Request& request);

  int port_;
  std::mutex busy_;
  std::string token_; // empty: used
  std::string session_;
  double allowance_, counted_at_ = 0;
};

// Bodies larger than this are refused before they are read.
inline constexpr std::size_t most_body_bytes = 8'000'000;

// Headers of every answer: nothing is fetched from elsewhere, shown inside another page, guessed
// at, kept by a cache, or told to another site.
void add_safe_headers(Response& response);

} // namespace leafwright::local_page
