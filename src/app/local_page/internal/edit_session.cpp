#include "app/local_page/internal/edit_session.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace leafwright::local_page {

namespace {

constexpr double pause_of_typing = 0.5; // seconds

bool meet(const edit::Edit& a, const edit::Edit& b) {
  if (a.at == b.at && a.length == b.length && a.bytes == b.bytes) return false; // the same change
  const std::size_t a_end = a.at + a.length, b_end = b.at + b.length;
  if (a.length == 0 && b.length == 0) return a.at == b.at;
  return a.at < b_end && b.at < a_end;
}

} // namespace

Merge merged(std::string_view base, std::string_view mine, std::string_view theirs) {
  Merge merge;
  edit::Editing ours = edit::patch(base, mine), others = edit::patch(base, theirs);
  merge.theirs = std::move(others.written);
  std::vector<edit::Edit> both = std::move(ours.edits);
  for (edit::Edit& one : others.edits) {
    if (std::ranges::any_of(both, [&](const edit::Edit& other) { return meet(one, other); }))
      return merge;
    const bool same = std::ranges::any_of(both, [&](const edit::Edit& other) {
      return one.at == other.at && one.length == other.length && one.bytes == other.bytes;
    });
    if (!same) both.push_back(std::move(one));
  }
  // An insertion comes before what is replaced at the same byte.
  std::ranges::stable_sort(both, [](const edit::Edit& a, const edit::Edit& b) {
    return std::pair(a.at, a.length) < std::pair(b.at, b.length);
  });
  std::string bytes = edit::applied(base, both);
  if (!broken(bytes)) merge.bytes = std::move(bytes);
  return merge;
}

Patch Session::applied(const Patch& patch) {
  news_.push_back(patch);
  return apply(now_, patch);
}

std::optional<Refusal> Session::edit(const std::vector<Wish>& wishes, std::string_view group,
                                     double at, std::vector<edit::Written>& written) {
  KeyedText tried = now_;
  std::vector<Patch> forward, back;
  std::string words;
  for (const Wish& wish : wishes) {
    auto made = change_of(tried, wish);
    if (const Refusal* no = std::get_if<Refusal>(&made)) return *no;
    Change& change = std::get<Change>(made);
    if (words.empty()) words = change.words;
    written.push_back(std::move(change.written));
    if (change.patch.edits.empty()) continue;
    forward.push_back(change.patch);
    back.push_back(local_page::apply(tried, change.patch));
  }
  if (tried.bytes == now_.bytes) return std::nullopt;
  if (auto no = broken(tried.bytes)) return no;
  const bool joins = !group.empty() && !undo_.empty() && undo_.back().group == group &&
                     at - undo_.back().at <= pause_of_typing;
  // Only what may be joined later can come back to where it began.
  std::string from = joins || group.empty() ? std::string() : revision_of(now_.bytes);
  if (wishes.size() > 1) words += fmt::format(" and {} more", wishes.size() - 1);
  now_ = std::move(tried);
  for (Patch& one : forward) news_.push_back(std::move(one));
  redo_.clear();
  if (!joins) undo_.push_back({{}, std::move(words), std::string(group), at, std::move(from)});
  UndoStep& step = undo_.back();
  step.at = at;
  std::ranges::move(back, std::back_inserter(step.patches));
  // Typed and taken back again: there is nothing to undo.
  if (joins && step.from == revision_of(now_.bytes)) undo_.pop_back();
  return std::nullopt;
}

void Session::turn(std::vector<UndoStep>& from, std::vector<UndoStep>& to) {
  UndoStep step = std::move(from.back());
  from.pop_back();
  std::vector<Patch> other_way;
  while (!step.patches.empty()) {
    other_way.push_back(applied(step.patches.back()));
    step.patches.pop_back();
  }
  step.patches = std::move(other_way);
  step.group.clear(); // what is typed next is another step
  to.push_back(std::move(step));
}

bool Session::undo() {
  if (undo_.empty()) return false;
  turn(undo_, redo_);
  return true;
}

bool Session::redo() {
  if (redo_.empty()) return false;
  turn(redo_, undo_);
  return true;
}

void Session::replace(std::string_view bytes, std::string words) {
  Patch patch{edit::patch(now_.bytes, bytes).edits, {}};
  // It keeps blanks and comments of ours; the other's very bytes are wanted.
  if (edit::applied(now_.bytes, patch.edits) != bytes) patch = difference(now_.bytes, bytes);
  if (patch.edits.empty()) return;
  redo_.clear();
  const Patch back = applied(patch);
  undo_.push_back({{back}, std::move(words), {}, 0, {}});
}

Patch difference(std::string_view from, std::string_view to) {
  if (from == to) return {};
  const std::size_t shorter = std::min(from.size(), to.size());
  std::size_t head = 0, tail = 0;
  while (head < shorter && from[head] == to[head]) ++head;
  while (tail < shorter - head && from[from.size() - 1 - tail] == to[to.size() - 1 - tail]) ++tail;
  return {
      {{head, from.size() - head - tail, std::string(to.substr(head, to.size() - head - tail))}},
      {}};
}

} // namespace leafwright::local_page
