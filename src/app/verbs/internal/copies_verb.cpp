#include "app/documents/planned_project.h"
#include "app/documents/rendering.h"
#include "app/documents/session.h"
#include "app/system/diagnostics.h"
#include "app/system/environment.h"
#include "app/system/operating_system.h"
#include "app/system/progress.h"
#include "app/verbs/internal/verb_table.h"
#include "guide/tutorial.h"
#include "language/agreement.h"
#include "language/lists.h"
#include "language/words.h"
#include "measure/index.h"
#include "model/run.h"
#include "output/copies.h"
#include "read/read.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <ostream>
#include <set>
#include <sstream>

namespace leafwright::app {

namespace {

struct Wanted {
  copies::Recipient recipient;
  int tier = -1; // whose edition of the tutorial; -1: the one for everybody
  Place place;
  std::string file;
};

// ASCII letters and digits; the rest becomes one hyphen. An order's number, never a name: file
// names travel further than their files.
std::string file_part(std::string_view number) {
  std::string part;
  for (const char c : number) {
    if ((c >= '0' && c <= '9') || (c >= 'a' && c <= 'z') || (c >= 'A' && c <= 'Z'))
      part += c;
    else if (!part.empty() && part.back() != '-')
      part += '-';
  }
  while (!part.empty() && part.back() == '-') part.pop_back();
  return part;
}

// The order's number where the roster has a column of that name beside the names, else its place
// among the orders.
std::string number_of(const Order& order, std::size_t index) {
  const std::string_view number = leafwright::number_of(order);
  return number.empty() ? fmt::format("{}", index + 1) : std::string(number);
}

// By order: whether the kit that she gets holds the tutorial, swaps counted. Orders that make no
// parcel get none.
std::vector<char> with_tutorial(const PlannedProject& planned) {
  const guide::PackingList& list = planned.packing.value();
  std::vector<char> has(planned.reading.project.run.orders.size(), 0);
  for (const std::vector<orders::Parcel>* some : {&list.parcels.parcels, &list.parcels.unposted})
    for (const orders::Parcel& parcel : *some)
      has.at(as_index(parcel.order)) = at(list.contents, parcel.kind).tutorial ? 1 : 0;
  return has;
}

// Everybody whose kit holds the tutorial, or the one buyer asked for, who gets the edition of
// `tier`.
std::vector<Wanted> wanted_copies(const CopyArguments& asked, int tier, PlannedProject& planned) {
  const Project& project = planned.reading.project;
  const std::string edition = fmt::format("Edition {}", project.edition);
  std::vector<Wanted> all;
  if (!asked.name.empty() || !asked.number.empty()) {
    all.push_back({{asked.name, asked.number, edition}, tier, {}, {}});
  } else {
    take_orders(planned);
    const std::vector<Order>& orders = project.run.orders;
    const std::vector<char> has = with_tutorial(planned);
    for (std::size_t i = 0; i < orders.size(); ++i)
      if (has[i])
        all.push_back({{orders[i].name, number_of(orders[i], i), edition},
                       orders[i].tier,
                       orders[i].place,
                       {}});
  }
  std::set<std::string> taken;
  for (Wanted& one : all) {
    const std::string part = file_part(one.recipient.number);
    const std::string base =
        fmt::format("copies/{}-tutorial-{}", project.id, part.empty() ? "copy" : part);
    one.file = base + ".pdf";
    for (int again = 2; !taken.insert(one.file).second; ++again)
      one.file = fmt::format("{}-{}.pdf", base, again);
  }
  return all;
}

Finding about(const Wanted& one, std::string code, std::string found, std::string expected,
              std::string fix) {
  Finding finding;
  finding.code = std::move(code);
  finding.place = one.place;
  finding.found = std::move(found);
  finding.expected = std::move(expected);
  finding.fix = std::move(fix);
  return finding;
}

// One edition of the tutorial, ready to be stamped.
struct Printed {
  LaidOut pages;
  std::optional<copies::CopyStamper> press; // refers to `pages`
};

// Names that cannot be set; pages that leave a stamp no room.
Findings check(const copies::CopyStamper& press, const std::vector<Wanted>& all, int tier) {
  Findings findings;
  for (const Wanted& one : all) {
    if (one.tier != tier) continue;
    for (const char32_t character : press.missing(one.recipient))
      findings.push_back(
          about(one, "copies-missing-glyph",
                fmt::format("the font has no U+{:04X}", static_cast<unsigned>(character)),
                "letters that the shipped fonts have", "ask the buyer for another spelling"));
    if (!press.fits(one.recipient))
      findings.push_back(about(one, "copies-long-name", "the name is too long for one line",
                               "a name, a number and an edition on one line", "shorten it"));
  }
  if (!press.pages_without_room().empty()) {
    Finding finding = about({}, "copies-no-room",
                            fmt::format("{} pages leave no room at the foot, the first is page {}",
                                        press.pages_without_room().size(),
                                        press.pages_without_room().front() + 1),
                            "a free line 5 mm above the edge", "take a template with a wider foot");
    finding.severity = Severity::Warning;
    findings.push_back(std::move(finding));
  }
  return findings;
}

// Nothing: no lock is asked for. An exit code: it cannot be read.
std::variant<std::optional<copies::Lock>, int> lock_of(const CopyArguments& asked,
                                                       Environment& environment) {
  std::string text;
  if (!asked.lock_file.empty()) {
    FileBytes bytes = disk_access().read(asked.lock_file, 64'000);
    if (const auto* why = std::get_if<FileFault>(&bytes)) {
      report(fmt::format("{}: {}", asked.lock_file, why->words), environment);
      return NotWritten;
    }
    text = std::get<std::string>(std::move(bytes));
  } else if (!asked.lock_variable.empty()) {
    const char* value = environment.variable == nullptr
                            ? nullptr
                            : environment.variable(asked.lock_variable.c_str());
    if (value == nullptr) {
      report(fmt::format("the environment has no variable {}", asked.lock_variable), environment);
      return WrongUse;
    }
    text = value;
  } else {
    return std::optional<copies::Lock>();
  }
  Parsed<copies::Lock> lock = copies::read_lock(text);
  if (!lock) {
    report(lock.parse_error(), environment);
    return WrongUse;
  }
  return std::optional<copies::Lock>(std::move(lock).value());
}

// Stamps, locks and writes on all cores; memory stays as it is however many there are. An exit
// code.
int write_copies(const std::vector<Wanted>& all, const std::map<int, Printed>& editions,
                 const std::optional<copies::Lock>& lock, const Arguments& arguments,
                 Environment& environment) {
  const auto make_one = [&](std::size_t index) -> std::string {
    const Wanted& one = all[index];
    std::ostringstream said;
    Environment apart{said, said};
    Parsed<std::string> copy = editions.at(one.tier).press->copy(one.recipient);
    if (copy && lock) copy = copies::locked(*copy, *lock);
    if (!copy)
      report(copy.parse_error(), apart);
    else
      write_all({{one.file, std::move(copy).value()}}, arguments, true, apart);
    return std::move(said).str();
  };
  std::string faults;
  {
    ProgressLine line(arguments, environment);
    line.count(0, all.size());
    std::size_t done = 0;
    run_in_processes(all.size(), 0, make_one, [&](std::size_t, const std::string& answer) {
      if (faults.empty()) faults = answer; // a full disk says the same of all that follow
      line.count(++done, all.size());
    });
  }
  environment.error << faults;
  return faults.empty() ? Done : NotWritten;
}

// Those that were not told before.
void add_new(Findings& to, const Findings& more) {
  for (const Finding& finding : more)
    if (std::ranges::none_of(to, [&](const Finding& before) {
          return before.code == finding.code && before.place == finding.place &&
                 before.found == finding.found;
        }))
      to.push_back(finding);
}

// The edition of a tier, ready to be stamped; false when it cannot be made.
bool print_edition(Printed& printed, int tier, const std::vector<Wanted>& all,
                   const Session& session, Findings& findings) {
  const PlannedProject& planned = session.planned;
  const Project& project = planned.reading.project;
  guide::TutorialOptions options;
  options.draft = session.settings.draft;
  options.tier = tier;
  const std::string name =
      tier < 0 ? std::string("tutorial") : "tutorial-" + project.tiers.at(as_index(tier)).id;
  printed.pages = laid_out(guide::tutorial(project, planned.sheets, options), name, "booklet",
                           planned, session.settings);
  add_new(findings, printed.pages.findings);
  if (printed.pages.laid.pages.empty()) return false;
  Parsed<copies::CopyStamper> made = copies::CopyStamper::made(
      printed.pages.laid, session.settings.fonts, project.pictures, printed.pages.options);
  if (!made) {
    add_new(findings, {fault(made.parse_error())});
    return false;
  }
  printed.press = std::move(made).value();
  add_new(findings, check(*printed.press, all, tier));
  return true;
}

// Says how many orders get no copy, so that nobody looks for theirs, and whose is not paid yet.
std::string left_out_words(const PlannedProject& planned, std::size_t copies) {
  if (!planned.packing) return {};
  std::string said;
  const std::vector<Order>& orders = planned.reading.project.run.orders;
  if (orders.size() > copies) {
    const std::int64_t without = std::ssize(orders) - static_cast<std::int64_t>(copies);
    said += fmt::format("; {} {} {} no tutorial", without, words::noun_for(without, "order"),
                        words::agreed("include", without));
  }
  const std::vector<char> has = with_tutorial(planned);
  std::vector<std::string> open;
  for (std::size_t i = 0; i < orders.size(); ++i)
    if (has[i] && orders[i].status == OrderStatus::Open) open.push_back(number_of(orders[i], i));
  if (!open.empty()) said += fmt::format("; not paid yet: {}", words::series(open));
  return said;
}

} // namespace

int run_copies(const Arguments& arguments, Environment& environment) {
  const auto read = lock_of(arguments.copy, environment);
  if (const int* code = std::get_if<int>(&read)) return *code;
  const auto& lock = std::get<std::optional<copies::Lock>>(read);
  auto opened = open_session(arguments, environment);
  if (const int* code = std::get_if<int>(&opened)) return *code;
  const Session& session = std::get<Session>(opened);
  const std::vector<Tier>& tiers = session.planned.reading.project.tiers;
  const std::string& tier_id = arguments.audience.tier;
  const auto named = std::ranges::find(tiers, tier_id, &Tier::id);
  if (!tier_id.empty() && named == tiers.end()) {
    report(fmt::format("--for {}: no tier has that id", tier_id), environment);
    return WrongUse;
  }
  const int tier = tier_id.empty() ? -1 : static_cast<int>(named - tiers.begin());
  if (tier >= 0 && !guide::holds_tutorial(*named)) {
    report(fmt::format("--for {}: {} does not include the tutorial", tier_id, named->name),
           environment);
    return WrongUse;
  }

  // The tutorial is laid out from the project without its orders: it is the same whoever ordered.
  PlannedProject ordered = session.planned;
  const std::vector<Wanted> all = wanted_copies(arguments.copy, tier, ordered);
  Findings findings = session.planned.findings;
  add_new(findings, ordered.order_findings);
  if (all.empty())
    findings.push_back(fault("nobody has ordered a kit with the tutorial",
                             "orders in the run or in its roster",
                             "name one buyer: --name, --number"));
  std::map<int, Printed> editions; // by tier; a map, since the presses refer into it
  bool whole = !all.empty();
  ProgressLine line(arguments, environment);
  for (const Wanted& one : all) {
    const auto [place, is_new] = editions.try_emplace(one.tier);
    if (!is_new) continue;
    line.show("Laying out the tutorial");
    whole = print_edition(place->second, one.tier, all, session, findings) && whole;
  }
  line.clear();
  print_findings(findings, ordered.reading.sources, arguments, environment);
  if (!whole || (stops(findings, arguments) && !arguments.draft)) {
    report("nothing was written", environment);
    return FoundErrors;
  }
  if (const int code = write_copies(all, editions, lock, arguments, environment); code != Done)
    return code;
  if (!arguments.quiet)
    environment.out << fmt::format("{} {} in {}/copies{}{}\n", all.size(),
                                   words::noun_for(std::ssize(all), "copy"), arguments.out,
                                   lock ? ", locked" : "", left_out_words(ordered, all.size()));
  return Done;
}

} // namespace leafwright::app
