#include "output/pdf.h"

#include "basics/reuse.h"
#include "measure/index.h"
#include "output/internal/impose/marks.h"
#include "output/internal/pdf/content.h"
#include "output/internal/pdf/form_fields.h"
#include "output/internal/pdf/graphics_ops.h"
#include "output/internal/pdf/haru.h"
#include "output/internal/pdf/metadata.h"
#include "output/internal/pdf/navigation.h"
#include "output/internal/pdf/parts.h"
#include "output/internal/pdf/plain_document.h"
#include "output/internal/pdf/syntax.h"
#include "output/internal/pdf/tags.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <tuple>

namespace leafwright::pdf {

namespace {

Rect grown(Rect box, Length by) {
  return {{box.left() - by, box.top() - by}, {box.size.width + by * 2, box.size.height + by * 2}};
}
// The page with its bleed, and room around it for crop marks.
Rect sheet_of(const page::LaidPage& page) {
  constexpr Length for_marks = millimetres(9);
  const Length beyond = page.crop_marks ? std::max(page.bleed, for_marks) : page.bleed;
  return grown({{}, page.size}, beyond);
}

// One document on its way into a file. The steps run in the order of `write`.
class Writer {
 public:
  Writer(const page::Laid& laid, const text::Fonts& fonts, std::span<const Picture> pictures,
         const PdfOptions& options, bool with_slots, page::Laid* spent = nullptr)
      : laid_(laid), spent_(spent), fonts_(fonts), pictures_(pictures), options_(options),
        packing_(packing(options)), with_slots_(with_slots), uses_(as_index(fonts.count())) {}

  Parsed<Plain> write();

 private:
  void add_page(const page::LaidPage& page);
  void write_streams();
  void add_slots();
  std::string resources(const PageContent& content);
  void fill_page(std::size_t page);
  std::string catalogue(std::span<const LinkObject> links, const std::string& form);

  const page::Laid& laid_;
  page::Laid* spent_; // the same, where it may be given up
  const text::Fonts& fonts_;
  std::span<const Picture> pictures_;
  const PdfOptions& options_;
  const Packing packing_;
  bool with_slots_;

