#include "app/local_page/internal/page.h"
#include "output/write_file.h"

#include <fmt/format.h>

#include <utility>
#include <variant>

// The file on the disk: saved to, watched, and put together with what somebody else wrote.

namespace leafwright::local_page {

namespace {

std::optional<std::string> read_file(const std::string& path) {
  FileBytes file = disk_access().read(path, ReadOptions{}.most_bytes);
  if (auto* bytes = std::get_if<std::string>(&file)) return std::move(*bytes);
  return std::nullopt; // in the middle of being renamed by an editor, perhaps
}

constexpr std::string_view outside_words = "what was changed outside";

} // namespace

void Page::keep_news() { kept_ = log_.append(session_.saved(), session_.take_news()); }

void Page::keep_whole() {
  session_.take_news();
  log_.clear();
  const Patch all = difference(session_.saved(), session_.now().bytes);
  kept_ = all.edits.empty() || log_.append(session_.saved(), {all});
}

void Page::took_from_outside(const std::string& theirs) {
  theirs_.reset();
  session_.saved_as(theirs);
  keep_whole();
  show_now();
  tell_project();
}

void Page::look_at_file() {
  const auto theirs = read_file(path_);
  if (theirs && !begun_) begun_ = true; // written elsewhere
  if (!theirs || *theirs == session_.saved() || (theirs_ && *theirs == *theirs_)) return;
  if (*theirs == session_.now().bytes) return took_from_outside(*theirs); // saved by a twin
  const Merge both = merged(session_.saved(), session_.now().bytes, *theirs);
  // A file that is being written, or that is no XML any more, is not taken over: it may be mended.
  if (both.bytes && !broken(*theirs)) {
    session_.replace(session_.unsaved() ? *both.bytes : *theirs, std::string(outside_words));
    took_from_outside(*theirs);
    events_.tell("outside", "{\"merged\":true}");
  } else {
    theirs_ = *theirs;
    events_.tell("outside", "{\"merged\":false}");
  }
}

Response Page::save(const Request&, const app::JsonValue& body) {
  look_at_file();
  if (theirs_) {
    const Merge both = merged(session_.saved(), session_.now().bytes, *theirs_);
    Json json(Json::Layout::OneLine);
    json.open_object().key("error");
    json.text(fmt::format("{} was changed by something else while you worked on it.",
                          path_.substr(path_.rfind('/') + 1)));
    json.key("fix").text("Look at both and say which you want.").key("theirs");
    write_written(json, both.theirs);
    json.key("merged").truth(both.bytes.has_value()).close_object();
    Response response;
    response.status = 409;
    response.body = json.take();
    return response;
  }
  if (const std::string rev = body.text_at("rev"); !rev.empty() && rev != shown_->revision)
    return refusal(409, "The project was changed in another tab.",
                   "Look at it as it is now, and save again.");
  if (session_.unsaved()) {
    if (const auto fault = file::write_file(path_, session_.now().bytes))
      return refusal(500, fmt::format("The file could not be written: {}.", fault->found),
                     fault->fix);
    session_.saved_as(session_.now().bytes);
  }
  session_.take_news();
  log_.clear();
  kept_ = true;
  events_.tell("saved", fmt::format("{{\"rev\":\"{}\"}}", shown_->revision));
  return project_answer();
}

Response Page::resolve(const Request&, const app::JsonValue& body) {
  if (!theirs_) return project_answer();
  const std::string take = body.text_at("take");
  const std::string theirs = *theirs_;
  if (take == "theirs") {
    session_.replace(theirs, std::string(outside_words));
  } else if (take == "merge") {
    const Merge both = merged(session_.saved(), session_.now().bytes, theirs);
    if (!both.bytes)
      return refusal(409, "Both changed the same place, so they cannot be put together.",
                     "Take yours or theirs; what you do not take can be had back by undoing.");
    session_.replace(*both.bytes, std::string(outside_words));
  } else if (take != "mine") {
    return refusal(400, "Say which you want: merge, mine or theirs.", "");
  } else {
    // Theirs stays reachable: one step back.
    const std::string mine = session_.now().bytes;
    session_.replace(theirs, std::string(outside_words));
    session_.replace(mine, "yours instead of what was changed outside");
  }
  took_from_outside(theirs);
  return project_answer();
}

} // namespace leafwright::local_page
