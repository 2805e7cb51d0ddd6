#pragma once

#include "app/local_page/internal/keyed_text.h"

#include <optional>
#include <string>
#include <vector>

// What was changed and not saved yet, kept beside the project so that neither a kill nor a crash
// loses it: `.project.xml.unsaved`, which begins with the file as it was and grows by each patch.
// It lies beside the project, where the maker's backups and moves take it along; it begins with a
// full stop because it is not hers to read, and only she may read it, because a project may hold
// orders.

namespace leafwright::local_page {

class UnsavedLog {
 public:
  explicit UnsavedLog(const std::string& project_path);
  ~UnsavedLog();
  UnsavedLog(const UnsavedLog&) = delete;
  UnsavedLog& operator=(const UnsavedLog&) = delete;

  struct Kept {
    std::string base;  // what the file held
    std::string bytes; // and what it was changed to
  };
  // What an earlier session left behind. A record that was cut off in the writing ends it.
  std::optional<Kept> read() const;

  // The first patches after `base` begin the log anew. False when it cannot be written.
  bool append(std::string_view base, const std::vector<Patch>& patches);
  // Everything is in the file.
  void clear();
  const std::string& path() const { return path_; }

 private:
  bool begin(std::string_view base);
  std::string path_;
  int descriptor_ = -1;
};

} // namespace leafwright::local_page
