#include "app/local_page/internal/page.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <filesystem>
#include <utility>

namespace leafwright::local_page {

namespace {

std::string disk_bytes(const std::string& path) {
  FileBytes file = disk_access().read(path, ReadOptions{}.most_bytes);
  auto* bytes = std::get_if<std::string>(&file);
  return bytes != nullptr ? std::move(*bytes) : std::string();
}

Response answer_with(Json& json) {
  Response response;
  response.body = json.take();
  return response;
}

Response refused(const Refusal& no) { return refusal(no.status, no.error, no.fix); }

Response no_project() {
  Json json(Json::Layout::OneLine);
  json.open_object().key("error").text("There is no project in this folder yet.");
  json.key("fix").text("Begin one.").key("start").truth(true).close_object();
  Response response = answer_with(json);
  response.status = 404;
  return response;
}

// What lies behind the route's own part of the path.
std::string_view behind(const Request& request, std::string_view route) {
  return std::string_view(request.path).substr(route.size());
}

} // namespace

Page::Page(std::string path, const app::RenderSettings& settings, WorkProcess& work, Events& events)
    : path_(std::move(path)), settings_(settings), work_(work), events_(events),
      begun_(std::filesystem::exists(path_)), session_(disk_bytes(path_)), log_(path_),
      pictures_(settings.fonts) {
  // What an earlier session could not save comes back, on top of what the file holds by now.
  if (const auto kept = log_.read(); kept && kept->bytes != session_.saved()) {
    if (kept->base == session_.saved()) {
      session_.replace(kept->bytes, "what was not saved the last time");
    } else if (const Merge both = merged(kept->base, kept->bytes, session_.saved()); both.bytes) {
      session_.replace(*both.bytes, "what was not saved the last time");
    } else {
      theirs_ = session_.saved(); // both are kept until the maker says which
      session_.saved_as(kept->base);
      session_.replace(kept->bytes, "what was not saved the last time");
    }
    session_.take_news();
    keep_whole();
  } else {
    log_.clear();
  }
  show_now();
}

double Page::now() const {
  const std::chrono::duration<double> since = std::chrono::steady_clock::now().time_since_epoch();
  return since.count();
}

const std::vector<Page::Route>& Page::routes() {
  static const std::vector<Route> all{
      {"GET", "/api/project", &Page::get_project},
      {"GET", "/api/picture/", &Page::get_card_picture},
      {"GET", "/api/sheet/", &Page::get_sheet_picture},
      {"POST", "/api/edit", &Page::edit},
      {"POST", "/api/undo", &Page::undo},
      {"POST", "/api/redo", &Page::redo},
      {"POST", "/api/save", &Page::save},
      {"POST", "/api/resolve", &Page::resolve},
      {"POST", "/api/make", &Page::make},
      {"GET", "/api/job/", &Page::get_job},
      {"POST", "/api/job/", &Page::change_job},
      {"GET", "/api/file/", &Page::get_file},
      {"GET", "/api/orders", &Page::get_orders},
      {"POST", "/api/orders/map", &Page::map_orders},
      {"POST", "/api/orders/set", &Page::set_order},
      {"POST", "/api/orders/drop", &Page::drop_orders},
      {"GET", "/api/start", &Page::get_start},
      {"POST", "/api/start", &Page::start},
  };
  return all;
}

Response Page::answer(const Request& request) {
  for (const Route& route : routes()) {
    if (route.method != request.method) continue;
    const bool more = route.path.ends_with('/');
    if (more ? !request.path.starts_with(route.path) : request.path != route.path) continue;
    app::JsonValue body;
    if (request.method == "POST") {
      auto parsed = app::parse_json(request.body.empty() ? "{}" : request.body);
      if (!parsed || parsed->kind != app::JsonValue::Kind::Object)
        return refusal(400, "This change is not understood.", "Reload the page.");
      body = std::move(*parsed);
    }
    const std::lock_guard lock(busy_);
    if (!begun_ && request.path != "/api/start") return no_project();
    return (this->*route.handler)(request, body);
  }
  return refusal(404, "There is nothing at this address.", "Go back to the page.");
}

void Page::write_project_of(Json& json, const Session& session, const ShownPtr& shown,
                            bool with_tags) {
  ProjectAnswer answer{
      *shown,   shown->readable() ? *shown : *last_readable_, session, steps_, path_, {}, {},
      with_tags};
  answer.kept = kept_;
  answer.file = path_.substr(path_.rfind('/') + 1);
  if (facts_of_ == shown->revision) {
    answer.slow_facts = slow_facts_;
    answer.slow_findings = slow_findings_;
  }
  write_project(json, answer);
}

Response Page::project_answer(bool with_tags) {
  Json json(Json::Layout::OneLine);
  json.open_object().key("project");
  write_project_of(json, session_, shown_, with_tags);
  json.close_object();
  return answer_with(json);
}

Response Page::get_project(const Request&, const app::JsonValue&) {
  Json json(Json::Layout::OneLine);
  write_project_of(json, session_, shown_, true);
  return answer_with(json);
}

void Page::show_now() {
  plans_.next_round();
  pictures_.next_round();
  steps_.next_round();
  shown_ = std::make_shared<const Shown>(session_.now(), path_, &plans_);
  if (shown_->readable() || !last_readable_) last_readable_ = shown_;
  changed_at_ = now();
}

void Page::take_change() {
  keep_news();
  show_now();
  tell_project();
}

void Page::tell_project() {
  events_.tell("project", fmt::format("{{\"rev\":\"{}\"}}", shown_->revision));
}

Response Page::picture_answer(const Request& request, const std::optional<PagePicture>& picture) {
  if (!picture)
    return refusal(404, "There is no such picture.", "Reload the page: the card has changed.");
  Response response;
  const std::string mark = "\"" + picture->mark + "\"";
  response.headers = {{"ETag", mark}, {"Cache-Control", "private, no-cache"}};
  if (request.known_mark == mark) {
    response.status = 304;
    return response;
  }
  response.type = "image/svg+xml; charset=utf-8"; // not packed: see Response::type
  response.body = picture->svg;
  return response;
}

Response Page::get_card_picture(const Request& request, const app::JsonValue&) {
  // The id of a card may hold any letter.
  const std::string& path = request.decoded_path.empty() ? request.path : request.decoded_path;
  std::string_view rest = std::string_view(path).substr(std::string_view("/api/picture/").size());
  const std::size_t slash = rest.find('/');
  if (slash == std::string_view::npos || !rest.ends_with(".svg"))
    return picture_answer(request, std::nullopt);
  const std::string_view view = rest.substr(slash + 1, rest.size() - slash - 5);
  return picture_answer(request, pictures_.card(*last_readable_, rest.substr(0, slash), view));
}

Response Page::get_sheet_picture(const Request& request, const app::JsonValue&) {
  const std::string_view rest = behind(request, "/api/sheet/");
  std::size_t number = 0;
  for (const char c : rest.substr(0, rest.find('.'))) {
    constexpr std::size_t most = 100'000;
    if (c < '0' || c > '9' || number > most) return picture_answer(request, std::nullopt);
    number = number * 10 + static_cast<std::size_t>(c - '0');
  }
  return picture_answer(request, pictures_.sheet(*last_readable_, number));
}

// A finding's own mend is a wish like any other, with what it stands in place of.
std::variant<std::vector<Wish>, Refusal> Page::mends_of(std::size_t finding) const {
  const Refusal gone{"This finding is not there any more.", "Reload the page.", 409};
  if (finding >= shown_->findings.size()) return gone;
  const auto& mend = shown_->findings[finding].mend;
  if (!mend) return Refusal{"Only you can decide this one.", "Change it by hand."};
  const auto element = shown_->element_at(mend->place);
  if (!element) return gone;
  Wish set;
  set.key = shown_->text.keys.at(*element);
  set.name = mend->attribute;
  set.words = mend->value;
  if (mend->attribute.empty()) {
    Place end = mend->place;
    end.column += std::max(end.length, 1);
    const auto from = shown_->byte_at(mend->place), to = shown_->byte_at(end);
    if (!from || !to || *to < *from) return gone;
    set.what = Wish::What::Bytes;
    set.at = *from;
    set.length = *to - *from;
    return std::vector<Wish>{set};
  }
  std::vector<Wish> wishes;
  const auto instead_of = [&](std::string_view name) {
    if (shown_->tree.nodes[*element].span->find(name) == nullptr) return;
    Wish out = set;
    out.name = name;
    out.remove = true;
    wishes.push_back(std::move(out));
  };
  if (set.name == "size")
    for (const std::string_view name : {"width", "height", "inset"}) instead_of(name);
  if (set.name == "at") instead_of("places");
  wishes.push_back(std::move(set));
  return wishes;
}

std::optional<Refusal> Page::settle_fixes(std::vector<Wish>& wishes) const {
  std::vector<Wish> settled;
  for (Wish& wish : wishes) {
    if (wish.what != Wish::What::Fix) {
      settled.push_back(std::move(wish));
      continue;
    }
    auto mends = mends_of(wish.finding);
    if (const Refusal* no = std::get_if<Refusal>(&mends)) return *no;
    std::ranges::move(std::get<std::vector<Wish>>(mends), std::back_inserter(settled));
  }
  wishes = std::move(settled);
  return std::nullopt;
}

Response Page::edit(const Request&, const app::JsonValue& body) {
  const app::JsonValue* said = body.find("edits");
  constexpr std::size_t most_edits = 500;
  if (said == nullptr || said->kind != app::JsonValue::Kind::List || said->list.empty() ||
      said->list.size() > most_edits)
    return refusal(400, "No change was sent.", "Reload the page.");
  std::vector<Wish> wishes;
  for (const app::JsonValue& one : said->list) {
    auto wish = wish_of(one);
    if (const Refusal* no = std::get_if<Refusal>(&wish)) return refused(*no);
    wishes.push_back(std::get<Wish>(std::move(wish)));
  }
  if (const auto no = settle_fixes(wishes)) return refused(*no);
  if (body.truth_at("preview")) return preview(wishes);

  std::vector<edit::Written> written;
  if (const auto no = session_.edit(wishes, body.text_at("group"), now(), written))
    return refused(*no);
  const ShownPtr before = shown_;
  take_change();
  return change_answer(session_, *before, shown_, written);
}

Response Page::change_answer(const Session& session, const Shown& before, const ShownPtr& after,
                             const std::vector<edit::Written>& written) {
  Json json(Json::Layout::OneLine);
  json.open_object().key("project");
  write_project_of(json, session, after, false);
  json.key("follows");
  write_follows(json, before, *after);
  json.key("written");
  write_written(json, written);
  json.close_object();
  return answer_with(json);
}

Response Page::preview(const std::vector<Wish>& wishes) {
  Session tried = session_.without_history();
  std::vector<edit::Written> written;
  if (const auto no = tried.edit(wishes, {}, now(), written)) return refused(*no);
  const auto shown = std::make_shared<const Shown>(tried.now(), path_, &plans_);
  return change_answer(tried, *shown_, shown, written);
}

Response Page::undo(const Request&, const app::JsonValue&) {
  if (!session_.undo()) return refusal(409, "There is nothing to undo.", "");
  take_change();
  return project_answer();
}

Response Page::redo(const Request&, const app::JsonValue&) {
  if (!session_.redo()) return refusal(409, "There is nothing to redo.", "");
  take_change();
  return project_answer();
}

} // namespace leafwright::local_page
