#pragma once

#include <string>

// That a project is open on a page of this machine: a second program must not write the same
// unsaved log. A socket of Linux's abstract names, so that the system takes it away with the
// process, however that ends, and nothing is left beside the project.

namespace leafwright::local_page {

class ProjectLock {
 public:
  explicit ProjectLock(const std::string& project_path);
  ~ProjectLock();
  ProjectLock(const ProjectLock&) = delete;
  ProjectLock& operator=(const ProjectLock&) = delete;

  bool held_elsewhere() const { return held_elsewhere_; }

 private:
  int socket_ = -1;
  bool held_elsewhere_ = false;
};

} // namespace leafwright::local_page
