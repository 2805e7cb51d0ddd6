#include "app/documents/internal/document_kinds.h"
#include "app/documents/rendering.h"
#include "app/system/diagnostics.h"
#include "guide/business/business.h"
#include "guide/ordering/order_form.h"
#include "page/layout.h"
#include "page/poster/form_pages.h"

#include <fmt/format.h>

#include <string>
#include <utility>
#include <variant>

namespace leafwright::app {

namespace {

using Kind = guide::OrderQuestion::Kind;
using FieldKind = page::FormField::Kind;

// On paper each answer is a box to tick; the mail address to send it to stands in the lead.
poster::FormWords on_paper(const guide::OrderForm& form) {
  poster::FormWords words{form.title, form.lead, form.close, {}};
  for (const guide::OrderQuestion& one : form.questions) {
    const std::string asked = one.asked + (one.needed ? " (required)" : "");
    poster::FormPart part{asked, one.hint, {}};
    for (const guide::OrderQuestion::Answer& answer : one.answers)
      part.lines.push_back({FieldKind::Tick, one.column + "-" + answer.value, answer.words,
                            one.asked + " " + answer.words});
    if (one.answers.empty())
      part.lines.push_back({one.kind == Kind::Lines ? FieldKind::Lines : FieldKind::Line,
                            one.column, "", one.asked});
    words.parts.push_back(std::move(part));
  }
  return words;
}

void add_form_pdf(RenderedDocument& made, const guide::OrderForm& form, const std::string& name,
                  const PlannedProject& planned, const RenderSettings& settings) {
  const Project& project = planned.reading.project;
  const std::optional<LoadedTemplate> look = load_template("offer", settings, made.findings);
  if (!look) return;
  const Size paper =
      find_size(sheet_sizes(), project.paper).value_or(Size{inches(8, 1, 2), inches(11)});
  page::Laid laid = poster::form_pages(
      on_paper(form), paper, poster::style_of(look->page_template, project.accent), settings.fonts);
  laid.title = form.title;
  laid.author = project.maker.name;
  laid.language = project.language;
  if (settings.audience.grey) page::make_grey(laid);
  pdf::PdfOptions options;
  options.created = settings.created;
  options.effort = settings.deflate;
  options.provenance = provenance_of(planned, settings, name, look->file, look->text);
  made.pages += static_cast<int>(laid.pages.size());
  Parsed<std::string> pdf =
      pdf::write_pdf(std::move(laid), settings.fonts, project.pictures, options);
  if (pdf)
    made.files.push_back({fmt::format("{}-{}.pdf", project.id, name), std::move(pdf).value()});
  else
    made.findings.push_back(fault(pdf.parse_error()));
}

RenderedDocument form_for(Tier::Audience audience, const PlannedProject& planned,
                          const RenderSettings& settings) {
  constexpr std::size_t most_bytes = 1'000'000; // of the frame
  const Project& project = planned.reading.project;
  const std::string name = audience == Tier::Audience::Team ? "order-form-team" : "order-form";
  const guide::OrderForm form = guide::order_form(project, audience);
  RenderedDocument made;
  add_form_pdf(made, form, name, planned, settings);
  const std::string path = order_form_frame(settings);
  const FileBytes frame = disk_access().read(path, most_bytes);
  if (const auto* why = std::get_if<FileFault>(&frame))
    made.findings.push_back(fault(fmt::format("{} cannot be read: {}", path, why->words),
                                  "the frame of the order form", "install the program again"));
  else
    made.files.push_back({fmt::format("{}-{}.html", project.id, name),
                          guide::order_page(form, project, std::get<std::string>(frame))});
  made.files.push_back({fmt::format("{}-{}.txt", project.id, name), guide::order_questions(form)});
  return made;
}

} // namespace

std::string order_form_frame(const RenderSettings& settings) {
  return settings.data_folder + "/templates/order-form.html";
}

RenderedDocument render_order_form(const PlannedProject& planned, const RenderSettings& settings) {
  RenderedDocument made;
  for (const Tier::Audience audience : {Tier::Audience::Anyone, Tier::Audience::Team}) {
    if (!guide::has_offer(planned.reading.project, audience)) continue;
    RenderedDocument one = form_for(audience, planned, settings);
    if (audience == Tier::Audience::Team)
      for (OutputFile& file : one.files) file.name = "team/" + file.name;
    append(made, std::move(one));
  }
  return made;
}

} // namespace leafwright::app
