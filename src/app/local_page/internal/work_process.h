#pragma once

#include <functional>
#include <map>
#include <memory>
#include <mutex>
#include <string>
#include <string_view>
#include <thread>
#include <vector>

#include <sys/types.h>

// Long work in processes of their own: the page answers meanwhile, the planner and the libraries
// need not bear threads, a fault ends the work alone, and work that is not wanted any more is
// simply ended.

namespace leafwright::local_page {

class WorkProcess {
 public:
  using Tell = std::function<void(std::string_view message)>;
  // Does one piece of work and tells what comes of it, as it comes.
  using Work = std::function<void(const std::string& order, const Tell& tell)>;

  // Divides at once, so that every piece of work begins from a process of one thread: to be made
  // before any other thread is.
  explicit WorkProcess(const Work& work);
  ~WorkProcess();
  WorkProcess(const WorkProcess&) = delete;
  WorkProcess& operator=(const WorkProcess&) = delete;

  // Both are called from a thread of this object; `ended` once, when nothing more will be heard.
  struct Listener {
    Tell heard;
    std::function<void()> ended;
  };
  // The number of the work; 0 when it could not be begun.
  int begin(const std::string& order, Listener listener);
  void stop(int number);

 private:
  struct Running;
  void listen(Running& running, const Listener& listener);

  int to_parent_of_work_ = -1; // the process that divides for each piece of work
  pid_t process_ = -1;
  std::mutex busy_;
  int next_ = 1;
  std::map<int, std::unique_ptr<Running>> running_;
};

} // namespace leafwright::local_page
