#include "output/internal/pdf/metadata.h"

#include "output/internal/pdf/parts.h"
#include "output/internal/pdf/syntax.h"
#include "text/xml_text.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <algorithm>
#include <vector>

namespace leafwright::pdf {
namespace {

std::string alternatives(std::string_view element, std::string_view text) {
  return fmt::format("<{0}><rdf:Alt><rdf:li xml:lang=\"x-default\">{1}</rdf:li></rdf:Alt></{0}>\n",
                     element, text::xml_text(text));
}

// The id is the one constant that XMP prescribes for every packet.
std::string packet_begin() {
  return fmt::format(
      "<?xpacket begin=\"\xef\xbb\xbf\" id=\"W5M0MpCehiHzreSzNTczkc9d\"?>\n"
      "<x:xmpmeta xmlns:x=\"adobe:ns:meta/\">\n"
      "<rdf:RDF xmlns:rdf=\"http://www.w3.org/1999/02/22-rdf-syntax-ns#\">\n"
      "<rdf:Description rdf:about=\"\" xmlns:dc=\"http://purl.org/dc/elements/1.1/\" "
      "xmlns:pdf=\"http://ns.adobe.com/pdf/1.3/\" "
      "xmlns:xmp=\"http://ns.adobe.com/xap/1.0/\" "
      "xmlns:pdfuaid=\"http://www.aiim.org/pdfua/ns/id/\" xmlns:made=\"{}\">\n",
      provenance::xmp_namespace);
}
constexpr const char* packet_end =
    "</rdf:Description>\n</rdf:RDF>\n</x:xmpmeta>\n<?xpacket end=\"w\"?>\n";

std::string personal_properties(const Personal& personal) {
  std::string out;
  const auto add = [&out](const char* element, const std::string& text) {
    if (!text.empty())
      out += fmt::format("<made:{0}>{1}</made:{0}>\n", element, text::xml_text(text));
  };
  add("prepared-for", personal.name);
  add("order", personal.number);
  add("copy-edition", personal.edition);
  return out;
}

} // namespace

std::optional<std::int64_t> created(const page::Laid& laid, const PdfOptions& options) {
  return laid.created ? laid.created : options.created;
}

std::string information(const page::Laid& laid, const PdfOptions& options,
                        const Personal& personal) {
  std::string out;
  const auto add = [&out](const char* key, const std::string& text) {
    if (!text.empty()) out += key + text_string(text);
  };
  add("/Title", laid.title);
  add("/Author", laid.author);
  add("/Subject", laid.subject);
  add("/Keywords", fmt::format("{}", fmt::join(laid.keywords, ", ")));
  add("/Creator", options.producer);
  add("/Producer", options.producer);
  add("/PreparedFor", personal.name);
  add("/OrderNumber", personal.number);
  add("/Edition", personal.edition);
  if (const auto date = created(laid, options); date)
    out += "/CreationDate" + date_string(*date) + "/ModDate" + date_string(*date);
  return out;
}

std::string xmp(const page::Laid& laid, const PdfOptions& options, const Personal& personal) {
  std::string out = packet_begin();
  out += "<dc:format>application/pdf</dc:format>\n";
  if (!laid.title.empty()) out += alternatives("dc:title", laid.title);
  if (!laid.subject.empty()) out += alternatives("dc:description", laid.subject);
  if (!laid.author.empty())
    out += "<dc:creator><rdf:Seq><rdf:li>" + text::xml_text(laid.author) +
           "</rdf:li></rdf:Seq></dc:creator>\n";
  if (!laid.language.empty())
    out += "<dc:language><rdf:Bag><rdf:li>" + text::xml_text(laid.language) +
           "</rdf:li></rdf:Bag></dc:language>\n";
  if (!laid.keywords.empty()) {
    out += "<dc:subject><rdf:Bag>";
    for (const std::string& word : laid.keywords)
      out += "<rdf:li>" + text::xml_text(word) + "</rdf:li>";
    out += "</rdf:Bag></dc:subject>\n<pdf:Keywords>" +
           text::xml_text(fmt::format("{}", fmt::join(laid.keywords, ", "))) + "</pdf:Keywords>\n";
  }
  out += "<pdf:Producer>" + text::xml_text(options.producer) +
         "</pdf:Producer>\n<xmp:CreatorTool>" + text::xml_text(options.producer) +
         "</xmp:CreatorTool>\n";
  if (const auto date = created(laid, options); date)
    out +=
        fmt::format("<xmp:CreateDate>{0}</xmp:CreateDate>\n<xmp:ModifyDate>{0}</xmp:ModifyDate>\n",
                    iso_date(*date));
  // PDF/UA's own mark (ISO 14289-1, clause 5): what was made was made to that standard's rules.
  if (!laid.nodes.empty()) out += "<pdfuaid:part>1</pdfuaid:part>\n";
  if (options.provenance) out += provenance::xmp_properties(*options.provenance);
  out += personal_properties(personal);
  return out + packet_end;
}

std::string page_xmp(const Personal& personal) {
  return packet_begin() + personal_properties(personal) + packet_end;
}

void Identity::feed(std::string_view bytes) {
  for (const char c : bytes) {
    const auto byte = static_cast<unsigned char>(c);
    first_ = (first_ ^ byte) * 1099511628211ULL;
    second_ = (second_ ^ byte) * 1099511628211ULL;
  }
}

std::string Identity::hexadecimal() const { return fmt::format("{:016X}{:016X}", first_, second_); }

AttachedFiles add_attachments(Haru& haru, std::span<const provenance::Attachment> attachments,
                              const Packing& packing) {
  if (attachments.empty()) return {};
  std::vector<const provenance::Attachment*> sorted; // a name tree is sorted (7.9.6)
  for (const provenance::Attachment& attachment : attachments) sorted.push_back(&attachment);
  std::sort(sorted.begin(), sorted.end(),
            [](const auto* a, const auto* b) { return a->name < b->name; });
  AttachedFiles added{"/EmbeddedFiles<</Names[", "/AF["};
  for (const provenance::Attachment* attachment : sorted) {
    const Ref file = haru.reserve_stream();
    fill_packed(haru, file,
                fmt::format("/Type/EmbeddedFile/Subtype{}/Params<</Size {}>>",
                            name(attachment->type), attachment->bytes.size()),
                attachment->bytes, packing);
    // Both F and UF are asked for by ISO 14289-1, 7.11.
    std::string entries = "/Type/Filespec/F" + text_string(attachment->name) + "/UF" +
                          text_string(attachment->name) + "/AFRelationship/Source/EF<</F " +
                          ref_text(file) + "/UF " + ref_text(file) + ">>";
    if (!attachment->description.empty()) entries += "/Desc" + text_string(attachment->description);
    const Ref specified = haru.add(std::move(entries));
    added.names += text_string(attachment->name) + ref_text(specified) + " ";
    added.associated += ref_text(specified) + " ";
  }
  added.names += "]>>";
  added.associated += "]";
  return added;
}

} // namespace leafwright::pdf
