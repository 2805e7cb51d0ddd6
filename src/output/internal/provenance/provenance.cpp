#include "output/pdf.h"

#include "output/internal/pdf/qpdf.h"
#include "text/xml_text.h"

#include <fmt/format.h>

#include <cstring>
#include <pugixml.hpp>

namespace leafwright::provenance {
namespace {

std::string element(std::string_view name, std::string_view text) {
  return fmt::format("<made:{0}>{1}</made:{0}>\n", name, text::xml_text(text));
}

std::string words_of(const pugi::xml_node& under, const char* name) {
  return under.child(name).text().get();
}

// The packet names its description's children with the prefixes that we write; one that another
// program has written anew may use others and is then taken for none of ours.
void read_packet(const std::string& packet, Embedded& to) {
  pugi::xml_document document;
  if (!document.load_buffer(packet.data(), packet.size())) return;
  for (const pugi::xml_node about :
       document.child("x:xmpmeta").child("rdf:RDF").children("rdf:Description")) {
    if (!about.child("made:digest")) continue;
    Provenance read;
    read.project = words_of(about, "made:project");
    read.document = words_of(about, "made:document");
    read.edition = words_of(about, "made:edition");
    read.program = words_of(about, "made:program");
    for (const pugi::xml_node one : about.child("made:settings").child("rdf:Seq").children())
      read.settings.emplace_back(one.text().get());
    for (const pugi::xml_node one : about.child("made:inputs").child("rdf:Seq").children())
      read.inputs.push_back({words_of(one, "made:name"), words_of(one, "made:sha256")});
    to.digest = words_of(about, "made:digest");
    to.provenance = std::move(read);
    return;
  }
}

void read_attachments(const pdf::Qpdf& document, qpdf_oh tree, int depth, Embedded& to) {
  qpdf_data q = document.get();
  const qpdf_oh names = document.key(tree, "/Names");
  if (qpdf_oh_is_array(q, names) != QPDF_FALSE) {
    const int count = qpdf_oh_get_array_n_items(q, names);
    for (int i = 0; i + 1 < count; i += 2) {
      const qpdf_oh file = qpdf_oh_get_array_item(q, names, i + 1);
      const qpdf_oh stream = document.key(document.key(file, "/EF"), "/F");
      if (qpdf_oh_is_stream(q, stream) == QPDF_FALSE) continue;
      Attachment attachment;
      attachment.name = document.text(document.key(file, "/UF"));
      if (attachment.name.empty()) attachment.name = document.text(document.key(file, "/F"));
      attachment.description = document.text(document.key(file, "/Desc"));
      attachment.type = document.name(document.key(qpdf_oh_get_dict(q, stream), "/Subtype"));
      attachment.bytes = document.data(stream);
      to.attachments.push_back(std::move(attachment));
    }
  }
  constexpr int deepest = 8; // a hostile file's tree may lead back into itself
  const qpdf_oh kids = document.key(tree, "/Kids");
  if (depth >= deepest || qpdf_oh_is_array(q, kids) == QPDF_FALSE) return;
  const int count = qpdf_oh_get_array_n_items(q, kids);
  for (int i = 0; i < count; ++i)
    read_attachments(document, qpdf_oh_get_array_item(q, kids, i), depth + 1, to);
}

} // namespace

std::string content_digest(const Provenance& provenance) {
  // Each part with its length, so that no two lists run together into the same bytes.
  std::string all;
  const auto add = [&all](std::string_view part) {
    all += fmt::format("{}:", part.size());
    all += part;
  };
  add(provenance.project);
  add(provenance.document);
  add(provenance.edition);
  all += fmt::format("settings {}\n", provenance.settings.size());
  for (const std::string& setting : provenance.settings) add(setting);
  all += fmt::format("inputs {}\n", provenance.inputs.size());
  for (const Input& input : provenance.inputs) {
    add(input.name);
    add(input.sha256);
  }
  return digest::sha256(all);
}

std::string xmp_properties(const Provenance& provenance) {
  std::string out = element("project", provenance.project);
  out += element("document", provenance.document);
  out += element("edition", provenance.edition);
  out += element("program", provenance.program);
  out += element("digest", content_digest(provenance));
  if (!provenance.settings.empty()) {
    out += "<made:settings><rdf:Seq>\n";
    for (const std::string& setting : provenance.settings)
      out += "<rdf:li>" + text::xml_text(setting) + "</rdf:li>\n";
    out += "</rdf:Seq></made:settings>\n";
  }
  out += "<made:inputs><rdf:Seq>\n";
  for (const Input& input : provenance.inputs)
    out += "<rdf:li rdf:parseType=\"Resource\">\n" + element("name", input.name) +
           element("sha256", input.sha256) + "</rdf:li>\n";
  return out + "</rdf:Seq></made:inputs>\n";
}

Parsed<Embedded> read_provenance(const std::string& pdf, const std::string& password) {
  pdf::Qpdf document;
  if (!document.read(pdf, password))
    return ParseError{0, 0, fmt::format("this cannot be read as a PDF: {}", document.why()),
                      "a PDF that opens without a password, or with the one given",
                      "name another file"};
  Embedded embedded;
  const qpdf_oh root = document.root();
  read_packet(document.data(document.key(root, "/Metadata")), embedded);
  embedded.title = document.text(
      document.key(document.key(qpdf_get_trailer(document.get()), "/Info"), "/Title"));
  read_attachments(document, document.key(document.key(root, "/Names"), "/EmbeddedFiles"), 0,
                   embedded);
  return embedded;
}

} // namespace leafwright::provenance
