#pragma once

#include "measure/amounts/amounts.h"
#include "model/finding.h"
#include "model/project.h"
#include "plan/supply/needs.h"

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

// The texts with which a class is announced, made from templates with named fields:
//
//   {send -3}                a line of its own: to be sent three days before the last day to order
//   {only-with order-by}     a line of its own: no text where the field has nothing to say
//   Order {title} by {order-by}.
//
// A line is left out when a field in it has nothing to say. "{{" is a brace. A number at the end of
// a file's name is the most characters that its text may have: "caption-280.txt".

namespace leafwright::guide {

struct TextTemplate {
  std::string name; // "reminder.txt"
  std::string text;
};

struct Announcement {
  std::string name, text;
  std::optional<Date> send; // when, if its template says so and there is a last day to order
};

struct Announcements {
  std::vector<Announcement> texts; // in the order of the templates
  Findings findings;               // "announcing-...", errors where a template cannot be filled in
};

struct AnnouncingField {
  std::string_view name, meaning;
};
std::span<const AnnouncingField> announcing_fields();

// For those outside the team.
Announcements announcements(const Project& project, const supply::Needs& needs,
                            std::span<const TextTemplate> templates);

// What the texts were made for (edition, prices, dates), and when to send which (RFC 8259).
std::string announcements_json(const Project& project, const Announcements& made);

} // namespace leafwright::guide
