#pragma once

#include "app/local_page/internal/keyed_text.h"
#include "app/local_page/internal/wishes.h"

#include <optional>
#include <string>
#include <string_view>
#include <utility>
#include <variant>
#include <vector>

// One project being changed: its bytes, what the file holds, and every change so far with what
// takes it back. A value; nothing here reads a clock or a disk.

namespace leafwright::local_page {

struct UndoStep {
  std::vector<Patch> patches; // to be applied from the last to the first
  std::string words;          // "size of panel mat"
  std::string group;
  double at = 0;    // seconds, when it was last added to
  std::string from; // revision of the text before it, where it has a group
};

// The same file changed by us and by somebody else.
struct Merge {
  std::optional<std::string> bytes;  // both changes; nothing where they meet
  std::vector<edit::Written> theirs; // what the other changed
};
// By element and attribute: changes to different ones are both kept.
Merge merged(std::string_view base, std::string_view mine, std::string_view theirs);

// From one text to another in one edit, whatever they say.
Patch difference(std::string_view from, std::string_view to);

class Session {
 public:
  explicit Session(std::string bytes) : now_(keyed(bytes)), saved_(std::move(bytes)) {}

  // To try a change on: it has nothing to undo, so that trying costs no more the longer one works.
  Session without_history() const { return {now_, saved_}; }

  const KeyedText& now() const { return now_; }
  const std::string& saved() const { return saved_; } // what the file held when last looked at
  bool unsaved() const { return now_.bytes != saved_; }
  const std::vector<UndoStep>& undo_steps() const { return undo_; }
  const std::vector<UndoStep>& redo_steps() const { return redo_; }

  // All of them or none. What is written stands in `written`. Changes of one group that follow
  // each other within half a second are one step.
  std::optional<Refusal> edit(const std::vector<Wish>& wishes, std::string_view group, double at,
                              std::vector<edit::Written>& written);
  bool undo();
  bool redo();
  // The whole of another text as one step: what an editor saved, what was restored.
  void replace(std::string_view bytes, std::string words);

  void saved_as(std::string bytes) { saved_ = std::move(bytes); }

  // Every patch since the last call, in order, for the journal.
  std::vector<Patch> take_news() { return std::exchange(news_, {}); }

 private:
  Session(KeyedText now, std::string saved) : now_(std::move(now)), saved_(std::move(saved)) {}
  void turn(std::vector<UndoStep>& from, std::vector<UndoStep>& to);
  Patch applied(const Patch& patch);

  KeyedText now_;
  std::string saved_;
  std::vector<UndoStep> undo_, redo_;
  std::vector<Patch> news_;
};

} // namespace leafwright::local_page
