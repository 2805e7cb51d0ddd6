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
  // With its charset: httplib packs what is plain "application/json" as small as it can, which
  // takes longer than all the rest and saves nothing on the way from this machine to itself.
  std::string type = "application/json; charset=utf-8", body;
  std::vector<std::pair<std::string, std::string>> headers;
  bool events = false; // the connection goes on as a stream of events
};

Response refusal(int status, std::string_view error, std::string_view fix);

} // namespace leafwright::local_page
