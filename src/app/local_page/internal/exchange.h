#pragma once

#include <string>
#include <string_view>
#include <utility>
#include <vector>

// A request and its answer, whichever library carries them.

namespace leafwright::local_page {

struct Request {
  std::string method, path; // the path without its query, as it was sent
  std::string decoded_path; // for names that are only compared, never opened
  std::vector<std::pair<std::string, std::string>> query;
  std::string host, origin, fetch_site, cookie, type, known_mark; // headers
  std::string body;

  std::string parameter(std::string_view name) const {
    for (const auto& [key, value] : query)
      if (key == name) return value;
    return {};
  }
};

struct Response {
  int status = 200;
  std::string type = "application/json", body;
  std::vector<std::pair<std::string, std::string>> headers;
  bool events = false; // the connection goes on as a stream of events
};

Response refusal(int status, std::string_view error, std::string_view fix);

} // namespace leafwright::local_page
