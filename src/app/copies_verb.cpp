#include "app/count_line.h"
#include "app/exit_codes.h"
#include "app/orders.h"
#include "app/studio.h"
#include "app/talk.h"
#include "app/typeset.h"
#include "app/verbs.h"
#include "app/workers.h"
#include "guide/tutorial.h"
#include "measure/index.h"
#include "model/run.h"
#include "output/copies.h"
#include "read/files.h"

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

// Everybody who ordered, or the one buyer asked for, who gets the edition of `tier`.
std::vector<Wanted> wanted_copies(const CopyArguments& asked, int tier, Prepared& prepared) {
  const Project& project = prepared.reading.project;
  const std::string edition = fmt::format("Edition {}", project.edition);
  std::vector<Wanted> all;
  if (!asked.name.empty() || !asked.number.empty()) {
    all.push_back({{asked.name, asked.number, edition}, tier, {}, {}});
  } else {
    take_orders(prepared);
    const std::vector<Order>& orders = project.run.orders;
    for (std::size_t i = 0; i < orders.size(); ++i)
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
                                                       Surroundings& surroundings) {
  std::string text;
  if (!asked.lock_file.empty()) {
    FileBytes bytes = disk_access().read(asked.lock_file, 64'000);
    if (const auto* why = std::get_if<FileFault>(&bytes)) {
      complain(fmt::format("{}: {}", asked.lock_file, why->words), surroundings);
      return NotWritten;
    }
    text = std::get<std::string>(std::move(bytes));
  } else if (!asked.lock_variable.empty()) {
    const char* value = surroundings.variable == nullptr
                            ? nullptr
                            : surroundings.variable(asked.lock_variable.c_str());
    if (value == nullptr) {
      complain(fmt::format("the environment has no variable {}", asked.lock_variable),
               surroundings);
      return WrongUse;
    }
    text = value;
  } else {
    return std::optional<copies::Lock>();
  }
  Parsed<copies::Lock> lock = copies::read_lock(text);
  if (!lock) {
    complain(lock.parse_error(), surroundings);
    return WrongUse;
  }
  return std::optional<copies::Lock>(std::move(lock).value());
}

// Stamps, locks and writes on all cores; memory stays as it is however many there are. An exit
// code.
int write_copies(const std::vector<Wanted>& all, const std::map<int, Printed>& editions,
                 const std::optional<copies::Lock>& lock, const Arguments& arguments,
                 Surroundings& surroundings) {
  const auto make_one = [&](std::size_t index) -> std::string {
    const Wanted& one = all[index];
    std::ostringstream said;
    Surroundings apart{said, said};
    Parsed<std::string> copy = editions.at(one.tier).press->copy(one.recipient);
    if (copy && lock) copy = copies::locked(*copy, *lock);
    if (!copy)
      complain(copy.parse_error(), apart);
    else
      write_all({{one.file, std::move(copy).value()}}, arguments, true, apart);
    return std::move(said).str();
  };
  std::string faults;
  {
    CountLine line(all.size(), arguments.quiet, surroundings);
    share_out(all.size(), 0, make_one, [&](std::size_t, const std::string& answer) {
      if (faults.empty()) faults = answer; // a full disk says the same of all that follow
      line.one_done();
    });
  }
  surroundings.error << faults;
  return faults.empty() ? Done : NotWritten;
}

} // namespace

int make_copies(const Arguments& arguments, Surroundings& surroundings) {
  const auto read = lock_of(arguments.copy, surroundings);
  if (const int* code = std::get_if<int>(&read)) return *code;
  const auto& lock = std::get<std::optional<copies::Lock>>(read);
  auto opened = open_studio(arguments, surroundings);
  if (const int* code = std::get_if<int>(&opened)) return *code;
  const Studio& studio = std::get<Studio>(opened);
  const Prepared& prepared = studio.prepared;
  const Project& project = prepared.reading.project;
  const std::string& tier_id = arguments.audience.tier;
  int tier = -1;
  for (std::size_t i = 0; i < project.tiers.size(); ++i)
    if (project.tiers[i].id == tier_id) tier = static_cast<int>(i);
  if (!tier_id.empty() && tier < 0) {
    complain(fmt::format("--for {}: no tier has that id", tier_id), surroundings);
    return WrongUse;
  }

  // The tutorial is laid out from the project without its orders: it is the same whoever ordered.
  Prepared ordered = prepared;
  const std::vector<Wanted> all = wanted_copies(arguments.copy, tier, ordered);
  Findings findings = prepared.findings;
  const auto add = [&findings](const Findings& more) {
    for (const Finding& finding : more) {
      const bool told =
          std::any_of(findings.begin(), findings.end(), [&finding](const Finding& before) {
            return before.code == finding.code && before.place == finding.place &&
                   before.found == finding.found;
          });
      if (!told) findings.push_back(finding);
    }
  };
  add(ordered.order_findings);
  if (all.empty())
    findings.push_back(fault("nobody has ordered", "orders in the run or in its roster",
                             "name one buyer: --name, --number"));
  std::map<int, Printed> editions; // by tier; a map, since the presses refer into it
  bool whole = !all.empty();
  for (const Wanted& one : all) {
    const auto [place, is_new] = editions.try_emplace(one.tier);
    if (!is_new) continue;
    Printed& printed = place->second;
    guide::TutorialOptions options;
    options.draft = studio.workshop.draft;
    options.tier = one.tier;
    const std::string name = one.tier < 0 ? std::string("tutorial")
                                          : "tutorial-" + project.tiers.at(as_index(one.tier)).id;
    printed.pages = laid_out(guide::tutorial(project, prepared.sheets, prepared.findings, options),
                             name, "booklet", prepared, studio.workshop);
    add(printed.pages.findings);
    if (!printed.pages.laid.pages.empty()) {
      Parsed<copies::CopyStamper> made = copies::CopyStamper::made(
          printed.pages.laid, studio.workshop.fonts, project.pictures, printed.pages.options);
      if (made)
        printed.press = std::move(made).value();
      else
        add({fault(made.parse_error().found, made.parse_error().expected, made.parse_error().fix)});
    }
    if (printed.press) add(check(*printed.press, all, one.tier));
    whole = whole && printed.press.has_value();
  }
  print_findings(findings, ordered.reading.sources, arguments, surroundings);
  if (!whole || (stops(findings, arguments) && !arguments.draft)) {
    complain("nothing was written", surroundings);
    return FoundErrors;
  }
  if (const int code = write_copies(all, editions, lock, arguments, surroundings); code != Done)
    return code;
  if (!arguments.quiet)
    surroundings.out << fmt::format("{} {} in {}/copies{}\n", all.size(),
                                    all.size() == 1 ? "copy" : "copies", arguments.out,
                                    lock ? ", locked" : "");
  return Done;
}

} // namespace leafwright::app
