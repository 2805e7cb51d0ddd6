#include "plan/calendar/icalendar.h"

#include "basics/utf8.h"
#include "language/agreement.h"
#include "language/english.h"
#include "measure/index.h"

#include <fmt/format.h>

#include <chrono>

namespace leafwright::calendar {

namespace {

std::string_view key_of(Entry::Kind kind) {
  switch (kind) {
  case Entry::Kind::ReplyBy: return "reply-by";
  case Entry::Kind::OrderSupplies: return "order";
  case Entry::Kind::SuppliesHere: return "supplies";
  case Entry::Kind::Cut: return "cut";
  case Entry::Kind::MakeReady: return "ready";
  case Entry::Kind::Pack: return "pack";
  case Entry::Kind::Post: return "post";
  case Entry::Kind::ShipBy: return "ship-by";
  case Entry::Kind::Class: return "class";
  }
  return "day";
}

std::string day_text(Date date) {
  return fmt::format("{:04}{:02}{:02}", static_cast<int>(date.year()),
                     static_cast<unsigned>(date.month()), static_cast<unsigned>(date.day()));
}

std::string stamp_text(std::int64_t seconds) {
  constexpr std::int64_t a_day = 86'400;
  const std::chrono::sys_days day{std::chrono::days{seconds / a_day}};
  const std::int64_t rest = seconds % a_day;
  return fmt::format("{}T{:02}{:02}{:02}Z", day_text(Date{day}), rest / 3600, rest / 60 % 60,
                     rest % 60);
}

std::string local_text(Date date, int minutes) {
  constexpr int a_day = 24 * 60;
  return fmt::format("{}T{:02}{:02}00", day_text(days_after(date, minutes / a_day)),
                     minutes % a_day / 60, minutes % 60);
}

std::string uid_of(const Project& project, const Entry& entry) {
  std::string uid = fmt::format("{}.{}", project.id, key_of(entry.kind));
  if (entry.supplier >= 0) uid += fmt::format("-{}", entry.supplier + 1);
  return uid + "@leafwright.invalid"; // RFC 2606: no host will ever have this name
}

class Writer {
 public:
  void line(std::string_view text) { out_ += folded_line(text); }
  void text(std::string_view name, std::string_view value) {
    line(fmt::format("{}:{}", name, escaped_text(value)));
  }
  std::string take() { return std::move(out_); }

 private:
  std::string out_;
};

void write_event(Writer& writer, const Project& project, const DayPlan& plan, const Entry& entry,
                 const std::string& stamp) {
  writer.line("BEGIN:VEVENT");
  writer.text("UID", uid_of(project, entry));
  writer.line("DTSTAMP:" + stamp);
  writer.line(fmt::format("SEQUENCE:{}", project.edition));
  if (entry.kind == Entry::Kind::Class && project.run.class_day) {
    const ClassDay& day = *project.run.class_day;
    writer.line("DTSTART:" + local_text(entry.first, day.start));
    writer.line("DTEND:" + local_text(entry.first, day.start + entry.minutes));
    if (!day.venue.empty()) writer.text("LOCATION", day.venue);
  } else {
    writer.line("DTSTART;VALUE=DATE:" + day_text(entry.first));
    writer.line("DTEND;VALUE=DATE:" + day_text(days_after(entry.last, 1)));
    writer.line("TRANSP:TRANSPARENT");
  }
  writer.text("SUMMARY", entry_title(project, entry) + " (" + project.title + ")");
  if (entry.seconds > 0)
    writer.text("DESCRIPTION",
                fmt::format("About {} of work for {} {}, by {} at {} a day.",
                            words::duration_text(entry.seconds), plan.work.kits,
                            words::noun_for(plan.work.kits, "kit"),
                            plan.people == 1 ? "one person" : fmt::format("{} people", plan.people),
                            words::duration_text(std::int64_t{60} * plan.minutes_a_day)));
  writer.line("END:VEVENT");
}

} // namespace

std::string entry_title(const Project& project, const Entry& entry) {
  switch (entry.kind) {
  case Entry::Kind::ReplyBy: return "Last day for orders";
  case Entry::Kind::OrderSupplies: {
    const auto supplier = as_index(entry.supplier);
    if (supplier < project.run.suppliers.size())
      return "Order from " + project.run.suppliers[supplier].name;
    return "Order supplies";
  }
  case Entry::Kind::SuppliesHere: return "Supplies must be here";
  case Entry::Kind::Cut: return "Cut paper";
  case Entry::Kind::MakeReady: {
    bool die_cut = false, stamped = false;
    for (const Tier& tier : project.tiers) {
      die_cut = die_cut || tier.die_cut;
      stamped = stamped || tier.stamped;
    }
    return die_cut && stamped ? "Die-cut and stamp" : stamped ? "Stamp" : "Die-cut";
  }
  case Entry::Kind::Pack: return "Pack kits";
  case Entry::Kind::Post: return "Ship parcels";
  case Entry::Kind::ShipBy: return "Promised ship date";
  case Entry::Kind::Class: return "Class";
  }
  return {};
}

std::string folded_line(std::string_view line) {
  constexpr std::size_t most_octets = 75; // without the line end, the leading blank included
  std::string out;
  std::size_t used = 0;
  for (std::size_t at = 0; at < line.size();) {
    std::size_t end = at + 1;
    while (end < line.size() && !detail::begins_character(line[end])) ++end;
    if (used + (end - at) > most_octets) {
      out += "\r\n ";
      used = 1;
    }
    out += line.substr(at, end - at);
    used += end - at;
    at = end;
  }
  return out + "\r\n";
}

std::string escaped_text(std::string_view text) {
  std::string out;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (c == '\\' || c == ';' || c == ',') {
      out += '\\';
      out += c;
    } else if (c == '\n' || c == '\r') {
      if (c == '\r' && i + 1 < text.size() && text[i + 1] == '\n') continue;
      out += "\\n";
    } else if (c == '\t' || (static_cast<unsigned char>(c) >= 0x20 && c != 0x7F)) {
      out += c;
    }
  }
  return out;
}

std::string icalendar_text(const Project& project, const DayPlan& plan, std::int64_t stamp) {
  if (plan.entries.empty()) return {};
  Writer writer;
  writer.line("BEGIN:VCALENDAR");
  writer.line("VERSION:2.0");
  writer.line("PRODID:-//Leafwright//Class calendar//EN");
  writer.line("CALSCALE:GREGORIAN");
  const std::string stamped = stamp_text(stamp);
  for (const Entry& entry : plan.entries) write_event(writer, project, plan, entry, stamped);
  writer.line("END:VCALENDAR");
  return writer.take();
}

} // namespace leafwright::calendar