  Haru haru_;
  Slots slots_;
  Identity identity_;
  std::vector<FaceUse> uses_;
  std::vector<Ref> pages_, streams_;
  std::map<Fingerprint, Ref> same_; // streams by their operators
  std::vector<Ref> unwritten_refs_;
  std::vector<std::string> unwritten_; // operators of the last pages
  std::vector<PageContent> contents_;  // their operators are dropped once written
  std::map<int, Ref> picture_refs_, opacity_refs_;
  std::vector<std::string> annotations_; // by page
};

void Writer::add_page(const page::LaidPage& page) {
  page::LaidPage marked;
  if (page.crop_marks) {
    marked = page;
    impose::add_crop_marks(marked.items, {{}, page.size}, sheet_of(page));
  }
  PageContent content =
      page_content(page.crop_marks ? marked : page, {fonts_, laid_.nodes, pictures_}, uses_);
  identity_.feed(content.operators);
  // What stands after it on the page begins with a fresh graphics state.
  if (with_slots_) content.operators = "q\n" + content.operators + "Q\n";
  pages_.push_back(haru_.add_page());
  // Pages that look alike share their stream: sheets of labels, full-size templates.
  const auto [stream, is_new] = same_.try_emplace(Fingerprinter().put(content.operators).result());
  if (is_new) {
    stream->second = haru_.reserve_stream();
    unwritten_refs_.push_back(stream->second);
    unwritten_.push_back(std::move(content.operators));
  }
  streams_.push_back(stream->second);
  content.operators = {};
  contents_.push_back(std::move(content));
  constexpr std::size_t many = 64; // enough to keep all cores at work
  if (unwritten_.size() == many) write_streams();
}

void Writer::write_streams() {
  const std::vector<std::string> packed = packing_.compress
                                              ? deflated_all(unwritten_, packing_)
                                              : std::vector<std::string>(unwritten_.size());
  for (std::size_t i = 0; i < unwritten_.size(); ++i) {
    if (packed[i].empty())
      haru_.fill_stream(unwritten_refs_[i], "", unwritten_[i]);
    else
      fill_deflated(haru_, unwritten_refs_[i], "", packed[i]);
  }
  unwritten_.clear();
  unwritten_refs_.clear();
}

void Writer::add_slots() {
  slots_.font = {haru_.reserve(), haru_.reserve(), haru_.reserve(), haru_.reserve_stream(),
                 haru_.reserve_stream()};
  slots_.page_metadata = haru_.reserve_stream();
  for (std::size_t i = 0; i < laid_.pages.size(); ++i)
    slots_.stamps.push_back(haru_.reserve_stream());
}

std::string Writer::resources(const PageContent& content) {
  std::string out = "/Resources<<";
  const auto group = [&out](const char* kind, const auto& members, const auto& entry) {
    if (members.empty()) return;
    out += kind;
    out += "<<";
    for (const int member : members) out += entry(member);
    out += ">>";
  };
  if (with_slots_ || !content.faces.empty()) {
    out += "/Font<<";
    for (const int face : content.faces)
      out += fmt::format("/F{} {}", face, ref_text(uses_[as_index(face)].font));
    if (with_slots_) out += "/Fc " + ref_text(slots_.font.font);
    out += ">>";
  }
  group("/XObject", content.pictures, [this](int picture) {
    return fmt::format("/X{} {}", picture, ref_text(picture_refs_[picture]));
  });
  group("/ExtGState", content.opacities, [this](int thousandths) {
    const auto [place, is_new] = opacity_refs_.try_emplace(thousandths);
    if (is_new) {
      std::string value;
      append_decimal(value, thousandths, 3);
      place->second = haru_.add(fmt::format("/Type/ExtGState/ca {0}/CA {0}", value));
    }
    return fmt::format("/O{} {}", thousandths, ref_text(place->second));
  });
  return out + ">>";
}

void Writer::fill_page(std::size_t page) {
  // Lengths count from the trimmed page's corner, so what lies beyond it is negative.
  const page::LaidPage& laid = laid_.pages[page];
  const Rect trim{{}, laid.size};
  std::string out = "/MediaBox";
  append_box(out, sheet_of(laid), laid.size.height);
  if (laid.bleed.nm > 0) {
    out += "/BleedBox";
    append_box(out, grown(trim, laid.bleed), laid.size.height);
  }
  out += "/TrimBox";
  append_box(out, trim, laid.size.height);
  if (with_slots_)
    out += fmt::format("/Contents[{} {}]/Metadata {}", ref_text(streams_[page]),
                       ref_text(slots_.stamps[page]), ref_text(slots_.page_metadata));
  else
    out += "/Contents " + ref_text(streams_[page]);
  out += resources(contents_[page]);
  if (!annotations_[page].empty()) out += "/Annots[" + annotations_[page] + "]";
  // Tab through links in the order of the structure (ISO 14289-1, 7.18.3).
  if (!laid_.nodes.empty()) out += fmt::format("/StructParents {}/Tabs/S", page);
  haru_.fill(pages_[page], std::move(out));
}

std::string Writer::catalogue(std::span<const LinkObject> links, const std::string& form) {
  std::string out;
  if (!laid_.language.empty()) out += "/Lang" + text_string(laid_.language);
  const bool scaled = std::any_of(laid_.pages.begin(), laid_.pages.end(),
                                  [](const page::LaidPage& page) { return page.scaled; });
  out += "/ViewerPreferences<<";
  if (!laid_.title.empty()) out += "/DisplayDocTitle true";
  if (scaled) out += "/PrintScaling/None";
  out += ">>";
  out += page_labels(laid_.pages);
  out += add_outline(haru_, laid_, pages_);
  out += form;
  out += add_structure(haru_, {laid_.nodes, laid_.pages, pages_, contents_, links});
  const AttachedFiles files = add_attachments(haru_, options_.attachments, packing_);
  for (const provenance::Attachment& attachment : options_.attachments)
    identity_.feed(attachment.bytes);
  if (!files.names.empty()) out += "/Names<<" + files.names + ">>" + files.associated;
  const std::string packet = xmp(laid_, options_);
  identity_.feed(packet);
  slots_.metadata = haru_.add_stream("/Type/Metadata/Subtype/XML", packet);
  out += "/Metadata " + ref_text(slots_.metadata);
  return out;
}

Parsed<Plain> Writer::write() {
  if (laid_.pages.empty())
    return ParseError{0, 0, "a document without pages", "at least one page",
                      "name a template that makes one"};
  for (std::size_t i = 0; i < laid_.pages.size(); ++i) {
    add_page(laid_.pages[i]);
    if (spent_ != nullptr) std::vector<DrawItem>().swap(spent_->pages[i].items);
  }
  write_streams();

  std::map<int, Ref> used_pictures;
  for (const PageContent& content : contents_)
    for (const int picture : content.pictures) used_pictures.try_emplace(picture);
  std::map<std::tuple<std::string_view, Picture::Kind, int>, Ref> same_pictures;
  for (auto& [index, ref] : used_pictures) {
    const Picture& picture = pictures_[as_index(index)];
    Ref& same = same_pictures[{picture.bytes, picture.kind, picture.orientation}];
    if (same == Ref{}) {
      const Parsed<Ref> added = add_picture(haru_, picture, packing_);
      if (!added) return added.parse_error();
      same = *added;
    }
    ref = same;
    identity_.feed(picture.bytes);
  }
  picture_refs_ = std::move(used_pictures);

  for (FaceUse& use : uses_)
    if (!use.empty()) use.font = haru_.reserve();
  for (int face = 0; face < fonts_.count(); ++face) {
    const FaceUse& use = uses_[as_index(face)];
    if (!use.empty() && !embed(haru_, fonts_, face, use, packing_))
      return ParseError{0, 0,
                        fmt::format("{}: its glyphs cannot be taken out", fonts_.file_name(face)),
                        "a font in good order", "use another copy of the font"};
  }

  std::vector<LinkObject> links = add_links(haru_, laid_, pages_, contents_);
  const AddedFields fields = add_fields(haru_, laid_, pages_, links.size());
  links.insert(links.end(), fields.widgets.begin(), fields.widgets.end());
  annotations_.resize(laid_.pages.size());
  for (const LinkObject& link : links)
    annotations_[as_index(link.page)] += ref_text(link.annotation) + " ";

  if (with_slots_) add_slots();
  for (std::size_t page = 0; page < laid_.pages.size(); ++page) fill_page(page);
  haru_.set_catalogue(catalogue(links, fields.catalogue));
  haru_.set_information(information(laid_, options_));
  haru_.set_identity(identity_.hexadecimal());
  // What is written already need not lie beside the file that it is written into.
  if (spent_ != nullptr) std::vector<page::Node>().swap(spent_->nodes);
  std::vector<PageContent>().swap(contents_);
  Parsed<std::string> saved = haru_.save();
  if (!saved) return saved.parse_error();
  return Plain{std::move(saved).value(), std::move(slots_)};
}

} // namespace

Parsed<Plain> write_plain(const page::Laid& laid, const text::Fonts& fonts,
                          std::span<const Picture> pictures, const PdfOptions& options,
                          bool with_slots) {
  return Writer(laid, fonts, pictures, options, with_slots).write();
}

namespace {

// The writer is gone by then, and with it all that only it needs.
Parsed<std::string> packed(Parsed<Plain> written, const PdfOptions& options) {
  if (!written) return written.parse_error();
  if (!options.compact) return std::move(written.value().bytes);
  const Parsed<Parts> parts = Parts::of(written.value().bytes, packing(options));
  if (!parts) return parts.parse_error();
  std::string().swap(written.value().bytes);
  return parts.value().joined(parts.value().identity());
}

} // namespace

Parsed<std::string> write_pdf(const page::Laid& laid, const text::Fonts& fonts,
                              std::span<const Picture> pictures, const PdfOptions& options) {
  Parsed<Plain> written = Writer(laid, fonts, pictures, options, false).write();
  return packed(std::move(written), options);
}

Parsed<std::string> write_pdf(page::Laid&& laid, const text::Fonts& fonts,
                              std::span<const Picture> pictures, const PdfOptions& options) {
  Parsed<Plain> written = Writer(laid, fonts, pictures, options, false, &laid).write();
  return packed(std::move(written), options);
}

} // namespace leafwright::pdf
