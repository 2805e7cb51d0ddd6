#include "app/documents/internal/document_kinds.h"
#include "app/documents/rendering.h"
#include "app/system/diagnostics.h"
#include "basics/mail_address.h"
#include "guide/parcels/confirmations.h"
#include "guide/sections.h"
#include "guide/tutorial.h"
#include "language/agreement.h"
#include "language/lists.h"
#include "language/words.h"
#include "measure/index.h"
#include "measure/letters.h"
#include "output/mail.h"

#include <fmt/format.h>

#include <map>
#include <string>
#include <utility>
#include <vector>

namespace leafwright::app {

namespace {

constexpr std::size_t most_named = 12; // lines of orders without an address

// Editions that go with the letters, each made once.
class Editions {
 public:
  Editions(const PlannedProject& planned, const RenderSettings& settings)
      : planned_(planned), settings_(settings) {}

  // Nothing when it cannot be made, which is told once.
  const OutputFile* of(int tier, RenderedDocument& into) {
    const auto [known, fresh] = made_.try_emplace(tier);
    if (fresh) {
      const Project& project = planned_.reading.project;
      guide::TutorialOptions options;
      options.draft = settings_.draft;
      options.tier = tier;
      known->second =
          typeset(guide::tutorial(project, planned_.sheets, options),
                  "tutorial-" + tier_at(project, tier).id, "booklet", planned_, settings_);
      append(into.findings, std::exchange(known->second.findings, {}));
    }
    return known->second.files.empty() ? nullptr : &known->second.files.front();
  }

 private:
  const PlannedProject& planned_;
  const RenderSettings& settings_;
  std::map<int, RenderedDocument> made_;
};

// "confirmations/0003-1043.eml": in the order of the list; of a number only what a name may hold.
std::string file_name(const Project& project, std::size_t index, const Order& order) {
  std::string number;
  for (const char c : number_of(order))
    if (is_letter(c) || is_digit(c) || c == '-') number += c;
  return fmt::format("private/{}-confirmations/{:04}{}{}.eml", project.id, index + 1,
                     number.empty() ? "" : "-", number);
}

Finding without_address(const Project& project, const std::vector<int>& orders) {
  std::vector<std::string> lines;
  for (const int order : orders)
    if (lines.size() < most_named)
      lines.push_back(std::to_string(at(project.run.orders, order).place.line));
  Finding finding;
  finding.severity = Severity::Warning;
  finding.code = "confirmation-no-address";
  finding.place = at(project.run.orders, orders.front()).place;
  finding.found = fmt::format("{} without an e-mail address: {} {}{}",
                              words::counted(std::ssize(orders), "order"),
                              words::noun_for(std::ssize(lines), "line"), words::series(lines),
                              orders.size() > lines.size() ? " \u2026" : "");
  finding.expected = "an address such as name@example.com in the column e-mail";
  finding.fix = "fill it in, or write the address into the draft";
  return finding;
}

} // namespace

RenderedDocument render_confirmations(const PlannedProject& planned,
                                      const RenderSettings& settings) {
  const Project& project = planned.reading.project;
  RenderedDocument made;
  Editions editions(planned, settings);
  std::vector<int> unaddressed;
  std::size_t index = 0;
  for (const guide::Confirmation& one : guide::confirmations(project, planned.packing.value())) {
    const Order& order = at(project.run.orders, one.orders.front());
    const std::string mail(trimmed(one.mail));
    mail::Letter letter;
    letter.from = {project.maker.name, mail_address_in(project.maker.contact)};
    if (is_mail_address(mail))
      letter.to = {one.name, mail};
    else
      unaddressed.push_back(one.orders.front());
    letter.subject = one.subject;
    letter.text = one.text;
    letter.date = stamp_of(project, settings);
    for (const int tier : one.tutorials)
      if (const OutputFile* file = editions.of(tier, made))
        letter.attached.push_back({file->name, "application/pdf", &file->bytes});
    made.files.push_back({file_name(project, index++, order), mail::written(letter)});
  }
  if (!unaddressed.empty()) made.findings.push_back(without_address(project, unaddressed));
  return made;
}

} // namespace leafwright::app
