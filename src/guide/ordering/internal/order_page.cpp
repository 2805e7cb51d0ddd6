#include "guide/ordering/order_form.h"
#include "measure/index.h"
#include "text/xml_text.h"

#include <fmt/format.h>

#include <utility>

namespace leafwright::guide {

namespace {

using Kind = OrderQuestion::Kind;

std::string tier_ids(const Project& project, const std::vector<int>& tiers) {
  std::string ids;
  for (const int tier : tiers) ids += (ids.empty() ? "" : " ") + at(project.tiers, tier).id;
  return ids;
}

std::string choices(const Project& project, const OrderQuestion& one) {
  const bool single = one.kind == Kind::OneOf;
  std::string html = fmt::format("<fieldset data-column=\"{}\"><legend>{}</legend>\n",
                                 text::xml_text(one.column), text::xml_text(one.asked));
  if (!one.hint.empty()) html += "<p class=\"hint\">" + text::xml_text(one.hint) + "</p>\n";
  for (const OrderQuestion::Answer& answer : one.answers)
    html += fmt::format(
        "<label{}><input type=\"{}\" name=\"{}\" value=\"{}\"{}> {}</label>\n",
        answer.tiers.empty()
            ? std::string()
            : " data-options=\"" + text::xml_text(tier_ids(project, answer.tiers)) + "\"",
        single ? "radio" : "checkbox", text::xml_text(one.column), text::xml_text(answer.value),
        single && one.needed ? " required" : "", text::xml_text(answer.words));
  return html + "</fieldset>\n";
}

std::string box(const OrderQuestion& one) {
  const std::string column = text::xml_text(one.column);
  std::string attributes = fmt::format("id=\"q-{0}\" name=\"{0}\" data-column=\"{0}\"", column);
  if (one.needed) attributes += " required";
  if (!one.hint.empty()) attributes += fmt::format(" aria-describedby=\"h-{}\"", column);
  std::string html = fmt::format("<div class=\"question\"><label for=\"q-{}\">{}</label>\n", column,
                                 text::xml_text(one.asked));
  if (one.kind == Kind::Lines)
    html += "<textarea rows=\"4\" " + attributes + "></textarea>\n";
  else if (one.kind == Kind::Number)
    html += "<input type=\"number\" min=\"1\" max=\"100\" step=\"1\" " + attributes + ">\n";
  else
    html += fmt::format("<input type=\"{}\" {}>\n", one.column == "e-mail" ? "email" : "text",
                        attributes);
  if (!one.hint.empty())
    html += fmt::format("<p class=\"hint\" id=\"h-{}\">{}</p>\n", column, text::xml_text(one.hint));
  return html + "</div>\n";
}

} // namespace

std::string order_page(const OrderForm& form, const Project& project, std::string_view frame) {
  std::string questions;
  for (const OrderQuestion& one : form.questions)
    questions += one.answers.empty() ? box(one) : choices(project, one);
  const std::pair<std::string_view, std::string> fields[] = {
      {"{language}", text::xml_text(project.language)},
      {"{title}", text::xml_text(form.title)},
      {"{lead}", text::xml_text(form.lead)},
      {"{close}", text::xml_text(form.close)},
      {"{mail}", text::xml_text(form.mail)},
      {"{questions}", questions},
  };
  // In one pass: an answer may hold what looks like a field.
  std::string html;
  while (!frame.empty()) {
    bool filled = false;
    for (const auto& [name, value] : fields)
      if (!filled && frame.starts_with(name)) {
        html += value;
        frame.remove_prefix(name.size());
        filled = true;
      }
    if (filled) continue;
    html += frame.front();
    frame.remove_prefix(1);
  }
  return html;
}

} // namespace leafwright::guide
