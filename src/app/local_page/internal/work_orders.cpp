#include "app/local_page/internal/work_orders.h"

#include "app/system/diagnostics.h"
#include "app/system/progress.h"
#include "guide/business/business.h"
#include "language/words.h"
#include "measure/index.h"
#include "plan/fit/check.h"
#include "plan/tier/check_tiers.h"

#include <fmt/format.h>

#include <algorithm>
#include <utility>

namespace leafwright::local_page {

namespace {

// A brake far away; plans end by counted work.
constexpr double most_seconds = 120;

Json begun(std::string_view what, const std::string& path, const std::string& bytes) {
  Json json(Json::Layout::OneLine);
  json.open_object().key("what").text(what).key("path").text(path).key("bytes").text(bytes);
  return json;
}

void tell_json(const WorkProcess::Tell& tell, char kind, Json& json) {
  tell(std::string(1, kind) + json.take());
}

void tell_error(const WorkProcess::Tell& tell, std::string_view words) {
  tell("e" + std::string(words));
}

void tell_progress(const WorkProcess::Tell& tell, std::int64_t done, std::int64_t of,
                   std::string_view words) {
  Json json(Json::Layout::OneLine);
  json.open_object().key("done").number(done).key("of").number(of).key("words").text(words);
  json.close_object();
  tell_json(tell, 'p', json);
}

cut::Effort effort_for(const WorkProcess::Tell& tell, std::int64_t of) {
  cut::Effort effort;
  effort.seconds = most_seconds;
  effort.progress = [tell, of, said = 0.0](const cut::Progress& progress) mutable {
    constexpr double pause = 0.3; // seconds
    if (progress.seconds - said < pause) return;
    said = progress.seconds;
    tell_progress(tell, 0, of, "Planning the cuts: " + app::progress_text(progress));
  };
  return effort;
}

// The worst of what stops the work, in words.
std::string first_error(const Findings& findings) {
  for (const Finding& one : findings)
    if (one.severity == Severity::Error) return one.found + ". " + one.fix;
  return {};
}

void make_documents(const app::JsonValue& order, const WorkProcess::Tell& tell,
                    app::RenderSettings& settings) {
  std::vector<std::string> names;
  if (const app::JsonValue* all = order.find("names"))
    for (const app::JsonValue& one : all->list) names.push_back(one.text);
  const auto of = static_cast<std::int64_t>(names.size()) + 1;
  settings.audience.tier = order.text_at("tier");
  settings.audience.grey = order.truth_at("grey");
  ReadOptions read;
  if (const std::string paper = order.text_at("paper"); !paper.empty())
    read.overrides.push_back("project.paper=" + paper);
  settings.overrides = read.overrides;
  tell_progress(tell, 0, of, "Reading the project");
  app::PlannedProject planned =
      app::plan_project(read_project(order.text_at("bytes"), order.text_at("path"), read));
  if (!planned.reading.ok())
    return tell_error(tell, "The project has an error that stops the work: " +
                                first_error(planned.findings));
  settings.draft = has_errors(planned.findings); // marked DRAFT on each page
  app::plan_for(names, planned, effort_for(tell, of));
  std::int64_t done = 1;
  for (const std::string& name : names) {
    const app::DocumentKind* kind = app::find_document(name);
    if (kind == nullptr) continue;
    tell_progress(tell, done++, of, name);
    app::RenderedDocument made = kind->render(planned, settings);
    if (made.files.empty() && has_errors(made.findings))
      return tell_error(tell, first_error(made.findings));
    for (const app::OutputFile& file : made.files) tell("f" + file.name + '\0' + file.bytes);
  }
  tell_progress(tell, of, of, "Done");
}

void write_finding(Json& json, const Finding& one) {
  json.open_object().key("severity").number(static_cast<int>(one.severity));
  json.key("code").text(one.code).key("file").number(one.place.file);
  json.key("line").number(one.place.line).key("column").number(one.place.column);
  json.key("found").text(one.found).key("expected").text(one.expected).key("fix").text(one.fix);
  json.close_object();
}

void write_money(Json& json, const Project& project, const app::PlannedProject& planned) {
  const auto fact = [&](std::string_view id, std::string_view label, std::string_view value) {
    json.open_object().key("id").text(id).key("label").text(label).key("value").text(value);
    json.close_object();
  };
  const supply::Buying& buying = planned.buying.value();
  std::int64_t sheets = 0, settings = 0;
  for (const supply::StockSheets& stock : buying.sheets.stocks) {
    sheets += stock.sheets;
    for (const supply::SheetLayout& layout : stock.layouts) settings += layout.work.settings;
  }
  const guide::MoneyBook book =
      guide::money_book(project, planned.packing.value().parcels.kinds, buying);
  const std::int64_t kits = book.account.all.kits;
  if (kits == 0) return;
  fact("batch-sheets", "Paper for the whole batch", words::figured(sheets, "sheet"));
  fact("batch-settings", "Trimmer settings for the batch", fmt::format("{}", settings));
  Money each = book.account.all.goods;
  each.minor = (each.minor + kits / 2) / kits;
  fact("kit-cost", "Supplies for one kit", money_text(each));
  fact("profit", "Profit of the batch", money_text(book.account.result));
  constexpr int most = 400;
  for (int n = 1; n <= most; ++n)
    if (book.outlook.at(n).result.minor >= 0) {
      fact("break-even", "Break-even", words::figured(n, "kit"));
      return;
    }
  fact("break-even", "Break-even", fmt::format("not within {} kits", most));
}

void work_out_facts(const app::JsonValue& order, const WorkProcess::Tell& tell) {
  app::PlannedProject planned =
      app::plan_project(read_project(order.text_at("bytes"), order.text_at("path")));
  if (!planned.reading.ok()) return tell_error(tell, "");
  cut::Effort effort;
  effort.seconds = most_seconds;
  Findings findings = tiers::check(planned.reading.project, &planned.sheets);
  app::append(findings, app::check_dates(planned, effort));
  app::plan_run(planned, effort);
  const Project& project = planned.reading.project; // orders of the roster among it
  app::append(findings, planned.order_findings);
  app::append(findings, fit::check_batch(project, planned.buying->sheets));
  Json json(Json::Layout::OneLine);
  json.open_object().key("facts").open_array();
  write_money(json, project, planned);
  json.close_array().key("findings").open_array();
  for (const Finding& one : findings) write_finding(json, one);
  json.close_array().close_object();
  tell_json(tell, 'r', json);
}

} // namespace

std::string order_words(const DocumentOrder& order) {
  Json json = begun("documents", order.path, order.bytes);
  json.key("names").open_array();
  for (const std::string& name : order.names) json.text(name);
  json.close_array().key("tier").text(order.tier).key("paper").text(order.paper);
  json.key("grey").truth(order.grey).close_object();
  return json.take();
}

std::string fact_order_words(const std::string& path, const std::string& bytes) {
  Json json = begun("facts", path, bytes);
  json.close_object();
  return json.take();
}

void do_order(const std::string& words, const WorkProcess::Tell& tell,
              app::RenderSettings& settings) {
  const auto order = app::parse_json(words);
  if (!order) return tell_error(tell, "The work was not understood.");
  if (order->text_at("what") == "facts")
    work_out_facts(*order, tell);
  else
    make_documents(*order, tell, settings);
}

namespace {

Finding finding_of(const app::JsonValue& said) {
  const auto number = [&](std::string_view name) {
    return static_cast<std::int32_t>(said.number_at(name).value_or(0));
  };
  Finding one;
  one.severity = static_cast<Severity>(number("severity"));
  one.code = said.text_at("code");
  one.place = {number("file"), number("line"), number("column"), 1};
  one.found = said.text_at("found");
  one.expected = said.text_at("expected");
  one.fix = said.text_at("fix");
  return one;
}

} // namespace

WorkMessage message_of(std::string_view message) {
  WorkMessage out;
  if (message.empty()) return out;
  const std::string_view rest = message.substr(1);
  switch (message.front()) {
  case 'e':
    out.what = WorkMessage::What::Error;
    out.words = rest;
    break;
  case 'f': {
    const std::size_t end = std::min(rest.find('\0'), rest.size());
    out.what = WorkMessage::What::File;
    out.file = {std::string(rest.substr(0, end)),
                std::string(rest.substr(std::min(end + 1, rest.size())))};
    break;
  }
  case 'p':
    if (const auto said = app::parse_json(rest)) {
      out.what = WorkMessage::What::Progress;
      out.done = static_cast<std::int64_t>(said->number_at("done").value_or(0));
      out.of = static_cast<std::int64_t>(said->number_at("of").value_or(0));
      out.words = said->text_at("words");
    }
    break;
  case 'r':
    if (const auto said = app::parse_json(rest)) {
      out.what = WorkMessage::What::Facts;
      if (const app::JsonValue* facts = said->find("facts"))
        for (const app::JsonValue& one : facts->list)
          out.facts.push_back(
              {one.text_at("id"), one.text_at("label"), one.text_at("value"), 0, 0});
      if (const app::JsonValue* findings = said->find("findings"))
        for (const app::JsonValue& one : findings->list) out.findings.push_back(finding_of(one));
    }
    break;
  default: break;
  }
  return out;
}

} // namespace leafwright::local_page
