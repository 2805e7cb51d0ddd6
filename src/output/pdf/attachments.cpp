#include "output/pdf/attachments.h"

#include "output/pdf/pack.h"
#include "output/pdf/syntax.h"

#include <fmt/format.h>

#include <algorithm>
#include <vector>

namespace leafwright::pdf {

AttachedFiles add_attachments(Haru& haru, std::span<const provenance::Attachment> attachments,
                              bool compress, Kept* kept) {
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
                attachment->bytes, compress, kept);
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
