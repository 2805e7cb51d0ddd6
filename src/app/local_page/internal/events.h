#pragma once

#include <condition_variable>
#include <list>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>

// What pages are told without asking (server-sent events, HTML 9.2).

namespace leafwright::local_page {

class Events {
 public:
  // One page that listens, until it is let go.
  struct Listener {
    std::string waiting; // in the form of the stream
  };

  // Nothing when too many listen already.
  std::shared_ptr<Listener> listen();
  void leave(const std::shared_ptr<Listener>& listener);
  // `data` is JSON on one line.
  void tell(std::string_view name, std::string_view data);
  // What there is to tell a listener; waits for it up to some seconds. Nothing new: a comment line
  // that keeps the connection. Empty: the server ends.
  std::string next(Listener& listener);
  void end();

 private:
  std::mutex busy_;
  std::condition_variable news_;
  std::list<std::shared_ptr<Listener>> listeners_;
  bool ended_ = false;
};

} // namespace leafwright::local_page
